package screen

import (
	"propsoff/cmd/propsoff/internal/drive"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/input"
	"propsoff/input/radio"
	"propsoff/sim/craftfile"
	"propsoff/sim/prove"
)

// known is the radio that the sheets of layout, prove and card are about.
type known struct {
	// file is nil for an ideal radio.
	file *radio.File
	info input.Info
	by   facts.By
}

// noteRadio notes whose radio it is: the one that drives, else that of --radio. What is shown, and the first questions, leave it as it
// was.
func (s *Screen) noteRadio() {
	switch d := &s.driver; {
	case d.Who == drive.Radio:
		s.known = known{d.File, d.Info, facts.ItsFile}
	case (d.Who == drive.Script || d.Who == drive.Questions || d.Who == drive.Which) && s.known.file != nil:
	case s.o.Radio != nil:
		s.known = known{file: s.o.Radio, by: facts.GivenFile}
	default:
		s.known = known{by: facts.NoneDrives}
	}
}

// layoutOf puts a craft and that radio together.
func (s *Screen) layoutOf(craft *craftfile.File) prove.Layout {
	info := &s.known.info
	if info.Name == "" {
		info = nil
	}
	l := facts.LayoutOf(craft, s.known.file, info)
	if mode := s.driver.StickMode; s.known.by.Ideal() && mode > 0 {
		l.Radio.StickMode = mode
	}
	return l
}

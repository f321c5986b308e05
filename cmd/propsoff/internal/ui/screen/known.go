package screen

import (
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/live/whodrives"
	"propsoff/input"
	"propsoff/input/radio"
	"propsoff/sim/craftfile"
	"propsoff/sim/prove"
)

// known is the radio that the sheets of layout, prove and card are about.
type known struct {
	// file is nil for an ideal radio.
	File *radio.File
	Info input.Info
	By   facts.By
}

// NoteRadio notes whose radio it is: the one that drives, else that of --radio. What is shown, and the first questions, leave it as it
// was.
func (s *Screen) NoteRadio() {
	switch d := &s.Driving; {
	case d.Who == whodrives.Radio:
		s.Known = known{d.File, d.Info, facts.ItsFile}
	case (d.Who == whodrives.Script || d.Who == whodrives.Questions || d.Who == whodrives.Which) && s.Known.File != nil:
	case s.Options.Radio != nil:
		s.Known = known{File: s.Options.Radio, By: facts.GivenFile}
	default:
		s.Known = known{By: facts.NoneDrives}
	}
}

// LayoutOf puts a craft and that radio together.
func (s *Screen) LayoutOf(craft *craftfile.File) prove.Layout {
	info := &s.Known.Info
	if info.Name == "" {
		info = nil
	}
	l := facts.LayoutOf(craft, s.Known.File, info)
	if mode := s.Driving.StickMode; s.Known.By.Ideal() && mode > 0 {
		l.Radio.StickMode = mode
	}
	return l
}

package screen

import (
	"slices"
	"strings"
	"unicode/utf8"

	"propsoff/cmd/propsoff/internal/drive"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/input/learn"
	"propsoff/input/radio"
)

// fillLearning brings up to date what is known of a radio that is learned, or whose file is asked for.
func (s *Screen) fillLearning() {
	v, d := &s.view, &s.driver
	v.Learn, v.Device, v.Kept, v.KeptError = d.Learn, d.Info, "", ""
	s.naming = s.naming && d.Who == drive.Questions
	v.Naming, v.Typed = s.naming, s.typed
	v.Out, v.Unkept, v.Alike = !d.Plugged && (d.Who == drive.Questions || d.Result != nil), d.Unkept, d.Alike
	if r := d.Result; r != nil {
		v.Learn, v.Device, v.Kept, v.KeptError = r.Learn, r.Info, r.Kept, r.Error
	}
	clear(v.Carries[:])
	jobs := make([]string, 0, len(s.o.Names.Channel))
	for job := range s.o.Names.Channel {
		jobs = append(jobs, job)
	}
	slices.Sort(jobs)
	for _, job := range jobs {
		c := s.o.Names.Channel[job]
		if c < 0 || c >= len(v.Carries) || slices.Contains(radio.Jobs(), job) {
			continue
		}
		if v.Carries[c] != "" {
			v.Carries[c] += ", "
		}
		v.Carries[c] += job
	}
}

// sentence says a notice on the sheet that is shown.
func (s *Screen) sentence(n drive.Notice) string {
	switch n.Code {
	case drive.Unplugged:
		return phrase.Unplugged(n.Name)
	case drive.OtherMode:
		return phrase.OtherUSBMode(n.Name, n.Detail)
	case drive.Blunted:
		return phrase.BluntedCentre(n.Name)
	case drive.NoRights:
		return phrase.Permission()
	case drive.NotOpened:
		return phrase.NotOpened(n.Name)
	case drive.Adopted:
		return phrase.AdoptedIn(n.Name, n.Detail)
	case drive.OfAnother:
		return phrase.OfAnother(n.Name, n.Detail)
	case drive.SpoiltFile:
		return phrase.SpoiltFile(n.Detail)
	case drive.Kept:
		return phrase.KeptIn(n.Name, n.Detail)
	case drive.NotKept:
		return phrase.NotKept(n.Name, n.Detail, s.view.KeyFor(sheet.KeepAgain, s.place()))
	case drive.TutorUnknown:
		return phrase.InstructorNotLearned(n.Name, s.view.KeyFor(sheet.ChooseRadio, s.place()))
	case drive.FileDoesNotFit:
		return phrase.FileDoesNotFit(n.Name, n.Detail)
	case drive.NoSuchRadio:
		return phrase.NoSuchRadio(n.Name)
	case drive.SourceFailed:
		return phrase.SourceFailed(n.Name, n.Detail)
	}
	return ""
}

// longestName is the longest name of a switch that is typed, in letters (ours: what stands beside it on the card).
const longestName = 24

// typeName takes keys while a name is typed; false leaves them. Only letters, digits and spaces are to be had from keys by
// their place; other names can be written into the radio file.
func (s *Screen) typeName(key string, down bool) bool {
	if !s.naming || strings.HasPrefix(key, "F") && len(key) > 1 {
		return false
	}
	if !down {
		return true
	}
	switch {
	case key == "Enter":
		s.naming = false
		s.o.Driver.Call(strings.TrimSpace(s.typed))
		s.driver = s.o.Driver.View()
	default:
		s.typeLetter(key)
	}
	return true
}

// typeLetter takes one key of a name.
func (s *Screen) typeLetter(key string) {
	switch {
	case key == "Esc":
		s.naming = false
	case key == "Backspace":
		s.back()
	case len(s.typed) >= longestName:
	case key == "Space":
		s.typed += " "
	case len(key) == 1:
		s.typed += strings.ToLower(key)
	}
}

// back takes the last letter off what is typed.
func (s *Screen) back() {
	_, n := utf8.DecodeLastRuneInString(s.typed)
	s.typed = s.typed[:len(s.typed)-n]
}

// digit is the number on a key, 0 for none.
func digit(name string) int {
	if len(name) == 1 && name[0] >= '1' && name[0] <= '9' {
		return int(name[0] - '0')
	}
	return 0
}

// number does what a number key stands for; false leaves it.
func (s *Screen) number(n int, place sheet.Place) bool {
	switch {
	case s.choosing:
		s.choose(n - 1)
	case place == sheet.OnWhich:
		s.o.Driver.Apply(n - 1)
		s.driver = s.o.Driver.View()
	case place == sheet.OnQuestions && n <= 4:
		s.stickMode(n)
	default:
		return false
	}
	return true
}

// stickMode answers which stick does what, while that is asked.
func (s *Screen) stickMode(n int) {
	if s.driver.Who == drive.Questions && s.driver.Learn.Question == learn.StickMode {
		s.o.Driver.SetStickMode(n)
		s.driver = s.o.Driver.View()
	}
}

func (s *Screen) choose(n int) {
	s.choosing = false
	s.o.Driver.Choose(n)
}

// actLearning does one action about a radio's file or its learning.
func (s *Screen) actLearning(a sheet.Action) {
	d := s.o.Driver
	switch a {
	case sheet.LearnBack:
		d.Back()
	case sheet.LearnSkip:
		d.Skip()
	case sheet.SideLeft:
		d.Side(radio.Left)
	case sheet.SideRight:
		d.Side(radio.Right)
	case sheet.SideTop:
		d.Side(radio.Top)
	case sheet.SpringsBack:
		d.SpringsBack()
	case sheet.CallSwitch:
		s.naming, s.typed = !s.naming, ""
	case sheet.KeepAgain:
		d.KeepAgain()
	case sheet.LearnAnew:
		d.LearnAnew()
	case sheet.LearnRestart:
		if s.driver.Result != nil {
			d.AskAgain()
		} else {
			d.Restart()
		}
	case sheet.LearnEnough:
		if s.driver.Result != nil {
			d.DropResult()
		} else {
			d.Enough()
		}
	}
}

// clickLearning does what a hit area of a radio file or a stick mode stands for; false leaves it.
func (s *Screen) clickLearning(name string) bool {
	if n, ok := sheet.FileOf(name); ok {
		s.o.Driver.Apply(n)
		s.driver = s.o.Driver.View()
		return true
	}
	n, ok := sheet.PictureOf(name)
	if ok {
		s.stickMode(n)
	}
	return ok
}

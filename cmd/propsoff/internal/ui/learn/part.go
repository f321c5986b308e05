package learn

import (
	"slices"
	"strings"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/live/whodrives"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/screen"
	"propsoff/input/learn"
	"propsoff/input/radio"
)

// part is the work behind the questions that learn a radio.
type part struct {
	screen.Base
	s *screen.Screen
	// naming: a name is typed for the switch that was found last.
	naming bool
}

// New makes the sheet of the questions.
func New(s *screen.Screen) screen.Sheet {
	p := &part{s: s}
	s.Filled = append(s.Filled, p.always)
	return p
}

func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }

// whichPart is the work behind the choice between radio files.
type whichPart struct {
	screen.Base
	s *screen.Screen
}

// NewWhich makes the choice between radio files.
func NewWhich(s *screen.Screen) screen.Sheet { return &whichPart{s: s} }

func (p *whichPart) Draw(page *ink.Page, v *ui.View) { DrawWhich(page, v) }

// always brings up to date what is known of a radio that is learned, or whose file is asked for.
func (p *part) always(v *ui.View) {
	s := p.s
	d := &s.Driving
	v.Learn, v.Device, v.Kept, v.KeptError = d.Learn, d.Info, "", words.Text{}
	p.naming = p.naming && d.Who == whodrives.Questions
	v.Naming, v.Typed = p.naming, s.Typed
	v.Out, v.Unkept, v.Alike = !d.Plugged && (d.Who == whodrives.Questions || d.Result != nil), d.Unkept, d.Alike
	if r := d.Result; r != nil {
		v.Learn, v.Device, v.Kept, v.KeptError = r.Learn, r.Info, r.Kept, r.Error
	}
	clear(v.Carries[:])
	jobs := make([]string, 0, len(s.Options.Names.Channel))
	for job := range s.Options.Names.Channel {
		jobs = append(jobs, job)
	}
	slices.Sort(jobs)
	for _, job := range jobs {
		c := s.Options.Names.Channel[job]
		if c < 0 || c >= len(v.Carries) || slices.Contains(radio.Jobs(), job) {
			continue
		}
		if v.Carries[c] != "" {
			v.Carries[c] += ", "
		}
		v.Carries[c] += job
	}
}

// typeName takes keys while a name is typed; false leaves them. Only letters, digits and spaces are to be had from keys by
// their place; other names can be written into the radio file.
func (p *part) typeName(key string, down bool) bool {
	s := p.s
	if !p.naming || strings.HasPrefix(key, "F") && len(key) > 1 {
		return false
	}
	if !down {
		return true
	}
	switch {
	case key == "Enter":
		p.naming = false
		s.Options.Driver.Call(strings.TrimSpace(s.Typed))
		s.Driving = s.Options.Driver.View()
	case key == "Esc":
		p.naming = false
	default:
		s.TypeLetter(key)
	}
	return true
}

// Key chooses a radio file by a number.
func (p *whichPart) Key(name string, down bool) bool {
	n := screen.Digit(name)
	if !down || n == 0 || p.s.Choosing {
		return false
	}
	p.apply(n - 1)
	return true
}

func (p *whichPart) Hit(name string) bool {
	n, ok := ui.FileOf(name)
	if ok {
		p.apply(n)
	}
	return ok
}

func (p *whichPart) apply(n int) {
	p.s.Options.Driver.Apply(n)
	p.s.Driving = p.s.Options.Driver.View()
}

func (p *whichPart) Act(a ui.Action) bool {
	if a == Anew {
		p.s.Options.Driver.LearnAnew()
	}
	return a == Anew
}

// Key takes what is typed of a name, or chooses a stick mode by a number.
func (p *part) Key(name string, down bool) bool {
	if p.typeName(name, down) {
		return true
	}
	n := screen.Digit(name)
	if !down || n == 0 || n > 4 || p.s.Choosing {
		return false
	}
	p.stickMode(n)
	return true
}

func (p *part) Hit(name string) bool {
	n, ok := ui.PictureOf(name)
	if ok {
		p.stickMode(n)
	}
	return ok
}

// stickMode answers which stick does what, while that is asked.
func (p *part) stickMode(n int) {
	s := p.s
	if s.Driving.Who == whodrives.Questions && s.Driving.Learn.Question == learn.StickMode {
		s.Options.Driver.SetStickMode(n)
		s.Driving = s.Options.Driver.View()
	}
}

func (p *part) Act(a ui.Action) bool {
	s := p.s
	d := s.Options.Driver
	switch a {
	case Back:
		d.Back()
	case Skip:
		d.Skip()
	case SideLeft:
		d.Side(radio.Left)
	case SideRight:
		d.Side(radio.Right)
	case SideTop:
		d.Side(radio.Top)
	case SpringsBack:
		d.SpringsBack()
	case CallSwitch:
		p.naming, s.Typed = !p.naming, ""
	case Restart:
		if s.Driving.Result != nil {
			d.AskAgain()
		} else {
			d.Restart()
		}
	case Enough:
		if s.Driving.Result != nil {
			d.DropResult()
		} else {
			d.Enough()
		}
	default:
		return false
	}
	return true
}

func (p *part) About() *ui.About { return About() }

func (p *whichPart) About() *ui.About { return AboutWhich() }

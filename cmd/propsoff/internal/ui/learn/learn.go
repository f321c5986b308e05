// Package learn is one sheet: learning a radio, and choosing between radio files.
package learn

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
)

// What its own keys do.
const (
	Back        ui.Action = "question-back"   // one step back
	Skip        ui.Action = "question-skip"   // this question stays without a control
	Enough      ui.Action = "question-enough" // what learn.View.Enough says; at the end: to the bench
	Restart     ui.Action = "questions-anew"  // from the beginning
	SpringsBack ui.Action = "springs-back"    // the switch found last springs back, or stays
	Clicks      ui.Action = "clicks"          // what was found last is a switch, or a knob
	CallSwitch  ui.Action = "call-switch"     // the switch found last gets a name, or the typing of it ends
	Anew        ui.Action = "learn-anew"      // which file: none of them, learn the radio
	Instead     ui.Action = "learn-instead"   // a file is tried: not this one, learn the radio
)

// picturePrefix and a number from 1 name the hit areas of the pictures of stick modes.
const picturePrefix = "picture-"

// part is the work behind the questions that learn a radio.
type part struct {
	screen.Base
	s *screen.Screen
	// seated is what was learned when it was asked last where the controls sit.
	seated *whodrives.Result
}

// New makes the sheet of the questions.
func New(s *screen.Screen) screen.Sheet {
	p := &part{s: s}
	s.Filled = append(s.Filled, p.always)
	return p
}

// Turn asks where the controls sit, once a radio has been learned.
func (p *part) Turn() {
	if r := p.s.Driving.Result; r != p.seated {
		p.seated = r
		p.s.SeatThem(r != nil && !r.Learn.Trying)
	}
}

// Draw draws the sheet.
func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }

// About is what there is to know of the sheet.
func About() *ui.About { return new(part).About() }

// About is what there is to know of the sheet.
func (p *part) About() *ui.About {
	found := func(v *ui.View) bool { return v.Learn.Question < learn.Done && lastFound(v) != nil }
	driver := func(do func(*whodrives.Driver)) func() {
		return func() { do(p.s.Options.Driver) }
	}
	return &ui.About{
		Place:  ui.OnQuestions,
		Shared: ui.Usual(ui.NextDriver, ui.ChooseRadio, ui.ShowSeats, ui.KeepAgain),
		Front:  []ui.Action{ui.ShowSeats},
		Still:  true,
		Own: []ui.Act{
			{Action: Back, Physical: "Backspace", Do: driver((*whodrives.Driver).Back), Shows: func(v *ui.View) bool { return v.Learn.CanBack }},
			{Action: Skip, Physical: "Period", Do: driver((*whodrives.Driver).Skip), Shows: func(v *ui.View) bool { return v.Learn.CanSkip }},
			{Action: Enough, Physical: "Enter", Do: p.ended((*whodrives.Driver).DropResult, (*whodrives.Driver).Enough),
				Shows: func(v *ui.View) bool { return v.Learn.Enough != learn.NoUse || v.Learn.Question == learn.Done },
				Says:  func(v *ui.View) words.Text { return tell.EnoughWord(v.Learn.Enough, v.Learn.Question) }},
			{Action: Restart, Physical: "Delete", Do: p.ended((*whodrives.Driver).AskAgain, p.restart),
				Shows: func(v *ui.View) bool { return v.Learn.CanBack || v.Learn.Question >= learn.Done }},
			{Action: Instead, Physical: "Insert", Do: driver((*whodrives.Driver).LearnAnew), Shows: func(v *ui.View) bool { return v.Learn.Trying && v.Learn.Question < learn.Done }},
			{Action: SpringsBack, Physical: "Comma", Do: driver((*whodrives.Driver).SpringsBack),
				Shows: func(v *ui.View) bool { return found(v) && lastFound(v).IsSwitch() },
				On:    func(v *ui.View) bool { return found(v) && lastFound(v).Momentary }},
			{Action: Clicks, Physical: "Slash", Do: driver((*whodrives.Driver).Clicks),
				Shows: func(v *ui.View) bool { return found(v) && v.Learn.CanClick },
				On:    func(v *ui.View) bool { return found(v) && lastFound(v).IsSwitch() }},
			{Action: CallSwitch, Physical: "Quote", Shows: found, Do: p.call},
		},
		Picks: []ui.Pick{{Prefix: picturePrefix, Keys: true, Do: p.stickMode}},
	}
}

// restart begins anew, once that is said: what was found so far is lost by it.
func (p *part) restart(d *whodrives.Driver) {
	p.s.AskOf(screen.Question{
		Says: words.T("asked.restart"),
		Lost: func() words.Text {
			return words.T("asked.lost-restart", words.Args{"n": words.Count(answered(&p.s.Driving.Learn))})
		},
		Answers: []screen.Answer{{Says: words.T("asked.stay-learn")}, {Says: words.T("asked.restart-yes"), Do: d.Restart}},
	})
}

// answered is how many questions have their answer.
func answered(l *learn.View) (n int) {
	for i := range l.Plan {
		if l.Plan[i].Answered {
			n++
		}
	}
	return n
}

// ended does the one thing where the questions have come to their end, else the other.
func (p *part) ended(over, before func(*whodrives.Driver)) func() {
	return func() {
		if p.s.Driving.Result != nil {
			over(p.s.Options.Driver)
		} else {
			before(p.s.Options.Driver)
		}
	}
}

// always brings up to date what is known of a radio that is learned, or whose file is asked for.
func (p *part) always(v *ui.View) {
	s := p.s
	d := &s.Driving
	v.Learn, v.Device, v.Kept, v.KeptError = d.Learn, d.Info, "", words.Text{}
	v.Out, v.Unkept, v.Alike = !d.Plugged && (d.Who == whodrives.Radio || d.Who == whodrives.Questions || d.Result != nil), d.Unkept, d.Alike
	if r := d.Result; r != nil {
		v.Learn, v.Device, v.Kept, v.KeptError = r.Learn, r.Info, r.Kept, r.Error
	}
	clear(v.Carries[:])
	for _, job := range slices.Sorted(maps.Keys(s.Options.Names.Channel)) {
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

// call has a name typed for the switch that was found last.
func (p *part) call() {
	c := lastFound(p.s.View())
	if c == nil {
		return
	}
	p.s.Write(screen.Writing{Says: tell.Naming(c.Job), Typed: c.Called, Most: longestName, Take: func(name string) words.Text {
		p.s.Options.Driver.Call(strings.TrimSpace(name))
		p.s.Driving = p.s.Options.Driver.View()
		return words.Text{}
	}})
}

// longestName is the longest name of a switch that is typed, in letters (ours: what stands beside it on the card).
const longestName = 24

// stickMode answers which stick does what by the number of a picture from 0, while that is asked.
func (p *part) stickMode(n int) {
	if s := p.s; n < 4 && s.Driving.Who == whodrives.Questions && s.Driving.Learn.Question == learn.StickMode {
		s.Options.Driver.SetStickMode(n + 1)
		s.Driving = s.Options.Driver.View()
	}
}

// answer is the control found for a job, nil for none.
func answer(v *ui.View, job string) *radio.Control {
	for i := range v.Learn.Answers {
		if job != "" && v.Learn.Answers[i].Job == job {
			return &v.Learn.Answers[i]
		}
	}
	return nil
}

// lastFound is the switch that was found last, nil for none.
func lastFound(v *ui.View) *radio.Control {
	if n := v.Learn.Last; n >= 0 && n < len(v.Learn.Answers) {
		return &v.Learn.Answers[n]
	}
	return nil
}

// Carries are the craft's own words for what the channel of a job named by number does.
func Carries(v *ui.View, job string) string {
	for i := range v.Carries {
		if v.Carries[i] != "" && job == "channel "+strconv.Itoa(i+1) {
			return v.Carries[i]
		}
	}
	return ""
}

// Package ask is one sheet: a question that stands over whatever is open, and its answers.
package ask

import (
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/input/keyboard"
)

// View is what the sheet knows.
type View struct {
	// Says is the question, Lost what would be lost. Answers in their order, the safe one first; At is the one marked.
	Says, Lost words.Text
	Answers    []words.Text
	At         int
	// Disarms: the craft is armed by the keyboard, whose arm switch and throttle work here too.
	Disarms bool
}

// What the sheet's own keys do.
const (
	Above ui.Action = "ask-above" // mark the answer above
	Below ui.Action = "ask-below" // mark the answer below
	Take  ui.Action = "ask-take"  // take the one marked
)

// answerPrefix and a number from 1 name the hit areas of answers.
const answerPrefix = "ask-answer-"

// Of is what this sheet knows besides what all know.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// About is what there is to know of the sheet.
func About() *ui.About { return new(part).About() }

// part is the sheet in the window.
type part struct {
	screen.Base
	s *screen.Screen
}

// New makes the sheet.
func New(s *screen.Screen) screen.Sheet { return &part{s: s} }

// About is what there is to know of the sheet.
func (p *part) About() *ui.About {
	return &ui.About{
		Place:  ui.OnAsk,
		Shared: ui.Usual(),
		Own: []ui.Act{
			{Action: Above, Physical: "PageUp", Do: func() { p.move(-1) }},
			{Action: Below, Physical: "PageDown", Do: func() { p.move(1) }},
			{Action: Take, Physical: "Enter", Do: func() { p.s.Answer(p.s.Asked().At) }},
		},
		More: func(v *ui.View) []ui.Act {
			all := append(ui.ArrowsMark(v), ui.Act{Physical: ui.Numbers, Says: func(*ui.View) words.Text { return words.T("help.numbers-mark") }})
			for _, k := range ui.LayoutKeys {
				if Of(v).Disarms && (k.Key == keyboard.Arm && !facts.BySticks(v.Config) || k.Key == keyboard.ThrottleZero) {
					all = append(all, ui.Act{Physical: k.Physical, Says: func(*ui.View) words.Text {
						return words.T("help.ask-disarms", words.Args{"arm": words.Flag(k.Key == keyboard.Arm)})
					}})
				}
			}
			return all
		},
		Picks: []ui.Pick{{Prefix: answerPrefix, Do: func(i int) { p.s.Answer(i) }}},
	}
}

// move marks another answer. It stops at the ends: holding a key down must not come round to where it was.
func (p *part) move(by int) {
	q := p.s.Asked()
	q.At = ui.ClampInt(q.At+by, 0, len(q.Answers)-1)
}

// Act takes the safe answer where the sheet is left.
func (p *part) Act(a ui.Action) bool {
	if a == ui.Leave {
		p.s.Answer(0)
	}
	return a == ui.Leave
}

// Key lets the arrows move the mark and numbers set it, and the keyboard's arm switch and throttle disarm an armed craft: that must never wait for an answer.
func (p *part) Key(name string, down bool) bool {
	switch n := screen.Digit(name); {
	case n > 0 && n <= len(p.s.Asked().Answers) && down: // marked, not taken: a question may come up below fingers that are at a switch of those keys
		p.s.Asked().At = n - 1
	case name == "Up" && down:
		p.move(-1)
	case name == "Down" && down:
		p.move(1)
	case p.disarms() && down:
		for _, b := range ui.LayoutKeys {
			if b.Physical == name && (b.Key == keyboard.Arm || b.Key == keyboard.ThrottleZero) {
				p.s.Options.Driver.Press(b.Key)
				return true
			}
		}
		return false
	default:
		return false
	}
	return true
}

// disarms tells whether the keyboard has a craft armed.
func (p *part) disarms() bool {
	return p.s.Flight.Live.Armed && p.s.Driving.Who == whodrives.Keyboard
}

// Fill tells what is asked.
func (p *part) Fill(v *ui.View) {
	q, own := p.s.Asked(), Of(v)
	*own = View{Says: q.Says, Answers: own.Answers[:0], At: q.At, Disarms: p.disarms()}
	if q.Lost != nil {
		own.Lost = q.Lost()
	}
	for _, a := range q.Answers {
		own.Answers = append(own.Answers, a.Says)
	}
}

// Draw draws the sheet.
func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }

// Draw draws the question, what would be lost, and the answers.
func Draw(p *ink.Page, v *ui.View) {
	b, r := figure.Open(p, v, ui.OnAsk)
	b.Group("ask")
	own := Of(v)
	r.X, r.W = r.X+r.W*0.04, r.W*0.92
	size, least := b.TextSize(34), b.Large
	body := ink.Style{Size: max(b.Large, b.TextSize(18))}
	if v.Class {
		size, least, body.Size = b.Body*1.8, b.Body, b.Body
	}
	low := words.Text{}
	if own.Disarms {
		key, sticks := keyboard.Arm, facts.BySticks(v.Config)
		if sticks {
			key = keyboard.ThrottleZero
		}
		low = words.T("asked.disarms", words.Args{"key": v.PilotKey(key), "sticks": words.Flag(sticks)})
	}
	draw := func(d *ui.Down, title, spare float64) {
		d.Say("question", own.Says, ink.Style{Size: title, Weight: ink.Bold})
		d.Say("lost", own.Lost, body)
		d.Say("disarms", low, body)
		d.Row(b.Gap)
		for i, a := range own.Answers {
			o := ui.Offer{Says: a, Marked: i == own.At}
			o.Size = body.Size
			b.Offer(d.Row(b.OfferHeight(d.R.W, &o)+spare), answerPrefix+strconv.Itoa(i+1), "", &o)
		}
	}
	takes := func() float64 {
		return b.Takes(r.W, func(d *ui.Down) { d.Gap = b.Gap; draw(d, size, 0) })
	}
	for size > least && takes() > r.H {
		size--
	}
	for body.Size > b.Body && takes() > r.H {
		body.Size--
	}
	left := max(r.H-takes(), 0)
	most := 34 * b.U
	if b.Tall {
		most *= 6
	}
	spare := min(left*0.7/float64(max(len(own.Answers), 1)), most)
	_, r = r.CutTop((left-spare*float64(len(own.Answers)))*0.4, 0)
	draw(b.Down(r, b.Gap), size, spare)
}

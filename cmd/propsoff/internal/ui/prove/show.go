package prove

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/sim"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// What its own keys do in a way.
const (
	WatchWay  ui.Action = "watch-way"  // play it here, on the drawn radio, or stop
	LeadWay   ui.Action = "lead-way"   // the hands on the radio lead it, or it plays by itself
	WayMended ui.Action = "way-mended" // the same hands in the layout of a mend, or back
)

// enterDoes is 2 where Enter takes a mend over, and 1 where it goes on with a way that is played.
func enterDoes(v *View) int {
	switch {
	case v.InMends:
		return 2
	case v.Show.On:
		return 1
	}
	return 0
}

// playing tells whether a way is being played, and has not come to its end.
func playing(v *View) bool { return v.Show.On && !v.Show.Over }

// enterShows tells whether Enter does anything. Only the way as it was found is one for the bench.
func enterShows(v *View, playing bool) bool {
	switch {
	case v.Show.On:
		return !v.Show.Over
	case v.InWay:
		return v.Instead == nil && !playing
	}
	return len(v.rule().Steps) > 0
}

// Show is what is shown of a way while it is played; the zero value while none is.
type Show struct {
	On bool
	// Led: a hand leads. Waits: it waits for that. Comes: it is shown what comes. Said: it is said what the craft did. Over: it has ended.
	Led, Waits, Comes, Said, Over bool
	// Share is how much has gone of what is being shown.
	Share float64
	// Snap is the craft of the way, Sent what the radio is drawn to send: its own hands where they lead.
	Snap sim.Snapshot
	Sent pulse.Frame
	// Wrong says which other control stands otherwise than the way has it.
	Wrong words.Text
}

// watching is the way that is looked at, with what lies around it and how far it is played; the zero value where none is.
type watching struct {
	lying   *lying
	play    *play
	clock   int64 // when it was last gone on with
	led     bool
	asFound Rule
}

// longestTurn is the most that a way goes on at once, in µs, however long the window stood still (ours).
const longestTurn = 250_000

// watch plays the way here, once more after its end, or stops that.
func (p *part) watch() {
	w := &p.watching
	switch {
	case w.play != nil && w.play.phase != over:
		p.stopPlay()
	case w.lying != nil && p.view.InWay && !p.view.Stale:
		w.play = newPlay(&w.lying.layout.Config, &w.lying.came.Way)
		w.play.stands, w.play.led = p.handStands, w.led && p.canLead()
		w.clock = p.s.Options.Loop.Clock().Now()
		p.view.Step = 0
	}
}

// stopPlay ends playing; the step that it came to stays looked at.
func (p *part) stopPlay() { p.watching.play = nil }

// canLead tells whether there are hands on a radio that can lead: the one that was searched drives.
func (p *part) canLead() bool {
	return p.s.Driving.Who == whodrives.Radio && p.of.layout.Radio.Measured && p.s.Flight.Live.In.HasSent && p.watching.lying != nil && p.watching.lying.mended < 0
}

// lead has the hands lead, or no longer.
func (p *part) lead() {
	w := &p.watching
	if w.led = !w.led; w.play != nil {
		w.play.led = w.led && p.canLead()
	}
}

// goOn goes on with what is played by the time of the window, while the sheet is on top.
func (p *part) goOn() {
	w := &p.watching
	if w.play == nil {
		return
	}
	now := p.s.Options.Loop.Clock().Now()
	passed := min(now-w.clock, longestTurn)
	if w.clock = now; p.s.Place() != ui.OnProve {
		return
	}
	if w.play.led && !p.canLead() { // the radio is gone
		w.play.led = false
	}
	if w.play.phase == over {
		return
	}
	w.play.on(passed)
	p.follow()
}

// follow looks at the step that is played, and at the end at the one in which another place is tried next.
func (p *part) follow() {
	if p.view.Step = p.play.at; p.play.phase == over {
		p.view.Step = p.lastTurn()
	}
}

// lastTurn is the step in which a control stands elsewhere, or else the last one in which one could: there it is tried next.
func (p *part) lastTurn() int {
	y := p.lying
	switch n := len(y.turns); {
	case y.chosen != nil:
		return y.chosen.tried.Step
	case n > 0:
		return y.turns[n-1].Step
	}
	return len(p.play.way.Steps)
}

// handStands tells whether the hands stand as a step of the way wants it.
func (p *part) handStands(step int) bool {
	moved, other := p.handOff(step)
	return !moved && other < 0
}

// handOff is off for the hands of the pilot.
func (p *part) handOff(step int) (moved bool, other int) {
	w := &p.watching
	return off(w.lying.a, &p.of.layout.Radio, w.play, step, &p.s.Flight.Live.In.Sent)
}

// off tells of hands whether the control that a step moves stands elsewhere than the step takes it, and which other control means something else to the
// craft than in the way, −1 for none.
func off(a *prove.Around, r *handset.Radio, play *play, step int, is *pulse.Frame) (moved bool, other int) {
	want, mine := sentBy(play.way, play.tick(step)), -1
	if step > 0 {
		mine = play.way.Steps[step].Control
	}
	other = -1
	for i := range r.Controls {
		c := &r.Controls[i]
		same := a.SameTo(i, want[c.Channel], is[c.Channel])
		switch {
		case i == mine:
			moved = !same || !near(c, want[c.Channel], is[c.Channel])
		case !same && c.Same == 0 && other < 0:
			other = i
		}
	}
	return moved, other
}

// nearShare is how far a stick may stand from where a step takes it, as a share of its way (ours).
const nearShare = 0.15

// near tells whether a hand has a control where it is wanted: a switch in the same position, a stick or knob about there.
func near(c *handset.Control, want, is pulse.Width) bool {
	if c.Kind == handset.Switch {
		return c.Nearest(want) == c.Nearest(is)
	}
	off := c.Share(want) - c.Share(is)
	return off < nearShare && off > -nearShare
}

// lookAround looks at what lies around the way that is gone into.
func (p *part) lookAround() {
	w := &p.watching
	*w = watching{led: w.led}
	if p.view.InWay {
		w.asFound = p.view.rule()
		w.lying = lieAround(&p.of.layout, w.asFound.of)
	}
}

// choose has a control stand elsewhere in the step that is looked at: the line from 0, the first of which is the way as it was found.
func (p *part) choose(n int) {
	y := p.watching.lying
	if y == nil || !p.view.InWay {
		return
	}
	rows := y.look(p.view.Step)
	switch {
	case n < 0 || n > len(rows) || len(rows) == 0:
		return
	case n == 0:
		y.choose(nil)
	default:
		row := rows[n-1]
		y.choose(&row)
	}
	p.stopPlay()
}

// chooseBy chooses another line, round the list.
func (p *part) chooseBy(by int) {
	if n := len(p.view.Places); n > 0 {
		p.choose((max(p.view.PlaceAt, 0) + by + n) % n)
	}
}

// throughMends makes the way in the layout of the next mend.
func (p *part) throughMends() {
	if y := p.watching.lying; y != nil {
		y.mend(p.found)
		p.stopPlay()
	}
}

// fillWay shows the way that is looked at, and how far it is played.
func (p *part) fillWay() {
	v, w := &p.view, &p.watching
	v.Show, v.Places, v.Instead, v.None = Show{}, nil, nil, words.Text{}
	v.CanWatch, v.CanLead, v.Leads, v.CanMended, v.InMended = false, false, w.led, false, false
	y := w.lying
	if !v.InWay || y == nil {
		return
	}
	v.CanWatch, v.CanLead, v.CanMended, v.InMended = true, p.canLead(), len(p.found) > 0, y.mended >= 0
	if !y.plain() {
		r := y.rule(w.asFound)
		v.Instead = &r
	}
	if play := w.play; play != nil {
		s := Show{On: true, Led: play.led, Waits: play.waits(), Comes: play.phase == comes, Said: play.phase == came, Over: play.phase == over, Share: play.share(), Snap: play.snapshot()}
		if s.Sent = s.Snap.In.Sent; play.phase == comes && play.at == 0 {
			s.Sent = sentBy(play.way, 0)
		}
		if play.led && play.phase == comes {
			if s.Sent = p.s.Flight.Live.In.Sent; s.Waits {
				if _, other := p.handOff(play.at); other >= 0 {
					c := &p.of.layout.Radio.Controls[other]
					s.Wrong = tell.StandsWrong(c, s.Sent[c.Channel], play.wants()[c.Channel])
				}
			}
		}
		v.Show = s
	}
	if !v.Show.On || v.Show.Over {
		v.Places, v.PlaceAt = y.places(v.Step)
		v.None = y.none(v.Step)
	}
}

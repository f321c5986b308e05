package first

import (
	"math/rand/v2"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/sim/body"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// part is the work behind the sheet: it watches what a pilot shows on the desk bench, keeps the
// propellers that are chosen, and carries the craft out.
type part struct {
	screen.Base
	s    *screen.Screen
	told screen.Events
	view View
	// checked is what a controls check came to of which nothing fails, nil for none, and checkedAt when it was through.
	checked   *screen.ControlsCheck
	checkedAt int64
	pilot     bool // a person drove at the last turn
	// own is the sheet as the pilot left it, while the right propellers are on for those who teach; nil otherwise.
	own *View

	// By what was told so far: where the craft is, what sits on its motors there, and what is under way.
	air     bool
	fitted  [body.Motors]int8
	armed   bool                 // by the pilot
	silent  *happening.Happening // the link is lost by the pilot's own doing
	off     [2]int64             // tick since which the radio's switch and its plug are off, 0 while they are on
	slept   bool                 // it was the machine that went silent
	flown   bool                 // it has left the ground since it was carried out
	pushing int64                // tick since which the throttle is up and it does not leave the ground, −1 for none
}

const (
	// silentLong is how long a radio must be silent, in ticks, to have shown what a craft does that cannot notice it (ours).
	silentLong = 1000
	// pushLong is how long a throttle above pushShare of full must lift nothing, in ticks, to be told of (ours: a craft that is
	// built right has long left the ground).
	pushLong  = 2000
	pushShare = pulse.ThrottleFull / 2
)

// New makes the sheet; the propellers lie mixed up, unless the program starts outside.
func New(s *screen.Screen) screen.Sheet {
	p := &part{s: s, pushing: -1}
	p.view.Turns = s.Config.Body.Turns
	for i := range p.view.Needs {
		p.view.Needs[i].Tick = -1
		if s.Options.Outside {
			p.view.Needs[i] = Need{Done: true, Tick: -1, How: words.T("gate.left-out")}
		}
	}
	p.view.Hands, p.view.Checked = p.view.Turns, s.Options.Outside
	if !s.Options.Outside {
		p.view.Hands = shuffled(p.view.Turns, s.Options.Seed)
	}
	return p
}

// shuffled puts the right propellers on the motors in an order that is not right.
func shuffled(right [body.Motors]int8, seed uint64) [body.Motors]int8 {
	rng := rand.New(rand.NewPCG(seed, 0))
	hands := right
	for range 64 { // all but never more than a few
		if hands != right {
			break
		}
		rng.Shuffle(len(hands), func(i, j int) { hands[i], hands[j] = hands[j], hands[i] })
	}
	return hands
}

// Open brings a craft that flies back to the desk bench: there its propellers can be reached.
func (p *part) Open() {
	if p.s.Flight.Live.In.Air && !p.s.Played() {
		p.s.Flight.Carry(0)
	}
}

// Turn watches. What counts is only what was told while a person drove all the time since the last turn: a demonstration or a
// script shows nothing about this pilot.
func (p *part) Turn() {
	d := &p.s.Driving
	who := d.Who == whodrives.Radio || d.Who == whodrives.Keyboard
	both := who && p.pilot
	p.pilot = who
	if !both {
		p.armed, p.silent, p.off = false, nil, [2]int64{}
	}
	for _, h := range p.told.Since(p.s.Options.Loop) {
		p.hear(&h, both)
	}
	p.watch()
	p.watchCheck()
}

// hear takes one happening; pilot tells that a person drove.
func (p *part) hear(h *happening.Happening, pilot bool) {
	switch h.Code {
	case happening.Moved:
		p.air, p.flown, p.armed, p.silent, p.pushing = h.A != pulse.OnDesk, false, false, nil, -1
		switch {
		case p.air:
			p.view.Came = NoOuting
		case p.own != nil:
			p.view.Propellers, p.view.Checked, p.own = p.own.Propellers, p.own.Checked, nil
		}
	case happening.Fitted:
		p.fitted, _ = pulse.PropellersOf(h.A)
	case happening.TookOff:
		p.flown = true
	case happening.TippedOver:
		if p.fitted != p.s.Config.Body.Turns {
			p.came(Flipped)
		}
	}
	if pilot && !p.air {
		p.atDesk(h)
	}
}

// atDesk takes one happening on the desk bench while a person drove.
func (p *part) atDesk(h *happening.Happening) {
	switch h.Code {
	case happening.Armed:
		p.armed = true
		p.seen(NeedArmed, h)
	case happening.Disarmed:
		if own := happening.Cause(h.A); p.armed && (own == happening.BySwitch || own == happening.BySticks) {
			p.seen(NeedDisarmed, h)
		}
		p.armed = false
	case happening.Slept:
		p.silent, p.slept = nil, true
	case happening.LinkLost:
		if lost := *h; !p.slept {
			p.silent = &lost
		}
	case happening.LinkBack:
		if p.silent != nil {
			p.seen(NeedLinkLost, p.silent)
		}
		p.silent, p.slept = nil, false
	case happening.Transmitter, happening.Plug:
		p.silence(h)
	}
}

// silence counts the time that the radio is silent, for a receiver that never lets the craft notice.
func (p *part) silence(h *happening.Happening) {
	which := 0
	if h.Code == happening.Plug {
		which = 1
	}
	since := p.off[which]
	p.off[which] = 0
	switch {
	case h.A == 0:
		if !p.slept {
			p.off[which] = h.Tick
		}
		return
	case p.s.Config.Link.OnLoss != facts.FallsSilent && since > 0 && h.Tick-since >= silentLong:
		p.seen(NeedLinkLost, &happening.Happening{Tick: since, Code: h.Code})
	}
	p.slept = false
}

// seen crosses a need off, the first time.
func (p *part) seen(need int, h *happening.Happening) {
	if n := &p.view.Needs[need]; !n.Done {
		*n = Need{Done: true, Tick: h.Tick, How: tell.Happening(*h, &p.s.Config)}
	}
}

// watch notices a craft that does not leave the ground with the throttle up, for its propellers push it down, or there is none.
func (p *part) watch() {
	s := &p.s.Flight.Live
	up := s.In.Bench() == pulse.InAir && s.Armed && s.Jobs.Throttle.ThrottleFraction() > pushShare
	switch {
	case !up || p.flown || p.fitted == p.s.Config.Body.Turns:
		p.pushing = -1
	case p.pushing < 0:
		p.pushing = s.Tick
	case s.Tick-p.pushing >= pushLong && p.view.Came == NoOuting:
		p.came(NoLift)
	}
}

// came notes what a flight came to, with what was on the motors just then.
func (p *part) came(how Outing) {
	p.view.Came, p.view.Tried, p.view.Planted = how, p.fitted, p.s.Planted().Has(fault.WrongPropeller)
}

func (p *part) Fill(v *ui.View) {
	p.view.Turns = p.s.Config.Body.Turns
	if !p.s.Options.Outside {
		p.view.Needs[NeedCheck] = p.needsCheck()
	}
	*Of(v) = p.view
}

// check takes the propellers for checked, or takes that back. Where one is missing that is no slip of a key: it is asked first.
func (p *part) check() {
	v := &p.view
	if missing := tell.MissingPropellers(v.Hands); !v.Checked && !missing.Empty() {
		p.s.AskOf(screen.Question{Says: missing, Answers: []screen.Answer{
			{Says: words.T("first.missing-look")}, {Says: words.T("first.missing-leave"), Do: func() { v.Checked = true }},
		}})
		return
	}
	v.Checked = !v.Checked
}

func (p *part) turnPropeller() {
	v := &p.view
	v.Hands[v.Selected] = NextHand(v.Hands[v.Selected])
	v.Checked = false
}

// goOut carries the craft out with the propellers that were chosen, once everything is done, or back in.
func (p *part) goOut() {
	if p.s.Flight.Live.In.Air {
		p.s.Flight.Carry(0)
		return
	}
	p.Fill(p.s.View())
	if p.view.Ready() {
		p.carryOut()
	}
}

// askToShow asks whether the craft is carried out for those who teach.
func (p *part) askToShow() {
	p.s.AskOf(screen.Question{Says: words.T("first.show"), Answers: []screen.Answer{
		{Says: words.T("first.show-list")}, {Says: words.T("first.show-out"), Do: p.showOutside},
	}})
}

// showOutside carries the craft out with the right propellers; nothing on the list is crossed off by it.
func (p *part) showOutside() {
	own := p.view
	p.own = &own
	p.view.Hands, p.view.Checked = p.view.Turns, true
	p.carryOut()
}

// carryOut carries the craft out as it is.
func (p *part) carryOut() {
	p.s.Options.Loop.Desk().Put(pulse.Propellers, pulse.PropellersValue(p.view.Hands, p.view.Checked))
	p.s.Flight.Carry(1)
	p.s.TurnTo(ui.OnBench.Open())
}

// Act has the key of the sheet lead to the bench, wherever one came from: what is to be seen is seen there.
func (p *part) Act(a ui.Action) bool {
	toBench := a == ui.OnFirst.Open() && !p.s.Flight.Live.In.Air
	if toBench {
		p.s.TurnTo(ui.OnBench.Open())
	}
	return toBench
}

// need goes to where a need is met.
func (p *part) need(i int) {
	switch {
	case i < 0 || i >= NeedCount || p.s.Played():
	case cures(i) == ui.OnBench.Open():
		p.s.TurnTo(ui.OnBench.Open())
	default:
		p.s.Act(cures(i))
	}
}

func (p *part) Hit(name string) bool {
	i, ok := figure.MotorOf(name)
	switch {
	case !ok || p.s.Played():
	case i == p.view.Selected:
		p.turnPropeller()
	default:
		p.view.Selected = i
	}
	return ok
}

func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }

// Came is what the last flight came to.
func (p *part) Came() Outing { return p.view.Came }

// watchCheck notes a controls check that came to its end.
func (p *part) watchCheck() {
	switch c, ok := p.s.Checks(); {
	case !ok:
	case c.Fails > 0:
		p.checked = nil
	case !p.isChecked():
		p.checked, p.checkedAt = &c, p.s.Flight.Live.Tick
	}
}

// isChecked tells whether the radio that drives is the one that was checked.
func (p *part) isChecked() bool { return p.checked != nil && p.checked.Holds(&p.s.Driving) }

// needsCheck tells whether the controls of what drives were checked.
func (p *part) needsCheck() Need {
	switch {
	case p.s.Driving.Who == whodrives.Keyboard:
		return Need{Done: true, Tick: -1, How: words.T("gate.nothing-to-check")}
	case p.isChecked():
		return Need{Done: true, Tick: p.checkedAt}
	}
	return Need{Tick: -1}
}

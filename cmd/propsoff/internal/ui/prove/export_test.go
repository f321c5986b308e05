package prove

import (
	"propsoff.example/sim"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// Looked is the view of a way that is looked at in a step, with a place chosen there, 0 for none.
func Looked(v *View, l *prove.Layout, r *prove.Result, step, chosen int) {
	y := lieAround(l, r)
	v.InWay, v.Step, v.CanWatch = true, step, true
	if rows := y.look(step); chosen > 0 {
		y.choose(&rows[chosen-1])
	}
	rule := y.rule(RuleOf(l, r))
	v.Instead = &rule
	v.Places, v.PlaceAt = y.places(step)
	v.None = y.none(step)
}

// Playing is a way that is played without a sheet.
type Playing struct {
	a    *prove.Around
	l    *prove.Layout
	play *play
	// Hand is what a hand sends, where one leads.
	Hand pulse.Frame
}

// Play begins to play the way of a result.
func Play(l *prove.Layout, r *prove.Result, led bool) *Playing {
	y := lieAround(l, r)
	p := &Playing{a: y.a, l: l, play: newPlay(&l.Config, r.Way)}
	p.play.led, p.play.stands = led, func(step int) bool {
		moved, other := off(p.a, &p.l.Radio, p.play, step, &p.Hand)
		return !moved && other < 0
	}
	return p
}

func (p *Playing) On(us int64)                        { p.play.on(us) }
func (p *Playing) End()                               { p.play.end() }
func (p *Playing) Back()                              { p.play.back() }
func (p *Playing) At() int                            { return p.play.at }
func (p *Playing) Comes() bool                        { return p.play.phase == comes }
func (p *Playing) Goes() bool                         { return p.play.phase == goes }
func (p *Playing) Over() bool                         { return p.play.phase == over }
func (p *Playing) Waits() bool                        { return p.play.waits() }
func (p *Playing) ByHand() bool                       { return p.play.byHand() }
func (p *Playing) Wants() pulse.Frame                 { return p.play.wants() }
func (p *Playing) Snapshot() sim.Snapshot             { return p.play.snapshot() }
func (p *Playing) Means(i int, v, w pulse.Width) bool { return p.a.SameTo(i, v, w) }

// ShowOf is what is shown of it.
func (p *Playing) ShowOf() Show {
	s := Show{On: true, Led: p.play.led, Waits: p.Waits(), Comes: p.Comes(), Said: p.play.phase == came, Over: p.Over(), Share: p.play.share(), Snap: p.Snapshot()}
	if s.Sent = s.Snap.In.Sent; p.At() == 0 {
		s.Sent = p.Wants()
	}
	return s
}

package facts

import (
	"propsoff.example/sim/arming"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// cure finds what ends a refusal, and tries it.
func (t *Teller) cure(x *Refusing) {
	r := x.Refusal
	gone := func(p *practice.Practice) bool {
		now := p.Bench().Refusals()
		return !now.Has(r) && (r != arming.LinkTooFresh || !now.Has(arming.NoLink)) // a link that is lost again is no cure
	}
	for n := range mostCures {
		deeds := t.cureOf(r, n)
		if len(deeds) == 0 {
			return
		}
		x.Cure = Plan{}
		if r.Group() == arming.Hand { // what a silent radio's hands do reaches nobody
			var room [2]Deed
			x.Cure.add(t.radioBack(room[:0])...)
		}
		x.Cure.add(deeds...)
		if t.hand == Played && deeds[0].Do != Wait {
			return
		}
		if out := t.try(gone, t.slots(2), x.Cure.Deeds()...); out.OK {
			x.Cure.OK, x.Cure.Within = true, out.Ms
			return
		}
	}
}

// radioBack is what brings a silent radio back, nothing where it is on.
func (t *Teller) radioBack(dst []Deed) []Deed {
	switch in := &t.snap.In; {
	case !in.Plugged && in.Transmitter:
		return append(dst, Deed{Do: PlugIn})
	case !in.Plugged:
		return append(dst, Deed{Do: PlugIn}, Deed{Do: RadioOn})
	case !in.Transmitter:
		return append(dst, Deed{Do: RadioOn})
	}
	return dst
}

// mostCures is how many things may be tried against one refusal.
const mostCures = layout.MaxModeSpans

// cureOf is the n-th thing to be tried against a refusal, nothing where there is none. It is about the practice as it would be.
func (t *Teller) cureOf(r Refusal, n int) []Deed {
	b := t.now.Bench()
	cfg := t.cfg()
	a, l, s := &cfg.Arming, &cfg.Layout, &t.snap
	d := t.deeds[:0]
	if n > 0 && r != arming.NotSelfLevelling {
		return nil
	}
	switch r {
	case arming.ThrottleUp:
		return append(d, Deed{Do: Move, Channel: l.Throttle, Span: layout.Span{Low: pulse.Lowest, High: a.LowThrottle}})
	case arming.OffFirst:
		if t.bySticks() {
			return append(d, Deed{Do: LeaveCorner})
		}
		return append(d, Deed{Do: Move, Channel: l.Arm, Span: l.ArmSpan, Out: true})
	case arming.SecondSwitchOff:
		return append(d, Deed{Do: Move, Channel: l.Second, Span: l.SecondSpan})
	case arming.NotSelfLevelling:
		for i := range l.Spans[:l.SpanCount] {
			if !l.Spans[i].Mode.SelfLevelling() {
				continue
			}
			if n == 0 {
				return append(d, Deed{Do: Move, Channel: l.Mode, Span: l.Spans[i].Span})
			}
			n--
		}
		return nil
	case arming.NoLink:
		if d = t.radioBack(d); !s.In.HasSent {
			d = append(d, Deed{Do: StickMoves})
		}
		if len(d) == 0 {
			d = t.pulses(d, cfg.Link.Needed)
		}
		return d
	case arming.ChannelMissing:
		return t.pulses(d, b.Jobs().Missing)
	case arming.LinkTooFresh:
		return append(d, Deed{Do: Wait, Ms: int32(s.CleanLeftMillis) + t.slots(1)})
	case arming.NotYetStill:
		return append(d, Deed{Do: Wait, Ms: int32(s.StillLeftMillis) + t.slots(1)})
	case arming.IsTilted:
		return append(d, Deed{Do: SetLevel})
	case arming.BeingSetUp:
		by := a.SetUpBy(&s.Senses)
		if by&happening.ByCable != 0 {
			d = append(d, Deed{Do: CableOut})
		}
		if by&^happening.ByCable != 0 {
			d = append(d, Deed{Do: MenuClosed})
		}
		return d
	case arming.PackLow:
		return append(d, Deed{Do: AnotherPack, Ms: int32(a.PackLimitMilliVolts)})
	case arming.PropellersUnchecked:
		return append(d, Deed{Do: LookedOver})
	}
	return nil
}

// pulses moves the controls of those of some channels that carry no pulse to where they carry one.
func (t *Teller) pulses(dst []Deed, of uint16) []Deed {
	for c, w := range t.snap.Received {
		if of>>c&1 == 1 && t.snap.Receiving && !w.Valid() {
			dst = append(dst, Deed{Do: Move, Channel: int8(c), Span: layout.Span{Low: pulse.Lowest, High: pulse.Highest}})
		}
	}
	return dst
}

package prove

import (
	"slices"

	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// judgeSecond: a second switch that can never be off guards nothing. Where it sends no pulse the craft refuses, as where it is off.
func judgeSecond(f *fearful) {
	l := &f.cfg.Layout
	c, at := f.s.h.find(l.Second)
	if c == nil {
		f.unasked() // nothing carries it, and another rule says so
		return
	}
	all := places(c, inSpan(l.SecondSpan))
	if slices.ContainsFunc(all, func(p place1) bool { return p.means != isOn }) {
		f.holds(len(all))
		return
	}
	f.broken(f.result(SecondNeverOff, at, nil), len(all), func(t *trial) {
		t.ready()
		t.arm()
	})
}

// flanked gives a place that means one thing, with one on either side that means another; false where there is none.
func flanked(all []place1, means, beside int) (below, at, above *place1, ok bool) {
	for i := range all {
		p := &all[i]
		switch {
		case p.means == beside && at == nil:
			below = p
		case p.means == means && below != nil:
			at = p
		case p.means == beside:
			return below, at, p, true
		}
	}
	return nil, nil, nil, false
}

// judgeSweep: where the arm switch is on only between two places where it is off, a hand that takes it from end to end arms on the way.
func judgeSweep(f *fearful) {
	c, at, all := f.armPlaces()
	if c == nil {
		f.unasked()
		return
	}
	below, on, above, ok := flanked(all, isOn, isOff)
	if !ok {
		f.holds(len(all))
		return
	}
	f.broken(f.result(OnBetween, at, on), len(all), func(t *trial) {
		t.ready()
		t.others()
		if t.frame[c.Channel] > on.width {
			below, above = above, below
		}
		if f.cfg.Layout.ArmSpan.Contains(t.frame[c.Channel]) {
			t.move(c.Channel, below.width)
		}
		t.move(c.Channel, on.width)
		t.move(c.Channel, above.width)
	})
}

// rests is where a control stands when nobody holds it, false where nobody knows: of an ideal radio, and of a switch that nobody looked at.
func (f *fearful) rests(c *handset.Control) (w pulse.Width, known bool) {
	if c.Kind != handset.Switch {
		return c.Rest, c.RestSeen && c.Rest.Valid()
	}
	return c.Positions[c.RestPosition()].Width, c.RestSeen || c.Momentary
}

// judgeArmRests: where the arm switch stands by itself, it is off.
func judgeArmRests(f *fearful) {
	c, at, all := f.armPlaces()
	if c == nil {
		f.unasked() // nothing carries it, and another rule says so
		return
	}
	span := f.cfg.Layout.ArmSpan
	rest, known := f.rests(c)
	if !known {
		f.unasked()
		return
	}
	if !span.Contains(rest) {
		f.holds(1)
		return
	}
	on := place1{width: rest, position: -1}
	if i := slices.IndexFunc(all, func(p place1) bool { return p.low <= rest && rest <= p.high }); i >= 0 {
		on.position = all[i].position
	}
	off := slices.IndexFunc(all, func(p place1) bool { return p.means == isOff })
	if off < 0 {
		f.unasked() // it is never off, and another rule says so
		return
	}
	if springs := c.Momentary || c.Kind != handset.Switch && !c.Stays; !springs {
		f.broken(f.result(ArmRestsOn, at, &on), 1, func(t *trial) {
			t.stands(c.Channel, rest)
			t.power()
		})
		return
	}
	f.broken(f.result(ArmSpringsOn, at, &on), 1, func(t *trial) {
		t.stands(c.Channel, rest)
		t.ready()
		t.others()
		t.move(c.Channel, all[off].width)
		t.letGo(c.Channel, rest)
	})
}

// judgeArmHasPositions: a knob or slider has no place where it is surely off, and creeps across the edge.
func judgeArmHasPositions(f *fearful) {
	c, at, all := f.armPlaces()
	if c == nil {
		f.unasked()
		return
	}
	if c.Kind == handset.Switch {
		f.holds(1)
		return
	}
	off, on := pulse.Missing, pulse.Missing // on either side of an edge
	for i := 1; i < len(all); i++ {
		switch a, b := &all[i-1], &all[i]; {
		case a.means == isOff && b.means == isOn && on == 0:
			off, on = a.high, b.low
		case a.means == isOn && b.means == isOff && on == 0:
			off, on = b.low, a.high
		}
	}
	if on == 0 {
		f.unasked() // it is never on, or never off, and another rule says so
		return
	}
	f.broken(f.result(ArmOnKnob, at, nil), 1, func(t *trial) {
		t.ready()
		t.others()
		t.move(c.Channel, off)
		t.move(c.Channel, on)
	})
}

// judgeArmIsAlone: what arms does nothing else that a craft in flight feels, and guards nothing by itself.
func judgeArmIsAlone(f *fearful) {
	l := &f.cfg.Layout
	c, at, all := f.armPlaces()
	if c == nil {
		f.unasked() // nothing carries it, and another rule says so
		return
	}
	for _, other := range [...]struct {
		channel int8
		cause   Cause
	}{{l.Second, ArmIsSecond}, {l.Mode, ArmIsMode}} {
		if other.channel == layout.NoChannel {
			continue
		}
		_, k := f.s.h.find(other.channel)
		if k < 0 || k != at && !slices.Contains(f.l.Radio.Together(at), k) {
			continue
		}
		r := f.result(other.cause, at, nil)
		r.Value = int64(other.channel) + 1
		f.broken(r, len(all), func(t *trial) {
			t.ready()
			t.arm()
		})
		return
	}
	f.holds(len(all))
}

// judgeRateOnTheWay: a hand that takes the mode control from one self-levelling position to another does not pass rate,
// nor a gap between two spans, where it would fly in rate too.
func judgeRateOnTheWay(f *fearful) {
	l := &f.cfg.Layout
	c, at := f.s.h.find(l.Mode)
	if c == nil {
		f.unasked() // nothing carries it, and another rule says so
		return
	}
	const levels, rate = 0, 1
	all := places(c, func(w pulse.Width) int { return int(bit(!l.ModeAt(w).SelfLevelling())) })
	from, on, _, ok := flanked(all, rate, levels)
	if !ok {
		f.holds(len(all))
		return
	}
	r := f.result(RateBetween, at, on)
	r.Mode = layout.Rate
	f.broken(r, len(all), func(t *trial) {
		t.power()
		if l.ModeAt(t.frame[l.Mode]) == layout.Rate {
			t.move(l.Mode, from.width)
		}
		t.move(l.Mode, on.width)
	})
}

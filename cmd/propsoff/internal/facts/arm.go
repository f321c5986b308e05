package facts

import (
	"propsoff.example/sim/arming"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// mostRounds is how many refusals in a row may be cleared on the way to an armed craft.
const mostRounds = 16

// arms looks for what the hand does one after the other to arm the craft from here: it clears one refusal after the other as they
// come, then arms. The practice as it would be serves as the practice that is, so that what comes up on the way is dealt with too.
func (t *Teller) arms(f *Facts) {
	var keep practice.Practice
	t.now.CopyTo(&keep)
	was := t.snap
	defer func() {
		keep.CopyTo(&t.now)
		t.snap = was
	}()
	plan := &f.Arm
	if _, gaps := t.now.Faults().Planted(fault.Dropouts); gaps {
		return // when the link is there follows from the moment, and no hand knows that
	}
	goOn := func(deeds ...Deed) { // from what would be then
		plan.add(deeds...)
		t.what.CopyTo(&t.now)
		t.now.Snapshot(&t.snap)
	}
	t.begin()
	t.what.Leap(nil)
	switch b, was := t.what.Bench(), keep.Bench(); {
	case b.Armed(): // what the hand did last had not reached the craft yet
		return
	case b.Refusals() != was.Refusals() || *b.Jobs() != *was.Jobs() || b.OffFirst() != was.OffFirst():
		goOn(Deed{Do: Wait, Ms: t.slots(1)})
	}
	var room [2]Deed
	if back := t.radioBack(room[:0]); len(back) > 0 { // what a silent radio's hands do reaches nobody
		if a := &t.cfg().Arming; t.holdsOn(a.LeaveThrottle, a.LeaveRight) { // or the craft may arm in the moment in which the radio is heard
			off := t.cureOf(arming.OffFirst, 0)
			if !t.try(always, 0, off...).OK {
				return
			}
			goOn(off...)
		}
		t.try(always, 0, back...)
		goOn(back...)
	}
	for range mostRounds {
		b := t.now.Bench()
		x, any := t.first()
		switch {
		case b.Armed(): // the last deed was the one that did it
			plan.OK, plan.Within, plan.Sudden = true, t.slots(2), true
			return
		case any && x.Refusal == arming.ThrottleUp && t.bySticks() && b.Jobs().Yaw >= t.cfg().Arming.LeaveRight:
			leave := Deed{Do: LeaveCorner} // else the throttle would go down into the corner
			if !t.try(always, 0, leave).OK {
				return
			}
			goOn(leave)
		case any:
			if t.cure(&x); !x.Cure.OK {
				return
			}
			goOn(x.Cure.Deeds()...)
		case !t.throttleSure():
			x = Refusing{Refusal: arming.ThrottleUp}
			if t.cure(&x); !x.Cure.OK || !t.throttleSure() {
				return
			}
			goOn(x.Cure.Deeds()...)
		case !t.bySticks() && b.Jobs().Arm != layout.Outside, t.bySticks() && b.Dwelling():
			off := t.cureOf(arming.OffFirst, 0)
			if !t.try(always, 0, off...).OK {
				return
			}
			goOn(off...)
		default:
			last := Deed{Do: ToArm, Ms: t.slots(t.cfg().Arming.ArmDwell)}
			if l := &t.cfg().Layout; !t.bySticks() {
				last = Deed{Do: Move, Channel: l.Arm, Span: l.ArmSpan}
			}
			out := t.try(armed, t.slots(2), last)
			plan.add(last)
			plan.OK, plan.Within = out.OK, out.Ms
			return
		}
	}
}

// holdsOn reports whether the hand holds the arm control at on: the switch in its span, or the sticks in the arm corner, of which the caller
// says where it begins.
func (t *Teller) holdsOn(throttle, yaw pulse.Width) bool {
	t.begin()
	l := &t.cfg().Layout
	at := func(c int8) pulse.Width { w, _ := t.read(c, t.frame[c]); return w }
	if !t.bySticks() {
		return l.ArmSpan.Contains(at(l.Arm))
	}
	return at(l.Throttle) < throttle && at(l.Yaw) >= yaw
}

// holds looks at what the hand holds while nobody reads it, and could hold otherwise.
func (t *Teller) holds(f *Facts) {
	a, l := &t.cfg().Arming, &t.cfg().Layout
	can := func(r Refusal) bool { return t.try(always, 0, t.cureOf(r, 0)...).OK }
	f.HoldsOn = t.holdsOn(a.LowThrottle, a.YawRight) && can(arming.OffFirst)
	t.begin()
	low := t.cureOf(arming.ThrottleUp, 0)[0]
	w, _ := t.read(l.Throttle, t.frame[l.Throttle])
	f.HoldsUp = !low.Done(w) && can(arming.ThrottleUp)
}

// throttleSure reports whether the throttle stays low as the hand holds it, also where it trembles.
func (t *Teller) throttleSure() bool {
	t.begin()
	cfg := t.cfg()
	w, trembles := t.read(cfg.Layout.Throttle, t.frame[cfg.Layout.Throttle])
	return w+trembles < cfg.Arming.LowThrottle
}

// first is the first refusal to clear: the craft's and the link's before the hand's, for without a link nobody knows the hand's.
func (t *Teller) first() (Refusing, bool) {
	now := t.now.Bench().Refusals()
	for _, g := range [...]arming.Group{arming.Craft, arming.Link, arming.Hand} {
		var waits Refusal
		waiting := false
		for _, r := range arming.Shown() {
			switch {
			case r.Group() != g || !now.Has(r):
			case r == arming.NotYetStill || r == arming.LinkTooFresh: // what time clears comes last
				waits, waiting = r, true
			default:
				return Refusing{Refusal: r}, true
			}
		}
		if waiting && g != arming.Craft {
			return Refusing{Refusal: waits}, true
		}
	}
	if now.Has(arming.NotYetStill) {
		return Refusing{Refusal: arming.NotYetStill}, true
	}
	return Refusing{}, false
}

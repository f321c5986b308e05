package prove

import (
	"propsoff.example/sim/flight"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// judgeOneFrame: a single lost frame is no loss.
func judgeOneFrame(f *fearful) {
	n := int64(f.cfg.Link.SilenceSlots)
	if n >= LeastSilence {
		f.holds(1)
		return
	}
	f.broken(Result{Cause: SilenceOneFrame, Control: -1, Position: -1, Value: n * int64(f.cfg.SlotTicks)}, 1, func(t *trial) {
		t.ready()
		t.arm()
		t.throttleUp()
		t.radioOff()
	})
}

// judgeSeenSoon: a craft that hears nothing does not fly on for long as its sticks last stood.
func judgeSeenSoon(f *fearful) {
	slot := int64(f.cfg.SlotTicks)
	limit := int64(f.cfg.Link.SilenceSlots) * slot
	if limit <= MostBlind {
		f.holds(1)
		return
	}
	f.broken(Result{Cause: SilenceLate, Control: -1, Position: -1, Value: limit}, 1, func(t *trial) {
		t.ready()
		t.arm()
		t.throttleUp()
		t.radioOff()
		t.wait(int(MostBlind/slot) - 1)
	})
}

// judgeCleanTime: after a loss, and after power-up, the link is watched for a while before it counts.
func judgeCleanTime(f *fearful) {
	if f.cfg.Link.CleanSlots > 0 {
		f.holds(1)
		return
	}
	f.broken(Result{Cause: CleanNothing, Control: -1, Position: -1}, 1, func(t *trial) {
		t.ready()
		t.others()
		if canBeLost(f.cfg) {
			t.lost()
			t.radioOn()
		}
		t.arm()
	})
}

// judgeStillTime: after power-up the craft must have stood still for a while.
func judgeStillTime(f *fearful) {
	if f.cfg.Arming.StillSlots > 0 {
		f.holds(1)
		return
	}
	f.broken(Result{Cause: StillNothing, Control: -1, Position: -1}, 1, func(t *trial) {
		t.ready()
		t.others()
		t.nudge()
		t.arm()
	})
}

// judgeTilt: a craft that lies on its side refuses.
func judgeTilt(f *fearful) {
	limit := f.cfg.Arming.TiltLimitTenths
	if limit < Upright {
		f.holds(1)
		return
	}
	f.broken(Result{Cause: TiltPastUpright, Control: -1, Position: -1, Value: int64(limit)}, 1, func(t *trial) {
		t.ready()
		t.others()
		t.tilt(limit)
		t.arm()
	})
}

// judgeCornersTakeTime: a hand that only passes through a corner neither arms nor disarms.
func judgeCornersTakeTime(f *fearful) {
	a, l := &f.cfg.Arming, &f.cfg.Layout
	slot := int64(f.cfg.SlotTicks)
	switch arm, disarm := int64(a.ArmDwell)*slot, int64(a.DisarmDwell)*slot; {
	case arm < LeastDwell:
		f.broken(Result{Cause: ArmDwellBrief, Control: -1, Position: -1, Value: arm}, 2, func(t *trial) {
			t.ready()
			t.arm()
		})
	case disarm < LeastDwell:
		f.broken(Result{Cause: DisarmDwellBrief, Control: -1, Position: -1, Value: disarm}, 2, func(t *trial) {
			t.ready()
			t.arm()
			t.to(l.Yaw, func(w pulse.Width) bool { return w <= a.YawLeft })
			t.wait(int(a.DisarmDwell))
		})
	default:
		f.holds(2)
	}
}

// judgeCornersBelowPower: where the low mark lies above the width from which power is asked for, sticks that fly stand in the disarm corner.
func judgeCornersBelowPower(f *fearful) {
	a, l := &f.cfg.Arming, &f.cfg.Layout
	c, at := f.s.h.find(l.Throttle)
	if c == nil || !asksPower(a.LowThrottle-1) {
		f.holds(1)
		return
	}
	flown := highestBelow(c, a.LowThrottle)
	if !asksPower(flown) {
		f.holds(1)
		return
	}
	r := f.result(CornerInFlight, at, nil)
	r.Value = int64(a.LowThrottle)
	f.broken(r, 1, func(t *trial) {
		t.ready()
		t.arm()
		t.move(c.Channel, flown)
		t.to(l.Yaw, func(w pulse.Width) bool { return w <= a.YawLeft })
		t.wait(int(a.DisarmDwell))
	})
}

// highestBelow is the highest width below a mark that a control sends, 0 where it sends none.
func highestBelow(c *handset.Control, mark pulse.Width) (best pulse.Width) {
	for _, p := range places(c, func(w pulse.Width) int { return int(bit(w < mark)) }) {
		if p.means == 1 {
			best = max(best, p.high)
		}
	}
	return best
}

// judgeArmingStarts: no motor turns at the moment of arming. Motors that are set to idle do, and that is whoever set it who wants it so; motors that
// are set to stand still do where air mode wakes below the low mark.
func judgeArmingStarts(f *fearful) {
	a, l, fl := &f.cfg.Arming, &f.cfg.Layout, &f.cfg.Flight
	c, _ := f.s.h.find(l.Throttle)
	if c == nil {
		f.holds(1)
		return
	}
	thr := highestBelow(c, a.LowThrottle)
	if fl.AtLowThrottle == flight.Idle {
		if thr == 0 || fl.IdleSpeed == 0 && !asksPower(thr) {
			f.holds(1)
			return
		}
		f.broken(Result{Cause: IdlesArmed, Control: -1, Position: -1}, 1, func(t *trial) {
			t.ready()
			t.arm()
		})
		f.s.r.Results[f.rule].Outcome = WithIt
		return
	}
	for _, w := range f.modePlaces() {
		mode := l.ModeAt(w)
		if w == 0 {
			mode = f.beginMode()
		}
		if fl.AirModes>>mode&1 == 0 || a.OnlySelfLevelling && !mode.SelfLevelling() || thr.ThrottleFraction() <= fl.AirWake {
			continue
		}
		r := Result{Cause: AirWakesLow, Control: -1, Position: -1, Mode: mode, Value: int64(pulse.Micros(1000)) + int64(fl.AirWake)}
		f.broken(r, 1, func(t *trial) {
			if w != 0 {
				t.move(l.Mode, w)
			}
			t.others()
			t.move(c.Channel, thr)
			t.ready()
			t.arm()
		})
		return
	}
	f.holds(1)
}

// beginMode is the mode in which a craft is when its radio has been heard, everything at its normal place.
func (f *fearful) beginMode() layout.Mode {
	l := &f.cfg.Layout
	if l.Mode == layout.NoChannel {
		return l.FixedMode
	}
	if w := newTrial(f.s).frame[l.Mode]; w.Valid() {
		return l.ModeAt(w)
	}
	return layout.PowerUp(l).Mode
}

// judgeThrottleLow: the throttle's low end lies clear of the low mark, or it arms one day and refuses the next.
func judgeThrottleLow(f *fearful) {
	a := &f.cfg.Arming
	c, at := f.s.h.find(f.cfg.Layout.Throttle)
	if c == nil {
		f.holds(1)
		return
	}
	low := pulse.Missing
	for _, p := range places(c, func(pulse.Width) int { return 0 }) {
		if p.means != noPulse && (low == 0 || p.low < low) {
			low = p.low
		}
	}
	margin := a.LowThrottle - low
	switch {
	case margin <= 0:
		f.unasked() // it never arms, and another rule says why
		return
	case margin >= ThrottleClear(c):
		f.holds(1)
		return
	}
	r := f.result(LowEndNear, at, nil)
	r.Value = int64(low)
	f.broken(r, 1, func(t *trial) {
		t.ready()
		t.others()
		t.move(c.Channel, min(a.LowThrottle, max(c.Low, c.High)))
		t.toArmControl()
	})
}

// ThrottleClear is how far below the low mark the throttle's low end must lie; of no control, too.
func ThrottleClear(c *handset.Control) pulse.Width {
	if c == nil {
		return leastClear
	}
	return max(leastClear, leastTimes*c.Noise)
}

// judgeThrottleStays: a throttle that springs back asks for power as soon as it is let go.
func judgeThrottleStays(f *fearful) {
	a := &f.cfg.Arming
	c, at := f.s.h.find(f.cfg.Layout.Throttle)
	if c == nil || c.Kind == handset.Switch || c.Stays || c.Rest < a.LowThrottle || !asksPower(c.Rest) {
		f.holds(1)
		return
	}
	r := f.result(ThrottleSprings, at, nil)
	r.Value = int64(c.Rest)
	f.broken(r, 1, func(t *trial) {
		t.ready()
		t.arm()
		t.letGo(c.Channel, c.Rest)
	})
}

// judgeThrottleStaysUp: a throttle that springs down falls with the hand that is taken off it, and the craft with it.
func judgeThrottleStaysUp(f *fearful) {
	c, at := f.s.h.find(f.cfg.Layout.Throttle)
	if c == nil || c.Kind == handset.Switch || c.Stays || asksPower(c.Rest) || !asksPower(max(c.Low, c.High)) {
		f.holds(1)
		return
	}
	r := f.result(ThrottleFalls, at, nil)
	r.Value = int64(c.Rest)
	f.broken(r, 1, func(t *trial) {
		t.ready()
		t.arm()
		t.throttleUp()
		t.letGo(c.Channel, c.Rest)
	})
}

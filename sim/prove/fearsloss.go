package prove

import (
	"propsoff.example/sim/arming"
	"propsoff.example/sim/hover"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// judgeStopsSoon: whatever a silent radio comes to, the motors stand before anybody can have run to the craft.
//
// What they do then hangs on what the radio sent last, on the mode, and on whether air mode is awake: so each mode is tried, with the throttle left
// low and with it up. Neither a throttle taken back nor a later loss turns them any longer: a throttle that was low at the last frame cuts, and
// a second loss while sinking begins no second time.
func judgeStopsSoon(f *fearful) {
	best, tries := f.turnsFor(MostTurning / int(f.cfg.SlotTicks))
	if best == nil {
		f.holds(tries)
		return
	}
	r := Result{Cause: f.silenceCause(), Control: -1, Position: -1, Searched: uint64(tries)}
	switch r.Cause {
	case SinksLong:
		r.Value = (int64(f.cfg.Link.SilenceSlots) + int64(f.cfg.Arming.SinkSlots)) * int64(f.cfg.SlotTicks)
	case StoredSwitchOn:
		r.Value = int64(f.cfg.Link.Stored[f.cfg.Layout.Arm])
	}
	f.s.broken(f.rule, r, best.end())
}

// turnsFor is the shortest try after which motors still turn so many slots after the radio's last frame, nil where none is, and how many tries
// were made.
func (f *fearful) turnsFor(slots int) (best *trial, tries int) {
	try := func(before func(*trial)) {
		t := newTrial(f.s)
		t.ready()
		before(t)
		tries++
		if t.radioOff(); t.stillTurns(slots-1) && (best == nil || t.way.Movements < best.way.Movements) {
			best = t
		}
	}
	for _, mode := range f.modePlaces() {
		for _, up := range [...]bool{false, true} {
			try(func(t *trial) {
				t.arm()
				if mode != 0 {
					t.move(f.cfg.Layout.Mode, mode)
				}
				if up {
					t.throttleUp()
				}
			})
		}
	}
	if f.cfg.Link.OnLoss == link.SendsStored { // it may be the stored values that arm
		try((*trial).others)
	}
	return best, tries
}

// stillTurns waits so many slots, or until an armed craft is disarmed: then its motors have stopped for good.
func (t *trial) stillTurns(slots int) bool {
	was := t.armed()
	for range slots {
		if t.wait(1); was && !t.armed() {
			return false
		}
		was = t.armed()
	}
	return t.turning()
}

// modePlaces are a width for each mode that can be chosen, the one that the craft begins in first as 0.
func (f *fearful) modePlaces() []pulse.Width {
	l := &f.cfg.Layout
	out := []pulse.Width{0}
	if l.Mode == layout.NoChannel {
		return out
	}
	c, _ := f.s.h.find(l.Mode)
	if c == nil {
		return out
	}
	var seen [layout.Modes]bool
	if w := newTrial(f.s).frame[l.Mode]; w.Valid() {
		seen[l.ModeAt(w)] = true
	}
	for _, p := range places(c, func(w pulse.Width) int { return int(l.ModeAt(w)) }) {
		if p.means != noPulse && !seen[p.means] {
			seen[p.means] = true
			out = append(out, p.width)
		}
	}
	return out
}

// silenceCause is what keeps the motors of a craft going whose radio is silent.
func (f *fearful) silenceCause() Cause {
	sticks := f.cfg.Arming.By == arming.BySticks
	switch {
	case !fillsGaps(f.cfg):
		return SinksLong
	case f.cfg.Link.OnLoss == link.RepeatsLast && sticks:
		return HeldSticks
	case f.cfg.Link.OnLoss == link.RepeatsLast:
		return HeldSwitch
	case sticks:
		return StoredSticks
	}
	return StoredSwitchOn
}

// judgeSilenceSinks: a craft that is set to sink does, when the radio falls silent in flight.
func judgeSilenceSinks(f *fearful) {
	if !fillsGaps(f.cfg) {
		f.holds(1)
		return
	}
	r := Result{Cause: StoredNoSink, Control: -1, Position: -1}
	if f.cfg.Link.OnLoss == link.RepeatsLast {
		r.Cause = HeldNoSink
	}
	f.broken(r, 1, func(t *trial) {
		t.ready()
		t.arm()
		t.throttleUp()
		t.lost()
	})
}

// judgeSinkComesDown: a craft that sinks comes down, and does not fall.
//
// What is judged is the share of its weight that it carries: from a height of LowFlight, sinking for as long as it takes, it must touch the ground
// within MostTurning and no faster than MostTouch. The sinking time that is set is another matter: from higher up none would do, and what is left
// of a height when it ends is told by the sheet of the lost link.
func judgeSinkComesDown(f *fearful) {
	r := Result{Cause: SinkHovers, Control: -1, Position: -1, Value: int64(f.cfg.Arming.SinkSlots) * int64(f.cfg.SlotTicks)}
	switch touches, speed := f.sinksFrom(LowFlight); {
	case !touches:
	case speed > MostTouch:
		r.Cause, r.Value = SinkFalls, int64(speed*1000)
	default:
		f.holds(1)
		return
	}
	f.broken(r, 1, func(t *trial) {
		t.ready()
		t.arm()
		t.throttleUp()
		t.lost()
		if t.sinking() {
			t.wait(int(f.cfg.Arming.SinkSlots) - 1)
		}
	})
}

// sinksFrom lets the craft hover at a height, its pack full, and its radio fall silent, with nothing to end its sinking before MostTurning: whether it
// comes to the ground, and how fast it then is, in m/s.
func (f *fearful) sinksFrom(height float64) (touches bool, speed float64) {
	cfg := *f.cfg
	cfg.Link.OnLoss, cfg.Gestures, cfg.Menus = link.FallsSilent, nil, nil
	cfg.Arming.SinkSlots = uint16(MostTurning / int(cfg.SlotTicks))
	p := hover.At(cfg, height, false)
	for range MostTurning + int(cfg.Link.SilenceSlots)*int(cfg.SlotTicks) {
		before := p.Bench().State().Air.Body.Vel.Z
		p.Step(nil)
		s := p.Bench().State()
		switch {
		case !s.Slot.Arming.Armed && s.Air.Flying:
			return false, 0
		case !s.Air.Flying:
			return true, before
		}
	}
	return false, 0
}

// judgeStoredCorners: stored values of the sticks stand in neither corner: a radio that falls silent is no hand that arms or disarms.
func judgeStoredCorners(f *fearful) {
	a, l := &f.cfg.Arming, &f.cfg.Layout
	thr, yaw := f.cfg.Link.Stored[l.Throttle], f.cfg.Link.Stored[l.Yaw]
	in := fillsGaps(f.cfg) && thr < a.LowThrottle
	switch {
	case in && yaw >= a.YawRight:
		f.broken(Result{Cause: StoredCorner, Control: -1, Position: -1}, 1, func(t *trial) {
			t.ready()
			t.others()
			t.radioOff()
			t.wait(int(a.ArmDwell))
		})
	case in && yaw <= a.YawLeft:
		f.broken(Result{Cause: StoredDisarms, Control: -1, Position: -1, Value: int64(a.DisarmDwell) * int64(f.cfg.SlotTicks)}, 1, func(t *trial) {
			t.ready()
			t.arm()
			t.throttleUp()
			t.radioOff()
			t.wait(int(a.DisarmDwell))
		})
	default:
		f.holds(1)
	}
}

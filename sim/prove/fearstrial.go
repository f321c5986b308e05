package prove

import (
	"propsoff.example/sim/arming"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// trial makes a way on the whole bench, motors, gestures and menus included, one movement a slot. It takes controls to any width, not only to
// those that the search tells apart.
type trial struct {
	l     *Layout
	p     *practice.Practice
	way   Way
	frame pulse.Frame
	// begun: the first slot has been run. powered, and the tick of the first power-up, −1 before.
	begun, powered bool
	zero, tick     int64
	claim          Claim
}

// newTrial begins where a search begins: everything at its normal place, the radio on, the craft without power.
func newTrial(s *search) *trial {
	t := &trial{l: s.l, p: practice.New(s.l.Config), zero: -1, frame: s.h.frames[s.h.start&s.h.sentBits()]}
	t.way.Steps = []Step{{Kind: Start, Control: -1}}
	return t
}

// stands puts a control where it stands at the beginning.
func (t *trial) stands(channel int8, w pulse.Width) { t.frame[channel] = w }

// begin runs the time before the first movement.
func (t *trial) begin() {
	t.begun = true
	var first []pulse.Reading
	if mode := t.l.Radio.StickMode; mode != 0 && mode != 2 {
		first = append(first, pulse.Reading{Kind: pulse.StickMode, Value: int32(mode)})
	}
	t.run(append(first, pulse.Reading{Kind: pulse.Plug, Value: 1}, pulse.Reading{Kind: pulse.Link, Value: 1}, pulse.Reading{Kind: pulse.Power},
		pulse.Reading{Kind: pulse.Cable}, pulse.Reading{Kind: pulse.Controls, Frame: t.frame}))
}

// run steps one slot with readings at its beginning, and gives what happened in it.
func (t *trial) run(readings []pulse.Reading) (all Event) {
	for i := range readings {
		readings[i].At = t.tick * 1000
	}
	t.way.Readings = append(t.way.Readings, readings...)
	for ms := range int64(t.l.Config.SlotTicks) {
		t.p.Step(readings)
		readings = nil
		if ms == 0 {
			s := t.p.Bench().State()
			t.claim = claimOf(&s.Slot, t.p.Happenings())
		}
		all |= eventsOf(t.p.Happenings())
	}
	return all
}

// do makes one step, in a slot of its own.
func (t *trial) do(st Step, readings ...pulse.Reading) {
	if !t.begun {
		t.begin()
	}
	t.tick += int64(t.l.Config.SlotTicks)
	st.At = t.tick
	if st.Kind == PowerOn {
		t.powered = true
		if t.zero < 0 {
			t.zero = t.tick
		}
	}
	st.Then = t.run(readings)
	t.way.add(st)
}

func (t *trial) wait(slots int) {
	for range slots {
		t.do(Step{Kind: Wait, Ms: int64(t.l.Config.SlotTicks), Control: -1})
	}
}

func (t *trial) power() {
	t.do(Step{Kind: PowerOn, Control: -1}, pulse.Reading{Kind: pulse.Power, Value: 1})
}
func (t *trial) radioOff() { t.do(Step{Kind: RadioOff, Control: -1}, pulse.Reading{Kind: pulse.Link}) }
func (t *trial) radioOn() {
	t.do(Step{Kind: RadioOn, Control: -1}, pulse.Reading{Kind: pulse.Link, Value: 1})
}
func (t *trial) nudge() {
	t.do(Step{Kind: Nudge, Control: -1}, pulse.Reading{Kind: pulse.Nudge})
}

// tilt tilts the craft, by tenths of a degree.
func (t *trial) tilt(tenths int16) {
	t.do(Step{Kind: Tilt, Control: -1, Value: int32(tenths)}, pulse.Reading{Kind: pulse.Tilt, Value: int32(tenths)})
}

// ready gives the craft its pack and waits until nothing but hands can refuse.
func (t *trial) ready() {
	t.power()
	t.settle()
}

func (t *trial) settle() {
	c := &t.l.Config
	t.wait(int(max(c.Arming.StillSlots, c.Link.CleanSlots)) + 2)
}

// move takes the control on a channel to a width, and with it what else the same part of the radio sends; nothing where it stands there.
func (t *trial) move(channel int8, to pulse.Width) { t.take(Move, channel, to) }

// letGo lets the control on a channel spring back.
func (t *trial) letGo(channel int8, to pulse.Width) { t.take(LetGo, channel, to) }

func (t *trial) take(kind Kind, channel int8, to pulse.Width) {
	if !t.begun {
		t.begin()
	}
	all := t.l.Radio.Controls
	for i := range all {
		c := &all[i]
		if c.Channel != channel || t.frame[channel] == to {
			continue
		}
		st := Step{Kind: kind, Control: i, From: t.frame[channel], To: to, FromPosition: PlaceOf(c, t.frame[channel]), ToPosition: PlaceOf(c, to)}
		t.l.Radio.Stands(&t.frame, i, st.ToPosition, to)
		t.do(st, pulse.Reading{Kind: pulse.Controls, Frame: t.frame})
	}
}

// to takes the control on a channel to the first of its places that is so; nothing where it stands in one, or has none.
func (t *trial) to(channel int8, is func(pulse.Width) bool) {
	c := t.l.Radio.On(channel)
	if c == nil || is(t.frame[channel]) {
		return
	}
	for _, p := range places(c, func(w pulse.Width) int { return int(bit(is(w))) }) {
		if p.means == 1 {
			t.move(channel, p.width)
			return
		}
	}
}

// others puts everything as arming asks for it but the arm control itself.
func (t *trial) others() {
	l, a := &t.l.Config.Layout, &t.l.Config.Arming
	t.to(l.Throttle, func(w pulse.Width) bool { return w < a.LowThrottle })
	if l.Second != layout.NoChannel {
		t.to(l.Second, l.SecondSpan.Contains)
	}
	if l.Mode != layout.NoChannel && a.OnlySelfLevelling {
		t.to(l.Mode, func(w pulse.Width) bool { return l.ModeAt(w).SelfLevelling() })
	}
}

// arm moves the arm control on, and by sticks holds the corner until it arms.
func (t *trial) arm() {
	t.others()
	t.toArmControl()
}

// toArmControl is arm, with all else as it is.
func (t *trial) toArmControl() {
	l, a := &t.l.Config.Layout, &t.l.Config.Arming
	if a.By == arming.BySwitch {
		t.to(l.Arm, l.ArmSpan.Contains)
		return
	}
	t.to(l.Yaw, func(w pulse.Width) bool { return w >= a.YawRight })
	t.wait(int(a.ArmDwell))
}

// throttleUp opens the throttle as far as it goes.
func (t *trial) throttleUp() {
	if c := t.l.Radio.On(t.l.Config.Layout.Throttle); c != nil {
		all := places(c, func(pulse.Width) int { return 0 })
		for i := len(all) - 1; i >= 0; i-- {
			if all[i].means != noPulse {
				t.move(c.Channel, all[i].high)
				return
			}
		}
	}
}

// lost lets the radio fall silent for as long as the silence limit.
func (t *trial) lost() {
	t.radioOff()
	t.wait(int(t.l.Config.Link.SilenceSlots) - 1)
}

// turning reports whether any motor turns.
func (t *trial) turning() bool {
	s := t.p.Bench().State()
	return s.Motor != [flight.Motors]uint16{}
}

func (t *trial) armed() bool   { return t.p.Bench().Armed() }
func (t *trial) sinking() bool { return t.claim.Sinking }

// end finishes the way: what it claims is what the bench came to.
func (t *trial) end() *Way {
	if !t.begun {
		t.begin()
	}
	t.way.times(t.zero, t.tick, t.l.Config.SlotTicks)
	t.way.Claim = t.claim
	return &t.way
}

package prove

import (
	"slices"

	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// tale runs movements through the bench's step, one a slot, and writes down as a way what they are and all that happens.
type tale struct {
	cfg        *sim.Config
	way        Way
	sent       pulse.Frame
	on, cable  bool // the radio sends; the set-up cable is in
	powered    bool
	slot       sim.SlotState
	moving     moving
	tick, zero int64 // of the last step, and of the first power-up, −1 before
	log        happening.Log
	facts      sim.SlotFacts // of the last slot
}

// newTale begins with a craft without power, and with what a radio of a stick mode sends.
func newTale(cfg *sim.Config, mode int, on bool, sent pulse.Frame) tale {
	t := tale{cfg: cfg, on: on, sent: sent, zero: -1, moving: newMoving(cfg, mode)}
	t.way.begin(on, &sent, &t.moving)
	return t
}

// step makes a movement, after which the radio has this to send, and runs the slot that it falls into.
func (t *tale) step(st Step, sent pulse.Frame) {
	t.tick += int64(t.cfg.SlotTicks)
	st.At = t.tick
	tell := func(r pulse.Reading) {
		r.At = t.tick * 1000
		t.way.Readings = append(t.way.Readings, r)
	}
	first := false
	switch st.Kind {
	case Move, LetGo, Tremble:
		t.sent = sent
		tell(pulse.Reading{Kind: pulse.Controls, Frame: sent})
	case RadioOn, RadioOff:
		t.on = st.Kind == RadioOn
		tell(pulse.Reading{Kind: pulse.Link, Value: int32(bit(t.on))})
	case CableIn, CableOut:
		t.cable = st.Kind == CableIn
		tell(pulse.Reading{Kind: pulse.Cable, Value: int32(bit(t.cable))})
	case Nudge:
		tell(pulse.Reading{Kind: pulse.Nudge})
	case PowerOn:
		t.powered, first, t.slot = true, true, t.cfg.PowerUp()
		if t.zero < 0 {
			t.zero = t.tick
		}
		tell(pulse.Reading{Kind: pulse.Power, Value: 1})
	case PowerOff:
		t.powered = false
		t.moving.off()
		tell(pulse.Reading{Kind: pulse.Power})
	case Wait:
		st.Ms = int64(t.cfg.SlotTicks)
	}
	st.Then = t.run(st.Kind == Nudge, first)
	t.way.add(st)
}

// run steps the bench's slot, if the craft has power.
func (t *tale) run(nudged, first bool) Event {
	t.log.N = 0
	if !t.powered {
		return 0
	}
	in := sim.SlotInput{Transmitting: t.on, Sent: t.sent, First: first}
	in.Craft.Cable, in.Craft.Moved, in.Craft.Menu = t.cable, nudged, t.moving.seen
	t.slot, t.facts = sim.StepSlot(t.cfg, t.slot, &in, t.tick, &t.log)
	opened := t.moving.step(&t.slot, &t.facts, t.tick, &t.log)
	all := eventsOf(t.log.All())
	if opened {
		all |= MenuOpens
	}
	return all
}

// end finishes the way: what it claims is what the bench came to.
func (t *tale) end() *Way {
	w := &t.way
	w.times(t.zero, t.tick, t.cfg.SlotTicks)
	switch {
	case t.powered:
		w.Claim = claimOf(&t.slot, t.log.All())
	case t.zero >= 0: // it had power before
		w.Claim.Mode = uint8(t.cfg.PowerUp().Layout.Mode)
	}
	return w
}

// begin is how everything stands at the beginning. The stick mode is told where gestures ask for it.
func (w *Way) begin(on bool, sent *pulse.Frame, m *moving) {
	w.Steps = []Step{{Kind: Start, Control: -1}}
	w.Readings = []pulse.Reading{
		{Kind: pulse.Plug, Value: 1}, {Kind: pulse.Link, Value: int32(bit(on))}, {Kind: pulse.Power}, {Kind: pulse.Cable}, {Kind: pulse.Controls, Frame: *sent},
	}
	if m.mode != 0 && m.mode != 2 && len(m.set) > 0 {
		w.Readings = append(w.Readings, pulse.Reading{Kind: pulse.StickMode, Value: int32(m.mode)})
	}
}

// add writes a step down; a wait behind another makes that longer.
func (w *Way) add(st Step) {
	if st.Kind.Counts() {
		w.Movements++
	}
	if last := &w.Steps[len(w.Steps)-1]; st.Kind == Wait && last.Kind == Wait {
		last.Ms += st.Ms
		last.Then |= st.Then
		return
	}
	w.Steps = append(w.Steps, st)
}

// times has the steps counted from the first power-up, at zero, or else from the beginning; the whole took until tick, slots being so long.
func (w *Way) times(zero, tick int64, slot uint16) {
	zero = max(zero, 0)
	w.Steps[0].At = 0
	for i := range w.Steps {
		w.Steps[i].At -= zero
	}
	if tick > 0 {
		w.Ms = tick - int64(slot)
	}
	w.Final = tick
}

var events = [...]struct {
	code happening.Code
	is   Event
}{
	{happening.Armed, Armed}, {happening.Disarmed, Disarmed}, {happening.LinkLost, LinkLost}, {happening.LinkBack, LinkBack},
	{happening.LinkClean, LinkClean}, {happening.Sinking, Sinking}, {happening.SinkEnded, SinkEnded}, {happening.Refused, Refused},
	{happening.Mode, ModeChanged}, {happening.Settled, Settled}, {happening.Gesture, GestureMade},
}

// eventsOf is what a way tells of what happened.
func eventsOf(all []happening.Happening) (is Event) {
	for _, h := range all {
		for _, e := range events {
			if h.Code == e.code {
				is |= e.is
			}
		}
	}
	return is
}

// claimOf is what a way claims of a craft with power, and of what happened in that very tick.
func claimOf(s *sim.SlotState, all []happening.Happening) Claim {
	c := Claim{Armed: s.Arming.Armed, Mode: uint8(s.Layout.Mode), Phase: uint8(s.Link.Phase), Sinking: s.Arming.Sink > 0}
	for _, code := range [...]happening.Code{happening.Armed, happening.Disarmed, happening.Refused, happening.SinkEnded, happening.Mode, happening.Gesture} {
		if slices.ContainsFunc(all, func(h happening.Happening) bool { return h.Code == code }) {
			c.Happens = uint8(code)
			break
		}
	}
	return c
}

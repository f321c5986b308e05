package mend

import (
	"slices"

	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/switches"
)

// order is that in which changes of a set are made: what is set in the radio first, for spans go by where its controls then stand.
func order(a, b Change) int {
	rank := func(c *Change) int {
		switch {
		case c.Kind == Travel:
			return 0
		case c.Kind <= AlwaysMode:
			return 1
		case c.Kind == Stored:
			return 3
		}
		return 2
	}
	return rank(&a) - rank(&b)
}

// Apply is a layout with changes made, which must be in order; false where they cannot be made: positions that lie too close together for
// an edge between them.
func Apply(l *prove.Layout, changes []Change) (prove.Layout, bool) {
	out := *l
	out.Radio.Controls = slices.Clone(l.Radio.Controls)
	for i := range changes {
		if !apply(&out, &changes[i]) {
			return out, false
		}
	}
	out.Config.Link.Needed = out.Config.Layout.Needed()
	return out, true
}

func apply(l *prove.Layout, ch *Change) bool {
	cfg := &l.Config
	lay := &cfg.Layout
	switch ch.Kind {
	case Travel:
		travel(l, ch.Control)
	case ArmOn, ArmCarried, ArmBySwitch:
		if ch.Kind != ArmOn {
			carry(l, ch, &lay.Arm)
			cfg.Arming.By = arming.BySwitch
		}
		return span(l, ch, &lay.ArmSpan)
	case SecondOn, SecondCarried:
		if ch.Kind != SecondOn {
			carry(l, ch, &lay.Second)
		}
		return span(l, ch, &lay.SecondSpan)
	case ModesAt, ModeCarried:
		if ch.Kind != ModesAt {
			carry(l, ch, &lay.Mode)
		}
		at := placesOf(&l.Radio.Controls[ch.Control])
		spans := spansFor(at, ch.Places)
		if !edges(at, ch.Places) || len(spans) > layout.MaxModeSpans {
			return false
		}
		clear(lay.Spans[:])
		lay.SpanCount = int8(copy(lay.Spans[:], spans))
	case ArmBySticks:
		forget(l, lay.Arm)
		lay.Arm, cfg.Arming.By = layout.NoChannel, arming.BySticks
	case NoSecond:
		forget(l, lay.Second)
		lay.Second = layout.NoChannel
	case NoModes:
		forget(l, lay.Mode)
		lay.Mode, lay.FixedMode, lay.SpanCount = layout.NoChannel, layout.Angle, 0
	case AlwaysMode:
		lay.FixedMode = layout.Mode(ch.Is)
	case WhenLost:
		cfg.Arming.SinkSlots = sim.Slots(int(ch.Is), cfg.SlotTicks)
	case Receiver:
		cfg.Link.OnLoss, cfg.Link.Stored = link.OnLoss(ch.Is), pulse.Frame{}
	case Stored:
		cfg.Link.Stored[ch.Channel] = pulse.Width(ch.Is)
	default:
		return setNumber(cfg, ch)
	}
	return true
}

// span puts on and off at the places of the control of a change.
func span(l *prove.Layout, ch *Change, to *layout.Span) bool {
	at := placesOf(&l.Radio.Controls[ch.Control])
	s, ok := onSpan(at, ch.Places)
	if !ok || !edges(at, ch.Places) {
		return false
	}
	*to = s
	if ch.Kind == ArmBySwitch && l.Config.Link.OnLoss == link.SendsStored {
		l.Config.Link.Stored[ch.Is] = off(at, ch.Places)
	}
	return true
}

// off is the width of the first place that is off.
func off(at []switches.Position, want []int8) pulse.Width {
	return at[max(slices.Index(want, 0), 0)].Width
}

// carry has another control do a job: by what the radio sends on which channel, or by which channel the craft listens to.
func carry(l *prove.Layout, ch *Change, job *int8) {
	if !ch.Swaps {
		stored := &l.Config.Link.Stored
		if was := *job; was != layout.NoChannel {
			stored[ch.Is], stored[was] = stored[was], pulse.Missing
		}
		*job = int8(ch.Is)
		return
	}
	o := &l.Radio.Controls[ch.Control]
	for i := range l.Radio.Controls {
		if c := &l.Radio.Controls[i]; c.Channel == *job {
			c.Channel, o.Channel = o.Channel, c.Channel
			c.Job, o.Job = o.Job, c.Job
			return
		}
	}
	o.Channel = *job
}

// forget takes away what the receiver stores for a channel.
func forget(l *prove.Layout, channel int8) {
	if channel != layout.NoChannel {
		l.Config.Link.Stored[channel] = pulse.Missing
	}
}

// together reports whether two changes may be made at once: they are about different things.
func together(a, b *Change) bool {
	about := func(k Kind) int {
		switch k {
		case ArmOn, ArmCarried, ArmBySwitch, ArmBySticks:
			return int(ArmOn)
		case SecondOn, SecondCarried, NoSecond:
			return int(SecondOn)
		case ModesAt, ModeCarried, NoModes, AlwaysMode:
			return int(ModesAt)
		case WhenLost, SinkTime, SinkCarries:
			return int(WhenLost)
		case Receiver, Stored:
			return int(Receiver)
		}
		return int(k)
	}
	carried := func(c *Change) bool { return c.Kind >= ArmCarried && c.Kind <= ArmBySwitch }
	switch {
	case a.Kind == Stored && b.Kind == Stored, a.Kind == Travel && b.Kind == Travel:
		return a.Channel != b.Channel
	case carried(a) && carried(b) && a.Control == b.Control:
		return false
	}
	return about(a.Kind) != about(b.Kind)
}

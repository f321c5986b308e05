package facts

import (
	"propsoff.example/cmd/propsoff/internal/lossrun"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// Never is the time of what does not happen.
const Never = -1

// Quiet is what becomes of a craft when the radio falls silent and stays so. Times are ms from the radio's last frame, or Never.
//
// Of an armed craft it is told as in flight: sticks centred and the throttle up when the radio falls silent. Nobody moves it, and
// nothing about the craft refuses.
type Quiet struct {
	// Lost is when the craft takes the link for lost.
	Lost int64
	// Sinks is when an armed craft begins to sink, Disarmed when it is disarmed.
	Sinks, Disarmed int64
	// Ends is when an armed craft is disarmed whose sticks had just come into the disarming corner, by sticks.
	Ends int64
	// Arms is when a disarmed craft arms, with nobody at the radio.
	Arms int64
}

// ByValues reports whether an armed craft is disarmed by what the receiver sends in place of the radio, and not by a lost link.
func (q *Quiet) ByValues() bool {
	return q.Disarmed != Never && (q.Lost == Never || q.Disarmed < q.Lost)
}

// AtOnce reports whether an armed craft is disarmed in the very slot after the radio's last frame.
func (q *Quiet) AtOnce(cfg *sim.Config) bool { return q.Disarmed == int64(cfg.SlotTicks) }

// NeverSinks reports whether a craft that is to sink on a lost link never does, because of what its receiver sends meanwhile.
func (q *Quiet) NeverSinks(cfg *sim.Config) bool {
	return cfg.Arming.SinkSlots > 0 && q.Sinks == Never
}

// Silence asks the bench's own link, layout and arming what becomes of a craft when the radio falls silent.
func Silence(cfg *sim.Config) Quiet {
	q := Quiet{Lost: Never, Sinks: Never, Disarmed: Never, Ends: Never, Arms: Never}
	ready := settled(cfg)

	armed := ready
	armed.Arming = arming.State{Armed: true, OffFirst: true, Inside: cfg.Arming.By == arming.BySwitch, Still: ready.Arming.Still}
	flying := lossrun.Rest(cfg)
	lossrun.Arm(cfg, &flying, true)
	flying[cfg.Layout.Throttle] = pulse.High
	quiet(cfg, heard(cfg, armed, flying), func(s *sim.SlotState, ms int64) {
		first(&q.Lost, ms, !s.Link.Phase.Up())
		first(&q.Sinks, ms, s.Arming.Sink > 0)
		first(&q.Disarmed, ms, !s.Arming.Armed)
	})

	if cfg.Arming.By == arming.BySticks {
		corner := lossrun.Rest(cfg)
		corner[cfg.Layout.Yaw] = pulse.Low
		quiet(cfg, heard(cfg, armed, corner), func(s *sim.SlotState, ms int64) { first(&q.Ends, ms, s.Link.Phase.Up() && !s.Arming.Armed) })
	}

	// A disarmed craft arms by stored values whatever the hands last did, or by what they were at when the radio fell silent: with
	// sticks, on their way through the arm corner.
	hands := []pulse.Frame{lossrun.Rest(cfg)}
	if cfg.Arming.By == arming.BySticks {
		corner := hands[0]
		corner[cfg.Layout.Yaw] = pulse.High
		hands = append(hands, corner)
	}
	for _, f := range hands {
		s := heard(cfg, ready, f)
		if s.Arming.Armed {
			continue // by the hands
		}
		arms := int64(Never)
		quiet(cfg, s, func(s *sim.SlotState, ms int64) { first(&arms, ms, s.Arming.Armed) })
		if arms != Never && (q.Arms == Never || arms < q.Arms) {
			q.Arms = arms
		}
	}
	return q
}

// first notes the time at which something is so first.
func first(at *int64, ms int64, so bool) {
	if so && *at == Never {
		*at = ms
	}
}

// settled is a disarmed craft that only hands can refuse: it has stood still, the link is good, and the arm control was seen off.
func settled(cfg *sim.Config) sim.SlotState {
	s := cfg.PowerUp()
	rest := lossrun.Rest(cfg)
	for range int(max(cfg.Arming.StillSlots, cfg.Link.CleanSlots)) + 2 {
		s = heard(cfg, s, rest)
	}
	return s
}

// heard runs one slot that brings a frame of the radio.
func heard(cfg *sim.Config, s sim.SlotState, f pulse.Frame) sim.SlotState {
	s, _ = sim.StepSlot(cfg, s, &sim.SlotInput{Transmitting: true, Sent: f}, 0, nil)
	return s
}

// quiet runs slots without the radio until nothing changes any more, and shows the state after each with the time since the radio's
// last frame. It ends in any case once every time that link and arming know has passed twice.
func quiet(cfg *sim.Config, s sim.SlotState, see func(s *sim.SlotState, ms int64)) {
	a, most := &cfg.Arming, 2
	for _, slots := range [...]uint16{cfg.Link.SilenceSlots, cfg.Link.CleanSlots, a.StillSlots, a.ArmDwell, a.DisarmDwell, a.SinkSlots} {
		most += 2 * (int(slots) + 2)
	}
	for n := range most {
		was := s
		s, _ = sim.StepSlot(cfg, s, &sim.SlotInput{}, 0, nil)
		see(&s, int64(n+1)*int64(cfg.SlotTicks))
		if s == was {
			return
		}
	}
}

// Whole reports whether a receiver's stored values are a valid frame; a craft takes others for silence.
func Whole(cfg *sim.Config) bool { return link.ValidFrame(cfg.Link.Needed, &cfg.Link.Stored) }

// Gap is whether a craft takes the link for lost in a gap of the radio's.
type Gap uint8

const (
	NeverLost Gap = iota // it goes on taking it for there
	MayBeLost            // that follows from when between two frames the gap begins
	IsLost               // whenever the gap begins
)

// Loses says what gaps of so many ms do to the link of a craft that heard the radio before: one alone, or one every so many ms; Never is
// a gap that does not end.
func Loses(cfg *sim.Config, ms, every int64) Gap {
	lost, slot := Silence(cfg).Lost, int64(cfg.SlotTicks)
	switch {
	case lost == Never:
		return NeverLost
	case ms == Never || ms >= lost:
		return IsLost
	case ms > lost-slot, every != 0 && every-ms < slot: // no frame need fall between two gaps
		return MayBeLost
	}
	return NeverLost
}

package sim

import (
	"propsoff.example/sim/arming"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// SlotState is everything that link, layout and arming remember from slot to slot. Equal states are the same situation.
type SlotState struct {
	Link   link.State
	Layout layout.State
	Arming arming.State
}

var _ = map[SlotState]struct{}{}

// SlotInput is what one slot brings.
type SlotInput struct {
	// Transmitting is true when the radio is plugged in, switched on and sends Sent.
	Transmitting bool
	Sent         pulse.Frame
	Craft        arming.Conditions
	// First is true in the slot of power-up.
	First bool
}

// SlotFacts is what came of the slot, for the screen and for the ticks until the next one.
type SlotFacts struct {
	Link   link.Output
	Layout layout.Output
}

// PowerUp is the state in which a craft begins when it gets power.
func (cfg *Config) PowerUp() SlotState {
	return SlotState{Layout: layout.PowerUp(&cfg.Layout), Arming: arming.PowerUp()}
}

// StepSlot advances link, layout and arming by one slot, in this order. The bench runs this very function, and a search of
// all situations walks it. The log may be nil.
func StepSlot(cfg *Config, s SlotState, in *SlotInput, tick int64, log *happening.Log) (SlotState, SlotFacts) {
	var facts SlotFacts
	s.Link, facts.Link = link.Step(&cfg.Link, s.Link, link.Input{Transmitting: in.Transmitting, Sent: in.Sent}, tick, log)
	if facts.Link.Received {
		old := s.Layout.Mode
		s.Layout, facts.Layout = layout.Step(&cfg.Layout, s.Layout, &facts.Link.Frame)
		if s.Layout.Mode != old {
			log.Add(tick, happening.Mode, int32(s.Layout.Mode), int32(old))
		}
	}
	ai := armingInput(&s, &facts, in.Craft)
	ai.First = in.First
	s.Arming = arming.Step(&cfg.Arming, s.Arming, &ai, tick, log)
	return s, facts
}

func armingInput(s *SlotState, facts *SlotFacts, c arming.Conditions) arming.Input {
	return arming.Input{
		Phase: s.Link.Phase, Received: facts.Link.Received, Valid: facts.Link.Valid, Origin: facts.Link.Origin,
		Throttle: facts.Layout.Throttle, Yaw: facts.Layout.Yaw,
		Arm: facts.Layout.Arm, Second: facts.Layout.Second,
		Mode: s.Layout.Mode, Missing: facts.Layout.Missing, Craft: c,
	}
}

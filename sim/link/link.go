// Package link says what the receiver hands on, and when the link counts as lost or clean.
//
// Time goes in slots, one frame period each. Step is called once a slot, whether or not a frame comes; between slots
// nothing here changes, so a search slot by slot is exact.
package link

import (
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// OnLoss is what a receiver does when the radio goes silent.
type OnLoss uint8

const (
	FallsSilent OnLoss = iota // no pulses: what the trade sets for a multirotor
	RepeatsLast               // hold: the craft cannot know that the link is gone
	SendsStored               // preset: stored values
)

// Config is the receiver and the craft's judgement of the link.
type Config struct {
	// OnLoss is what the receiver does when the radio goes silent.
	OnLoss OnLoss
	// Stored is what SendsStored sends.
	Stored pulse.Frame
	// Needed has bit c set when a frame is valid only with a valid pulse on channel index c.
	Needed uint16
	// SilenceSlots is the silence limit in slots, at least 1: that many slots without a valid frame lose the link.
	SilenceSlots uint16
	// CleanSlots is the clean time in slots: after a loss every slot must bring a valid frame for this long before the link is good.
	CleanSlots uint16
}

// Phase is the craft's judgement of the link.
type Phase uint8

const (
	Never Phase = iota // no valid frame since power-up: lost too
	Lost               // the silence limit has passed since the last valid frame
	Fresh              // valid frames again, clean time not yet passed
	Good               // valid frames, and the clean time has passed
)

// Up reports whether valid frames count as coming in at present.
func (p Phase) Up() bool { return p == Fresh || p == Good }

// State is everything the link remembers from slot to slot. Its zero value is the state at power-up. Two equal States
// are the same situation: counters that no longer matter are 0.
type State struct {
	Phase Phase
	// Heard is true once the receiver has heard the radio since power-up; it is kept only where OnLoss needs it.
	Heard bool
	// Last is the last frame from the radio; it is kept only for RepeatsLast.
	Last pulse.Frame
	// Gap counts slots since the last valid frame while the link is up.
	Gap uint16
	// Clean is one more than the slots of clean time that have passed, 0 while the clean time waits to start (Fresh only).
	Clean uint16
}

var _ = map[State]struct{}{}

// Input is what the radio does in this slot.
type Input struct {
	// Transmitting is true when the radio's frame arrives in this slot.
	Transmitting bool
	// Sent is that frame.
	Sent pulse.Frame
}

// Origin is where the frame comes from that the receiver hands on.
type Origin uint8

const (
	FromRadio  Origin = iota // the radio sent it
	FromRepeat               // the radio is silent, and the receiver repeats its last frame
	FromStore                // the radio is silent, and the receiver sends its stored values
	Origins                  // how many there are
)

// Output is what the craft gets in this slot.
type Output struct {
	// Received is true when the receiver handed on a frame, Frame, whatever its Origin.
	Received bool
	Origin   Origin
	Frame    pulse.Frame
	// Valid is true when every needed channel of that frame carries a valid pulse.
	Valid bool
}

// Step advances the link by one slot. The log may be nil.
func Step(cfg *Config, s State, in Input, tick int64, log *happening.Log) (State, Output) {
	out := receive(cfg, &s, in)
	if out.Valid {
		s.Gap = 0
		switch s.Phase {
		case Never, Lost:
			s.Phase, s.Clean = Fresh, 0
			log.Add(tick, happening.LinkBack, 0, 0)
			fallthrough
		case Fresh:
			s.Clean++
			if s.Clean > cfg.CleanSlots {
				s.Phase, s.Clean = Good, 0
				log.Add(tick, happening.LinkClean, 0, 0)
			}
		}
		return s, out
	}
	if s.Phase.Up() {
		s.Clean = 0 // a slot without a valid frame starts the clean time afresh
		s.Gap++
		if s.Gap >= cfg.SilenceSlots {
			s.Phase, s.Gap = Lost, 0
			log.Add(tick, happening.LinkLost, 0, 0)
		}
	}
	return s, out
}

// receive is the receiver: the radio's frame, or what it makes up when there is none.
func receive(cfg *Config, s *State, in Input) Output {
	var out Output
	switch {
	case in.Transmitting:
		out.Received, out.Frame = true, in.Sent
		if cfg.OnLoss != FallsSilent {
			s.Heard = true
		}
		if cfg.OnLoss == RepeatsLast {
			s.Last = in.Sent
		}
	case cfg.OnLoss == RepeatsLast && s.Heard:
		out.Received, out.Origin, out.Frame = true, FromRepeat, s.Last
	case cfg.OnLoss == SendsStored && s.Heard:
		out.Received, out.Origin, out.Frame = true, FromStore, cfg.Stored
	}
	out.Valid = out.Received && ValidFrame(cfg.Needed, &out.Frame)
	return out
}

// ValidFrame reports whether every channel whose bit is set in needed carries a valid pulse.
func ValidFrame(needed uint16, f *pulse.Frame) bool {
	for c := range f {
		if needed>>c&1 == 1 && !f[c].Valid() {
			return false
		}
	}
	return true
}

package sim

import (
	"propsoff.example/sim/arming"
	"propsoff.example/sim/body"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/vec"
)

// Hover is how fast each motor of a craft turns in a hover with a full pack, and the throttle that asks for it.
func Hover(cfg *Config) (speed [flight.Motors]float64, throttle pulse.Width) {
	b := &cfg.Body
	full := body.State{Att: vec.Q{W: 1}}
	volts := b.Volts(&full, true)
	at := b.Carries(1, volts)
	for i := range full.Speed {
		full.Speed[i] = at * b.FullSpeed * volts / b.Pack.Nominal
	}
	at = b.Carries(1, b.Volts(&full, true))
	idle := float64(cfg.Flight.IdleSpeed) / flight.FullSpeed
	return full.Speed, pulse.Micros(1000) + pulse.Width((at-idle)/(1-idle)*1000*pulse.Eighths)
}

// flyThere puts the craft into a hover on the air bench, so many mm up, as somebody would hand it over who has flown it there: armed, its motors at the
// speed that carries it, a fresh pack in it. From the next slot on the hands fly it, wherever they are. Where anything else would refuse arming than the
// throttle, which is up, or where the arm switch is off, it is not handed over: it stands on the ground, disarmed.
func (b *Bench) flyThere(mm int32, log *happening.Log) {
	s := &b.s
	if s.In.Powered {
		b.power(false, log)
	}
	b.place(pulse.InAir)
	b.power(true, nil)
	at := int32(pulse.InAir)
	if b.handOver(vec.Mul(float64(mm), 0.001)) {
		at = pulse.HoverAt(mm)
	}
	log.Add(s.Tick, happening.Moved, at, 0)
	log.Add(s.Tick, happening.Power, 1, 0)
}

// handOver has a craft that stands on the air bench hover so many metres up, and reports whether it does.
func (b *Bench) handOver(height float64) bool {
	s, cfg := &b.s, &b.cfg
	slot := cfg.PowerUp()
	slot.Link.Phase = link.Good
	slot.Arming = arming.State{Armed: true, Inside: cfg.Arming.By == arming.BySwitch, OffFirst: true, Still: cfg.Arming.StillSlots}
	craft := b.conditions()
	slot, facts := StepSlot(cfg, slot, &SlotInput{Transmitting: s.In.Transmitting(), Sent: s.In.Sent, Craft: craft}, s.Tick, nil)
	in := armingInput(&slot, &facts, craft)
	refused := arming.Refusals(&cfg.Arming, &slot.Arming, &in) &^ (1<<arming.ThrottleUp | 1<<arming.OffFirst)
	if !slot.Arming.Armed || !facts.Link.Valid || refused != 0 {
		return false
	}
	s.Slot, s.Facts = slot, facts
	s.LastValid, s.LastValidTick = facts.Link.Frame, s.Tick
	b.see(&s.LastValid)
	a := &s.Air
	a.Body = body.State{Pos: vec.V{Z: -height}, Att: vec.Q{W: 1}}
	a.Body.Speed, _ = Hover(cfg)
	a.Flying, a.Top, a.Lifts, a.Clear = true, height, true, clearFor
	return true
}

package lossrun

import (
	"math"

	"propsoff.example/input"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/body"
	"propsoff.example/sim/pulse"
)

// Pilot is the hands of a demonstration for somebody who cannot fly: it arms, climbs to a height, hovers, and keeps its hands still
// while the radio is silent. When the radio is back it lowers the throttle, puts the arm switch off, arms and disarms, slowly
// enough for a class to follow. It looks at the craft as a person does, and is an input.Source.
//
// It moves hands only. Whoever lets it fly carries the craft outside and puts the propellers right.
type Pilot struct {
	cfg    sim.Config
	height float64
	look   func(*sim.Snapshot)

	snap     sim.Snapshot
	frame    pulse.Frame
	at       int64 // µs of the next look
	plugged  bool
	closed   bool
	does     doing
	since    int64 // µs at which it began to
	hover    float64
	integral float64
}

// doing is what the pilot is at.
type doing uint8

const (
	waits doing = iota
	arms
	flies
	holdsStill
	startsOver
)

// Times of the pilot in µs and its numbers (ours). It looks fifty times a second, and waits a second before the first deed.
const (
	beat       = 20_000
	second     = 1_000_000
	climbMost  = 1.6 // m/s
	shortest   = 300_000
	lowersAt   = 2 * second
	disarmsAt  = 4 * second
	armsAt     = 6_500_000
	disarmsEnd = 9_500_000
	longestGap = 60 * second // what is beyond is left out: nobody looked
)

// NewPilot flies a craft to a height in m above the ground. look gives the craft as it is; the pilot calls it in Poll.
func NewPilot(cfg sim.Config, height float64, look func(*sim.Snapshot)) *Pilot {
	p := &Pilot{cfg: cfg, height: height, look: look, frame: Rest(&cfg)}
	b := &cfg.Body
	// The share of full speed at which four propellers carry the craft: k·ω² each.
	p.hover = math.Sqrt(b.Mass * body.Gravity / (body.Motors * b.Thrust * b.FullSpeed * b.FullSpeed))
	return p
}

// PilotName is the code word that a Pilot gives as its name.
const PilotName = "demonstration-pilot"

// Name is PilotName.
func (p *Pilot) Name() string { return PilotName }

// Wake is nil: it plays by time alone.
func (p *Pilot) Wake() <-chan struct{} { return nil }

// Close ends it.
func (p *Pilot) Close() error { p.closed = true; return nil }

// Poll appends what its hands did up to until; input.ErrEnd once it is closed.
func (p *Pilot) Poll(dst []pulse.Reading, until int64) ([]pulse.Reading, error) {
	if p.closed {
		return dst, input.ErrEnd
	}
	p.at = max(p.at, until-until%beat-longestGap)
	for ; p.at <= until; p.at += beat {
		was := p.frame
		if p.look != nil {
			p.look(&p.snap)
		}
		p.act(p.at)
		if !p.plugged {
			p.plugged = true
			dst = append(dst, pulse.Reading{At: p.at, Kind: pulse.Plug, Value: 1}, pulse.Reading{At: p.at, Kind: pulse.Controls, Frame: p.frame})
		} else if p.frame != was {
			dst = append(dst, pulse.Reading{At: p.at, Kind: pulse.Controls, Frame: p.frame})
		}
	}
	return dst, nil
}

// turnTo goes over to another thing at a time.
func (p *Pilot) turnTo(d doing, at int64) { p.does, p.since = d, at }

// act decides what the hands do at a time in µs.
func (p *Pilot) act(at int64) {
	s, l := &p.snap, &p.cfg.Layout
	on := s.In.Transmitting()
	passed := at - p.since
	switch p.does {
	case waits:
		if on && s.In.Air && s.In.Powered && !s.Armed && s.Refusals == 0 && passed >= second {
			p.arm(true)
			p.turnTo(arms, at)
		}
	case arms:
		switch {
		case s.Armed && passed >= second:
			p.arm(true)
			p.frame[l.Yaw] = pulse.Centre
			p.integral = 0
			p.turnTo(flies, at)
		case passed > 3*second: // it was refused
			p.frame = Rest(&p.cfg)
			p.turnTo(waits, at)
		}
	case flies:
		if !on {
			p.turnTo(holdsStill, at)
			return
		}
		p.frame[l.Throttle] = p.throttle()
	case holdsStill:
		switch {
		case on && passed < shortest:
			p.turnTo(flies, at)
		case on:
			p.turnTo(startsOver, at)
		}
	case startsOver:
		if !on {
			p.turnTo(holdsStill, at-shortest) // however short: it flies no more
			return
		}
		p.startOver(passed)
	}
}

// startOver is what hands do to arm again, at a time in µs after the radio came back.
func (p *Pilot) startOver(passed int64) {
	yaw := &p.frame[p.cfg.Layout.Yaw]
	if passed >= lowersAt {
		p.frame[p.cfg.Layout.Throttle] = pulse.Low
	}
	switch {
	case passed >= disarmsEnd:
		p.arm(false)
		if passed >= disarmsEnd+second {
			*yaw = pulse.Centre
		}
	case passed >= armsAt:
		p.arm(true)
		if passed >= armsAt+2*second {
			*yaw = pulse.Centre
		}
	case passed >= disarmsAt:
		p.arm(false)
		if passed >= disarmsAt+second {
			*yaw = pulse.Centre
		}
	}
}

// arm puts the arm switch over; by sticks it takes yaw into the corner.
func (p *Pilot) arm(on bool) {
	if p.cfg.Arming.By == arming.BySticks {
		p.frame[p.cfg.Layout.Yaw] = pulse.Low
		if on {
			p.frame[p.cfg.Layout.Yaw] = pulse.High
		}
		return
	}
	Arm(&p.cfg, &p.frame, on)
}

// throttle holds the height: the acceleration that brings it nearer, the motor speed that gives it, and the stick for that.
func (p *Pilot) throttle() pulse.Width {
	b := &p.snap.Air.Body
	climb := -b.Vel.Z
	want := min(max(0.8*(p.height+b.Pos.Z), -climbMost), climbMost)
	p.integral = min(max(p.integral+0.4*(want-climb)*beat/second, -2), 3) // the pack gives less and less
	push := min(max(2.2*(want-climb)+p.integral, -6), 6)
	speed := p.hover * math.Sqrt(1+push/body.Gravity)
	idle := float64(p.cfg.Flight.IdleSpeed) / 10000
	fraction := min(max((speed-idle)/(1-idle), 0.02), 1)
	return pulse.Micros(1000) + pulse.Width(fraction*1000*pulse.Eighths)
}

// Hovering tells whether a craft hangs near a height, m: within 0.2 m and 0.1 m/s (ours). One that has come to hover still does within
// five times that.
func Hovering(s *sim.Snapshot, height float64, still bool) bool {
	b, times := &s.Air.Body, 1.0
	if still {
		times = 5
	}
	return s.Armed && s.Air.Flying && math.Abs(-b.Pos.Z-height) < 0.2*times && math.Abs(b.Vel.Z) < 0.1*times
}

// Package flight goes from sticks and attitude to motor commands: angle, horizon, rate and air mode.
//
// On the desk bench the craft stands still, so the motors follow the throttle alone.
package flight

import (
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// Motors is the number of motors: front left, front right, rear left, rear right.
const Motors = 4

// FullSpeed is a motor command at full speed; commands are in 1/10000 of it.
const FullSpeed = 10000

// AtLowThrottle is what an armed craft's motors do while the throttle is low.
type AtLowThrottle uint8

const (
	StandStill AtLowThrottle = iota // they start as the throttle rises: safer for a beginner
	Idle                            // they idle from the moment of arming: for the experienced
)

// Config is how the motors are driven.
type Config struct {
	AtLowThrottle AtLowThrottle
	// IdleSpeed is the motor speed at idle, in 1/10000 of full speed.
	IdleSpeed uint16
	// AirModes has bit m set when air mode is on in flight mode m.
	AirModes uint8
	// AirWake is the throttle fraction (of pulse.ThrottleFull) that must be passed once since arming to wake air mode.
	AirWake int
	// SinkCarries is the share of its weight, in 1/1000, that the motors of a sinking craft carry.
	SinkCarries uint16
}

// State is what flight remembers from tick to tick. Its zero value is a disarmed craft.
type State struct {
	// Passed: the throttle has passed the waking point since arming.
	Passed bool
	// AirAwake: air mode has woken; it stays so until disarmed.
	AirAwake bool
}

var _ = map[State]struct{}{}

// Input is what flight is given for one tick.
type Input struct {
	Armed bool
	// Throttle is the throttle fraction, 0..pulse.ThrottleFull.
	Throttle int
	// Low is true while the throttle stands below the low mark.
	Low  bool
	Mode layout.Mode
	// Sinking: the link is lost. Throttle is then that of the last valid frame, and the motors turn at SinkSpeed, but never faster
	// than that throttle asks.
	Sinking   bool
	SinkSpeed uint16
}

// Step advances by one tick and gives the speed asked of each motor, in 1/10000 of full speed.
func Step(cfg *Config, s State, in Input) (State, [Motors]uint16) {
	var speed [Motors]uint16
	if !in.Armed {
		return State{}, speed
	}
	if in.Throttle > cfg.AirWake && !in.Sinking {
		s.Passed = true
	}
	if s.Passed && cfg.AirModes>>in.Mode&1 == 1 {
		s.AirAwake = true
	}
	if in.Low && cfg.AtLowThrottle == StandStill && !s.AirAwake && !in.Sinking {
		return s, speed
	}
	idle := int(cfg.IdleSpeed)
	v := idle + (FullSpeed-idle)*in.Throttle/pulse.ThrottleFull
	if in.Sinking {
		v = min(v, int(in.SinkSpeed))
	}
	for i := range speed {
		speed[i] = uint16(v)
	}
	return s, speed
}

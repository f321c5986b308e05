package body

import (
	"math"

	"propsoff.example/sim/vec"
)

// past is how far, in advance ratio, thrust keeps its straight line beyond both ends of a propeller's use: to −past on a fall into its
// own wash, which is not modelled, and to past beyond the point without thrust. Further out it is held.
const past = 0.2

// Wash is the advance ratio below which a propeller falls into its own wash and thrust is held.
const Wash = -past

// thrust is the force of motor i, N, up along the craft's own axis, at a speed (rad/s) and with the craft moving up along that axis by
// inflow (m/s). With n = speed/2π and J = inflow/(n·D) it is k·n²·(1 − J/J₀): blade elements give nearly that straight line, which is
// nought near the pitch-to-diameter ratio (textbook of propellers; from memory). A propeller that is turned the wrong way round
// pushes the other way, and takes its air from there.
func (cfg *Config) thrust(i int, speed, inflow float64) float64 {
	push := cfg.Thrust
	if cfg.Hand[i] != cfg.Turns[i] {
		push, inflow = vec.Mul(cfg.Reversed, push), -inflow
	}
	if cfg.Idle > 0 {
		// J·speed = 2π·inflow/D, so that nothing is divided by a speed of nought.
		advance := vec.Mul(2*math.Pi, inflow) / cfg.Diameter
		advance = min(max(advance, vec.Mul(-past, speed)), vec.Mul(cfg.Idle+past, speed))
		push = vec.Mul(push, vec.Mul(speed, speed-advance/cfg.Idle))
	} else {
		push = vec.Mul(push, vec.Mul(speed, speed))
	}
	if cfg.Hand[i] != cfg.Turns[i] {
		return -push
	}
	return push
}

// inflow is how fast motor i moves up along the craft's axis in the air that passes the craft, m/s; all in body axes.
func (cfg *Config) inflow(i int, through, spin vec.V) float64 {
	x, y := cfg.place(i)
	return -(through.Z + vec.Mul(spin.X, y) - vec.Mul(spin.Y, x))
}

// Lift is the force of all motors along the craft's own upward axis, N, in air that moves by wind (m/s, world axes).
func (cfg *Config) Lift(s *State, wind vec.V) float64 {
	through := s.Att.Unit().Back(s.Vel.Sub(wind))
	var lift float64
	for i := range s.Speed {
		if cfg.Hand[i] == 0 {
			continue
		}
		lift += cfg.thrust(i, s.Speed[i], cfg.inflow(i, through, s.Spin))
	}
	return lift
}

// InWash tells whether the thrust of some propeller that turns is held, since it falls into its own wash in air that moves by wind (m/s,
// world axes).
func (cfg *Config) InWash(s *State, wind vec.V) bool {
	if cfg.Idle <= 0 {
		return false
	}
	through := s.Att.Unit().Back(s.Vel.Sub(wind))
	for i, speed := range s.Speed {
		inflow := cfg.inflow(i, through, s.Spin)
		if cfg.Hand[i] != cfg.Turns[i] {
			inflow = -inflow
		}
		if cfg.Hand[i] != 0 && speed > vec.Mul(turns, cfg.FullSpeed) && vec.Mul(2*math.Pi, inflow)/cfg.Diameter < vec.Mul(Wash, speed) {
			return true
		}
	}
	return false
}

// Carries is the motor command, 0 … 1, at which motors that have settled carry a share of the weight of a craft that neither climbs nor
// falls, at a voltage of its pack; 0 stands for the nominal one.
func (cfg *Config) Carries(share, volts float64) float64 {
	// Motors·Thrust·ω² = share·Mass·Gravity, and a command of 1 is FullSpeed at the nominal voltage.
	speed := math.Sqrt(vec.Mul(vec.Mul(share, cfg.Mass), Gravity) / vec.Mul(Motors, cfg.Thrust))
	if volts > 0 && cfg.Pack.Nominal > 0 {
		speed = vec.Mul(speed, cfg.Pack.Nominal/volts)
	}
	return min(speed/cfg.FullSpeed, 1)
}

// Lead is how long, in s, the reaction of the air at full speed must act to turn the craft as far as speeding up its motors does by their
// inertia: Turning·Δω against 2·Torque·ω·Δω.
func (cfg *Config) Lead() float64 {
	if cfg.Torque <= 0 {
		return 0
	}
	return cfg.Turning / vec.Mul(vec.Mul(2, cfg.Torque), cfg.FullSpeed)
}

// Held is how quickly the air ends a turn about forward, right and down by what it does to the motors of a craft that they carry, 1/s: it
// flows into those that sink and out of those that rise, and drags at rotors that go round.
func (cfg *Config) Held() vec.V {
	speed := vec.Mul(cfg.Carries(1, 0), cfg.FullSpeed)
	inflow := 0.0
	if cfg.Idle > 0 {
		inflow = vec.Mul(vec.Mul(vec.Mul(Motors, cfg.Thrust), speed), 2*math.Pi) / vec.Mul(cfg.Diameter, cfg.Idle)
	}
	x, y := vec.Mul(cfg.ArmForward, cfg.ArmForward), vec.Mul(cfg.ArmRight, cfg.ArmRight)
	around := vec.Mul(vec.Mul(vec.Mul(Motors, cfg.RotorDrag), speed), x+y)
	return vec.V{X: vec.Mul(inflow, y) / cfg.Inertia.X, Y: vec.Mul(inflow, x) / cfg.Inertia.Y, Z: around / cfg.Inertia.Z}
}

// Package body: a rigid body with four motors obeys physics for one step.
//
// Six degrees of freedom, a quaternion attitude, four motors in X with first-order lag, thrust and reaction torque by the
// square of motor speed, drag −(k₁ + k₂·|v|)·v and its like for rotation, gravity, ground contact with friction, and a pack
// whose voltage sags. One step of the classic fourth-order Runge-Kutta method. World axes are north, east, down; body axes
// forward, right, down (the usual ones of flight mechanics). All in SI units.
package body

import (
	"math"

	"propsoff/sim/vec"
)

// Motors is the number of motors: front left, front right, rear left, rear right.
const Motors = 4

// Gravity is the standard acceleration of free fall, m/s² (ISO 80000-3; CGPM 1901).
const Gravity = 9.80665

// Config holds the constants of a craft's body. A craft file makes it; Default has the shipped numbers.
type Config struct {
	// Mass is in kg, Inertia about forward, right and down in kg·m².
	Mass    float64
	Inertia vec.V
	// ArmForward and ArmRight are how far each motor sits from the middle, in m.
	ArmForward, ArmRight float64
	// HalfHeight is how far feet and top are from the middle, in m.
	HalfHeight float64
	// FullSpeed is a motor's speed at full command and nominal voltage, rad/s; Lag its time constant in s.
	FullSpeed, Lag float64
	// Thrust (N·s²) and Torque (N·m·s²) make a motor's force and reaction: these times the square of its speed in rad/s.
	Thrust, Torque float64
	// Reversed is the share of its thrust that a propeller has when it is turned the wrong way round.
	Reversed float64
	// Turns is each motor's direction seen from above, +1 clockwise, −1 counter-clockwise; Hand the direction in which the
	// propeller fitted to it lifts, 0 where none is fitted.
	Turns, Hand [Motors]int8
	// Drag1 (N·s/m) and Drag2 (N·s²/m²) are the drag of moving, Spin1 (N·m·s) and Spin2 (N·m·s²) that of turning: the first grow with
	// the speed, the second with its square.
	Drag1, Drag2, Spin1, Spin2 float64
	// Stiffness (N/m), Damping (N·s/m) and Friction (a coefficient) are those of each of the eight corners on the ground.
	Stiffness, Damping, Friction float64
	Pack                         Pack
	// Weightless takes gravity and ground away, for checks against closed forms.
	Weightless bool
}

// Pack is the battery. Voltage falls in a straight line with the charge used, and by the current through its resistance.
type Pack struct {
	// Full and Empty are the voltages at rest, Nominal the one for which FullSpeed holds; all in V.
	Full, Empty, Nominal float64
	// Charge is in A·s, Resistance in Ω; Current is what one motor takes at FullSpeed, in A (it grows with the cube of speed).
	Charge, Resistance, Current float64
}

// State is the whole body.
type State struct {
	// Pos (m) and Vel (m/s) are in world axes; the ground is at Pos.Z = 0, height is −Pos.Z.
	Pos, Vel vec.V
	// Att turns body axes into world axes; Spin is the body's rate about its own axes in rad/s.
	Att  vec.Q
	Spin vec.V
	// Speed is that of each motor, rad/s, never negative.
	Speed [Motors]float64
	// Used is the charge taken from the pack, A·s.
	Used float64
}

var _ = map[State]struct{}{}

// Input is what a step is given: the command of each motor, 0 … 1, and an outside force and torque (N, world axes; N·m, body axes),
// which are zero but in checks.
type Input struct {
	Command       [Motors]float64
	Force, Torque vec.V
}

// Standing is a craft that stands level on the ground, looking north, with still motors.
func Standing(cfg *Config) State {
	return State{Pos: vec.V{Z: -cfg.HalfHeight + cfg.sunk()}, Att: vec.Q{W: 1}}
}

// sunk is how far the feet press into the ground when the craft stands on all four.
func (cfg *Config) sunk() float64 {
	if cfg.Stiffness <= 0 {
		return 0
	}
	return vec.Mul(cfg.Mass, Gravity) / vec.Mul(4, cfg.Stiffness)
}

// Step advances s by dt seconds (a millisecond on the bench).
func Step(cfg *Config, s State, in *Input, dt float64) State {
	var k1, k2, k3, k4 rate
	half := vec.Mul(0.5, dt)
	cfg.rates(&s, in, &k1)
	m := s.after(half, &k1)
	cfg.rates(&m, in, &k2)
	m = s.after(half, &k2)
	cfg.rates(&m, in, &k3)
	m = s.after(dt, &k3)
	cfg.rates(&m, in, &k4)
	sixth := dt / 6
	k2.add(1, &k3)
	k1.add(2, &k2)
	k1.add(1, &k4)
	s = s.after(sixth, &k1)
	s.Att = s.Att.Unit()
	for i := range s.Speed {
		s.Speed[i] = max(s.Speed[i], 0)
	}
	return s
}

// rate is how fast each part of a state changes.
type rate struct {
	pos, vel vec.V
	att      vec.Q
	spin     vec.V
	speed    [Motors]float64
	used     float64
}

func (r *rate) add(k float64, q *rate) {
	r.pos, r.vel, r.spin = r.pos.Plus(k, q.pos), r.vel.Plus(k, q.vel), r.spin.Plus(k, q.spin)
	r.att = r.att.Plus(k, q.att)
	for i := range r.speed {
		r.speed[i] += vec.Mul(k, q.speed[i])
	}
	r.used += vec.Mul(k, q.used)
}

func (s *State) after(dt float64, r *rate) State {
	o := State{
		Pos: s.Pos.Plus(dt, r.pos), Vel: s.Vel.Plus(dt, r.vel), Att: s.Att.Plus(dt, r.att), Spin: s.Spin.Plus(dt, r.spin),
		Used: s.Used + vec.Mul(dt, r.used),
	}
	for i := range o.Speed {
		o.Speed[i] = s.Speed[i] + vec.Mul(dt, r.speed[i])
	}
	return o
}

// rates are the equations of motion.
func (cfg *Config) rates(s *State, in *Input, r *rate) {
	force, torque := in.Force, in.Torque
	att := s.Att.Unit()

	volts, amps := cfg.Pack.now(s, cfg.FullSpeed)
	top := cfg.FullSpeed
	if cfg.Pack.Nominal > 0 {
		top = vec.Mul(top, volts/cfg.Pack.Nominal)
	}
	r.used = amps
	var lift float64
	for i := range s.Speed {
		r.speed[i] = (vec.Mul(in.Command[i], top) - s.Speed[i]) / cfg.Lag
		if cfg.Hand[i] == 0 {
			continue
		}
		w2 := vec.Mul(s.Speed[i], s.Speed[i])
		t := vec.Mul(cfg.Thrust, w2)
		if cfg.Hand[i] != cfg.Turns[i] {
			t = -vec.Mul(cfg.Reversed, t)
		}
		lift += t
		x, y := cfg.place(i)
		// Thrust points up, which is −Z: the moment of (x, y, ·) × (0, 0, −t), and the reaction against the motor's turning.
		torque.X -= vec.Mul(y, t)
		torque.Y += vec.Mul(x, t)
		torque.Z -= vec.Mul(float64(cfg.Turns[i]), vec.Mul(cfg.Torque, w2))
	}
	force = force.Add(att.Turn(vec.V{Z: -lift}))
	force = force.Plus(-(cfg.Drag1 + vec.Mul(cfg.Drag2, s.Vel.Norm())), s.Vel)
	torque = torque.Plus(-(cfg.Spin1 + vec.Mul(cfg.Spin2, s.Spin.Norm())), s.Spin)
	if !cfg.Weightless {
		force.Z += vec.Mul(cfg.Mass, Gravity)
		cfg.ground(s, att, &force, &torque)
	}
	r.pos, r.vel = s.Vel, force.Scale(1/cfg.Mass)
	r.att = s.Att.Rate(s.Spin)
	// Euler's equations for a body whose axes are its principal ones.
	torque = torque.Sub(s.Spin.Cross(cfg.Inertia.Times(s.Spin)))
	r.spin = vec.V{X: torque.X / cfg.Inertia.X, Y: torque.Y / cfg.Inertia.Y, Z: torque.Z / cfg.Inertia.Z}
}

// place is where motor i sits, forward and right of the middle in m.
func (cfg *Config) place(i int) (forward, right float64) {
	forward, right = cfg.ArmForward, cfg.ArmRight
	if i >= 2 {
		forward = -forward
	}
	if i%2 == 0 {
		right = -right
	}
	return forward, right
}

// Carries is the motor command, 0 … 1, at which motors that have settled carry a share of the craft's weight at a voltage of its pack; 0
// stands for the nominal one.
func (cfg *Config) Carries(share, volts float64) float64 {
	// Motors·Thrust·ω² = share·Mass·Gravity, and a command of 1 is FullSpeed at the nominal voltage.
	speed := math.Sqrt(vec.Mul(vec.Mul(share, cfg.Mass), Gravity) / vec.Mul(Motors, cfg.Thrust))
	if volts > 0 && cfg.Pack.Nominal > 0 {
		speed = vec.Mul(speed, cfg.Pack.Nominal/volts)
	}
	return min(speed/cfg.FullSpeed, 1)
}

// Lift is the force of all motors along the craft's own upward axis, N.
func (cfg *Config) Lift(s *State) float64 {
	var lift float64
	for i := range s.Speed {
		t := vec.Mul(cfg.Thrust, vec.Mul(s.Speed[i], s.Speed[i]))
		switch cfg.Hand[i] {
		case 0:
		case cfg.Turns[i]:
			lift += t
		default:
			lift -= vec.Mul(cfg.Reversed, t)
		}
	}
	return lift
}

// now gives the pack's voltage under load and its current. A Pack with no Nominal voltage is an ideal one.
func (p *Pack) now(s *State, full float64) (volts, amps float64) {
	if p.Nominal <= 0 {
		return 0, 0
	}
	for _, w := range s.Speed {
		f := w / full
		amps += vec.Mul(p.Current, vec.Mul(f, vec.Mul(f, f)))
	}
	left := min(max(1-s.Used/p.Charge, 0), 1)
	volts = p.Empty + vec.Mul(p.Full-p.Empty, left) - vec.Mul(amps, p.Resistance)
	return max(volts, 0), amps
}

// Volts is the pack's voltage under its present load, V.
func (cfg *Config) Volts(s *State) float64 {
	v, _ := cfg.Pack.now(s, cfg.FullSpeed)
	return v
}

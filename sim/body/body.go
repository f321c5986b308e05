// Package body: a rigid body with four motors obeys physics for one step.
//
// Six degrees of freedom, a quaternion attitude, four motors in X with first-order lag, thrust that falls with the air that flows
// into the propeller, reaction of the air and of whatever turns, drag of body and rotors against the air around, gravity, ground
// contact with friction, and a pack whose voltage sags and dies. One step of the classic fourth-order Runge-Kutta method. World axes are
// north, east, down; body axes forward, right, down (the usual ones of flight mechanics). All in SI units.
package body

import "propsoff.example/sim/vec"

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
	// Diameter is that of a propeller, m, and Idle the advance ratio J = v/(n·D) at which it gives no thrust; where Idle is 0 thrust does
	// not depend on the air that flows in. RotorDrag (N·s²/m) times a motor's speed in rad/s and the air's across it is its drag.
	Diameter, Idle, RotorDrag float64
	// Turning is the moment of inertia of what turns in one motor, propeller included, kg·m²; that of the whole craft contains it.
	Turning float64
	// Turns is each motor's direction seen from above, +1 clockwise, −1 counter-clockwise; Hand the direction in which the
	// propeller fitted to it lifts, 0 where none is fitted.
	Turns, Hand [Motors]int8
	// Drag1 (N·s/m) and Drag2 (N·s²/m²) are the drag of moving, Spin1 (N·m·s) and Spin2 (N·m·s²) that of turning: the first grow with
	// the speed, the second with its square.
	Drag1, Drag2, Spin1, Spin2 float64
	// Stiffness (N/m), Damping (s/m: by so much of itself the force grows with each metre a second of going in) and Friction (a coefficient)
	// are those of each of the eight corners on the ground.
	Stiffness, Damping, Friction float64
	Pack                         Pack
	// Weightless takes gravity and ground away, for checks against closed forms.
	Weightless bool
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

// Input is what a step is given: the command of each motor, 0 … 1; whether the pack is plugged in; how the air moves (m/s, world axes);
// and an outside force and torque (N, world axes; N·m, body axes), which are zero but in checks.
type Input struct {
	Command       [Motors]float64
	On            bool
	Wind          vec.V
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
	att := s.Att.Unit().Frame()

	volts, amps := cfg.Pack.now(s, cfg.FullSpeed, in.On)
	top := cfg.FullSpeed
	if cfg.Pack.Nominal > 0 {
		top = vec.Mul(top, volts/cfg.Pack.Nominal)
	}
	r.used = amps
	air := s.Vel.Sub(in.Wind)
	through := att.In(air)
	var lift, turning float64
	var across vec.V
	for i := range s.Speed {
		r.speed[i] = (vec.Mul(in.Command[i], top) - s.Speed[i]) / cfg.Lag
		turns := float64(cfg.Turns[i])
		torque.Z -= vec.Mul(turns, vec.Mul(cfg.Turning, r.speed[i]))
		turning += vec.Mul(turns, s.Speed[i])
		if cfg.Hand[i] == 0 {
			continue
		}
		x, y := cfg.place(i)
		// How the motor itself moves through the air: v + ω × (x, y, 0).
		v := vec.V{
			X: through.X - vec.Mul(s.Spin.Z, y), Y: through.Y + vec.Mul(s.Spin.Z, x),
			Z: through.Z + vec.Mul(s.Spin.X, y) - vec.Mul(s.Spin.Y, x),
		}
		t := cfg.thrust(i, s.Speed[i], -v.Z)
		drag := vec.Mul(cfg.RotorDrag, s.Speed[i])
		fx, fy := -vec.Mul(drag, v.X), -vec.Mul(drag, v.Y)
		lift += t
		across.X, across.Y = across.X+fx, across.Y+fy
		// Thrust points up, which is −Z: the moment of (x, y, 0) × (fx, fy, −t), and the reaction against the motor's turning.
		torque.X -= vec.Mul(y, t)
		torque.Y += vec.Mul(x, t)
		torque.Z += vec.Mul(x, fy) - vec.Mul(y, fx) - vec.Mul(turns, vec.Mul(cfg.Torque, vec.Mul(s.Speed[i], s.Speed[i])))
	}
	across.Z = -lift
	force = force.Add(att.Out(across))
	force = force.Plus(-(cfg.Drag1 + vec.Mul(cfg.Drag2, air.Norm())), air)
	torque = torque.Plus(-(cfg.Spin1 + vec.Mul(cfg.Spin2, s.Spin.Norm())), s.Spin)
	if !cfg.Weightless {
		force.Z += vec.Mul(cfg.Mass, Gravity)
		cfg.ground(s, &att, &force, &torque)
	}
	r.pos, r.vel = s.Vel, force.Scale(1/cfg.Mass)
	r.att = s.Att.Rate(s.Spin)
	// Euler's equations for a body whose axes are its principal ones, with the angular momentum of what turns in it.
	momentum := cfg.Inertia.Times(s.Spin)
	momentum.Z += vec.Mul(cfg.Turning, turning)
	torque = torque.Sub(s.Spin.Cross(momentum))
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

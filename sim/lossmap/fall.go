package lossmap

import (
	"math"

	"propsoff.example/sim"
	"propsoff.example/sim/body"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/vec"
	"propsoff.example/sim/wind"
)

// Point is a situation in which the radio sends its last frame: the craft stands level over one place, its pack full, so many metres above
// the ground (as its middle is over it), climbing so fast (m/s), its throttle at a width and its motors settled there, in a steady wind of
// so many m/s at 20 ft.
type Point struct {
	Height, Climb float64
	Throttle      pulse.Width
	Wind          float64
}

// Outcome is what comes of it. Times are s from the radio's last frame; those of what does not happen are Never.
type Outcome struct {
	// Down is when it touches the ground first, Speed how fast it then is altogether and Sinks how fast downwards, m/s, and Away how far over
	// the ground from where it was, m.
	Down, Speed, Sinks, Away float64
	// Turns is until when its motors turn: they are told to stop, or it breaks as it touches the ground. A craft that stays armed ends by itself
	// when its pack is empty, at Empty, if that is before it touches the ground.
	Turns, Empty float64
	// Top is its greatest height, m.
	Top float64
}

// Longest is for how many s is looked; what flies on longer flies on (ours).
const Longest = 3600

// Steps in s, ours: while motors speed up or slow down, once they have settled, and when much time has passed already.
const (
	quick, usual, slow = 0.005, 0.02, 0.25
	muchTime           = 20
)

// settled is after how many Lags a motor has done what it was told: all but e^−12 of it.
const settled = 12

// Craft is what Fall needs of a craft; a copy is independent.
type Craft struct {
	b     body.Config
	least float64 // speed of turning motors
	share float64 // of its weight while it sinks
}

// Of takes what is needed of a craft.
func Of(cfg *sim.Config) Craft {
	return Craft{b: cfg.Body, least: cfg.Control.LeastSpeed, share: float64(cfg.Flight.SinkCarries) / 1000}
}

// state is a level craft: height and climb, how far it has drifted with the wind and how fast, one motor's speed, the charge used.
type state struct{ height, climb, away, drift, speed, used float64 }

func (s *state) after(dt float64, r *state) state {
	return state{
		s.height + vec.Mul(dt, r.height), s.climb + vec.Mul(dt, r.climb), s.away + vec.Mul(dt, r.away), s.drift + vec.Mul(dt, r.drift),
		s.speed + vec.Mul(dt, r.speed), s.used + vec.Mul(dt, r.used),
	}
}

// pack gives the pack's voltage under load and its current, as body.Pack does.
func (c *Craft) pack(s *state) (volts, amps float64) {
	p := &c.b.Pack
	if p.Nominal <= 0 {
		return 0, 0
	}
	f := s.speed / c.b.FullSpeed
	amps = p.Electronics + vec.Mul(body.Motors, vec.Mul(f, p.NoLoad+vec.Mul(p.Current, vec.Mul(f, f))))
	used := s.used / p.Charge
	rest := p.Empty + vec.Mul(p.Full-p.Empty, min(max(1-used, 0), 1))
	if p.Dies > 0 && used > 1 {
		rest = vec.Mul(p.Empty, max(1-(used-1)/p.Dies, 0))
	}
	return max(rest-vec.Mul(amps, p.Resistance), 0), amps
}

// dies tells whether the pack of the craft dies once it is empty.
func (c *Craft) dies() bool { return c.b.Pack.Nominal > 0 && c.b.Pack.Dies > 0 }

// past is how far body keeps the straight line of a propeller's thrust.
const past = -body.Wash

// lift is the force of all motors, N.
func (c *Craft) lift(s *state) float64 {
	push := vec.Mul(body.Motors, vec.Mul(c.b.Thrust, s.speed))
	if c.b.Idle <= 0 {
		return vec.Mul(push, s.speed)
	}
	advance := vec.Mul(2*math.Pi, s.climb) / c.b.Diameter
	advance = min(max(advance, vec.Mul(-past, s.speed)), vec.Mul(c.b.Idle+past, s.speed))
	return vec.Mul(push, s.speed-advance/c.b.Idle)
}

// rates are the equations of motion of sim/body for a level craft whose motors turn alike. Where still is set they have settled.
func (c *Craft) rates(s *state, o *order, wind float64, still bool) (r state) {
	volts, amps := c.pack(s)
	r.used = amps
	if !still {
		r.speed = (vec.Mul(c.command(o, volts), c.top(volts)) - s.speed) / c.b.Lag
	}
	air := s.drift - wind
	speed := math.Sqrt(vec.Mul(air, air) + vec.Mul(s.climb, s.climb))
	drag := c.b.Drag1 + vec.Mul(c.b.Drag2, speed)
	r.height, r.away = s.climb, s.drift
	r.climb = (c.lift(s)-vec.Mul(drag, s.climb))/c.b.Mass - body.Gravity
	r.drift = -vec.Mul(drag+vec.Mul(body.Motors, vec.Mul(c.b.RotorDrag, s.speed)), air) / c.b.Mass
	return r
}

// top is a motor's speed at full command.
func (c *Craft) top(volts float64) float64 {
	if c.b.Pack.Nominal > 0 {
		return vec.Mul(c.b.FullSpeed, volts/c.b.Pack.Nominal)
	}
	return c.b.FullSpeed
}

// step is one of the classic fourth-order Runge-Kutta method.
func (c *Craft) step(s *state, o *order, wind float64, still bool, dt float64) state {
	half := vec.Mul(0.5, dt)
	k1 := c.rates(s, o, wind, still)
	m := s.after(half, &k1)
	k2 := c.rates(&m, o, wind, still)
	m = s.after(half, &k2)
	k3 := c.rates(&m, o, wind, still)
	m = s.after(dt, &k3)
	k4 := c.rates(&m, o, wind, still)
	sum := k1.after(2, &k2)
	sum = sum.after(2, &k3)
	sum = sum.after(1, &k4)
	out := s.after(dt/6, &sum)
	out.speed = max(out.speed, 0)
	return out
}

// command is what each motor is told by an order, 0 … 1, at a pack's voltage.
func (c *Craft) command(o *order, volts float64) float64 {
	speed := o.speed
	if o.sinks {
		speed = min(speed, uint16(vec.Mul(c.b.Carries(c.share, volts), flight.FullSpeed)))
	}
	if speed == 0 {
		return 0
	}
	return min(max(float64(speed)/flight.FullSpeed, c.least), 1)
}

// settle is the speed that a motor comes to by a command: that of the charge which it had one Lag ago, as a pack that empties is followed so late.
func (c *Craft) settle(s *state, o *order, times int) {
	for range times {
		now, amps := c.pack(s)
		was := *s
		was.used -= vec.Mul(amps, c.b.Lag)
		volts, _ := c.pack(&was)
		s.speed = vec.Mul(c.command(o, now), c.top(volts))
	}
}

// Fall follows a craft from a point until it touches the ground, for Longest at most.
func Fall(c *Craft, r *Reaction, p *Point) Outcome {
	o, _ := fall(c, r, p)
	return o
}

// fall is Fall, and in how many steps.
func fall(c *Craft, r *Reaction, p *Point) (out Outcome, steps int) {
	breeze := wind.New(wind.Air{Speed: p.Wind}, 0.001)
	s := state{height: p.Height, climb: p.Climb}
	c.settle(&s, &order{speed: r.start}, settles)
	out = Outcome{Down: Never, Turns: Never, Empty: Never, Top: p.Height}
	if until := r.turnsUntil(); until != Never {
		out.Turns = float64(until) / 1000
	}
	fast, middling := min(quick, c.b.Lag/4), min(usual, vec.Mul(0.7, c.b.Lag))
	for t, next := 0.0, 0; t < Longest; steps++ {
		for next+1 < len(r.orders) && t >= float64(r.orders[next+1].from)/1000-1e-9 {
			next++
		}
		o := &r.orders[next]
		since := t - float64(o.from)/1000
		dt, near := fast, since > vec.Mul(settled, c.b.Lag)
		still := near && t > muchTime
		switch {
		case still:
			c.settle(&s, o, 1)
			dt = slow
		case near:
			dt = middling
		}
		if next+1 < len(r.orders) {
			dt = min(dt, float64(r.orders[next+1].from)/1000-t)
		}
		_, air := wind.Step(&breeze, wind.State{}, s.height+vec.Mul(0.5*dt, s.climb))
		n := c.step(&s, o, air.Norm(), still, dt)
		if n.height <= c.b.HalfHeight {
			at := vec.Mul(dt, c.meets(&s, &n, dt))
			n = c.step(&s, o, air.Norm(), still, at)
			out.touch(&n, t+at)
			return out, steps + 1
		}
		t, s = t+dt, n
		out.Top = max(out.Top, s.height)
		if out.Empty < 0 && c.dies() && s.used >= c.b.Pack.Charge {
			out.Empty = t
		}
	}
	return out, steps
}

// settles is how often the speed of a motor and the voltage that it leaves are worked out anew until they fit each other.
const settles = 50

// touch notes how a craft touches the ground.
func (o *Outcome) touch(s *state, t float64) {
	o.Down, o.Speed, o.Sinks, o.Away = t, math.Sqrt(vec.Mul(s.climb, s.climb)+vec.Mul(s.drift, s.drift)), max(-s.climb, 0), math.Abs(s.away)
	if o.Speed > sim.TooFast && (o.Turns < 0 || o.Turns > t) { // it breaks, and its motors stop
		o.Turns = t
	}
}

// meets is the share of a step at which the feet meet the ground, by the cubic through heights and climbs at both its ends (Hermite's).
func (c *Craft) meets(a, b *state, dt float64) float64 {
	low, high := 0.0, 1.0
	for range 40 {
		x := vec.Mul(0.5, low+high)
		y := 1 - x
		h := vec.Mul(vec.Mul(y, y), vec.Mul(1+vec.Mul(2, x), a.height)+vec.Mul(vec.Mul(x, dt), a.climb)) +
			vec.Mul(vec.Mul(x, x), vec.Mul(3-vec.Mul(2, x), b.height)-vec.Mul(vec.Mul(y, dt), b.climb))
		if h > c.b.HalfHeight {
			low = x
		} else {
			high = x
		}
	}
	return high
}

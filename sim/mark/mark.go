// Package mark: a mark that wanders without a pattern, and where one stick leads an ideal craft after it.
//
// A mark is a sum of sines, each with whole periods in the measured time, so that their lines stand apart in its spectrum and nothing of one leaks
// into another (references of the crossover model below). The seed turns their phases only: no run is like another, and each asks as much.
//
// The ideal craft does exactly what is asked of it: in angle its bank is the one that the stick asks for, in rate it turns as fast as the stick
// asks by the craft's own curve. It has no motors, no body, no air. Whoever has a body gives Run.Step its attitude instead of Ideal's.
package mark

import (
	"math"

	"propsoff.example/sim/chance"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/vec"
)

// Axis is which stick follows the mark.
type Axis uint8

// The axes; NoAxis is no mark at all. Up is the stick's high end: right, forward, right.
const (
	NoAxis Axis = iota
	Roll
	Pitch
	Yaw
	Axes
)

// The limits of one mark (ours): how long it may be followed in s, how far it may go in degrees.
const (
	LeastSeconds, MostSeconds = 30, 120
	LeastSize, MostSize       = 1, 60
)

// Config is one mark; its zero value is none.
type Config struct {
	Axis Axis
	// Mode is that in which the stick is asked: rate, or angle. Yaw asks for a rate in both.
	Mode layout.Mode
	// RunIn is how long the mark wanders before it counts, in ticks; Seconds is how long it counts.
	RunIn   int32
	Seconds uint16
	// Tenths is how far the mark goes at most to each side, in tenths of a degree.
	Tenths uint16
}

// On reports whether there is a mark.
func (c *Config) On() bool { return c.Axis != NoAxis }

// Ticks is how long the whole of it takes.
func (c *Config) Ticks() int64 { return int64(c.RunIn) + int64(c.Seconds)*1000 }

// Lines is how many sines a mark has.
const Lines = 10

// perMinute are the periods that each of them has in a minute at least: primes, so that none is a multiple of another, from 0.12 to 2.3 Hz, as
// far apart as people's crossover needs (ours; the experiments of 1965 had ten lines too, from memory).
func perMinute() [Lines]int { return [...]int{7, 11, 17, 23, 31, 41, 53, 71, 97, 137} }

// Periods is how many whole periods each line has in so many seconds: the first prime from its share of perMinute on.
func Periods(seconds int) (n [Lines]int) {
	last := 0
	for i, k := range perMinute() {
		p := max((k*seconds+59)/60, last+1)
		for !prime(p) {
			p++
		}
		n[i], last = p, p
	}
	return n
}

func prime(n int) bool {
	for d := 2; d*d <= n; d++ {
		if n%d == 0 {
			return false
		}
	}
	return n > 1
}

// bandwidth is where the lines begin to fall, in Hz: slow swings are large and fast ones small, so that a hand can follow (ours, 2.5 rad/s; the
// published experiments fall beyond 1.5, 2.5 or 4 rad/s, from memory).
const bandwidth = 2.5 / (2 * math.Pi)

// Course is the way of one mark. Use New.
type Course struct {
	periods    [Lines]int64
	size, turn [Lines]float64 // rad
	ticks      int64
	runIn      float64
}

// New makes the way of a mark from a seed.
func New(cfg *Config, seed uint64) Course {
	c := Course{ticks: int64(max(cfg.Seconds, 1)) * 1000, runIn: float64(max(cfg.RunIn, 1))}
	sum := 0.0
	for i, n := range Periods(int(cfg.Seconds)) {
		f := float64(n) / float64(max(cfg.Seconds, 1)) / bandwidth
		c.periods[i], c.size[i] = int64(n), 1/(1+vec.Mul(f, f))
		sum += c.size[i]
		seed = chance.At(seed, 0)
		c.turn[i] = vec.Mul(2*math.Pi, float64(seed>>11)/(1<<53))
	}
	for i := range c.size {
		c.size[i] = vec.Mul(c.size[i], vec.Mul(float64(cfg.Tenths)/10, flight.Degree)/sum)
	}
	return c
}

// At is where the mark stands so many ticks after it began, in rad; in the run-in it grows smoothly from nothing.
func (c *Course) At(tick int64) float64 {
	sum := 0.0
	for i, n := range c.periods {
		sum += vec.Mul(c.size[i], vec.Sine(vec.Mul(2*math.Pi, float64(n*tick%c.ticks)/float64(c.ticks))+c.turn[i]))
	}
	if grown := float64(tick) / c.runIn; grown < 1 {
		sum = vec.Mul(sum, vec.Mul(vec.Mul(grown, grown), 3-vec.Mul(2, grown)))
	}
	return sum
}

// Ideal is what the stick, from −1 to 1, has asked for after one more tick, in rad, given what it had asked for before: the bank in angle, else the
// sum of the rates. A craft that does exactly what is asked stands there.
func Ideal(cfg *Config, ctl *flight.Control, asked, stick float64) float64 {
	in := flight.ControlInput{Mode: cfg.Mode, Att: vec.Q{W: 1}}
	switch cfg.Axis {
	case Roll:
		in.Roll = stick
	case Pitch:
		in.Pitch = stick
	default:
		in.Yaw = stick
	}
	if cfg.Axis != Yaw && cfg.Mode.SelfLevelling() {
		bank, nose := ctl.Banks(cfg.Mode, in.Roll, in.Pitch)
		if cfg.Axis == Pitch {
			return -nose
		}
		return bank
	}
	rate := ctl.Ask(&in).Rate
	return asked + vec.Mul([Axes]float64{Roll: rate.X, Pitch: -rate.Y, Yaw: rate.Z}[cfg.Axis], step)
}

// step is a tick in s.
const step = 0.001

// Package stop flies on from a moment of flight as a hand answers an alarm so many ms later, and looks how far the craft still goes.
package stop

import (
	"math"

	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/hover"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/vec"
)

// Moment is how a craft flies when the alarm comes: its height in m, its speed along the ground and up in m/s, and how far it leans into its way, rad.
type Moment struct{ Height, Along, Climb, Lean float64 }

// The moments that are looked at (ours): a beginner's flights.
var (
	Least = Moment{Height: 1, Along: 0, Climb: -1.5, Lean: -0.3}
	Most  = Moment{Height: 8, Along: 5, Climb: 3, Lean: 0.3}
)

// Outcome is what comes of an alarm.
type Outcome struct {
	// Stands is after how many ms the motors are off, Down after how many the craft is on the ground.
	Stands, Down int64
	// Goes is how far along the ground it still goes, in m, at its farthest, and Touch how fast it comes down, in m/s.
	Goes, Touch float64
}

// Reactions are those of a curve, in ms after the alarm.
var Reactions = [...]int64{200, 400, 600, 800, 1000, 1200, 1400, 1600, 1800, 2000}

// longest is how long a fall is followed, in ticks: from far higher than any moment.
const longest = 20_000

// flying is a bench with a craft that flies so, its hands holding what makes it fly so.
func flying(cfg *sim.Config, m *Moment) sim.Bench {
	b := *hover.At(*cfg, m.Height, true).Bench()
	s, l := b.State(), &cfg.Layout
	sent := &s.In.Sent
	for c := range sent {
		sent[c] = pulse.Centre
	}
	sent[l.Throttle] = hover.Throttle(cfg)
	sent[l.Pitch] = pulse.Centre + pulse.Width(max(min(m.Lean/cfg.Control.BankLimit, 1), -1)*float64(pulse.Travel))
	within(sent, l)
	s.LastValid = *sent
	sin, cos := math.Sincos(-m.Lean / 2)
	body := &s.Air.Body
	body.Att, body.Vel = vec.Q{W: cos, Y: sin}, vec.V{X: m.Along, Z: -m.Climb}
	b.Restore(s)
	return b
}

// within puts the switches where a craft flies armed and in angle.
func within(f *pulse.Frame, l *layout.Config) {
	if l.Arm != layout.NoChannel {
		f[l.Arm] = somewhere(l.ArmSpan.Contains, pulse.High)
	}
	if l.Second != layout.NoChannel {
		f[l.Second] = somewhere(l.SecondSpan.Contains, pulse.High)
	}
	if l.Mode != layout.NoChannel {
		f[l.Mode] = somewhere(func(w pulse.Width) bool { return l.ModeAt(w) == layout.Angle }, pulse.Low)
	}
}

// somewhere is a width at which something is so, or another where there is none.
func somewhere(is func(pulse.Width) bool, other pulse.Width) pulse.Width {
	for w := pulse.Low; w <= pulse.High; w += pulse.Eighths {
		if is(w) {
			return w
		}
	}
	return other
}

// disarms is the hand that answers: the arm switch goes off, or the sticks into their corner, and the throttle down.
func disarms(b *sim.Bench) {
	s, l := b.State(), &b.Config().Layout
	f := &s.In.Sent
	if f[l.Throttle] = pulse.Low; l.Arm == layout.NoChannel {
		f[l.Yaw] = pulse.Low
	} else {
		f[l.Arm] = l.ArmSpan.Outside()
	}
	b.Restore(s)
}

// Curve is what comes of an alarm at a moment for each of some reactions, which rise, in ms.
func Curve(cfg *sim.Config, m Moment, reactions []int64, dst []Outcome) []Outcome {
	dst = dst[:0]
	b := flying(cfg, &m)
	first := b.Tick()
	var log happening.Log
	early := Outcome{Stands: -1} // of a craft that was on the ground before the hand came
	for _, r := range reactions {
		for b.Tick() < first+r && early.Stands < 0 {
			if log.Reset(); step(&b, &log, first, &early) {
				early.Stands = 0
			}
		}
		one := early
		if early.Stands < 0 {
			fall := b
			disarms(&fall)
			one = ends(&fall, first, early.Goes)
		} else {
			one.Stands = r // it has come down by itself; its motors stand when the hand has come
		}
		dst = append(dst, one)
	}
	return dst
}

// step runs one tick, and tells whether the craft has touched the ground in it.
func step(b *sim.Bench, log *happening.Log, first int64, o *Outcome) bool {
	b.Step(nil, log)
	p := b.State().Air.Body.Pos
	o.Goes = max(o.Goes, vec.V{X: p.X, Y: p.Y}.Norm())
	for _, h := range log.All() {
		if h.Code == happening.TouchedDown {
			o.Down, o.Touch = b.Tick()-first, float64(h.A)/1000
			return true
		}
	}
	return false
}

// ends follows a craft whose hand has come until it is on the ground and its motors stand; it has gone so far already.
func ends(b *sim.Bench, first int64, gone float64) Outcome {
	var log happening.Log
	o := Outcome{Stands: -1, Goes: gone}
	for down, until := false, b.Tick()+longest; (!down || o.Stands < 0) && b.Tick() < until; {
		log.Reset()
		down = step(b, &log, first, &o) || down
		if o.Stands < 0 && !b.Armed() {
			o.Stands = b.Tick() - first
		}
	}
	return o
}

// At is moment n of a row that fills what lies between Least and Most evenly: Halton's (J. H. Halton 1960, from memory; held by its first numbers).
func At(n int) Moment {
	return Between(inverse(n+1, 2), inverse(n+1, 3), inverse(n+1, 5), inverse(n+1, 7))
}

// inverse is a number from 0 to 1: the digits of n in a base, mirrored at the point.
func inverse(n, base int) (x float64) {
	for share := 1 / float64(base); n > 0; n, share = n/base, share/float64(base) {
		x += vec.Mul(float64(n%base), share)
	}
	return x
}

// Between is the moment at these shares of the way from Least to Most.
func Between(height, along, climb, lean float64) Moment {
	on := func(a, b, s float64) float64 { return a + vec.Mul(b-a, s) }
	return Moment{on(Least.Height, Most.Height, height), on(Least.Along, Most.Along, along), on(Least.Climb, Most.Climb, climb), on(Least.Lean, Most.Lean, lean)}
}

// Search looks for the moment at which a craft goes farthest when the hand comes so many ms later: from the middle, by steps along each number that
// halve. Use Seek until it tells that nothing is better.
type Search struct {
	at   [4]float64
	step float64
	Best Moment
	Out  Outcome
}

// finest is the step at which a search ends, as a share of each way from Least to Most.
const finest = 0.02

// Begin is a search from the middle of all moments.
func Begin() Search { return Search{at: [4]float64{0.5, 0.5, 0.5, 0.5}, step: 0.5} }

// Seek looks once round; it tells whether the search goes on.
func (s *Search) Seek(cfg *sim.Config, reaction int64) bool {
	if s.step < finest {
		return false
	}
	better := false
	look := func(at [4]float64) {
		for i := range at {
			at[i] = min(max(at[i], 0), 1)
		}
		m := Between(at[0], at[1], at[2], at[3])
		if o := Curve(cfg, m, []int64{reaction}, nil)[0]; o.Goes > s.Out.Goes {
			s.at, s.Best, s.Out, better = at, m, o, true
		}
	}
	look(s.at)
	for i := range s.at {
		for _, d := range [2]float64{-1, 1} {
			at := s.at
			at[i] += d * s.step
			look(at)
		}
	}
	if !better {
		s.step /= 2
	}
	return s.step >= finest
}

// Package wind is the wind at the craft: none, a breeze, or gusts by the published spectra.
//
// The mean grows with the height by the logarithmic profile. The gusts are the low-altitude turbulence of MIL-F-8785C in Dryden's form:
// noise through filters, carried past the craft by the mean wind. Both go by the wind at 20 ft (6.1 m), as that standard does. The gusts are
// those of 20 ft at every height, so that their filters are worked out once: at 10 ft real ones are half as long and as strong, on the ground
// weaker. They come by as at a craft that hovers: one that flies fast would meet them faster.
package wind

import (
	"math"

	"propsoff.example/sim/chance"
	"propsoff.example/sim/vec"
)

// Fastest is the highest speed of an Air, in m/s (ours: at half of it no pupil should fly), Least the lowest that is not still.
const (
	Fastest = 20
	Least   = 0.01
)

// Strongest is the most that Air.Gusts may be (ours).
const Strongest = 3

// Air is the weather; the zero value is still air.
type Air struct {
	// Speed is the mean wind 20 ft (6.1 m) up, in m/s, 0 to Fastest; From is where it comes from, in rad from north over east.
	Speed, From float64
	// Gusts is how strong the gusts are beside the standard's, 0 to Strongest: 0 is a breeze, the mean alone, and 1 the standard's.
	Gusts float64
	// Seed decides which gusts come.
	Seed uint64
}

// Valid reports whether every number is within its bounds. Whoever reads an Air sees to it; an Air that is not makes still air.
func (a Air) Valid() bool {
	return a.Speed >= 0 && a.Speed <= Fastest && a.Gusts >= 0 && a.Gusts <= Strongest && math.Abs(a.From) <= 4*math.Pi
}

// The standard's numbers at 20 ft (MIL-F-8785C, 3.7.3, section from memory; MIL-HDBK-1797 defines the lengths across the wind half as long,
// and means the same). Powers are worked out here because math.Pow need not give the same bits everywhere; tests hold them to the formulas.
const (
	foot = 0.3048
	// spread is σ_w over the mean wind, and spreadAlong σ_u and σ_v: 0.1/(0.177 + 0.000823·20)^0.4.
	spread      = 0.1
	spreadAlong = 0.192913902527632825
	// length is L_w in m, and lengthAlong L_u and L_v: 20 ft/(0.177 + 0.000823·20)^1.2.
	length      = 20 * foot
	lengthAlong = 43.7658671977653784
	// rough is z₀, the roughness of the ground near an airfield, perLog is 1/ln(20 ft/z₀).
	rough  = 0.15 * foot
	perLog = 0.204379766071019388
)

// The profile holds from lowest to highest (3 and 1000 ft), in m; outside the mean stays as it is there.
const (
	lowest  = 3 * foot
	highest = 1000 * foot
)

// Config is an Air made ready for steps of one length. Equal configs blow alike.
type Config struct {
	seed  uint64
	gusty bool
	// mean is the mean wind at 20 ft, along its direction and across the one to its right, both horizontal.
	mean, along, across vec.V
	// strong and strongDown are σ_u (and σ_v) and σ_w in m/s.
	strong, strongDown float64
	first              single
	side, down         double
}

// single is a first-order filter's step: what is kept of its value, and what a deviate adds. The variance of its value is 1.
type single struct{ keep, kick float64 }

// double is the step of two first-order filters in a row: what each keeps, what the second gets of the first, and what two deviates add:
// the first to both, the second to the second alone.
type double struct{ keep, pass, kick, kickBoth, kickSecond float64 }

// State is the gusts at one moment; the zero value has none, and they take a minute to come up from it. Begin gives them as they stand
// at any moment.
type State struct {
	// Along, Side and Down are what the filters hold, without units.
	Along      float64
	Side, Down [2]float64
	// Drawn counts the deviates that were drawn.
	Drawn uint64
}

var _ = map[State]struct{}{}

// New makes an Air ready for steps of dt s, 0.0001 to 1; steps of another length have still air.
func New(a Air, dt float64) Config {
	if !a.Valid() || a.Speed < Least || !(dt >= 1e-4 && dt <= 1) {
		return Config{}
	}
	var c Config
	c.along = vec.V{X: -vec.Cosine(a.From), Y: -vec.Sine(a.From)}
	c.across = vec.V{X: -c.along.Y, Y: c.along.X}
	c.mean = c.along.Scale(a.Speed)
	if a.Gusts == 0 {
		return c
	}
	c.seed, c.gusty = a.Seed, true
	strength := vec.Mul(a.Gusts, a.Speed)
	c.strong, c.strongDown = vec.Mul(spreadAlong, strength), vec.Mul(spread, strength)
	path := vec.Mul(a.Speed, dt)
	c.first, c.side, c.down = newSingle(path/lengthAlong), newDouble(path/lengthAlong), newDouble(path/length)
	return c
}

// newSingle is the exact step, h time constants long, of τx' = −x + noise, its variance 1: x ← e^(−h)·x + √(1−e^(−2h))·n (textbook).
func newSingle(h float64) single {
	return single{keep: 1 / rise(h, 0), kick: math.Sqrt(2 * faded(h, 0))}
}

// newDouble is the exact step, h time constants long, of τx' = −x + noise, τy' = −y + x: e^(−h)·(1 0; h 1), and for what noise adds
// the root of its covariance ∫₀ʰ g·gᵀ dt with g = e^(−t)·(1, t) (textbook, Cholesky's). The variances come to 1/2 and 1/4.
func newDouble(h float64) double {
	d := double{keep: 1 / rise(h, 0)}
	d.pass = vec.Mul(h, d.keep)
	d.kick = math.Sqrt(faded(h, 0))
	d.kickBoth = faded(h, 1) / d.kick
	d.kickSecond = math.Sqrt(faded(h, 2) - vec.Mul(d.kickBoth, d.kickBoth))
	return d
}

// faded is ∫₀ʰ tᵏ·e^(−2t) dt as e^(−2h)·hᵏ⁺¹/(k+1)·rise(2h, k+1), in which nothing cancels however short the step.
func faded(h float64, k int) float64 {
	f := rise(vec.Mul(2, h), k+1) / rise(vec.Mul(2, h), 0) / float64(k+1)
	for range k + 1 {
		f = vec.Mul(f, h)
	}
	return f
}

// rise is 1 + x/(k+1) + x²/((k+1)(k+2)) + … for x from 0 to 10; with k = 0 it is eˣ.
func rise(x float64, k int) float64 {
	sum := 1.0
	for n := 60; n >= 1; n-- { // by Horner, smallest first
		sum = 1 + vec.Mul(x, sum)/float64(k+n)
	}
	return sum
}

// Begin is the gusts as they stand at any moment, drawn by the seed.
func Begin(cfg *Config) State {
	if !cfg.gusty {
		return State{}
	}
	var s State
	s.Along = s.draw(cfg)
	for _, two := range []*[2]float64{&s.Side, &s.Down} { // by the covariance (1/2 1/4; 1/4 1/4)
		a, b := s.draw(cfg), s.draw(cfg)
		two[0] = vec.Mul(math.Sqrt2/2, a)
		two[1] = vec.Mul(math.Sqrt2/4, a) + vec.Mul(math.Sqrt2/4, b)
	}
	return s
}

// draw is the next deviate.
func (s *State) draw(cfg *Config) float64 {
	s.Drawn++
	return chance.Normal(chance.At(cfg.seed, s.Drawn))
}

// Step advances the gusts by one step and gives the wind, in m/s in world axes, at so many metres above the ground.
func Step(cfg *Config, s State, height float64) (State, vec.V) {
	if cfg.mean == (vec.V{}) {
		return s, vec.V{}
	}
	wind := cfg.mean.Scale(share(height))
	if !cfg.gusty {
		return s, wind
	}
	s.Along = vec.Mul(cfg.first.keep, s.Along) + vec.Mul(cfg.first.kick, s.draw(cfg))
	cfg.side.step(&s.Side, s.draw(cfg), s.draw(cfg))
	cfg.down.step(&s.Down, s.draw(cfg), s.draw(cfg))
	wind = wind.Plus(vec.Mul(cfg.strong, s.Along), cfg.along).Plus(vec.Mul(cfg.strong, dryden(&s.Side)), cfg.across)
	wind.Z += vec.Mul(cfg.strongDown, dryden(&s.Down))
	return s, wind
}

func (d *double) step(two *[2]float64, m, n float64) {
	two[1] = vec.Mul(d.pass, two[0]) + vec.Mul(d.keep, two[1]) + vec.Mul(d.kickBoth, m) + vec.Mul(d.kickSecond, n)
	two[0] = vec.Mul(d.keep, two[0]) + vec.Mul(d.kick, m)
}

// dryden is (1 + √3·τs)/(1 + τs)² of the noise, Dryden's form across the wind, variance 1: with x = noise/(1+τs) and y = x/(1+τs) it
// is y + √3·(x − y), because τ times y's slope is x − y.
func dryden(two *[2]float64) float64 { return two[1] + vec.Mul(root3, two[0]-two[1]) }

const root3 = 1.73205080756887729353

// share is the mean wind at so many metres as a share of that at 20 ft: ln(h/z₀)/ln(20 ft/z₀), the standard's profile (from memory).
func share(height float64) float64 {
	h := lowest
	if height > h {
		h = min(height, highest)
	}
	return vec.Mul(logarithm(h/rough), perLog)
}

// logarithm is ln x for x from 1 to 10,000, within 1e-12: powers of two taken off, the rest by 2·artanh((m−1)/(m+1)) and its series.
func logarithm(x float64) float64 {
	m, twos := math.Frexp(x)
	if m < math.Sqrt2/2 {
		m, twos = 2*m, twos-1
	}
	r := (m - 1) / (m + 1)
	r2 := vec.Mul(r, r)
	t := 1. / 13
	for _, c := range [...]float64{1. / 11, 1. / 9, 1. / 7, 1. / 5, 1. / 3, 1} { // r is at most 0.172: what is left out is under 5e-13
		t = c + vec.Mul(r2, t)
	}
	return vec.Mul(float64(twos), math.Ln2) + vec.Mul(vec.Mul(2, r), t)
}

package wind_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/dsp/fourier"
	"gonum.org/v1/gonum/dsp/window"
	"gonum.org/v1/gonum/stat/distuv"

	"propsoff.example/sim/vec"
	"propsoff.example/sim/wind"
)

const (
	foot   = 0.3048
	twenty = 20 * foot
	ms     = 1e-3
)

// An axis of the turbulence as MIL-F-8785C, 3.7.3 (section from memory), has it 20 ft up, in SI units; h in ft in the two formulas.
type axis struct {
	name          string
	sigma, length float64 // beside a mean wind of 1 m/s; m
	// across says which of Dryden's two spectra it has.
	across bool
	of     func(vec.V) float64
}

func standard() [3]axis {
	const h = 20
	long, strong := h/math.Pow(0.177+0.000823*h, 1.2)*foot, 0.1/math.Pow(0.177+0.000823*h, 0.4)
	return [3]axis{
		{name: "u", sigma: strong, length: long, of: func(w vec.V) float64 { return -w.X }}, // the wind comes from north
		{name: "v", sigma: strong, length: long, across: true, of: func(w vec.V) float64 { return -w.Y }},
		{name: "w", sigma: 0.1, length: h * foot, across: true, of: func(w vec.V) float64 { return w.Z }},
	}
}

// spectrum is the one-sided power at w rad/s, so that ∫₀^∞ is σ² (MIL-F-8785C, Dryden's form).
func (a *axis) spectrum(speed, w float64) float64 {
	t := a.length / speed
	x2 := t * w * t * w
	s2 := a.sigma * a.sigma * speed * speed
	if a.across {
		return s2 * t / math.Pi * (1 + 3*x2) / ((1 + x2) * (1 + x2))
	}
	return s2 * 2 * t / math.Pi / (1 + x2)
}

// blow is so many winds 20 ft up, the mean taken off.
func blow(a wind.Air, dt float64, steps int) []vec.V {
	c := wind.New(a, dt)
	s := wind.Begin(&c)
	out := make([]vec.V, steps)
	for i := range out {
		s, out[i] = wind.Step(&c, s, twenty)
		out[i].X += a.Speed
	}
	return out
}

// The numbers that references to the standard print for 20 ft: L_u 143.6 ft, σ_u/σ_w 1.929.
func TestPrintedNumbers(t *testing.T) {
	a := standard()
	assert.InDelta(t, 143.6, a[0].length/foot, 0.05)
	assert.InDelta(t, 1.929, a[0].sigma/a[2].sigma, 0.0005)
}

// The variance of each axis in a long run is the standard's, whatever the wind and the length of a step. The sample's variance
// has the relative standard error √(2/N) with N = T/∫ρ² (Bendat & Piersol, Random Data, from memory); of Dryden's two
// correlations, e^(−x) and e^(−x)(1 − x/2), that integral is τ and 5τ/8 over both sides.
func TestVarianceOfALongRun(t *testing.T) {
	if testing.Short() {
		t.Skip("minutes on an emulated machine")
	}
	for _, c := range []struct {
		air   wind.Air
		dt    float64
		steps int
	}{
		{wind.Air{Speed: 20, Gusts: 1, Seed: 5}, ms, 8_000_000},
		{wind.Air{Speed: 4, Gusts: 1, Seed: 6}, 0.02, 2_000_000},
		{wind.Air{Speed: 20, Gusts: 1, Seed: 7}, 1, 500_000},
		{wind.Air{Speed: 0.1, Gusts: 1, Seed: 8}, 1, 2_000_000},
	} {
		cfg := wind.New(c.air, c.dt)
		s, w := wind.Begin(&cfg), vec.V{}
		sum, axes := [3]float64{}, standard()
		for range c.steps {
			s, w = wind.Step(&cfg, s, twenty)
			w.X += c.air.Speed
			for i := range axes {
				sum[i] += axes[i].of(w) * axes[i].of(w)
			}
		}
		for i, a := range axes {
			memory := a.length / c.air.Speed
			if a.across {
				memory *= 5. / 8
			}
			want := a.sigma * a.sigma * c.air.Speed * c.air.Speed
			independent := float64(c.steps) * c.dt / max(memory, c.dt)
			require.Greater(t, independent, 3000.)
			assert.InDelta(t, 1, sum[i]/float64(c.steps)/want, 4*math.Sqrt(2/independent), "%s at %v m/s, %v s", a.name, c.air.Speed, c.dt)
		}
	}
}

// Gusts begin as they go on: over many seeds the first wind has the standard's variance already, within 4 standard errors √(2/n).
func TestBeginsAsItGoesOn(t *testing.T) {
	const seeds, speed = 50_000, 5.
	var sum [3]float64
	axes := standard()
	for seed := range seeds {
		w := blow(wind.Air{Speed: speed, Gusts: 1, Seed: uint64(seed)}, ms, 1)[0]
		for i := range axes {
			sum[i] += axes[i].of(w) * axes[i].of(w)
		}
	}
	for i, a := range axes {
		assert.InDelta(t, 1, sum[i]/seeds/(a.sigma*a.sigma*speed*speed), 4*math.Sqrt(2./seeds), a.name)
	}
}

// The spectrum by Welch's average (Hann's window, parts that do not overlap) against the published ones. The average of n parts is
// chi-squared with 2n degrees of freedom (Welch 1967): each line within its bounds at one in 10,000.
func TestSpectra(t *testing.T) {
	if testing.Short() {
		t.Skip("minutes on an emulated machine")
	}
	const (
		speed = 12.
		dt    = 0.02
		part  = 1 << 13
		parts = 600
	)
	run := blow(wind.Air{Speed: speed, Gusts: 1, Seed: 9}, dt, part*parts)
	fft := fourier.NewFFT(part)
	hann := window.Hann(ones(part))
	power := 0.0
	for _, h := range hann {
		power += h * h
	}
	step := 2 * math.Pi / (part * dt) // from line to line, rad/s
	of := distuv.ChiSquared{K: 2 * parts}
	low, high := of.Quantile(0.5e-4)/of.K, of.Quantile(1-0.5e-4)/of.K
	for _, a := range standard() {
		got := make([]float64, part/2+1)
		x := make([]float64, part)
		for p := range parts {
			for i := range x {
				x[i] = a.of(run[p*part+i]) * hann[i]
			}
			for i, c := range fft.Coefficients(nil, x) {
				got[i] += (real(c)*real(c) + imag(c)*imag(c)) * dt / (math.Pi * power) / parts
			}
		}
		// From half to 10 times V/L, at which the longitudinal spectrum has half its power and the others have their full.
		for _, times := range []float64{0.5, 0.7, 1, 1.4, 2, 3, 5, 7, 10} {
			at := int(math.Round(times * speed / a.length / step))
			want := a.spectrum(speed, float64(at)*step)
			assert.Greater(t, got[at]/want, low, "%s at %v V/L", a.name, times)
			assert.Less(t, got[at]/want, high, "%s at %v V/L", a.name, times)
		}
		if !a.across {
			at, flat := speed/a.length, a.spectrum(speed, 0)
			assert.InDelta(t, 0.5, got[int(math.Round(at/step))]/flat, 0.5*(high-1)+0.5*step/at, "half the power at V/L_u")
		}
	}
}

func ones(n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = 1
	}
	return out
}

// How much the wind leans on that of k steps before: e^(−x) along the mean and e^(−x)(1 − x/2) across, x = t·V/L (Dryden's two correlations,
// textbook), within Bartlett's standard error (Box & Jenkins, Time Series Analysis, from memory):
// var r_k = Σᵢ(ρᵢ² + ρᵢ₊ₖρᵢ₋ₖ − 4ρₖρᵢρᵢ₋ₖ + 2ρₖ²ρᵢ²)/n.
func TestCorrelations(t *testing.T) {
	if testing.Short() {
		t.Skip("minutes on an emulated machine")
	}
	const steps, speed, most = 4_000_000, 20., 5
	axes := standard()
	for _, dt := range []float64{0.15, 1} {
		cfg := wind.New(wind.Air{Speed: speed, Gusts: 1, Seed: 12}, dt)
		s := wind.Begin(&cfg)
		var past [most + 1]vec.V
		var sum [3][most + 1]float64
		for range steps {
			copy(past[1:], past[:])
			s, past[0] = wind.Step(&cfg, s, twenty)
			past[0].X += speed
			for i, a := range axes {
				now := a.of(past[0])
				for k := range past {
					sum[i][k] += now * a.of(past[k])
				}
			}
		}
		for i, a := range axes {
			rho := func(k int) float64 {
				x := math.Abs(float64(k)) * dt * speed / a.length
				if a.across {
					return math.Exp(-x) * (1 - x/2)
				}
				return math.Exp(-x)
			}
			for k := 1; k <= most; k++ {
				of := 0.0
				for i := -400; i <= 400; i++ {
					of += rho(i)*rho(i) + rho(i+k)*rho(i-k) - 4*rho(k)*rho(i)*rho(i-k) + 2*rho(k)*rho(k)*rho(i)*rho(i)
				}
				assert.InDelta(t, rho(k), sum[i][k]/sum[i][0], 4*math.Sqrt(of/steps), "%s, %d steps of %v s", a.name, k, dt)
			}
		}
	}
}

// The axes have nothing in common: no two of them lean on one another by more than chance has it (as TestVarianceOfALongRun).
func TestAxesAreIndependent(t *testing.T) {
	if testing.Short() {
		t.Skip("minutes on an emulated machine")
	}
	const steps, dt, speed = 2_000_000, 0.02, 10.
	run := blow(wind.Air{Speed: speed, Gusts: 1, Seed: 10}, dt, steps)
	a := standard()
	for i := range a {
		for j := range i {
			sum := 0.0
			for _, w := range run {
				sum += a[i].of(w) * a[j].of(w)
			}
			within := 4 / math.Sqrt(steps*dt/(a[0].length/speed))
			assert.InDelta(t, 0, sum/steps/(a[i].sigma*a[j].sigma*speed*speed), within, "%s and %s", a[i].name, a[j].name)
		}
	}
}

// A breeze is its mean alone: from where it is said to come, and by ln(h/z₀)/ln(20 ft/z₀), z₀ = 0.15 ft, from 3 to 1000 ft (MIL-F-8785C,
// wind shear, from memory).
func TestBreezeIsTheMean(t *testing.T) {
	for _, c := range []struct{ from, north, east float64 }{{0, -1, 0}, {math.Pi / 2, 0, -1}, {math.Pi, 1, 0}, {-math.Pi / 2, 0, 1}, {0.7, -math.Cos(0.7), -math.Sin(0.7)}} {
		cfg := wind.New(wind.Air{Speed: 5, From: c.from, Seed: 1}, ms)
		s := wind.Begin(&cfg)
		assert.Zero(t, s)
		for _, ft := range []float64{-5, 0, 1, 3, 3.3, 6, 10, 14.2, 20, 33, 77, 200, 999, 1000, 1e6} {
			want := 5 * math.Log(min(max(ft, 3), 1000)/0.15) / math.Log(20/0.15)
			next, w := wind.Step(&cfg, s, ft*foot)
			assert.Equal(t, s, next)
			assert.InDelta(t, want*c.north, w.X, 1e-12)
			assert.InDelta(t, want*c.east, w.Y, 1e-12)
			assert.Zero(t, w.Z)
		}
		_, w := wind.Step(&cfg, s, math.NaN())
		assert.InDelta(t, 5*math.Log(20)/math.Log(20/0.15), w.Norm(), 1e-12, "a height that is none counts as the ground")
	}
}

// Gusts stand on the mean, along and across where the wind goes, and are as strong as asked.
func TestGustsTurnWithTheWind(t *testing.T) {
	north, turned := wind.New(wind.Air{Speed: 5, Gusts: 1, Seed: 4}, ms), wind.New(wind.Air{Speed: 5, From: 0.7, Gusts: 2, Seed: 4}, ms)
	a, b := wind.Begin(&north), wind.Begin(&turned)
	for range 1000 {
		var v, w vec.V
		a, v = wind.Step(&north, a, twenty)
		b, w = wind.Step(&turned, b, twenty)
		v.X += 5
		sin, cos := math.Sincos(0.7)
		assert.InDelta(t, 2*(v.X*cos-v.Y*sin)-5*cos, w.X, 1e-12)
		assert.InDelta(t, 2*(v.X*sin+v.Y*cos)-5*sin, w.Y, 1e-12)
		assert.InDelta(t, 2*v.Z, w.Z, 1e-12)
	}
	assert.Equal(t, a, b)
}

func TestStillAirIsNought(t *testing.T) {
	for _, a := range []wind.Air{
		{}, {Gusts: 1, Seed: 3}, {Speed: -1}, {Speed: math.NaN()}, {Speed: math.Inf(1)}, {Speed: wind.Fastest + 1}, {Speed: 3, Gusts: -1},
		{Speed: 3, Gusts: wind.Strongest + 1}, {Speed: 3, From: math.NaN()}, {Speed: 3, From: 1e9}, {Speed: wind.Least / 2, Gusts: 1},
	} {
		c := wind.New(a, ms)
		s := wind.Begin(&c)
		for range 3 {
			var w vec.V
			s, w = wind.Step(&c, s, 2)
			assert.Equal(t, vec.V{}, w, "%+v", a)
		}
		assert.Zero(t, s)
	}
	for _, dt := range []float64{0, -1, 2, math.NaN()} {
		assert.Zero(t, wind.New(wind.Air{Speed: 3, Gusts: 1}, dt))
	}
	for _, a := range []wind.Air{{Speed: wind.Least, Gusts: 1}, {Speed: wind.Fastest, Gusts: wind.Strongest, From: 2 * math.Pi}} {
		for _, dt := range []float64{1e-4, ms, 1} {
			c := wind.New(a, dt)
			s := wind.Begin(&c)
			for range 1000 {
				var w vec.V
				s, w = wind.Step(&c, s, 2)
				assert.True(t, w.Norm() > 0 && w.Norm() < 8*a.Speed*(1+a.Gusts), "%+v gives %v", a, w)
			}
		}
	}
}

// The same seed blows the same bits on every machine, another seed other ones.
func TestSameSeedSameBytes(t *testing.T) {
	last := func(seed uint64) (wind.State, vec.V) {
		c := wind.New(wind.Air{Speed: 6, From: 0.5, Gusts: 1, Seed: seed}, ms)
		s, w := wind.Begin(&c), vec.V{}
		for i := range 10_000 {
			s, w = wind.Step(&c, s, float64(i)/1000)
		}
		return s, w
	}
	s, w := last(1)
	assert.Equal(t, [3]uint64{0xc011d845351fbc08, 0xc012a025f311b356, 0x3fe34d3e9ba449ef}, [3]uint64{math.Float64bits(w.X), math.Float64bits(w.Y), math.Float64bits(w.Z)})
	again, _ := last(1)
	assert.Equal(t, s, again)
	other, v := last(2)
	assert.NotEqual(t, s, other)
	assert.NotEqual(t, w, v)
}

func TestStepAllocatesNothing(t *testing.T) {
	c := wind.New(wind.Air{Speed: 6, Gusts: 1}, ms)
	var s wind.State
	assert.Zero(t, testing.AllocsPerRun(1000, func() { s, _ = wind.Step(&c, s, 3) }))
	assert.Zero(t, testing.AllocsPerRun(1000, func() { s = wind.Begin(&c) }))
}

func BenchmarkStep(b *testing.B) {
	c := wind.New(wind.Air{Speed: 6, Gusts: 1}, ms)
	s := wind.Begin(&c)
	for b.Loop() {
		s, _ = wind.Step(&c, s, 3)
	}
}

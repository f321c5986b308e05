package sound

import (
	"encoding/binary"
	"math"
	"math/cmplx"
	"propsoff.example/sim/layout"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/dsp/fourier"
	"gonum.org/v1/gonum/dsp/window"
)

// samples are one side of a tone, as shares of full scale; both sides are the same.
func samples(t testing.TB, pcm []byte) []float64 {
	require.Zero(t, len(pcm)%BytesPerFrame)
	out := make([]float64, len(pcm)/BytesPerFrame)
	for i := range out {
		left, right := int16(binary.LittleEndian.Uint16(pcm[4*i:])), int16(binary.LittleEndian.Uint16(pcm[4*i+2:]))
		require.Equal(t, left, right)
		out[i] = float64(left) / math.MaxInt16
	}
	return out
}

// parts cuts the samples into the steps of a tone.
func parts(tone *Tone, all []float64) [][]float64 {
	var out [][]float64
	at := 0
	for _, s := range tone.Steps {
		out = append(out, all[at*Rate/1000:(at+s.Ms)*Rate/1000])
		at += s.Ms
	}
	return out
}

// spectrum is the power of each frequency (gonum's transform and Blackman window), padded so that bins are about 1.5 Hz wide.
func spectrum(x []float64) (power []float64, bin float64) {
	const n = 1 << 15
	padded := make([]float64, n)
	copy(padded, x)
	window.Blackman(padded[:len(x)])
	for _, c := range fourier.NewFFT(n).Coefficients(nil, padded) {
		power = append(power, real(c)*real(c)+imag(c)*imag(c))
	}
	return power, float64(Rate) / n
}

// between is the share of the power that lies from lo to hi Hz.
func between(power []float64, bin, lo, hi float64) float64 {
	in, all := 0.0, 0.0
	for i, p := range power {
		all += p
		if f := float64(i) * bin; f >= lo && f <= hi {
			in += p
		}
	}
	return in / all
}

func strongest(power []float64, bin, lo, hi float64) float64 {
	best, at := -1.0, 0.0
	for i, p := range power {
		if f := float64(i) * bin; f >= lo && f <= hi && p > best {
			best, at = p, f
		}
	}
	return at
}

func each(t *testing.T, f func(t *testing.T, c Code, tone *Tone, x []float64)) {
	for _, c := range All() {
		t.Run(c.Word(), func(t *testing.T) {
			tone := c.Tone()
			f(t, c, &tone, samples(t, PCM(c)))
		})
	}
}

// The other tests of tones index the notes of each.
func TestEachToneHasNotes(t *testing.T) {
	for _, c := range All() {
		require.NotEmpty(t, c.Tone().Steps, "%s has no notes: give it a row in tones, a mode one in modeTones, in sound/tones.go", c.Word())
	}
}

// Each step sounds at its own pitch and the octave above, at the strengths that the table says, and nowhere else.
func TestSpectrumIsThatOfTheTable(t *testing.T) {
	each(t, func(t *testing.T, _ Code, tone *Tone, x []float64) {
		for i, p := range parts(tone, x) {
			s := tone.Steps[i]
			if s.From == 0 {
				for _, v := range p {
					require.Zero(t, v, "step %d is silence", i)
				}
				continue
			}
			power, bin := spectrum(p)
			lo, hi := min(s.From, s.To), max(s.From, s.To)
			// A Blackman window's main lobe is six bins of the part's own length wide (F. J. Harris, "On the use of windows for
			// harmonic analysis with the discrete Fourier transform", Proc. IEEE 66, 1978): three to each side.
			lobe := 3000 / float64(s.Ms)
			first, second := between(power, bin, lo-lobe, hi+lobe), between(power, bin, 2*lo-lobe, 2*hi+lobe)
			if both := hi+lobe >= 2*lo-lobe; both { // they run into one another
				assert.Greater(t, between(power, bin, lo-lobe, 2*hi+lobe), 0.999, "step %d", i)
			} else {
				assert.Greater(t, first+second, 0.999, "step %d", i)
				assert.InDelta(t, tone.Octave*tone.Octave, second/first, 0.1*tone.Octave*tone.Octave+0.002, "step %d: how strong the octave is", i)
			}
			if s.From == s.To {
				at := strongest(power, bin, lo-lobe, lo+lobe)
				assert.InDelta(t, 0, 12*math.Log2(at/s.From), 0.1, "step %d: a tenth of a semitone", i)
			}
		}
	})
}

// A glide is heard to move: in the first tenth and the last it has its ends' pitches, in its middle their geometric mean. The pitch is
// that of the analytic signal, the phase's slope.
func TestGlidesGoTheWholeWay(t *testing.T) {
	each(t, func(t *testing.T, _ Code, tone *Tone, _ []float64) {
		plain := *tone
		plain.Octave = 0
		for i, p := range parts(&plain, samples(t, plain.PCM())) {
			s := tone.Steps[i]
			if s.From == 0 {
				continue
			}
			for _, at := range []float64{0.15, 0.5, 0.85} {
				want := s.From * math.Pow(s.To/s.From, at)
				assert.InDelta(t, 0, 12*math.Log2(pitchAt(p, at)/want), 0.35, "step %d at %v", i, at)
			}
		}
	})
}

// pitchAt is the pitch of a wave at a share of its length, in Hz, from the analytic signal (L. Cohen, "Time-Frequency Analysis", 1995,
// ch. 2): the transform without its negative half.
func pitchAt(x []float64, share float64) float64 {
	n := len(x)
	c := make([]complex128, n)
	for i, v := range x {
		c[i] = complex(v, 0)
	}
	fft := fourier.NewCmplxFFT(n)
	f := fft.Coefficients(nil, c)
	for i := range f {
		switch {
		case i == 0 || 2*i == n:
		case 2*i < n:
			f[i] *= 2
		default:
			f[i] = 0
		}
	}
	a := fft.Sequence(nil, f)
	mid, w := int(share*float64(n)), n/40
	turned := 0.0
	for i := mid - w; i < mid+w; i++ {
		turned += cmplx.Phase(a[i+1] / a[i])
	}
	return turned / float64(2*w) * Rate / (2 * math.Pi)
}

// No click: a wave of peak A whose spectrum ends at f Hz changes by at most 2πfA a second, and its slope by (2πf)²A (Bernstein's
// inequality; A. Zygmund, "Trigonometric Series", 1959, vol. I, ch. X). Here the parts end at the highest octave and the edges' own half
// cosine; samples are rounded to half a step.
func TestNothingClicks(t *testing.T) {
	each(t, func(t *testing.T, _ Code, tone *Tone, x []float64) {
		assert.Zero(t, x[0])
		assert.Zero(t, x[len(x)-1])
		high := 0.0
		for _, s := range tone.Steps {
			high = max(high, s.From, s.To)
		}
		low, up := 2*math.Pi*high/Rate, 2*math.Pi*2*high/Rate
		edge := math.Pi / (float64(tone.Edge) * Rate / 1000)
		a, o := tone.Level/(1+tone.Octave), tone.Level*tone.Octave/(1+tone.Octave)
		round := 1.0 / math.MaxInt16
		slope := a*low + o*up + tone.Level*edge/2
		curve := a*low*low + o*up*up + 2*(a*low+o*up)*edge/2 + tone.Level*edge*edge/2
		steepest, sharpest := 0.0, 0.0
		for i := 1; i < len(x); i++ {
			steepest = max(steepest, math.Abs(x[i]-x[i-1]))
			if i > 1 {
				sharpest = max(sharpest, math.Abs(x[i]-2*x[i-1]+x[i-2]))
			}
		}
		assert.LessOrEqual(t, steepest, slope+round)
		assert.LessOrEqual(t, sharpest, curve+2*round)
		assert.Greater(t, steepest, slope/3, "the bound is near what is reached, or it checks nothing")
	})
}

// A click put in on purpose is noticed by the same bound.
func TestAToneWithoutEdgesWouldClick(t *testing.T) {
	tone := Tone{Steps: []Step{{1000, 1000, 50}, {0, 0, 10}}, Edge: 0, Level: 0.5}
	tone.Steps[0].Ms = 51 // ends in the middle of a wave
	tone.Steps[0].To = 1003
	x := samples(t, tone.PCM())
	sharpest := 0.0
	for i := 2; i < len(x); i++ {
		sharpest = max(sharpest, math.Abs(x[i]-2*x[i-1]+x[i-2]))
	}
	w := 2 * math.Pi * 1003 / Rate
	assert.Greater(t, sharpest, 1.5*0.5*w*w)
}

func TestLengthsAndPeaks(t *testing.T) {
	each(t, func(t *testing.T, c Code, tone *Tone, x []float64) {
		assert.Equal(t, c.Length(), time.Duration(len(x))*time.Second/Rate)
		assert.LessOrEqual(t, c.Length(), 400*time.Millisecond)
		assert.GreaterOrEqual(t, c.Length(), 120*time.Millisecond, "too short to be heard as pitches")
		peak := 0.0
		for _, v := range x {
			peak = max(peak, math.Abs(v))
		}
		assert.LessOrEqual(t, peak, tone.Level+1.0/math.MaxInt16)
		assert.Greater(t, peak, 0.7*tone.Level)
		assert.LessOrEqual(t, tone.Level, 0.7, "3 dB below full scale, so that two at once do not overdrive by much")
		for _, s := range tone.Steps {
			assert.GreaterOrEqual(t, s.Ms, 2*tone.Edge)
			if s.From > 0 { // small loudspeakers give little below 180 Hz; older ears little above 8 kHz
				assert.Greater(t, min(s.From, s.To), 180.0)
				assert.Less(t, 2*max(s.From, s.To), 8000.0)
			}
		}
		assert.GreaterOrEqual(t, tone.Edge, 4)
	})
}

// The more urgent is the louder: the alarm before all, what disarms before what is only good to know.
func TestTheUrgentAreLouder(t *testing.T) {
	loud := func(c Code) float64 {
		sum := 0.0
		x := samples(t, PCM(c))
		for _, v := range x {
			sum += v * v
		}
		return math.Sqrt(sum / float64(len(x)))
	}
	for _, c := range All() {
		if c != DrillAlarm {
			assert.Greater(t, loud(DrillAlarm), loud(c), c.Word())
		}
	}
	for _, quiet := range []Code{OfMode(layout.Angle), OfMode(layout.Horizon), OfMode(layout.Rate), DrillRight, LinkBack} {
		for _, c := range []Code{LinkLost, Disarmed, Refused} {
			assert.Greater(t, loud(c), loud(quiet), "%s and %s", c.Word(), quiet.Word())
		}
	}
}

// The same tone is the same bytes.
func TestTonesAreDeterministic(t *testing.T) {
	for _, c := range All() {
		assert.Equal(t, PCM(c), PCM(c))
	}
	assert.Nil(t, PCM(None))
	assert.Nil(t, PCM(CodeCount))
	assert.Zero(t, CodeCount.Length())
}

func BenchmarkPCM(b *testing.B) {
	for _, c := range []Code{Armed, DrillAlarm} {
		b.Run(c.Word(), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				PCM(c)
			}
		})
	}
	b.Run("all", func(b *testing.B) {
		for b.Loop() {
			for c := None + 1; c < CodeCount; c++ {
				PCM(c)
			}
		}
	})
}

// contour is how a tone goes, in semitones above its first pitch, at 200 moments of its length; NaN in silence.
func contour(tone *Tone) []float64 {
	const moments = 200
	out := make([]float64, 0, moments)
	total := float64(tone.Length().Milliseconds())
	for i := range moments {
		at := (float64(i) + 0.5) / moments * total
		for _, s := range tone.Steps {
			if at < float64(s.Ms) {
				f := math.NaN()
				if s.From > 0 {
					f = 12 * math.Log2(s.From*math.Pow(s.To/s.From, at/float64(s.Ms))/tone.Steps[0].From)
				}
				out = append(out, f)
				break
			}
			at -= float64(s.Ms)
		}
	}
	return out
}

// apart is by how many semitones two tones differ on average, in the quarter of their length in which they differ most, each counted
// from its own first pitch: what somebody hears who does not know how high a note is.
func apart(a, b Code) float64 {
	ta, tb := a.Tone(), b.Tone()
	x, y := contour(&ta), contour(&tb)
	var d []float64
	for i := range x {
		if !math.IsNaN(x[i]) && !math.IsNaN(y[i]) {
			d = append(d, math.Abs(x[i]-y[i]))
		}
	}
	best := 0.0
	for i := 0; i+len(x)/4 <= len(d); i++ {
		sum := 0.0
		for _, v := range d[i : i+len(x)/4] {
			sum += v
		}
		best = max(best, sum/float64(len(x)/4))
	}
	return best
}

// A semitone, the twelfth root of 2, is the smallest interval of music; the tones are at least two apart.
func TestTonesAreToldApart(t *testing.T) {
	nearest, which := math.Inf(1), ""
	for _, a := range All() {
		for _, b := range All() {
			if a < b {
				if d := apart(a, b); d < nearest {
					nearest, which = d, a.Word()+" and "+b.Word()
				}
				assert.GreaterOrEqual(t, apart(a, b), 2.0, "%s and %s", a.Word(), b.Word())
			}
		}
	}
	t.Logf("nearest: %s, %.1f semitones", which, nearest)
	assert.Zero(t, apart(Armed, Armed))
}

// What is armed rises, what is disarmed falls, and nothing else does only the one or the other by an octave.
func TestArmedRisesAndDisarmedFalls(t *testing.T) {
	a, d := Armed.Tone(), Disarmed.Tone()
	x, y := contour(&a), contour(&d)
	for i := 1; i < len(x); i++ {
		assert.GreaterOrEqual(t, x[i], x[i-1]-1e-9)
		assert.LessOrEqual(t, y[i], y[i-1]+1e-9)
	}
	assert.InDelta(t, 12, x[len(x)-1], 0.01)
	assert.InDelta(t, -12, y[len(y)-1], 0.01)
}

package transit_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"

	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/transit"
)

// numbered is a frame that says in which slot it was sent.
func numbered(n int) (f pulse.Frame) {
	for c := range f {
		f[c] = pulse.Centre
	}
	f[4], f[5] = pulse.Lowest+pulse.Width(n/10000), pulse.Lowest+pulse.Width(n%10000)
	return f
}

// number is the slot that numbered put in.
func number(f pulse.Frame) int { return int(f[4]-pulse.Lowest)*10000 + int(f[5]-pulse.Lowest) }

// arrivals is, for each slot of so many ticks, the number of the frame that arrives there, -1 for none, when one is sent in every slot.
func arrivals(cfg transit.Config, slots int, ticks int64) []int {
	var s transit.State
	out := make([]int, slots)
	for n := range out {
		var f pulse.Frame
		var here bool
		f, here = transit.Step(&cfg, &s, numbered(n), true, int64(n)*ticks)
		out[n] = -1
		if here {
			out[n] = number(f)
		}
	}
	return out
}

var configs = rapid.Custom(func(t *rapid.T) transit.Config {
	delay := rapid.Uint16Range(0, transit.Most).Draw(t, "delay")
	return transit.Config{
		Delay: delay, Jitter: rapid.Uint16Range(0, transit.Most-delay).Draw(t, "jitter"),
		Lost: rapid.SampledFrom([]uint16{0, 0, 1, 100, 3000, 9999, transit.Certain}).Draw(t, "lost"), Seed: rapid.Uint64().Draw(t, "seed"),
	}
})

// With every number nought what is sent arrives, and nothing else does, whatever was on its way before.
func TestNoughtChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		nought, before := transit.Config{Seed: rapid.Uint64().Draw(t, "seed")}, configs.Draw(t, "before")
		var s transit.State
		for n := range 30 {
			transit.Step(&before, &s, numbered(n), true, int64(n)*4)
		}
		for n := 30; n < 60; n++ {
			sending, sent := rapid.Bool().Draw(t, "sending"), pulse.Frame{}
			for c := range sent {
				sent[c] = pulse.Width(rapid.Int16().Draw(t, "width"))
			}
			f, here := transit.Step(&nought, &s, sent, sending, int64(n)*4)
			require.Equal(t, sent, f)
			require.Equal(t, sending, here)
			require.Zero(t, s)
		}
	})
}

// Without jitter and loss each frame arrives in the first slot at or after its delay, at every slot and delay that there may be.
func TestDelayIsExact(t *testing.T) {
	for ticks := 4; ticks <= 50; ticks++ {
		for delay := range transit.Most + 1 {
			late := (delay + ticks - 1) / ticks
			for n, got := range arrivals(transit.Config{Delay: uint16(delay), Seed: 1}, 80, int64(ticks)) {
				want := n - late
				if want < 0 {
					want = -1
				}
				require.Equal(t, want, got, "slots of %d ms, %d ms late, slot %d", ticks, delay, n)
			}
		}
	}
}

// Against a plain twin without a bound on what it holds, which learns of each frame what chance does to it by sending it alone.
func TestAgainstPlainTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cfg, ticks := configs.Draw(t, "config"), int64(rapid.IntRange(4, 50).Draw(t, "slot"))
		alone := func(sent int) (due int64, arrives bool) { // by asking at every tick
			var s transit.State
			for tick := sent * int(ticks); tick <= sent*int(ticks)+transit.Most; tick++ {
				var here bool
				_, here = transit.Step(&cfg, &s, numbered(sent), tick == sent*int(ticks), int64(tick))
				if here {
					return int64(tick), true
				}
			}
			return 0, false
		}
		var s transit.State
		type way struct {
			number int
			due    int64
		}
		var twin []way
		last := -1
		for n := range 60 {
			tick, sending := int64(n)*ticks, rapid.IntRange(0, 9).Draw(t, "silent") > 0
			if cfg.Delay == 0 && cfg.Jitter == 0 && cfg.Lost == 0 {
				t.Skip()
			}
			if due, arrives := alone(n); sending && arrives {
				require.GreaterOrEqual(t, due-tick, int64(cfg.Delay))
				require.LessOrEqual(t, due-tick, int64(cfg.Delay)+int64(cfg.Jitter))
				twin = append(twin, way{n, due})
			}
			want := -1
			for len(twin) > 0 && twin[0].due <= tick {
				want, twin = twin[0].number, twin[1:]
			}
			var f pulse.Frame
			var here bool
			f, here = transit.Step(&cfg, &s, numbered(n), sending, tick)
			require.Equal(t, want >= 0, here, "slot %d", n)
			if here {
				require.Equal(t, numbered(want), f)
				require.Greater(t, want, last, "order is kept")
				last = want
			} else {
				require.Zero(t, f)
			}
		}
		for n := 60; n <= 60+transit.Most/4; n++ {
			transit.Step(&cfg, &s, pulse.Frame{}, false, int64(n)*ticks)
		}
		require.Zero(t, s, "all have arrived or are lost, and nothing is left behind")
	})
}

// The share that is lost lies within the binomial's bounds at one in 10,000 (textbook), and one frame's loss has nothing in common with the next
// one's: runs of lost frames are geometric, so the mean length of a run is 1/(1−p).
func TestShareOfLostFrames(t *testing.T) {
	const sent = 200_000
	for _, lost := range []uint16{1, 50, 1000, 5000, 9000, transit.Certain} {
		p := float64(lost) / transit.Certain
		gone, runs := 0, 0
		was := false
		for _, n := range arrivals(transit.Config{Lost: lost, Seed: 8}, sent, 20) {
			if n < 0 {
				gone++
				if !was {
					runs++
				}
			}
			was = n < 0
		}
		if lost == transit.Certain {
			assert.Equal(t, sent, gone)
			continue
		}
		off := distuv.UnitNormal.Quantile(1-0.5e-4) * math.Sqrt(sent*p*(1-p))
		assert.InDelta(t, sent*p, float64(gone), off, "%d of 10000", lost)
		if lost >= 1000 {
			// A geometric length has the standard deviation √p/(1−p).
			assert.InDelta(t, 1/(1-p), float64(gone)/float64(runs), 4*math.Sqrt(p/float64(runs))/(1-p), "%d of 10000", lost)
		}
	}
}

// Each delay from Delay to Delay + Jitter is as likely as another: the chi-squared test (textbook), at one in 10,000. Frames are so far apart
// that none waits for another.
func TestJitterIsEven(t *testing.T) {
	const sent = 20_000
	cfg := transit.Config{Delay: 12, Jitter: 25, Seed: 2}
	seen, even := make([]float64, 26), make([]float64, 26)
	for i := range even {
		even[i] = sent / 26.
	}
	var s transit.State
	for n := range sent {
		for late := range 60 {
			var here bool
			if _, here = transit.Step(&cfg, &s, numbered(n), late == 0, int64(n*60+late)); here {
				require.True(t, late >= 12 && late <= 37)
				seen[late-12]++
			}
		}
	}
	assert.Less(t, stat.ChiSquare(seen, even), distuv.ChiSquared{K: 25}.Quantile(1-1e-4))
}

// More loss leaves those frames that still arrive as late as they were.
func TestLossLeavesTheDelays(t *testing.T) {
	cfg := transit.Config{Delay: 20, Jitter: 10, Seed: 4}
	all := arrivals(cfg, 1000, 40)
	cfg.Lost = 2000
	for n, got := range arrivals(cfg, 1000, 40) {
		assert.Contains(t, []int{-1, all[n]}, got)
	}
}

// The same seed does the same to the same frames on every machine, another seed another thing.
func TestSameSeedSameBytes(t *testing.T) {
	cfg := transit.Config{Delay: 10, Jitter: 60, Lost: 1500, Seed: 1}
	got := arrivals(cfg, 1000, 20)
	assert.Equal(t, []int{-1, -1, -1, 0, 2, -1, 3, -1, -1, 7, 8, -1, 10, 12, -1, -1, 13, 14, 16, 18, -1, 19, -1, 21}, got[:24])
	assert.Equal(t, got, arrivals(cfg, 1000, 20))
	cfg.Seed = 2
	assert.NotEqual(t, got, arrivals(cfg, 1000, 20))
}

// Frames lost for as long as the silence limit lose the link, and one frame fewer does not: to the craft it is a silent radio.
func TestLostFramesLoseTheLink(t *testing.T) {
	for _, lost := range []int{11, 12} {
		l := link.Config{Needed: 0x1f, SilenceSlots: 12, CleanSlots: 60}
		var s transit.State
		var state link.State
		for n := range 100 + lost {
			cfg := transit.Config{Delay: 30}
			if n >= 100 {
				cfg.Lost = transit.Certain
			}
			if n == 100 { // what was sent before still arrives, two slots late
				require.Equal(t, link.Good, state.Phase)
			}
			var in link.Input
			in.Sent, in.Transmitting = transit.Step(&cfg, &s, numbered(n), true, int64(n)*20)
			state, _ = link.Step(&l, state, in, int64(n)*20, nil)
		}
		assert.Equal(t, link.Good, state.Phase, "two frames were on their way")
		for n := 100 + lost; n < 102+lost; n++ {
			var in link.Input
			cfg := transit.Config{Delay: 30, Lost: transit.Certain}
			in.Sent, in.Transmitting = transit.Step(&cfg, &s, numbered(n), true, int64(n)*20)
			state, _ = link.Step(&l, state, in, int64(n)*20, nil)
		}
		assert.Equal(t, lost == 12, state.Phase == link.Lost, "%d frames", lost)
	}
}

func TestBounds(t *testing.T) {
	assert.True(t, transit.Config{}.Valid())
	assert.True(t, transit.Config{Delay: 40, Jitter: 20, Lost: transit.Certain}.Valid())
	assert.False(t, transit.Config{Delay: 40, Jitter: 21}.Valid())
	assert.False(t, transit.Config{Delay: 65535, Jitter: 65535}.Valid())
	assert.False(t, transit.Config{Lost: transit.Certain + 1}.Valid())
	// Beyond the bounds, and at slots too short, frames are lost and nothing worse.
	for _, cfg := range []transit.Config{{Delay: 65535, Jitter: 65535}, {Delay: transit.Most, Lost: 65535}} {
		for _, got := range arrivals(cfg, 1000, 1) {
			assert.Equal(t, -1, got)
		}
	}
	for n, got := range arrivals(transit.Config{Delay: transit.Most}, 1000, 3) {
		assert.Less(t, got, max(n, 1))
	}
}

func TestStepAllocatesNothing(t *testing.T) {
	cfg := transit.Config{Delay: 40, Jitter: 40, Lost: 100}
	var s transit.State
	tick := int64(0)
	assert.Zero(t, testing.AllocsPerRun(1000, func() {
		transit.Step(&cfg, &s, numbered(int(tick)), true, tick)
		tick += 4
	}))
}

func BenchmarkStep(b *testing.B) {
	for name, cfg := range map[string]transit.Config{"nought": {}, "late": {Delay: 40, Jitter: 40, Lost: 100}} {
		b.Run(name, func(b *testing.B) {
			var s transit.State
			f, tick := numbered(1), int64(0)
			for b.Loop() {
				transit.Step(&cfg, &s, f, true, tick)
				tick += 20
			}
		})
	}
}

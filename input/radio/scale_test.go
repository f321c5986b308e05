package radio

import (
	"math/big"
	"testing"

	"propsoff.example/input"
	"propsoff.example/sim/pulse"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// exact is the plain twin of Scale.Width: the same line in exact fractions, in µs.
func exact(s Scale, raw int32) *big.Rat {
	x := big.NewRat(int64(raw), 1)
	x.Sub(x, big.NewRat(int64(s.Middle), 2))
	toHigh := big.NewRat(int64(s.High-s.Middle), 2)
	toLow := big.NewRat(int64(s.Middle-s.Low), 2)
	side := toHigh
	if x.Sign()*toHigh.Sign() < 0 {
		side = toLow
	}
	x.Quo(x, side)
	x.Mul(x, big.NewRat(512, 1))
	return x.Add(x, big.NewRat(1500, 1))
}

func someScale(t *rapid.T) Scale {
	half := func(n string) Half { return Half(rapid.Int64Range(1, 1<<20).Draw(t, n)) }
	mid := Half(rapid.Int64Range(-1<<18, 1<<18).Draw(t, "middle"))
	s := Scale{mid - half("below"), mid, mid + half("above")}
	if rapid.Bool().Draw(t, "turned") {
		s = s.Turned()
	}
	return s
}

func TestScaleWithinASixteenth(t *testing.T) {
	sixteenth := big.NewRat(1, 16)
	rapid.Check(t, func(t *rapid.T) {
		s := someScale(t)
		raw := int32(rapid.Int64Range(-1<<21, 1<<21).Draw(t, "raw"))
		if rapid.Bool().Draw(t, "inside") {
			raw = int32(rapid.Int64Range(int64(min(s.Low, s.High))/2, int64(max(s.Low, s.High))/2).Draw(t, "raw inside"))
		}
		want := exact(s, raw)
		got := s.Width(raw)
		if want.Cmp(big.NewRat(4095, 1)) >= 0 || want.Cmp(big.NewRat(-4095, 1)) <= 0 {
			if want.Sign() > 0 && got != mostWidth || want.Sign() < 0 && got != leastWidth {
				t.Fatalf("%v of %v is %v eighths, not at the limit", raw, s, got)
			}
			return
		}
		off := new(big.Rat).Sub(big.NewRat(int64(got), 8), want)
		if off.Abs(off).Cmp(sixteenth) > 0 {
			t.Fatalf("%v of %v is %v eighths; exactly %v µs", raw, s, got, want.FloatString(4))
		}
		if again := s.Width(raw + 1); (s.High > s.Low) == (again < got) && again != got {
			t.Fatalf("not monotonic at %v of %v: %v, then %v", raw, s, got, again)
		}
	})
}

// Turning the scale round mirrors every value about the centre.
func TestTurnedScaleMirrors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := someScale(t)
		raw := int32(rapid.Int64Range(int64(min(s.Low, s.High))/2, int64(max(s.Low, s.High))/2).Draw(t, "raw"))
		a, b := s.Width(raw), s.Turned().Width(raw)
		if a-pulse.Centre != pulse.Centre-b {
			t.Fatalf("%v of %v is %v and turned round %v", raw, s, a, b)
		}
	})
}

// Every value of the ranges that radios have: ends and middle exact, strictly or weakly rising, no two raw values of an
// 11-bit axis alike (full resolution counts).
func TestOwnScaleOfWholeRanges(t *testing.T) {
	for _, a := range []input.Axis{{Min: 0, Max: 2047}, {Min: 0, Max: 4095}, {Min: -1024, Max: 1023}, {Min: -32768, Max: 32767},
		{Min: 0, Max: 255}, {Min: -1, Max: 1}, {Min: -32767, Max: 32767}} {
		s := Own(a)
		require.True(t, s.Sound())
		require.Equal(t, pulse.Low, s.Width(a.Min))
		require.Equal(t, pulse.High, s.Width(a.Max))
		if (a.Min+a.Max)%2 == 0 {
			require.Equal(t, pulse.Centre, s.Width((a.Min+a.Max)/2))
		}
		seen := map[pulse.Width]bool{}
		last := pulse.Low - 1
		for raw := a.Min; raw <= a.Max; raw++ {
			w := s.Width(raw)
			require.GreaterOrEqual(t, w, last)
			last = w
			seen[w] = true
		}
		steps := int(a.Max-a.Min) + 1
		require.Len(t, seen, min(steps, 2*int(pulse.Travel)+1), "range %d..%d", a.Min, a.Max)
	}
}

func TestScaleAtTheEndsOfInt32(t *testing.T) {
	s := Scale{-farthest, 0, farthest}
	require.True(t, s.Sound())
	require.Equal(t, pulse.Centre-pulse.Travel/2, s.Width(-1<<31), "half way from the centre to -4294967296")
	s = Scale{0, 1, 2}
	require.Equal(t, pulse.Width(mostWidth), s.Width(1<<31-1))
	require.Equal(t, pulse.Width(leastWidth), s.Width(-1<<31))
	require.False(t, s.Width(1<<31-1).Valid())
	for _, bad := range []Scale{{}, {1, 1, 2}, {1, 2, 2}, {1, 3, 2}, {3, 1, 2}, {-farthest - 1, 0, 1}, {0, 1, farthest + 1}} {
		require.False(t, bad.Sound(), "%v", bad)
	}
}

// A throttle whose raw value ends at what means 1012 µs reads 1012 µs: the reach changes no reading.
func TestReachNeverStretchesTheScale(t *testing.T) {
	info := input.Info{Axes: make([]input.Axis, 4)}
	for i := range info.Axes {
		info.Axes[i] = input.Axis{Min: 0, Max: 2048}
	}
	f := File{StickMode: 2}
	for i, job := range Needed() {
		f.Controls = append(f.Controls, Control{Job: job, Form: Axis, Axis: i})
	}
	names := input.Names{Channel: map[string]int{"throttle": 0, "roll": 1, "pitch": 2, "yaw": 3}}
	raw := input.Raw{}
	raw.Axes[0] = 48 // 988 + 48/2
	for _, reach := range []*Reach{nil, {Low: 48, Rest: 48, High: 2000}} {
		f.Controls[0].Reach = reach
		m, err := NewMapper(f, info, names)
		require.NoError(t, err)
		var frame pulse.Frame
		m.Map(&raw, &frame)
		require.Equal(t, pulse.Micros(1012), frame[0])
	}
}

// A published 11-bit serial scale laid over a raw axis by a scale that is written down: 192, 992, 1792 are 1000, 1500, 2000
// exactly, and every value is the published formula's.
func TestPublishedScale(t *testing.T) {
	// 988 and 2012 µs are 172.8 and 1811.2 on that scale, which are no halves: the raw axis here counts tenths.
	s := Scale{Half(1728 * 2), Half(9920 * 2), Half(18112 * 2)}
	for _, c := range []struct{ ticks, us int }{{192, 1000}, {992, 1500}, {1792, 2000}} {
		require.Equal(t, pulse.Micros(c.us), s.Width(int32(c.ticks*10)))
	}
	for ticks := 0; ticks < 2048; ticks++ {
		require.Equal(t, pulse.FromTicks(ticks), s.Width(int32(ticks*10)), "%d", ticks)
	}
}

func TestRowWidths(t *testing.T) {
	for n := 2; n <= MostPositions; n++ {
		require.Equal(t, pulse.Low, RowWidth(0, n))
		require.Equal(t, pulse.High, RowWidth(n-1, n))
		for i := range n {
			want := big.NewRat(int64(988*(n-1)+1024*i), int64(n-1))
			off := want.Sub(want, big.NewRat(int64(RowWidth(i, n)), 8))
			require.LessOrEqual(t, off.Abs(off).Cmp(big.NewRat(1, 16)), 0)
		}
	}
	require.Equal(t, pulse.Centre, RowWidth(1, 3))
}

// A file with its scales filled in reads every raw state alike.
func TestFilledScalesReadAlike(t *testing.T) {
	info := sevenAxes()
	f, err := Parse("my.yaml", []byte(written), Known{})
	require.NoError(t, err)
	filled := f.Filled(&info)
	again, err := Parse("filled.yaml", filled.Marshal(), Known{})
	require.NoError(t, err)
	a, err := NewMapper(f, info, eightJobs())
	require.NoError(t, err)
	b, err := NewMapper(again, info, eightJobs())
	require.NoError(t, err)
	for v := int32(-1); v <= 4096; v++ {
		raw := input.Raw{}
		for i := range info.Axes {
			raw.Axes[i] = v
		}
		var x, y pulse.Frame
		a.Map(&raw, &x)
		b.Map(&raw, &y)
		require.Equal(t, x, y)
	}
	for _, c := range again.Controls {
		require.True(t, c.Form != Axis || c.Scale != nil, c.Job)
	}
	require.Nil(t, f.Controls[2].Scale, "the file itself stays as it is")
}

package fault_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/sim"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

func plant(t require.TestingT, d pulse.Deed, a, b int32) pulse.Reading {
	v, ok := fault.Plant(d, a, b)
	require.True(t, ok, "%s %d %d", fault.Code(d), a, b)
	return pulse.Reading{Kind: pulse.Instructor, Value: v}
}

func lift(d pulse.Deed) pulse.Reading {
	return pulse.Reading{Kind: pulse.Instructor, Value: fault.Lift(d)}
}

func liftAll() pulse.Reading { return pulse.Reading{Kind: pulse.Instructor, Value: fault.LiftAll()} }

func controls(f pulse.Frame) pulse.Reading { return pulse.Reading{Kind: pulse.Controls, Frame: f} }

// state takes readings, one a tick.
func state(rs ...pulse.Reading) *fault.State {
	s := new(fault.State)
	for i := range rs {
		s.Take(&rs[i], int64(i))
	}
	return s
}

func TestCodesAndNumbers(t *testing.T) {
	seen := map[string]bool{}
	for d := pulse.Deed(1); d < fault.Count; d++ {
		code := fault.Code(d)
		assert.Regexp(t, `^[a-z]+(-[a-z]+)*$`, code)
		assert.False(t, seen[code])
		seen[code] = true
		back, ok := fault.Find(code)
		assert.True(t, ok && back == d)
		for _, mode := range []int8{5, layout.NoChannel} {
			l := sim.Default().Layout
			l.Mode = mode
			a, b, ok := fault.Usual(d, &l)
			assert.True(t, ok || d == fault.ModeGap && mode == layout.NoChannel)
			_, ok = fault.Plant(d, a, b)
			assert.True(t, ok, "the usual numbers of %s are right", code)
		}
	}
	assert.Empty(t, fault.Code(0))
	assert.Empty(t, fault.Code(fault.Count))
	_, ok := fault.Find("")
	assert.False(t, ok)
	assert.Less(t, fault.Count, pulse.DeedLift, "numbers above are lifts")
	l := sim.Default().Layout
	l.Mode = layout.NoChannel
	_, _, ok = fault.Usual(fault.ModeGap, &l)
	assert.False(t, ok, "no mode channel, no gap")
	assert.Equal(t, fault.Set(0), state(plant(t, fault.Reversed, 1, 0), liftAll()).All())
}

// Both ends of every range are taken, one beyond is not, and what is packed comes apart again.
func TestRanges(t *testing.T) {
	for d := pulse.Deed(1); d < fault.Count; d++ {
		m := fault.Of(d)
		a0, b0, _ := fault.Usual(d, &layout.Config{Roll: 1, Pitch: 2, Yaw: 3, Arm: 4, Mode: 5})
		try := func(a, b int32) bool {
			number, ok := fault.Number(d, a, b)
			if ok {
				x, y := fault.Numbers(d, number)
				assert.Equal(t, []int32{a, b}, []int32{x, y}, fault.Code(d))
				assert.True(t, fault.Right(d, number))
				assert.True(t, number >= 0 && number <= 0xffffff, "24 bits")
				back, n := pulse.InstructorOf(pulse.InstructorValue(d, number))
				assert.True(t, back == d && n == number)
			}
			return ok
		}
		bFor := func(a int32) int32 {
			switch d {
			case fault.Dropouts:
				return 0
			case fault.Swapped:
				return a%16 + 1
			}
			return b0
		}
		assert.True(t, try(m.A.Low, bFor(m.A.Low)), fault.Code(d))
		assert.True(t, try(m.A.High, bFor(m.A.High)), fault.Code(d))
		assert.False(t, try(m.A.Low-1, b0), fault.Code(d))
		assert.False(t, try(m.A.High+1, b0), fault.Code(d))
		assert.True(t, try(a0, m.B.High), fault.Code(d))
		assert.True(t, try(a0, m.B.Low), fault.Code(d))
		assert.False(t, try(a0, m.B.Low-1), fault.Code(d))
		assert.False(t, try(a0, m.B.High+1), fault.Code(d))
	}
	for _, bad := range [][3]int32{
		{int32(fault.Swapped), 3, 3}, {int32(fault.ShortTravel), 1, 1500}, {int32(fault.OffCentre), 1, 0}, {int32(fault.Dropouts), 400, 400},
		{int32(fault.Dropouts), 400, 405}, {int32(fault.Count), 1, 0}, {0, 0, 0},
	} {
		_, ok := fault.Plant(pulse.Deed(bad[0]), bad[1], bad[2])
		assert.False(t, ok, "%v", bad)
	}
	rapid.Check(t, func(t *rapid.T) { // any number at all: only right ones are planted
		d, n := pulse.Deed(rapid.Uint8().Draw(t, "deed")), rapid.Int32Range(0, 0xffffff).Draw(t, "number")
		r := pulse.Reading{Kind: pulse.Instructor, Value: pulse.InstructorValue(d, n)}
		s := state(controls(pulse.Frame{}))
		changed := s.Take(&r, 7)
		got, on := s.Planted(d)
		if on != fault.Right(d, n) || on && got != n || on != changed.Has(d) || on == (changed == 0) || s.Any() != on {
			t.Fatalf("deed %d, number %d: planted %v %v, changed %b", d, n, got, on, changed)
		}
		s.Frame(8)
	})
}

// One channel is bent, and no other.
func TestBends(t *testing.T) {
	for _, c := range []struct {
		d          pulse.Deed
		a, b       int32
		from, want float64 // µs on channel 2
	}{
		{fault.Reversed, 2, 0, 988, 2012}, {fault.Reversed, 2, 0, 1500, 1500}, {fault.Reversed, 2, 0, 1500.125, 1499.875}, {fault.Reversed, 2, 0, 2180, 860},
		{fault.Reversed, 2, 0, 860, 2140},
		{fault.ShortTravel, 2, 1012, 988, 1012}, {fault.ShortTravel, 2, 1012, 900, 1012}, {fault.ShortTravel, 2, 1012, 1500, 1500}, {fault.ShortTravel, 2, 1012, 2012, 2012},
		{fault.ShortTravel, 2, 1012, 1244, 1256}, {fault.ShortTravel, 2, 1900, 2012, 1900}, {fault.ShortTravel, 2, 1900, 2100, 1900}, {fault.ShortTravel, 2, 1900, 1756, 1700},
		{fault.ShortTravel, 2, 1900, 988, 988}, {fault.ShortTravel, 2, 2011, 2012, 2011},
		{fault.OffCentre, 2, 60, 1500, 1560}, {fault.OffCentre, 2, -400, 988, 860}, {fault.OffCentre, 2, 400, 2012, 2180},
		{fault.ChannelOut, 2, 0, 1500, 0},
	} {
		f := pulse.Frame{pulse.Low, pulse.Width(c.from * 8), pulse.Centre}
		s := state(controls(f), plant(t, c.d, c.a, c.b))
		got, ok := s.Frame(3)
		f[1] = pulse.Width(c.want * 8)
		assert.True(t, ok)
		assert.Equal(t, f, got, "%s %v", fault.Code(c.d), c.from)
	}
	for _, d := range []pulse.Deed{fault.Reversed, fault.ShortTravel, fault.OffCentre, fault.Noisy} {
		a, b := int32(2), int32(100)
		switch d {
		case fault.Reversed:
			b = 0
		case fault.ShortTravel:
			b = 1012
		}
		for _, w := range []pulse.Width{pulse.Missing, pulse.Lowest - 1, pulse.Highest + 1} { // where there is no pulse none is made
			f := pulse.Frame{1: w}
			got, _ := state(controls(f), plant(t, d, a, b)).Frame(5)
			assert.Equal(t, f, got, fault.Code(d))
		}
	}
	f := pulse.Frame{1, 2, 3, 4}
	got, _ := state(controls(f), plant(t, fault.Swapped, 2, 4)).Frame(5)
	assert.Equal(t, pulse.Frame{1, 4, 3, 2}, got)
	_, ok := state(plant(t, fault.Reversed, 1, 0)).Frame(5)
	assert.False(t, ok, "a radio that has said nothing sends nothing")
}

// A short travel still rises with the hand, and never leaves its end.
func TestShortTravelRises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		end := rapid.Int32Range(989, 2011).Filter(func(v int32) bool { return v != 1500 }).Draw(t, "end")
		w := pulse.Width(rapid.IntRange(int(pulse.Lowest), int(pulse.Highest)-1).Draw(t, "width"))
		s := state(plant(t, fault.ShortTravel, 1, end))
		at := func(w pulse.Width) pulse.Width {
			r := controls(pulse.Frame{w})
			s.Take(&r, 0)
			f, _ := s.Frame(1)
			return f[0]
		}
		x, y := at(w), at(w+1)
		if y < x || x > y+1 {
			t.Fatalf("%d gives %d, the next %d", w, x, y)
		}
		if low := pulse.Width(end * 8); end < 1500 && x < low || end > 1500 && x > low {
			t.Fatalf("%d beyond the end %d", x, low)
		}
	})
}

// The trembling is evenly spread, its mean is the hand, its standard deviation that of the discrete uniform distribution (any
// textbook: the root of (n²−1)/12 for n values), and a tick says nothing of the next.
func TestTrembling(t *testing.T) {
	const most, n = 50, 40000
	s := state(controls(pulse.Frame{pulse.Centre, pulse.Centre}), plant(t, fault.Noisy, 2, most))
	var sum, square, next, last float64
	low, high := math.Inf(1), math.Inf(-1)
	for i := range int64(n) {
		f, _ := s.Frame(i * 20) // as a receiver sees it
		again, _ := s.Frame(i * 20)
		assert.Equal(t, f, again)
		assert.Equal(t, pulse.Centre, f[0])
		x := float64(f[1]-pulse.Centre) / 8
		low, high = min(low, x), max(high, x)
		sum, square, next = sum+x, square+x*x, next+x*last
		last = x
	}
	values := float64(2*most*8 + 1)
	sd := math.Sqrt((values*values-1)/12) / 8
	assert.InDelta(t, 0, sum/n, 4*sd/math.Sqrt(n))
	assert.InDelta(t, sd, math.Sqrt(square/n), sd*0.02)
	assert.InDelta(t, 0, next/n/(sd*sd), 4/math.Sqrt(n))
	assert.Equal(t, []float64{-most, most}, []float64{low, high})
}

func TestSilence(t *testing.T) {
	silent := func(s *fault.State, from, to int64) (out []int64) {
		was := false
		for i := from; i < to; i++ {
			if s.Silent(i) != was {
				was = !was
				out = append(out, i)
			}
		}
		return out
	}
	at := func(tick int64, r pulse.Reading) *fault.State {
		s := new(fault.State)
		s.Take(&r, tick)
		return s
	}
	assert.Equal(t, []int64{1000, 1300}, silent(at(1000, plant(t, fault.Dropouts, 300, 0)), 1000, 90000), "once")
	assert.Equal(t, []int64{500, 520, 1500, 1520, 2500, 2520}, silent(at(500, plant(t, fault.Dropouts, 20, 1000)), 500, 3500))
	assert.Equal(t, []int64{10}, silent(at(10, plant(t, fault.RadioOff, 0, 0)), 10, 9000))
	s := at(10, plant(t, fault.RadioOff, 0, 0))
	r := lift(fault.RadioOff)
	assert.Equal(t, fault.Set(1<<fault.RadioOff), s.Take(&r, 20))
	assert.Empty(t, silent(s, 20, 900))
	r = plant(t, fault.Dropouts, 100, 0)
	s = at(0, r)
	s.Take(&r, 5000)
	assert.Equal(t, []int64{5000, 5100}, silent(s, 5000, 9000), "planted anew it begins anew")
}

func TestStuckStaysWhereItWas(t *testing.T) {
	a, b := pulse.Frame{pulse.Low, pulse.Micros(1700)}, pulse.Frame{pulse.High, pulse.Low}
	s := state(controls(a), plant(t, fault.Stuck, 2, 0), controls(b))
	f, _ := s.Frame(9)
	assert.Equal(t, pulse.Frame{pulse.High, pulse.Micros(1700)}, f)
	assert.Equal(t, b, *s.Hands())
	s = state(plant(t, fault.Stuck, 2, 0), controls(a), controls(b)) // planted before the radio said anything
	f, _ = s.Frame(9)
	assert.Equal(t, pulse.Frame{pulse.High, pulse.Micros(1700)}, f)
	r := plant(t, fault.Stuck, 1, 0)
	s.Take(&r, 10) // another channel: the first moves again
	f, _ = s.Frame(11)
	assert.Equal(t, b, f)
}

// What the pupil says of a bench input that a fault holds is kept, and counts again when the fault is lifted.
func TestHeldBenchInputs(t *testing.T) {
	tell := func(s *fault.State, k pulse.Kind, v int32) { s.Take(&pulse.Reading{Kind: k, Value: v}, 1) }
	obey := func(s *fault.State, r pulse.Reading) { s.Take(&r, 1) }
	s := new(fault.State)
	tell(s, pulse.Pack, 16000)
	obey(s, plant(t, fault.CableIn, 0, 0))
	obey(s, plant(t, fault.LowPack, 13200, 0))
	assert.Equal(t, []int32{1, 13200}, []int32{s.Cable(), s.Pack()})
	tell(s, pulse.Cable, 1)
	tell(s, pulse.Cable, 0)
	tell(s, pulse.Pack, 15000)
	assert.Equal(t, []int32{1, 13200}, []int32{s.Cable(), s.Pack()})
	obey(s, lift(fault.CableIn))
	obey(s, lift(fault.LowPack))
	assert.Equal(t, []int32{0, 15000}, []int32{s.Cable(), s.Pack()})

	right := [4]int8{1, -1, -1, 1}
	bent := func() [4]int8 { h, _ := pulse.PropellersOf(s.Propellers()); return h }
	tell(s, pulse.Propellers, pulse.PropellersValue(right, false))
	obey(s, plant(t, fault.WrongPropeller, 2, 0))
	assert.Equal(t, [4]int8{1, 1, -1, 1}, bent())
	tell(s, pulse.Propellers, pulse.PropellersValue([4]int8{1, 1, 1, 1}, true)) // a pupil sees the wrong one and changes another
	assert.Equal(t, [4]int8{1, 1, 1, 1}, bent())
	tell(s, pulse.Propellers, pulse.PropellersValue([4]int8{1, 0, 1, 1}, true)) // takes the wrong one off: then it shows as off
	assert.Equal(t, [4]int8{1, 0, 1, 1}, bent())
	tell(s, pulse.Propellers, pulse.PropellersValue([4]int8{1, -1, 1, 1}, true)) // fits the right one: a wrong one again
	assert.Equal(t, [4]int8{1, 1, 1, 1}, bent())
	obey(s, liftAll())
	hands, checked := pulse.PropellersOf(s.Propellers())
	assert.Equal(t, [4]int8{1, -1, 1, 1}, hands)
	assert.True(t, checked)
}

// Planted and lifted in any order, everything lifted leaves the state that it would be without.
func TestLiftedIsNeverPlanted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var with, without fault.State
		for i := range rapid.IntRange(1, 40).Draw(t, "steps") {
			r := anything(t)
			with.Take(&r, int64(i))
			if r.Kind != pulse.Instructor {
				without.Take(&r, int64(i))
			}
			with.Frame(int64(i))
		}
		var r pulse.Reading
		if rapid.Bool().Draw(t, "all at once") {
			r = liftAll()
			with.Take(&r, 99)
		} else {
			for d := pulse.Deed(1); d < fault.Count; d++ {
				r = lift(d)
				with.Take(&r, 99)
			}
		}
		f, _ := with.Frame(100)
		if with.Any() || with != without || with.Hands() != nil && f != *with.Hands() {
			t.Fatalf("%+v is left, %+v would be", with, without)
		}
	})
}

// anything is a reading that a pupil or an instructor may make, except propellers while a wrong one is planted.
func anything(t *rapid.T) pulse.Reading {
	switch rapid.IntRange(0, 4).Draw(t, "what") {
	case 0:
		var f pulse.Frame
		for c := range 6 {
			f[c] = pulse.Micros(rapid.SampledFrom([]int{0, 860, 988, 1500, 2012, 2180}).Draw(t, "µs"))
		}
		return controls(f)
	case 1:
		return pulse.Reading{Kind: pulse.Cable, Value: rapid.Int32Range(0, 1).Draw(t, "cable")}
	case 2:
		return pulse.Reading{Kind: pulse.Pack, Value: rapid.Int32Range(0, 20000).Draw(t, "mV")}
	case 3:
		d := pulse.Deed(rapid.IntRange(1, int(fault.Count)-1).Draw(t, "lifted"))
		return lift(d)
	}
	d := pulse.Deed(rapid.IntRange(1, int(fault.Count)-1).Draw(t, "fault"))
	m := fault.Of(d)
	a := rapid.Int32Range(m.A.Low, m.A.High).Draw(t, "a")
	b := rapid.Int32Range(m.B.Low, m.B.High).Draw(t, "b")
	if d == fault.Dropouts {
		b = b / 10 * 10
	}
	v, ok := fault.Plant(d, a, b)
	if !ok {
		return liftAll()
	}
	return pulse.Reading{Kind: pulse.Instructor, Value: v}
}

func TestNothingAllocates(t *testing.T) {
	s := state(controls(pulse.Frame{pulse.Low, pulse.Centre, pulse.Centre, pulse.Centre, pulse.Low, pulse.Low}))
	var rs []pulse.Reading
	for d := pulse.Deed(1); d < fault.Count; d++ {
		l := sim.Default().Layout
		a, b, _ := fault.Usual(d, &l)
		rs = append(rs, plant(t, d, a, b))
	}
	i := int64(0)
	assert.Zero(t, testing.AllocsPerRun(1000, func() {
		i++
		s.Take(&rs[i%int64(len(rs))], i)
		s.Frame(i)
		s.Silent(i)
		s.Propellers()
	}))
	require.True(t, s.Any())
}

package kernelrule

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Calculated from drivers/input/joydev.c, joydev_connect and joydev_correct, by hand and by a C program, not by this code:
// correction alone, raw values that read 0 and the two ends.
func TestCorrect_ReadsZeroAndFullWhereTheKernelDoes(t *testing.T) {
	for _, c := range []struct {
		lo, hi, flat, fuzz, c0, c1, k, zeroLo, zeroHi, full32767Lo, full32767Hi int32
	}{
		{0, 2047, 127, 7, 896, 1150, 698141, 896, 1150, 127, 1919},
		{-1024, 1023, 127, 7, -127, 127, 698141, -127, 127, -896, 896},
		{-2048, 2047, 255, 15, -255, 255, 349297, -255, 255, -1792, 1792},
		{0, 1023, 63, 3, 448, 574, 1394469, 448, 574, 63, 959},
		{0, 255, 15, 0, 112, 142, 5534751, 112, 142, 15, 239},
		{0, 65535, 4095, 255, 28672, 36862, 21844, 28672, 36862, 4095, 61439},
	} {
		a := Joystick(c.lo, c.hi)
		assert.Equal(t, [2]int32{c.flat, c.fuzz}, [2]int32{a.Flat, a.Fuzz})
		c0, c1, k := a.correction()
		assert.Equal(t, [3]int32{c.c0, c.c1, c.k}, [3]int32{c0, c1, k})
		first, last := int32(1<<30), int32(-1<<30)
		lowEnd, highEnd := int32(-1<<30), int32(1<<30)
		for v := c.lo; v <= c.hi; v++ {
			switch a.Correct(v) {
			case 0:
				first, last = min(first, v), max(last, v)
			case -32767:
				lowEnd = max(lowEnd, v)
			case 32767:
				highEnd = min(highEnd, v)
			}
		}
		assert.Equal(t, [4]int32{c.zeroLo, c.zeroHi, c.full32767Lo, c.full32767Hi}, [4]int32{first, last, lowEnd, highEnd},
			"range %d to %d", c.lo, c.hi)
	}
}

// Point values of joydev_correct on 0 to 2047: the negative side shows that the shift rounds down.
func TestCorrect_PointValues(t *testing.T) {
	a := Joystick(0, 2047)
	for v, want := range map[int32]int32{
		127: -32767, 128: -32726, 500: -16875, 895: -43, 896: 0, 1150: 0, 1151: 42, 1200: 2130, 1500: 14913, 1918: 32725, 1919: 32767,
	} {
		assert.Equal(t, want, a.Correct(v), "raw %d", v)
	}
}

// sweep moves by step and gives the first and last raw value that reads 0, and the value reported at the end.
func sweep(a Axis, from, to, step int32) (first, last, end int32) {
	first, last = -1, -1
	old := from
	for v := from; ; v += step {
		old = a.Defuzz(v, old)
		if a.Correct(old) == 0 {
			if first < 0 {
				first = v
			}
			last = v
		}
		if next := v + step; next > max(from, to) || next < min(from, to) {
			return first, last, old
		}
	}
}

// drivers/input/input.c, input_defuzz_abs_event, then joydev_correct: a slow sweep up reads 0 from 899 to 1153, down from 1148 to 894; the ends stop short.
func TestDefuzz_LagsASlowSweep(t *testing.T) {
	a := Joystick(0, 2047)
	first, last, end := sweep(a, 0, 2047, 1)
	assert.Equal(t, [3]int32{899, 1153, 2044}, [3]int32{first, last, end}, "up by 1")
	first, last, end = sweep(a, 2047, 0, -1)
	assert.Equal(t, [3]int32{1148, 894, 2}, [3]int32{first, last, end}, "down by 1")
	first, last, _ = sweep(a, 0, 2046, 2)
	assert.Equal(t, [2]int32{902, 1154}, [2]int32{first, last}, "up by 2")
	first, last, _ = sweep(a, 0, 2040, 8)
	assert.Equal(t, [2]int32{904, 1144}, [2]int32{first, last}, "up by 8")
}

// drivers/input/input.c, input_defuzz_abs_event: a value that stays away is approached in steps that stop short of it.
func TestDefuzz_ApproachesAStandingValue(t *testing.T) {
	a := Joystick(0, 2047)
	run := func(raw int32) (out [4]int32) {
		old := int32(1000)
		for i := range out {
			old = a.Defuzz(raw, old)
			out[i] = old
		}
		return out
	}
	assert.Equal(t, [4]int32{1001, 1002, 1003, 1003}, run(1006))
	assert.Equal(t, [4]int32{998, 997, 996, 996}, run(994))
	assert.EqualValues(t, 1014, a.Defuzz(1014, 1000), "twice the fuzz and more passes unchanged")
	assert.EqualValues(t, 777, Axis{}.Defuzz(777, 776), "no fuzz, no filter")
}

// The filter in its description's other form: |value − old| < fuzz/2, < fuzz, < 2·fuzz.
func TestDefuzz_IsTheOneOfItsDescription(t *testing.T) {
	for _, fuzz := range []int32{0, 3, 7, 15, 255} {
		for d := -3 * fuzz; d <= 3*fuzz; d++ {
			const old = 10000
			v, a := old+d, max(d, -d)
			want := v
			switch {
			case a < fuzz/2:
				want = old
			case a < fuzz:
				want = (3*old + v) / 4
			case a < 2*fuzz:
				want = (old + v) / 2
			}
			assert.Equal(t, want, Axis{Fuzz: fuzz}.Defuzz(v, old), "fuzz %d, distance %d", fuzz, d)
		}
	}
}

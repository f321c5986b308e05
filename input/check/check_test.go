package check

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/scripts/rig/kernelrule"
	"propsoff.example/sim/pulse"
)

func TestAHealthyRadioPassesWhole(t *testing.T) {
	for _, most := range []int32{2047, 255, 1023, 4095, 65535} {
		v := view(newDesk(t, most).all().run(nil))
		assert.Empty(t, others(v, ""), "0 to %d", most)
		require.True(t, v.Settled, "ask %s", v.Ask.Code())
		assert.Equal(t, AskNothing, v.Ask)
		assert.Equal(t, len(v.Items), v.Count[Passes])
		for _, end := range []struct {
			k    Kind
			want int64
		}{{LowEnd, 988_000}, {HighEnd, 2_012_000}} {
			assert.Equal(t, end.want, item(t, v, "yaw", end.k).Value)
		}
	}
}

// What Linux makes of a slow and a fast hand (input.c, input_defuzz_abs_event) fails nobody: end stops read up to 3 raw
// steps short.
func TestTheKernelsFilterFailsNoHealthyRadio(t *testing.T) {
	for _, most := range []int32{2047, 4095, 1023, 255, 65535} {
		rule := kernelrule.Joystick(0, most)
		for _, amplitude := range []int32{0, 1, 3} {
			d := newDesk(t, most)
			var old [input.MaxAxes]int32
			first := true
			d.bend = func(raw *input.Raw) {
				for i := range 8 {
					if !first {
						raw.Axes[i] = rule.Defuzz(raw.Axes[i], old[i])
					}
				}
				first, old = false, raw.Axes
			}
			if most > 255 {
				for a := range 4 {
					d.r.Noise(a, amplitude, uint64(a+1))
				}
			}
			v := view(d.all().run(nil))
			assert.Empty(t, others(v, ""), "0 to %d, noise %d", most, amplitude)
			assert.True(t, v.Settled)
		}
	}
}

// A radio made with one fault: that item says so with the very value, and nothing else does.
func TestEachFaultIsFoundAndNothingElse(t *testing.T) {
	mirror := func(axis int) func(*desk) {
		return func(d *desk) {
			d.bend = func(r *input.Raw) { r.Axes[axis] = d.most - r.Axes[axis] }
			d.rest[axis] = 1000 - d.rest[axis]
		}
	}
	flat := func(axis int, by int32) func(*desk) {
		return func(d *desk) {
			d.bend = func(r *input.Raw) {
				if v := &r.Axes[axis]; *v > d.most/2-by && *v < d.most/2+by {
					*v = d.most / 2
				}
			}
		}
	}
	spikes := func(axis, n int) func(*desk) {
		return func(d *desk) {
			for i := range n {
				d.r.Spike(int64(200_000+i*50_000), axis, 1800)
			}
		}
	}
	lose := func(n int) func(*desk) {
		return func(d *desk) {
			for i := range n {
				at := int64(100_000 + i*50_000)
				d.r.Spike(at+21_000, 3, 1030) // something must be there to be lost
				d.r.Lose(at, at+20_000)
			}
		}
	}
	place := func(axis int, raw int32) func(*desk) {
		return func(d *desk) { d.r.ShortTravel(axis, 0, raw) }
	}
	for _, c := range []struct {
		name    string
		most    int32
		fault   func(*desk)
		low     []int // sticks that the reversed corner shows at the low end
		job     string
		kind    Kind
		verdict Verdict
		value   int64
		limit   int64
		why     Why
		cure    Cure
		also    []Kind
	}{
		{name: "throttle ends at 1012", fault: func(d *desk) { d.r.ShortTravel(0, 48, 2047) }, job: "throttle", kind: LowEnd,
			verdict: Fails, value: 1_012_000, limit: 1_000_000, why: NeverLow, cure: MoreLow},
		{name: "throttle ends at 997", fault: func(d *desk) { d.r.ShortTravel(0, 18, 2047) }, job: "throttle", kind: LowEnd,
			verdict: Warns, value: 997_000, limit: 995_000, why: NearlyLow, cure: MoreLow},
		{name: "throttle ends at 994", fault: func(d *desk) { d.r.ShortTravel(0, 12, 2047) }, job: "throttle", kind: LowEnd,
			verdict: Passes, value: 994_000, limit: 1_000_000},
		{name: "another low mark", fault: func(d *desk) { d.r.ShortTravel(0, 48, 2047); d.wants.LowThrottle = pulse.Micros(1040) }, job: "throttle", kind: LowEnd,
			verdict: Warns, value: 1_012_000, limit: 1_040_000, why: NotFully, cure: MoreLow},
		{name: "yaw ends at 1900", fault: func(d *desk) { d.r.ShortTravel(3, 0, 1823) }, job: "yaw", kind: HighEnd,
			verdict: Fails, value: 1_900_000, limit: 1_935_250, why: CornerMissed, cure: MoreHigh, low: []int{-1}},
		{name: "roll begins at 1100", fault: func(d *desk) { d.r.ShortTravel(1, 224, 2047) }, job: "roll", kind: LowEnd,
			verdict: Fails, value: 1_100_000, limit: 1_064_750, why: CornerMissed, cure: MoreLow},
		{name: "pitch ends at 1980", fault: func(d *desk) { d.r.ShortTravel(2, 0, 1983) }, job: "pitch", kind: HighEnd,
			verdict: Warns, value: 1_980_000, limit: 2_000_000, why: NotFully, cure: MoreHigh},
		{name: "knob begins at 1100", fault: func(d *desk) { d.r.ShortTravel(6, 224, 2047) }, job: "channel 7", kind: LowEnd,
			verdict: Warns, value: 1_100_000, limit: 1_000_000, why: NotFully, cure: MoreLow},
		{name: "rests 29.25 off", fault: func(d *desk) { d.rest[1] = 529 }, job: "roll", kind: Centre,
			verdict: Fails, value: 29_250, limit: 8_000, why: Drifts, cure: TrimBack},
		{name: "rests 12 to the other side", fault: func(d *desk) { d.rest[3] = 488 }, job: "yaw", kind: Centre,
			verdict: Warns, value: -12_750, limit: 8_000, why: Drifts, cure: TrimBack},
		{name: "rests 5.75 off", fault: func(d *desk) { d.rest[2] = 506 }, job: "pitch", kind: Centre, verdict: Passes, value: 5_750, limit: 8_000},
		{name: "pitch the wrong way round", fault: mirror(2), low: []int{-1}, job: "pitch", kind: Direction,
			verdict: Fails, value: 988_000, limit: 1_935_250, why: WrongWay, cure: TurnRound},
		{name: "one jump", fault: spikes(1, 1), job: "roll", kind: Jumps, verdict: Warns, value: 1, why: Leaps, cure: Steady},
		{name: "two jumps", fault: spikes(3, 2), job: "yaw", kind: Jumps, verdict: Fails, value: 2, why: Leaps, cure: Steady},
		{name: "lost once", fault: lose(1), kind: Dropouts, verdict: Warns, value: 1, why: ReadingsMiss, cure: LessBusy},
		{name: "lost three times", fault: lose(3), kind: Dropouts, verdict: Fails, value: 3, why: ReadingsMiss, cure: LessBusy},
		{name: "66.6 reports a second", fault: func(d *desk) { d.r.Every = 15_000 }, kind: Rate,
			verdict: Warns, value: 66_666, limit: 100_000, why: StaleReports, cure: FasterReports},
		{name: "40 reports a second", fault: func(d *desk) { d.r.Every = 25_000 }, kind: Rate,
			verdict: Fails, value: 40_000, limit: 100_000, why: StaleReports, cure: FasterReports},
		{name: "125 reports a second", fault: func(d *desk) { d.r.Every = 8_000 }, kind: Rate, verdict: Passes, value: 125_000, limit: 100_000},
		{name: "switch rests 21 from where it was learned", fault: place(4, 2005), job: "arm", kind: Positions,
			verdict: Warns, value: 21_000, limit: 12_000, why: PositionMoved, cure: LearnAgain},
		{name: "switch rests 100 from where it was learned", fault: place(5, 1847), job: "mode", kind: Positions,
			verdict: Fails, value: 100_000, limit: 12_000, why: PositionMoved, cure: LearnAgain},
		{name: "coarse and shaky", most: 255, fault: func(d *desk) { d.r.Noise(6, 8, 3) }, job: "channel 7", kind: Noise,
			verdict: Fails, value: -1, limit: 2_048, why: Trembles, cure: Steady},
	} {
		t.Run(c.name, func(t *testing.T) {
			if c.most == 0 {
				c.most = 2047
			}
			d := newDesk(t, c.most)
			c.fault(d)
			v := view(d.all(c.low...).run(nil))
			it := item(t, v, c.job, c.kind)
			assert.Equal(t, c.verdict.Code(), it.Verdict.Code())
			if c.value >= 0 || c.kind == Centre {
				assert.Equal(t, c.value, it.Value)
			}
			assert.Equal(t, c.limit, it.Limit)
			assert.Equal(t, c.why.Code(), it.Why.Code())
			assert.Equal(t, c.cure.Code(), it.Cure.Code())
			assert.Empty(t, others(v, c.job, append(c.also, c.kind)...))
			assert.True(t, v.Settled, "ask %s %d", v.Ask.Code(), v.Control)
		})
	}
	t.Run("flat spots", func(t *testing.T) {
		for _, c := range []struct {
			by      int32
			verdict Verdict
			us      float64
		}{{3, Passes, 2}, {13, Warns, 12}, {60, Fails, 59}} {
			d := newDesk(t, 2047)
			flat(1, c.by)(d)
			v := view(d.all().run(nil))
			it := item(t, v, "roll", DeadZone)
			assert.Equal(t, c.verdict.Code(), it.Verdict.Code(), "%d steps: %d", c.by, it.Value)
			assert.InDelta(t, c.us, float64(it.Value)/1000, 4)
			assert.Empty(t, others(v, "roll", DeadZone))
		}
	})
}

// Noise of 8 raw steps, evenly spread: the standard deviation is the root of (17²−1)/12 steps (the discrete uniform
// distribution's, any textbook).
func TestNoiseIsTheStandardDeviation(t *testing.T) {
	for _, most := range []int32{2047, 4095} {
		d := newDesk(t, most)
		d.r.Noise(1, 8, 7)
		v := view(d.all().run(nil))
		it := item(t, v, "roll", Noise)
		assert.InDelta(t, math.Sqrt((17*17-1)/12.0)*1024/float64(most), float64(it.Value)/1000, 0.06)
		want := Warns // 2.45 µs
		if most == 4095 {
			want = Passes
		}
		assert.Equal(t, want.Code(), it.Verdict.Code())
		assert.Empty(t, others(v, "roll", Noise))
		assert.Equal(t, int64(NoiseLeast), item(t, v, "yaw", Noise).Value, "no noise counts as what the filter may hide")
	}
}

// The classic interface hides a sixteenth to each side (joydev.c, hid-input.c: flat): said at once, whatever the hand does, and it is the
// computer's doing. It saturates at both ends too, so that travel passes.
func TestABluntedCentreIsSaid(t *testing.T) {
	d := newDesk(t, 2047)
	rule := kernelrule.Joystick(0, 2047)
	d.info.Blunted = true
	for i := range d.info.Axes {
		d.info.Axes[i].Min, d.info.Axes[i].Max = -32767, 32767
	}
	s := radio.Own(d.info.Axes[0])
	for i := range d.file.Controls {
		if c := &d.file.Controls[i]; c.Form == radio.Axis {
			c.Scale = &s
			for k := range c.Positions {
				c.Positions[k].At = radio.Halves(rule.Correct(int32(c.Positions[k].At / 2)))
			}
		}
	}
	d.bend = func(raw *input.Raw) {
		for i := range 8 {
			raw.Axes[i] = rule.Correct(raw.Axes[i])
		}
	}
	at := int64(-1)
	v := view(d.all().run(func(c *Checker, now int64) {
		if at < 0 && item(t, view(c), "roll", DeadZone).Verdict == Warns {
			at = now
		}
	}))
	assert.LessOrEqual(t, at, int64(20_000))
	it := item(t, v, "roll", DeadZone)
	assert.Equal(t, Item{Kind: DeadZone, Control: 1, Verdict: Warns, Known: true, Value: 128_000, Limit: 8_000, Why: MiddleHidden, Cure: ReadOtherwise}, it)
	assert.Equal(t, []string{"roll dead-zone warns", "pitch dead-zone warns", "yaw dead-zone warns"}, others(v, ""))
}

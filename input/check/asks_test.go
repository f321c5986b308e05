package check

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/assets/words/wordstest"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/sim/pulse"
)

// What is asked follows what was done, and is never asked again.
func TestOneThingIsAskedAfterAnother(t *testing.T) {
	var asked []string
	c := newDesk(t, 2047).all().run(func(c *Checker, _ int64) {
		v := view(c)
		word := v.Ask.Code()
		if v.Ask == AskMove {
			word = v.Controls[v.Control].Job
		}
		if n := len(asked); n == 0 || asked[n-1] != word {
			asked = append(asked, word)
		}
	})
	assert.Equal(t, []string{"top-right", "throttle", "yaw", "pitch", "roll", "arm", "mode", "channel 7", "channel 8", "channel 9", "hands-off", "nothing"}, asked)
	assert.True(t, view(c).Settled)
}

func TestHalfAMovementIsNotEnough(t *testing.T) {
	d := newDesk(t, 2047).wait(500_000).corners(600_000)
	v := view(d.go1(3, 1000, 300_000).wait(700_000).go1(3, 500, 300_000).wait(400_000).run(nil))
	yaw := v.Controls[3]
	assert.True(t, yaw.MissLow && yaw.MissBack && yaw.MissThrough && !yaw.MissHigh && !yaw.Done, "%+v", yaw)
	assert.Equal(t, Waiting, item(t, v, "yaw", LowEnd).Verdict)
	assert.Equal(t, Passes, item(t, v, "yaw", HighEnd).Verdict)
	assert.Equal(t, Waiting, item(t, v, "yaw", Jumps).Verdict)
	assert.Equal(t, Waiting, item(t, v, "", Dropouts).Verdict)
	assert.Equal(t, Waiting, item(t, v, "arm", Positions).Verdict)
	assert.Equal(t, int64(1), item(t, v, "arm", Positions).Value)
	assert.False(t, v.Settled)
}

// A spike to the end is no travel: a yaw that ends at 1900 still does.
func TestASpikeIsNoTravel(t *testing.T) {
	d := newDesk(t, 2047)
	d.r.ShortTravel(3, 0, 1823)
	d.r.Spike(300_000, 3, 2047)
	v := view(d.all(-1).run(nil))
	assert.Equal(t, int64(1_900_000), item(t, v, "yaw", HighEnd).Value)
	assert.Equal(t, int64(1), item(t, v, "yaw", Jumps).Value)
}

// A step that stays is told from a fast hand by its speed: 400 µs between two reports a millisecond apart.
func TestAStepTooFastForAHand(t *testing.T) {
	d := newDesk(t, 2047).all()
	d.go1(1, 900, 0).wait(400_000).go1(1, 500, 200_000).wait(4500_000)
	v := view(d.run(nil))
	assert.Equal(t, int64(1), item(t, v, "roll", Jumps).Value)
	assert.Equal(t, Warns, item(t, v, "roll", Jumps).Verdict)
	// The same way in 15 ms is a flick.
	d = newDesk(t, 2047).all()
	d.go1(1, 900, 15_000).wait(400_000).go1(1, 500, 15_000).wait(4500_000)
	assert.Equal(t, Passes, item(t, view(d.run(nil)), "roll", Jumps).Verdict)
}

func TestAWrongCornerIsTakenBackBySeeingItRight(t *testing.T) {
	d := newDesk(t, 2047).wait(300_000).corners(2500_000, 1)
	mid := d.at
	d.corners(600_000)
	c := d.run(func(c *Checker, now int64) {
		if now == mid/20_000*20_000 {
			it := item(t, view(c), "roll", Direction)
			assert.Equal(t, Fails, it.Verdict)
			assert.Equal(t, int64(988_000), it.Value)
			assert.Equal(t, Passes, item(t, view(c), "yaw", Direction).Verdict)
		}
	})
	assert.Equal(t, Passes, item(t, view(c), "roll", Direction).Verdict)
	assert.Equal(t, int64(2_012_000), item(t, view(c), "roll", Direction).Value)
}

// Unplugged in the middle: told, and it goes on with what was seen.
func TestGoneAndBack(t *testing.T) {
	d := newDesk(t, 2047).all()
	const away = 300_000
	gone := d.at - 9_150_000 // between two switches
	d.r.Vanish(gone)
	c := d.checker()
	before, after := d.r.States(0), d.r.States(gone+away)
	for i := range before {
		c.Feed(&before[i])
	}
	c.Gone(gone)
	c.Gone(gone)
	seen := view(c)
	assert.Equal(t, AskPlug, seen.Ask)
	assert.True(t, seen.Out)
	c.Tick(gone + away/2)
	assert.Equal(t, int64(away/2), view(c).OutFor)
	for i := range after {
		c.Feed(&after[i])
	}
	c.Tick(d.at)
	v := view(c)
	assert.False(t, v.Out)
	assert.Equal(t, 1, v.Gone)
	assert.Equal(t, int64(away), v.OutFor)
	it := item(t, v, "", Dropouts)
	assert.Equal(t, Item{Kind: Dropouts, Control: -1, Verdict: Fails, Known: true, Unit: Times, Value: 1, Why: PlugLoose, Cure: FirmPlug}, it)
	assert.Empty(t, others(v, "", Dropouts))
	assert.True(t, v.Settled)
}

// A switch that never stands where it was learned does not keep anybody waiting for ever.
func TestASwitchNotLearnedEndsToo(t *testing.T) {
	d := newDesk(t, 2047)
	d.r.OffCentre(5, 400)
	v := view(d.all().run(nil))
	assert.Equal(t, Fails, item(t, v, "mode", Positions).Verdict)
	assert.True(t, v.Settled)
}

func TestWhatDoesNotFitIsAnError(t *testing.T) {
	d := newDesk(t, 2047)
	d.file.Controls[0].Axis = 20
	_, err := New(Config{Info: d.info, File: d.file, Names: names})
	assert.ErrorContains(t, err, "axis 21 of throttle: this radio has 8 axes")
	d = newDesk(t, 2047)
	d.info.Axes[1].Max = 0
	_, err = New(Config{Info: d.info, File: d.file, Names: names})
	assert.ErrorContains(t, err, "axis 2 (roll) has no range")
	room := wordstest.Of("check-input")
	room.Error(t, err)
	room.Whole(t)
}

// A row of buttons stands where radio.Mapper has it, whatever is pressed.
func TestRowsStandAsTheyAreMapped(t *testing.T) {
	d := newDesk(t, 2047)
	rapid.Check(t, func(t *rapid.T) {
		m, err := radio.NewMapper(d.file, d.info, names)
		require.NoError(t, err)
		c, err := New(Config{Info: d.info, File: d.file, Names: names})
		require.NoError(t, err)
		at := int64(0)
		for _, bits := range rapid.SliceOfN(rapid.Uint64Range(0, 7), 1, 20).Draw(t, "buttons") {
			at += 1000
			raw := input.Raw{At: at, Buttons: [2]uint64{bits}}
			var f pulse.Frame
			m.Map(&raw, &f)
			c.Feed(&raw)
			for i, ch := range []int{7, 8} {
				assert.Equal(t, f[ch], c.controls[7+i].width)
			}
		}
	})
}

// Any healthy radio passes: range, direction, noise of up to 2 µs, speed of hand and rate of reports drawn at random.
func TestAnyHealthyRadioPasses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		most := rapid.Int32Range(255, 65535).Draw(t, "most")
		d := newDesk(t, most)
		turned := rapid.SliceOfN(rapid.Bool(), 4, 4).Draw(t, "turned")
		s := radio.Own(d.info.Axes[0]).Turned()
		for a := range 4 {
			if turned[a] {
				d.file.Controls[a].Scale = &s
			}
			// Evenly spread whole steps of up to n have a deviation of √(n(n+1)/3), here at most 1.6 µs: what is measured of it scatters by some percent.
			n := int32(0)
			for m := float64(1); math.Sqrt(m*(m+1)/3)*1024/float64(most) < 1.6; m++ {
				n++
			}
			d.r.Noise(a, rapid.Int32Range(0, n).Draw(t, "noise"), rapid.Uint64().Draw(t, "seed"))
		}
		d.r.Every = rapid.SampledFrom([]int64{1000, 2000, 4000, 8000}).Draw(t, "every")
		d.bend = func(r *input.Raw) {
			for a := range 4 {
				if turned[a] {
					r.Axes[a] = most - r.Axes[a]
				}
			}
		}
		v := view(d.all().run(nil))
		assert.Empty(t, others(v, ""))
		assert.True(t, v.Settled, v.Ask.Code())
	})
}

func TestAViewIsFilledWithoutGarbage(t *testing.T) {
	c := newDesk(t, 2047).all().run(nil)
	v := view(c)
	assert.LessOrEqual(t, testing.AllocsPerRun(20, func() { c.View(v) }), 4.0)
}

// Whoever does what is asked, and no more, comes to the end, whatever he had done before: each thing as the sentence has it, with half a second
// for "a moment".
func TestWhoDoesWhatIsAskedIsDone(t *testing.T) {
	const moment, quick = 500_000, 250_000
	met := map[string]bool{}
	for seed := range uint64(6) {
		r := rand.New(rand.NewPCG(seed, 47))
		d := newDesk(t, 2047)
		for a, rest := range d.rest {
			d.r.Rest(a, int32(int64(d.most)*rest/1000))
		}
		d.wait(300_000)
		for range r.IntN(8) { // what somebody has done before he reads
			axis := []int{0, 1, 2, 3, 6}[r.IntN(5)]
			if d.go1(axis, []int64{0, 300, 500, 1000}[r.IntN(4)], quick); r.IntN(2) == 0 {
				d.wait(moment)
			}
		}
		stick := map[string]int{"throttle": 0, "roll": 1, "pitch": 2, "yaw": 3, "channel 7": 6}
		for n := 0; ; n++ {
			require.Less(t, n, 60, "seed %d", seed)
			v := view(d.run(nil))
			if v.Settled {
				break
			}
			switch v.Ask {
			case AskAnything:
				d.go1(1, 520, 100_000)
			case AskCorners:
				d.corners(2 * moment)
			case AskRest:
				d.wait(2_100_000)
			case AskQuick:
				for range 4 {
					d.go1(1, 1000, quick).go1(1, 0, quick)
				}
				d.go1(1, 500, quick)
			case AskMove:
				c := &v.Controls[v.Control]
				axis, rest := stick[c.Job], int64(0)
				if c.Sprung {
					rest = 500
				}
				switch {
				case c.Job == "arm":
					d.go1(4, 1000, 4000).wait(moment).go1(4, 0, 4000).wait(moment)
				case c.Job == "mode":
					d.go1(5, 500, 4000).wait(moment).go1(5, 1000, 4000).wait(moment).go1(5, 0, 4000).wait(moment)
				case c.Job == "channel 8":
					d.press(0, false).wait(moment).press(1, true).wait(moment).press(1, false).press(0, true).wait(moment)
				case c.Job == "channel 9":
					d.press(2, true).wait(moment).press(2, false).wait(moment)
				case c.Sprung && c.MissThrough && (!c.MissLow || !c.MissHigh):
					met["through"] = true
					d.go1(axis, 0, quick).go1(axis, 1000, 2*quick).go1(axis, 0, 2*quick).go1(axis, rest, quick)
				case c.MissLow && c.MissHigh:
					d.go1(axis, 1000, quick).wait(moment).go1(axis, 0, quick).wait(moment).go1(axis, rest, quick)
				case c.MissHigh:
					met["high"] = true
					d.go1(axis, 1000, quick).wait(moment)
				case c.MissLow:
					met["low"] = true
					d.go1(axis, 0, quick).wait(moment)
				default:
					met["back"] = true
					d.go1(axis, rest, quick)
				}
			}
			d.wait(200_000)
		}
	}
	assert.Len(t, met, 4, "%v", met)
}

package lesson_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim"
	"propsoff.example/sim/body"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/hover"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/lesson"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/vec"
)

// flyer is a practice in the air, with hands on it, and what is kept of it.
type flyer struct {
	t     *testing.T
	p     *practice.Practice
	kept  lesson.Keeper
	frame pulse.Frame
	broke int64
}

// hovers is a craft that hovers at a height, armed, in a mode.
func hovers(t *testing.T, cfg sim.Config, height float64, mode pulse.Width) *flyer {
	f := &flyer{t: t, p: hover.At(cfg, height, true)}
	for c := range f.frame {
		f.frame[c] = pulse.Centre
	}
	l := &cfg.Layout
	f.frame[l.Throttle], f.frame[l.Mode] = hover.Throttle(&cfg), mode
	if l.Arm != layout.NoChannel {
		f.frame[l.Arm] = pulse.High
	}
	f.move(l.Throttle, f.frame[l.Throttle])
	f.run(99)
	return f
}

func (f *flyer) step(rs ...pulse.Reading) {
	f.kept.Before(f.p, rs)
	f.p.Step(rs)
	for _, h := range f.p.Happenings() {
		if h.Code == happening.Broke {
			f.broke = h.Tick
		}
	}
}

func (f *flyer) run(ticks int) {
	for range ticks {
		if f.broke == 0 {
			f.step()
		}
	}
}

func (f *flyer) move(channel int8, w pulse.Width) {
	f.frame[channel] = w
	f.step(pulse.Reading{Kind: pulse.Controls, Frame: f.frame})
}

// wreck goes on until it breaks, and gives what was kept and found.
func (f *flyer) wreck() (*lesson.Past, lesson.Found) {
	f.run(20_000)
	require.NotZero(f.t, f.broke, "it does not break")
	past := f.kept.Past(f.broke)
	found, whole := lesson.Find(past, nil)
	require.True(f.t, whole)
	assert.Equal(f.t, f.broke, found.Broke)
	f.carriesOut(past, &found)
	return past, found
}

// carriesOut holds what was found against the hands themselves: each way, carried out, saves the craft; and after the last of them nothing does,
// slot for slot.
func (f *flyer) carriesOut(past *lesson.Past, found *lesson.Found) {
	var p practice.Practice
	slot := int64(f.p.Bench().Config().SlotTicks)
	for h, w := range found.Of {
		if w.Any {
			assert.Equal(f.t, lesson.Hands(h), w.Hands)
			past.At(&p, w.At)
			assert.True(f.t, lesson.Carry(&p, past, w, nil), "%+v", w)
			assert.LessOrEqual(f.t, w.At, found.Last.At)
		}
	}
	from := found.From
	if found.Last.Any {
		from = found.Last.At + slot
	}
	from = max(from, found.Broke-300)
	for at := from - (from-found.From)%slot; at <= found.Broke; at += slot {
		for h := range lesson.HandsCount {
			for g := lesson.AsItWas; g <= lesson.Closed; g++ {
				past.At(&p, at)
				assert.False(f.t, at > found.Last.At && tried(h, g) && lesson.Carry(&p, past, lesson.Way{Hands: h, Gas: g, At: at, Any: true}, nil), "%v %v at %d", h, g, at)
			}
		}
	}
}

func tried(h lesson.Hands, g lesson.Gas) bool {
	return g == lesson.AsItWas && h != lesson.Throttle || g == lesson.Closed && h == lesson.Throttle || (g == lesson.Hovering || g == lesson.Full) && h != lesson.Disarm
}

// bare is a craft without air: neither drag nor inflow, and a pack that does not sag, so that closed forms hold.
func bare() sim.Config {
	cfg := sim.Default()
	b := &cfg.Body
	b.Idle, b.RotorDrag, b.Drag1, b.Drag2 = 0, 0, 0, 0
	b.Pack.Full, b.Pack.Resistance, b.Pack.Dies = b.Pack.Nominal, 0, 0
	b.Pack.Empty = b.Pack.Nominal
	cfg.FitControl()
	return cfg
}

// A craft whose throttle is closed falls freely, and full throttle stops it where what is left of the height is what it needs to come under
// 5 m/s: with v = g·t after t, and a = 4·T/m − g upwards, (g·t)² − 2·a·(h − g·t²/2) = 25, so t = √((25 + 2·a·h)/(g·(g + a))) (textbook,
// uniform acceleration). The motors have hardly any lag here; moments are a slot of 20 ms apart, and what still spins at the beginning holds it for
// as long: 3 %.
func TestThrottleArrestsAFall(t *testing.T) {
	cfg := bare()
	b := &cfg.Body
	b.Lag = 0.003
	cfg.FitControl()
	for _, h := range []float64{8, 15, 30} {
		f := hovers(t, cfg, h, pulse.Low)
		f.move(cfg.Layout.Throttle, pulse.Low)
		from := f.p.Tick()
		_, found := f.wreck()
		g, a := body.Gravity, 4*b.Thrust*b.FullSpeed*b.FullSpeed/b.Mass-body.Gravity
		h := h - b.HalfHeight
		want := math.Sqrt((25 + 2*a*h) / (g * (g + a)))
		w := found.Of[lesson.Throttle]
		require.True(t, w.Any)
		assert.Equal(t, lesson.Full, w.Gas)
		assert.InEpsilon(t, want, float64(w.At-from)/1000, 0.03, "from %v m", h)
	}
}

// Disarmed above 1.27 m it falls faster than 5 m/s, √(2·g·h) (textbook), and so breaks: up there disarming never saves a craft. Lower it does.
func TestDisarmingSavesOnlyLow(t *testing.T) {
	cfg := sim.Default()
	for _, c := range []struct {
		height float64
		saves  bool
	}{{0.9, true}, {3, false}, {6, false}} {
		f := hovers(t, cfg, c.height, pulse.High)
		f.move(cfg.Layout.Roll, pulse.High) // in rate it rolls over and over
		_, found := f.wreck()
		d := found.Of[lesson.Disarm]
		require.Equal(t, c.saves, d.Any, "%v m", c.height)
		require.True(t, found.Last.Any)
		if !c.saves {
			assert.NotEqual(t, lesson.Disarm, found.Last.Hands)
			continue
		}
		var p practice.Practice
		past := f.kept.Past(f.broke)
		past.At(&p, d.At)
		s := p.Bench().State()
		assert.Less(t, -s.Air.Body.Pos.Z, 1.3)
	}
}

// Upside down close to the ground nothing saves it: it comes down on its top. From far up the mode switch does, and letting go in rate does not.
func TestUpsideDown(t *testing.T) {
	cfg := sim.Default()
	turned := func(height float64) lesson.Found {
		f := hovers(t, cfg, height, pulse.High)
		s := f.p.Bench().State()
		s.Air.Body.Att = vec.Q{X: 1}
		f.p.Bench().Restore(s)
		f.kept.Forget()
		_, found := f.wreck()
		return found
	}
	low := turned(0.3)
	assert.False(t, low.Last.Any)
	high := turned(25)
	require.True(t, high.Last.Any)
	assert.Equal(t, lesson.Level, high.Last.Hands)
	assert.False(t, high.Of[lesson.LetGo].Any, "rate stays upside down")
	assert.False(t, high.Of[lesson.Disarm].Any)
	assert.False(t, high.Of[lesson.Throttle].Any)
}

// Where it flies in angle, letting go levels it, and there is no other switch to reach for; a craft that was disarmed hears nothing.
func TestLettingGoInAngle(t *testing.T) {
	cfg := sim.Default()
	f := hovers(t, cfg, 4, pulse.Low)
	f.move(cfg.Layout.Pitch, pulse.High)
	f.move(cfg.Layout.Throttle, pulse.Micros(1250))
	_, found := f.wreck()
	assert.True(t, found.Of[lesson.LetGo].Any)
	assert.False(t, found.Of[lesson.Level].Any)

	f = hovers(t, cfg, 5, pulse.Low)
	f.move(cfg.Layout.Arm, pulse.Low)
	at := f.p.Tick()
	_, found = f.wreck()
	require.True(t, found.Last.Any)
	assert.LessOrEqual(t, found.Last.At, at+20, "once disarmed nothing saves it")
}

// A silent radio moves nothing: what saves it comes before the silence, or where the craft sinks, not at all from there.
func TestHandsThatNobodyHears(t *testing.T) {
	cfg := sim.Default()
	f := hovers(t, cfg, 12, pulse.Low)
	f.step(pulse.Reading{Kind: pulse.Link})
	at := f.p.Tick()
	_, found := f.wreck()
	assert.LessOrEqual(t, found.Last.At, at+20)
}

// The same wreck is found the same, by craft that arm by sticks too, with a fault planted, and from a copy that is as far back as they go; and the work is
// bounded: some five million ticks at most, where nothing saves.
func TestFoundAgain(t *testing.T) {
	cfg := sim.Default()
	f := hovers(t, cfg, 30, pulse.High)
	f.run(7000)
	v, ok := fault.Plant(fault.Reversed, int32(cfg.Layout.Roll), 0)
	require.True(t, ok)
	f.step(pulse.Reading{Kind: pulse.Instructor, Value: v})
	f.move(cfg.Layout.Roll, pulse.Micros(1600))
	f.run(1500)
	f.move(cfg.Layout.Roll, pulse.Centre)
	past, found := f.wreck()
	again, _ := lesson.Find(past, nil)
	assert.Equal(t, found, again)
	assert.Less(t, found.Steps, int64(5_000_000))
	assert.InDelta(t, found.Broke-lesson.Reach, found.From, 20)
	_, whole := lesson.Find(past, func() bool { return true })
	assert.False(t, whole)

	// A replay from what was kept is the practice itself, digest and all.
	var p practice.Practice
	past.At(&p, found.Broke+1)
	assert.Equal(t, f.p.Digest(), p.Digest())
	assert.Equal(t, f.p.Bench().State(), p.Bench().State())
}

func BenchmarkFind(b *testing.B) {
	f := hovers(&testing.T{}, sim.Default(), 12, pulse.Low)
	f.step(pulse.Reading{Kind: pulse.Link})
	f.run(20_000)
	past := f.kept.Past(f.broke)
	var found lesson.Found
	for b.Loop() {
		found, _ = lesson.Find(past, nil)
	}
	b.ReportMetric(float64(found.Steps), "ticks")
}

// Hands try again 3 s before the wreck; where the radio was switched off before it and stays so, from 1 s before that, as far as it was kept; in whole tenths.
func TestFromWhereItIsTriedAgain(t *testing.T) {
	cfg := sim.Default()
	cfg.Arming.SinkSlots = 200 // 4 s
	f := hovers(t, cfg, 12, pulse.Low)
	f.run(900)
	f.step(pulse.Reading{Kind: pulse.Link})
	at := f.p.Tick() - 1
	f.run(20_000)
	past := f.kept.Past(f.broke)
	require.Greater(t, f.broke-at, int64(4000))
	assert.InDelta(t, float64(at-lesson.Ahead), float64(past.Back()), 100)
	assert.Zero(t, (f.broke-past.Back())%100)
	var p practice.Practice
	past.At(&p, past.Back())
	assert.True(t, p.Bench().State().In.Transmitter)

	f = hovers(t, sim.Default(), 6, pulse.Low)
	f.step(pulse.Reading{Kind: pulse.Link})
	f.run(100)
	f.step(pulse.Reading{Kind: pulse.Link, Value: 1})
	f.run(1000)
	f.move(f.p.Bench().Config().Layout.Arm, pulse.Low)
	f.run(20_000)
	past = f.kept.Past(f.broke)
	assert.LessOrEqual(t, f.broke-past.Back(), int64(lesson.Again), "the radio sends again")
}

// What hands hold elsewhere is what decides: the throttle by more than 50 µs, a switch by what it means to the craft.
func TestWhatStandsElsewhere(t *testing.T) {
	cfg := sim.Default()
	l := &cfg.Layout
	var then pulse.Frame
	for c := range then {
		then[c] = pulse.Centre
	}
	then[l.Arm], then[l.Mode] = pulse.High, pulse.Low
	now := then
	now[l.Throttle] += 50 * pulse.Eighths
	now[l.Roll] = pulse.High
	assert.False(t, lesson.Compare(&cfg, &then, &now).Any(), "a stick that springs back is no matter")
	now[l.Throttle]++
	assert.Equal(t, lesson.Elsewhere{Throttle: true}, lesson.Compare(&cfg, &then, &now))
	now = then
	now[l.Arm], now[l.Mode] = pulse.Low, pulse.High
	assert.Equal(t, lesson.Elsewhere{Arm: true, Mode: true}, lesson.Compare(&cfg, &then, &now))
	cfg.Layout.Second, cfg.Layout.SecondSpan = 9, cfg.Layout.ArmSpan
	now = then
	now[9] = pulse.High
	assert.Equal(t, lesson.Elsewhere{Second: true}, lesson.Compare(&cfg, &then, &now))
}

// A craft that could not fly, since a propeller was the wrong one or missing, is told apart.
func TestWrongPropellersAreFound(t *testing.T) {
	f := hovers(t, sim.Default(), 3, pulse.Low)
	_, found := func() (*lesson.Past, lesson.Found) {
		f.move(f.p.Bench().Config().Layout.Arm, pulse.Low)
		return f.wreck()
	}()
	assert.Equal(t, found.Turns, found.Fitted)
	wrong := body.Directions(true)
	wrong[2] = 0
	wrong[1] *= -1
	f = hovers(t, sim.Default(), 3, pulse.Low)
	f.step(pulse.Reading{Kind: pulse.Propellers, Value: pulse.PropellersValue(wrong, true)})
	_, found = f.wreck()
	assert.Equal(t, body.Directions(true), found.Turns)
	assert.Equal(t, wrong, found.Fitted)
}

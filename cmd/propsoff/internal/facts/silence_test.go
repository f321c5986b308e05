package facts

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

const long = 100_000 // more ms than any time that is drawn here

// by is the default craft with one way of arming and one receiver.
func by(how arming.By, receiver link.OnLoss) sim.Config {
	cfg := sim.Default()
	cfg.Arming.By = how
	if how == arming.BySticks {
		cfg.Layout.Arm = layout.NoChannel
	}
	cfg.Link.Needed, cfg.Link.OnLoss = cfg.Layout.Needed(), receiver
	return cfg
}

// stored are values in µs, 0 for no pulse: throttle, yaw, arm; the mode is angle.
func stored(cfg sim.Config, throttle, yaw, arm int) sim.Config {
	us := func(n int) pulse.Width {
		if n == 0 {
			return pulse.Missing
		}
		return pulse.Micros(n)
	}
	f := pulse.Frame{us(throttle), pulse.Centre, pulse.Centre, us(yaw), us(arm), pulse.Low}
	if cfg.Layout.Arm == layout.NoChannel {
		f[4] = pulse.Missing
	}
	cfg.Link.OnLoss, cfg.Link.Stored = link.SendsStored, f
	return cfg
}

func TestSilence(t *testing.T) {
	sw, st := by(arming.BySwitch, link.FallsSilent), by(arming.BySticks, link.FallsSilent)
	sinking := func(cfg sim.Config) sim.Config { cfg.Arming.SinkSlots = 200; return cfg }
	for name, c := range map[string]struct {
		cfg  sim.Config
		want [4]int64 // lost, sinks, disarmed, arms
	}{
		"cuts":            {sw, [4]int64{240, Never, 240, Never}},
		"cuts, by sticks": {st, [4]int64{240, Never, 240, Never}},
		"sinks":           {sinking(sw), [4]int64{240, 240, 4240, Never}},
		"repeats":         {by(arming.BySwitch, link.RepeatsLast), [4]int64{Never, Never, Never, Never}},
		// A disarmed craft whose sticks are on their way through the arm corner arms when the dwell is over: 0.8 s, a slot of which the hands held.
		"repeats, by sticks":           {by(arming.BySticks, link.RepeatsLast), [4]int64{Never, Never, Never, 800}},
		"stored off":                   {stored(sw, 988, 1500, 988), [4]int64{Never, Never, 20, Never}},
		"stored off, to sink":          {sinking(stored(sw, 988, 1500, 988)), [4]int64{Never, Never, 20, Never}},
		"stored on, throttle low":      {stored(sw, 988, 1500, 2012), [4]int64{Never, Never, Never, 20}},
		"stored on, throttle up":       {stored(sw, 1300, 1500, 2012), [4]int64{Never, Never, Never, Never}},
		"stored without a pulse":       {stored(sw, 0, 1500, 2012), [4]int64{240, Never, 240, Never}},
		"stored off, without a pulse":  {stored(sw, 0, 1500, 988), [4]int64{240, Never, 20, Never}},
		"stored disarming corner":      {stored(st, 988, 988, 0), [4]int64{Never, Never, 420, Never}},
		"stored corner, to sink":       {sinking(stored(st, 988, 988, 0)), [4]int64{Never, Never, 420, Never}},
		"stored just outside":          {stored(st, 1001, 988, 0), [4]int64{Never, Never, Never, Never}},
		"stored short of the corner":   {stored(st, 988, 1070, 0), [4]int64{Never, Never, Never, Never}},
		"stored arm corner":            {stored(st, 988, 2012, 0), [4]int64{Never, Never, Never, 800}},
		"stored where a dwell goes on": {stored(st, 988, 1900, 0), [4]int64{Never, Never, Never, 800}},
	} {
		q := Silence(&c.cfg)
		assert.Equal(t, c.want, [...]int64{q.Lost, q.Sinks, q.Disarmed, q.Arms}, name)
	}
	// A dwell in the disarming corner goes on by stored values up to where the corner is left, and by repeated ones.
	for at, ends := range map[[2]int]int64{{988, 988}: 400, {1010, 1100}: 400, {1020, 1100}: Never, {1010, 1117}: Never, {1500, 988}: Never} {
		cfg := stored(st, at[0], at[1], 0)
		assert.Equal(t, ends, Silence(&cfg).Ends, at)
	}
	held := by(arming.BySticks, link.RepeatsLast)
	assert.EqualValues(t, 400, Silence(&held).Ends)
	assert.EqualValues(t, Never, Silence(&st).Ends)

	cfg := sinking(stored(st, 988, 988, 0))
	q := Silence(&cfg)
	assert.True(t, q.NeverSinks(&cfg))
	assert.True(t, q.ByValues())
	assert.False(t, q.AtOnce(&cfg))
	cfg = sinking(sw)
	q = Silence(&cfg)
	assert.False(t, q.NeverSinks(&cfg))
	assert.False(t, q.ByValues())
}

// some draws a craft: arming, receiver, stored values near every mark, and all times.
func some(t *rapid.T) sim.Config {
	cfg := by(rapid.SampledFrom([]arming.By{arming.BySwitch, arming.BySticks}).Draw(t, "by"), link.OnLoss(rapid.IntRange(0, 2).Draw(t, "receiver")))
	slots := func(name string, least, most int) uint16 { return uint16(rapid.IntRange(least, most).Draw(t, name)) }
	cfg.SlotTicks = slots("slot", 4, 50)
	cfg.Link.SilenceSlots, cfg.Link.CleanSlots = slots("silence", 1, 60), slots("clean", 0, 60)
	a := &cfg.Arming
	a.StillSlots, a.ArmDwell, a.DisarmDwell, a.SinkSlots = slots("still", 0, 60), slots("arm dwell", 1, 60), slots("disarm dwell", 1, 60), slots("sink", 0, 120)*slots("sinks", 0, 1)
	a.OnlySelfLevelling = rapid.Bool().Draw(t, "self-levelling")
	if rapid.Bool().Draw(t, "idles") {
		cfg.Flight.AtLowThrottle = flight.Idle
	}
	if rapid.Bool().Draw(t, "second") {
		cfg.Layout.Second, cfg.Layout.SecondSpan = 6, layout.Span{Low: pulse.Micros(1600), High: pulse.Highest}
	}
	if rapid.Bool().Draw(t, "arm span low") {
		cfg.Layout.ArmSpan = layout.Span{Low: pulse.Lowest, High: pulse.Micros(1300)}
	}
	near := func(name string, marks ...pulse.Width) pulse.Width {
		w := rapid.SampledFrom(append(marks, pulse.Low, pulse.Centre, pulse.High, pulse.Missing)).Draw(t, name)
		return w + pulse.Width(rapid.IntRange(-1, 1).Draw(t, name+" beside"))
	}
	f := &cfg.Link.Stored
	for c := range f {
		f[c] = pulse.Centre
	}
	f[0] = near("throttle", a.LowThrottle, a.LeaveThrottle)
	f[3] = near("yaw", a.YawLeft, a.YawRight, a.LeaveLeft, a.LeaveRight)
	f[4] = near("arm", cfg.Layout.ArmSpan.Low, cfg.Layout.ArmSpan.High)
	f[5] = near("mode", pulse.Micros(1250), pulse.Micros(1750))
	f[6] = near("second switch", cfg.Layout.SecondSpan.Low)
	if !rapid.Bool().Draw(t, "whole") {
		f[1] = pulse.Missing
	}
	return cfg
}

// bench is a craft on the whole bench, a radio in made hands, and what happened when.
type bench struct {
	*practice.Practice
	cfg  *sim.Config
	seen map[happening.Code]int64
}

func (b *bench) hold(f pulse.Frame) {
	b.Step([]pulse.Reading{{At: b.Tick() * 1000, Kind: pulse.Controls, Frame: f}})
}

func (b *bench) run(ms int64) {
	for range ms {
		b.Step(nil)
		for _, h := range b.Happenings() {
			if _, there := b.seen[h.Code]; !there {
				b.seen[h.Code] = b.Tick() - 1
			}
		}
	}
}

// slots runs whole slots, and ends right before the next one.
func (b *bench) slots(n int) { b.run(int64(n) * int64(b.cfg.SlotTicks)) }

// falls switches the radio off right before a slot: the radio's last frame came in the slot before. It tells when what happened.
func (b *bench) falls() (lost, sinks, disarmed, armed int64) {
	b.seen = map[happening.Code]int64{}
	last := b.Tick() - int64(b.cfg.SlotTicks)
	b.Step([]pulse.Reading{{At: b.Tick() * 1000, Kind: pulse.Link, Value: 0}})
	for _, h := range b.Happenings() {
		b.seen[h.Code] = b.Tick() - 1
	}
	b.run(long)
	at := func(c happening.Code) int64 {
		if tick, ok := b.seen[c]; ok {
			return tick - last
		}
		return Never
	}
	return at(happening.LinkLost), at(happening.Sinking), at(happening.Disarmed), at(happening.Armed)
}

// What Silence says comes to pass on the whole bench, flown by hands: in flight, and disarmed on the ground.
func TestSilenceIsWhatTheBenchDoes(t *testing.T) {
	flown := 0
	rapid.Check(t, func(t *rapid.T) {
		cfg := some(t)
		q := Silence(&cfg)
		l := &cfg.Layout
		hands := pulse.Frame{pulse.Low, pulse.Centre, pulse.Centre, pulse.Centre, pulse.Low, pulse.Low, pulse.High}
		on, off := pulse.High, pulse.Low
		if l.ArmSpan.Contains(pulse.Low) {
			on, off = off, on
		}
		hands[4] = off
		begin := func() *bench {
			b := &bench{Practice: practice.New(cfg), cfg: &cfg, seen: map[happening.Code]int64{}}
			b.Step([]pulse.Reading{{Kind: pulse.Plug, Value: 1}, {Kind: pulse.Link, Value: 1}, {Kind: pulse.Controls, Frame: hands}, {Kind: pulse.Power, Value: 1}})
			b.run(int64(cfg.SlotTicks) - 1)
			b.slots(int(max(cfg.Arming.StillSlots, cfg.Link.CleanSlots)) + 3)
			return b
		}
		armed := func(b *bench) bool { return b.Bench().State().Slot.Arming.Armed }
		move := func(b *bench, f pulse.Frame, slots int) {
			b.hold(f)
			b.run(int64(cfg.SlotTicks) - 1)
			b.slots(slots - 1)
		}

		b := begin()
		require.False(t, armed(b))
		arms := hands
		arms[4] = on
		if cfg.Arming.By == arming.BySticks {
			arms[3] = pulse.High
		}
		arms0 := arms
		move(b, arms, int(cfg.Arming.ArmDwell)+2)
		require.True(t, armed(b), "hands arm it")
		arms[3] = pulse.Centre
		arms[0] = pulse.Micros(rapid.SampledFrom([]int{1100, 1500, 2012}).Draw(t, "flies at"))
		move(b, arms, rapid.IntRange(1, 5).Draw(t, "slots"))
		lost, sinks, disarmed, again := b.falls()
		if sinks == disarmed { // begun and ended in one slot: it sank for no time
			sinks = Never
		}
		require.Equal(t, []int64{q.Lost, q.Sinks, q.Disarmed}, []int64{lost, sinks, disarmed})
		if disarmed == Never {
			require.Equal(t, int64(Never), again)
			require.True(t, armed(b))
			require.Equal(t, int64(Never), q.Disarmed)
		}
		flown++

		// The sticks in the disarming corner for a slot.
		if cfg.Arming.By == arming.BySticks && cfg.Arming.DisarmDwell > 1 {
			b = begin()
			move(b, arms0, int(cfg.Arming.ArmDwell)+2)
			corner := hands
			corner[3] = pulse.Low
			move(b, corner, 1)
			require.True(t, armed(b))
			lost, _, ended, _ := b.falls()
			if ended != Never && (lost == Never || ended < lost) {
				require.Equal(t, q.Ends, ended)
			} else {
				require.Equal(t, int64(Never), q.Ends)
			}
		}

		// Disarmed: whatever the hands were at when the radio fell silent, it arms by itself only where Silence says so, and no sooner.
		b = begin()
		f := hands
		f[0] = pulse.Micros(rapid.SampledFrom([]int{988, 988, 999, 1010, 1500}).Draw(t, "throttle at"))
		f[3] = pulse.Micros(rapid.SampledFrom([]int{988, 1500, 1890, 2012, 2012}).Draw(t, "yaw at"))
		f[5] = pulse.Micros(rapid.SampledFrom([]int{988, 2012}).Draw(t, "mode at"))
		if f[0] >= cfg.Arming.LowThrottle || cfg.Arming.OnlySelfLevelling && f[5] == pulse.High {
			f[4] = on // refused, whatever comes
		}
		move(b, f, rapid.IntRange(1, 3).Draw(t, "held"))
		if armed(b) {
			return
		}
		_, _, _, armedAt := b.falls()
		if armedAt != Never {
			require.NotEqual(t, int64(Never), q.Arms)
			require.GreaterOrEqual(t, armedAt+3*int64(cfg.SlotTicks), q.Arms, "the hands held the corner for up to 3 slots")
		}
	})
	assert.NotZero(t, flown)
}

// The search of every situation agrees: a disarmed craft arms by itself, and an armed one stays armed beyond the promise, exactly
// where Silence says so.
func TestSilenceAgreesWithTheSearch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cfg := some(t)
		cfg.SlotTicks = 4
		a := &cfg.Arming
		cfg.Link.SilenceSlots, cfg.Link.CleanSlots = 3+cfg.Link.SilenceSlots%3, 3
		a.StillSlots, a.ArmDwell, a.DisarmDwell, a.SinkSlots = 3, 3, 2+a.DisarmDwell%4, a.SinkSlots%5
		q := Silence(&cfg)
		l := &cfg.Layout
		wants := []handset.Want{{Channel: 0, Job: "throttle"}, {Channel: 1, Job: "roll"}, {Channel: 2, Job: "pitch"}, {Channel: 3, Job: "yaw"}}
		for _, w := range []handset.Want{{Channel: l.Arm, Job: "arm", Kind: handset.Switch}, {Channel: l.Mode, Job: "mode", Kind: handset.Switch}, {Channel: l.Second, Job: "second", Kind: handset.Switch}} {
			if w.Channel != layout.NoChannel {
				wants = append(wants, w)
			}
		}
		r, err := Prove(prove.Layout{Config: cfg, Radio: handset.Ideal(wants)}, nil)
		require.NoError(t, err)
		broken := func(rule prove.Rule) bool { return r.Results[rule].Outcome == prove.Broken }
		require.Equal(t, broken(prove.StoredNeverArms) || broken(prove.HeldNeverArms), q.Arms != Never)
		promised := int64(cfg.Link.SilenceSlots+a.SinkSlots) * int64(cfg.SlotTicks)
		late := q.Disarmed == Never || q.Disarmed > promised
		// Stored values between the edges of the disarming corner end a dwell that the hands began, but no flight.
		require.Equal(t, late, broken(prove.LossStopsMotors), "%+v", q)
		if late && q.Disarmed != Never {
			require.Equal(t, prove.StoredLate, r.Results[prove.LossStopsMotors].Cause)
			require.Equal(t, q.Disarmed, r.Results[prove.LossStopsMotors].Value)
		}
	})
}

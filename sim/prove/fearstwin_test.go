package prove

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/arming"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// desk is the whole bench with hands at it that know nothing of prove: they hold a frame for so many slots.
type desk struct {
	p    *practice.Practice
	slot int
	f    pulse.Frame
	tell []pulse.Reading
}

func newDesk(l *Layout) *desk {
	d := &desk{p: practice.New(l.Config), slot: int(l.Config.SlotTicks)}
	for i := range l.Radio.Controls {
		c := &l.Radio.Controls[i]
		d.f[c.Channel] = c.Rest
		if c.Kind == handset.Switch {
			d.f[c.Channel] = c.Positions[0].Width
		}
		if c.Stays {
			d.f[c.Channel] = c.Low
		}
	}
	d.tell = []pulse.Reading{{Kind: pulse.Plug, Value: 1}, {Kind: pulse.Link, Value: 1}}
	return d
}

// holds steps slots, and reports whether it was armed after the first tick of any.
func (d *desk) holds(slots int) (armed bool) {
	d.tell = append(d.tell, pulse.Reading{Kind: pulse.Controls, Frame: d.f})
	for range slots {
		for range d.slot {
			for i := range d.tell {
				d.tell[i].At = d.p.Tick() * 1000
			}
			d.p.Step(d.tell)
			d.tell = d.tell[:0]
			armed = armed || d.p.Bench().Armed()
		}
	}
	return armed
}

func (d *desk) says(k pulse.Kind, v int32) { d.tell = append(d.tell, pulse.Reading{Kind: k, Value: v}) }

// A hand sweeps the arm switch from each place at which the craft is at rest and disarmed to either end, a position a slot: it is armed on the way and
// is not in the end, or prove says that no sweep does that.
func TestSweepTwin(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 11))
	broken := 0
	for n := range 120 {
		us := []int{988, 1193, 1398, 1602, 1807, 2012, 2190}
		for len(us) > 2+n%5 {
			i := r.IntN(len(us))
			us = slices.Delete(us, i, i+1)
		}
		low := 900 + r.IntN(1100)
		m := bySwitch().short(3, 3, 3, 3, 3, 0).positions("arm", us...).armSpan(low, min(low+100+r.IntN(700), 2180))
		sweeps := false
		for start := range us {
			for _, by := range []int{-1, 1} {
				d := newDesk(&m.Layout)
				d.f[4] = pulse.Micros(us[start])
				d.says(pulse.Power, 1)
				if d.holds(10); d.p.Bench().Armed() || !d.f[4].Valid() {
					continue
				}
				armed := false
				for i := start; i >= 0 && i < len(us); i += by {
					d.f[4] = pulse.Micros(us[i])
					armed = d.holds(1) || armed
					sweeps = sweeps || armed && !d.p.Bench().Armed()
				}
			}
		}
		rep, err := Search(m.Layout, Options{})
		require.NoError(t, err)
		assert.Equal(t, sweeps, rep.Results[SweepNeverArms].Outcome == Broken, "positions %v, span from %d", us, low)
		broken += int(bit(sweeps))
	}
	assert.Greater(t, broken, 10)
	assert.Less(t, broken, 110)
}

// A hand takes the mode switch from each position that levels to each other one, and looks whether the craft is in rate on the way.
func TestRateOnTheWayTwin(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 8))
	broken := 0
	for range 120 {
		us := []int{988, 1193, 1398, 1602, 1807, 2012}[:3+r.IntN(4)]
		m := bySwitch().short(3, 3, 3, 3, 3, 0).positions("mode", us...)
		var spans []layout.ModeSpan
		for _, w := range us { // each position has a span of its own
			spans = append(spans, span(layout.Mode(r.IntN(layout.Modes)), w-100, w+100))
		}
		m.modes(spans...)
		passes := false
		for from := range us {
			for to := from + 2; to < len(us); to++ {
				d := newDesk(&m.Layout)
				d.says(pulse.Power, 1)
				var modes []layout.Mode
				for i := from; i <= to; i++ {
					d.f[5] = pulse.Micros(us[i])
					d.holds(2)
					modes = append(modes, d.p.Bench().State().Slot.Layout.Mode)
				}
				ends := modes[0] != layout.Rate && modes[len(modes)-1] != layout.Rate
				passes = passes || ends && slices.Contains(modes, layout.Rate)
			}
		}
		rep, err := Search(m.Layout, Options{})
		require.NoError(t, err)
		assert.Equal(t, passes, rep.Results[NoRateOnTheWay].Outcome == Broken, "%v", spans)
		broken += int(bit(passes))
	}
	assert.Greater(t, broken, 10)
	assert.Less(t, broken, 110)
}

// Every throttle that is low and every position of the mode switch is tried by hand: some motor turns in the very tick of arming, or prove says that
// none does.
func TestMotorsAtArmingTwin(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 4))
	pick := func(of ...int) int { return of[r.IntN(len(of))] }
	found := map[Outcome]int{}
	for range 150 {
		m := bySwitch().short(3, 3, 3, 3, 3, 0)
		if r.IntN(3) == 0 {
			m = bySticks().short(3, 3, 3, 3, 3, 0)
		}
		m.lowMark(pick(7950, 8000, 8001, 8010, 8400, 8800)).airWakes(pick(0, 1, 9, 10, 300, 700, 1440)).travel("throttle", pick(988, 999, 1002), pick(1003, 1040, 2012))
		m.Config.Flight.AirModes = uint8(r.IntN(8))
		m.positions("mode", pick(988, 1300, 1800), pick(1500, 2012))
		if r.IntN(4) == 0 {
			m.Config.Flight.AtLowThrottle, m.Config.Flight.IdleSpeed = flight.Idle, uint16(pick(0, 900))
		}
		if r.IntN(4) == 0 {
			m.levelOnly()
		}
		turns := false
		thr := m.control("throttle")
		for w := thr.Low; w <= thr.High && w < m.Config.Arming.LowThrottle; w++ {
			if near := w < thr.Low+3 || w > m.Config.Arming.LowThrottle-4 || w > thr.High-4 || w%200 == 0; !near {
				continue
			}
			for _, pos := range m.control("mode").Positions {
				turns = turns || turnsWhenArmed(&m.Layout, w, pos.Width)
			}
		}
		rep, err := Search(m.Layout, Options{})
		require.NoError(t, err)
		o := rep.Results[ArmingStartsNoMotor].Outcome
		found[o]++
		assert.Equal(t, turns, o == Broken || o == WithIt, "%+v %+v %+v", m.Config.Flight, m.Config.Arming, m.Radio.Controls)
		assert.Equal(t, turns && m.Config.Flight.AtLowThrottle == flight.Idle, o == WithIt)
	}
	assert.Greater(t, found[Broken], 5)
	assert.Greater(t, found[WithIt], 5)
	assert.Greater(t, found[Holds], 20)
}

func turnsWhenArmed(l *Layout, throttle, mode pulse.Width) bool {
	d := newDesk(l)
	d.f[0], d.f[5] = throttle, mode
	d.says(pulse.Power, 1)
	d.holds(10)
	if l.Config.Arming.By == arming.BySticks {
		d.f[3] = pulse.High
	} else {
		d.f[4] = pulse.High
	}
	d.tell = append(d.tell, pulse.Reading{Kind: pulse.Controls, Frame: d.f})
	for range 10 * d.slot {
		for i := range d.tell {
			d.tell[i].At = d.p.Tick() * 1000
		}
		d.p.Step(d.tell)
		d.tell = d.tell[:0]
		if d.p.Bench().Armed() {
			return d.p.Bench().State().Motor != [flight.Motors]uint16{}
		}
	}
	return false
}

// Motors that turn so many slots after the radio's last frame are looked for in every situation of small crafts, by the twin, which keeps count of the
// frames and of the flight state by itself.
func TestMotorsAfterSilenceTwin(t *testing.T) {
	tiny := func() *made { return bySwitch().short(3, 3, 3, 3, 3, 0).positions("arm", 988, 2012) }
	for name, m := range map[string]*made{
		"falls silent": tiny(), "sinks": tiny().sink(4), "sinks without motors": tiny().carries(0), "hold": tiny().hold(),
		"stored on": tiny().stored(988, 1500, 2012), "stored on, no air mode": tiny().stored(988, 1500, 2012).with(func(m *made) { m.Config.Flight.AirModes = 0 }),
		"stored on, idles":       tiny().stored(988, 1500, 2012).with(func(m *made) { m.Config.Flight.AtLowThrottle, m.Config.Flight.AirModes = flight.Idle, 0 }),
		"stored on, throttle up": tiny().stored(1200, 1500, 2012).with(func(m *made) { m.Config.Flight.AirModes = 0 }), "stored off": tiny().stored(988, 1500, 988),
		"stored without a pulse": tiny().stored(988, 1500, 0).sink(3),
		"air in rate alone":      tiny().stored(988, 1500, 2012).with(func(m *made) { m.Config.Flight.AirModes = 1 << layout.Rate }),
		"sticks, stored to disarm": bySticks().short(3, 3, 3, 3, 4, 0).stored(988, 988, 0).with(func(m *made) {
			m.Config.Layout.Mode, m.Config.Layout.FixedMode = layout.NoChannel, layout.Horizon
			m.without("mode")
		}),
	} {
		m.airWakes(0) // the throttle of the twin goes little higher
		nodes := newTwin(&m.Layout).explore(t)
		h, err := newHands(&m.Layout, question{})
		require.NoError(t, err)
		f := &fearful{&search{l: &m.Layout, h: h}, &m.Layout, &m.Config, SilenceStopsSoon}
		by := 1
		if testing.Short() || raceDetector {
			by = 4
		}
		for slots := 1; slots <= 9; slots += by {
			moves, _, turns := newTwin(&m.Layout).shortest(nodes, stillTurningAfter(m, slots))
			best, tries := f.turnsFor(slots)
			assert.Equal(t, turns, best != nil, "%s: %d slots", name, slots)
			assert.Positive(t, tries)
			if best != nil && turns {
				assert.EqualValues(t, moves, best.way.Movements, "%s: %d slots: movements", name, slots)
			}
		}
	}
}

// stillTurningAfter is broken where a motor turns so many slots after the radio's last frame. What it remembers: the slots since then, the flight state,
// and the throttle of the last valid frame.
func stillTurningAfter(m *made, slots int) plain {
	return func(w watched, s *slotSeen) (watched, bool) {
		silent, state, throttle := w.n&0xff, flight.State{Passed: w.n>>8&1 == 1, AirAwake: w.n>>9&1 == 1}, pulse.Width(w.n>>16)
		if !s.after.powered {
			return watched{}, false
		}
		if !s.wasOn {
			silent, state, throttle = 0xff, flight.State{}, 0
		}
		switch {
		case s.after.on:
			silent = 0
		case silent != 0xff:
			silent = min(silent+1, slots+1)
		}
		if s.valid {
			throttle = s.wide(m.Config.Layout.Throttle)
		}
		in := flight.Input{Armed: s.is.Arming.Armed, Throttle: throttle.ThrottleFraction(), Low: throttle < m.Config.Arming.LowThrottle, Mode: s.is.Layout.Mode}
		if s.is.Arming.Sink > 0 {
			in.Sinking, in.Throttle, in.SinkSpeed = true, pulse.ThrottleFull, m.Config.Flight.SinkCarries
		}
		state, speed := flight.Step(&m.Config.Flight, state, in)
		w.n = silent | int(bit(state.Passed))<<8 | int(bit(state.AirAwake))<<9 | int(throttle)<<16
		return w, silent == slots && speed[0] > 0
	}
}

// The limits are those that the rules say, to the slot and to the eighth of a µs.
func TestLimitsOfFearsAreExact(t *testing.T) {
	for _, slot := range []uint16{4, 7, 20, 50} {
		for by := range 3 {
			m := bySwitch().short(3, 4, 3, 3, 3, 0)
			m.Config.SlotTicks = slot
			slots := MostTurning/int(slot) - 4 + by
			h, err := newHands(&m.sink(slots).Layout, question{})
			require.NoError(t, err)
			s := &search{l: &m.Layout, h: h}
			s.begin()
			judgeStopsSoon(&fearful{s, &m.Layout, &m.Config, SilenceStopsSoon})
			late := (3+slots)*int(slot) > MostTurning
			assert.Equal(t, late, s.r.Results[SilenceStopsSoon].Outcome == Broken, fmt.Sprint(slot, " ms, ", slots, " slots"))
		}
	}
}

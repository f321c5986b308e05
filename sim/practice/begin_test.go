package practice_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/sim"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// anything is any reading that hands, desk or instructor can make.
func anything(t *rapid.T) pulse.Reading {
	number := func(lo, hi int32) int32 { return rapid.Int32Range(lo, hi).Draw(t, "value") }
	if rapid.IntRange(0, 2).Draw(t, "controls") == 0 {
		f := start()[3].Frame
		for c := range 8 {
			f[c] = rapid.SampledFrom([]pulse.Width{pulse.Low, pulse.Low + 700, pulse.Centre, pulse.High, pulse.Missing}).Draw(t, "width")
		}
		return pulse.Reading{Kind: pulse.Controls, Frame: f}
	}
	k := rapid.SampledFrom([]pulse.Kind{
		pulse.Link, pulse.Plug, pulse.Power, pulse.Cable, pulse.Tilt, pulse.Nudge, pulse.Menu, pulse.Pack, pulse.Air, pulse.Propellers, pulse.StickMode, pulse.Instructor,
	}).Draw(t, "kind")
	switch k {
	case pulse.Tilt:
		return pulse.Reading{Kind: k, Value: number(0, 500)}
	case pulse.Menu:
		return pulse.Reading{Kind: k, Value: number(0, 2)}
	case pulse.Pack:
		return pulse.Reading{Kind: k, Value: number(0, 16000)}
	case pulse.Propellers:
		return pulse.Reading{Kind: k, Value: pulse.PropellersValue([4]int8{1, -1, -1, int8(number(-1, 1))}, number(0, 1) == 1)}
	case pulse.StickMode:
		return pulse.Reading{Kind: k, Value: number(1, 4)}
	case pulse.Instructor:
		d := pulse.Deed(rapid.IntRange(1, int(fault.Count)-1).Draw(t, "fault"))
		cfg := sim.Default()
		a, b, _ := fault.Usual(d, &cfg.Layout)
		if d == fault.Dropouts && number(0, 1) == 1 {
			b = 0
		}
		v, _ := fault.Plant(d, a, b)
		if number(0, 3) == 0 {
			v = fault.Lift(d)
		}
		return pulse.Reading{Kind: k, Value: v}
	}
	return pulse.Reading{Kind: k, Value: number(0, 1)}
}

// A practice that begins from what stands does whatever the one that stood there does once its craft is changed: so a part of a take
// needs nothing from the parts before it.
func TestAPracticeBeginsFromWhatStands(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := practice.New(sim.Default())
		p.Step(start())
		for range rapid.IntRange(0, 40).Draw(t, "before") {
			p.Step([]pulse.Reading{anything(t)})
			for range rapid.IntRange(0, 200).Draw(t, "ticks") {
				p.Step(nil)
			}
		}
		p.Step([]pulse.Reading{{Kind: pulse.Power}})
		was := p.Bench().State().In
		stands, tick := p.Stands(nil), p.Tick()
		other := sim.Default()
		other.Arming.SinkSlots, other.Layout.Arm = 100, 6
		p.Change(other)
		assert.Equal(t, tick, p.Tick())
		assert.Empty(t, p.Happenings(), "nothing has happened outside")
		now := p.Bench().State().In
		was.Craft.Moved, was.Sent = false, now.Sent // bent ones come with the next step
		was.Craft.Menu = now.Craft.Menu
		assert.Equal(t, was, now)

		q := practice.Begin(other, tick, stands)
		for range rapid.IntRange(1, 40).Draw(t, "after") {
			var rs []pulse.Reading
			if rapid.Bool().Draw(t, "read") {
				rs = append(rs, anything(t))
			}
			for range rapid.IntRange(1, 200).Draw(t, "ticks") {
				p.Step(rs)
				q.Step(rs)
				rs = nil
				require.Equal(t, p.Happenings(), q.Happenings())
				require.Equal(t, p.Digest(), q.Digest())
			}
			require.Equal(t, p.Bench().State(), q.Bench().State())
		}
	})
}

// What stands is kept whole: a fault goes on as it was planted, one that dropped out once does not do so again, and what is stuck
// stays where it stuck.
func TestWhatStandsGoesOn(t *testing.T) {
	p := practice.New(sim.Default())
	p.Step(append(start(), faulty(t, fault.Dropouts, 400, 0), faulty(t, fault.Stuck, 1, 0), pulse.Reading{Kind: pulse.Tilt, Value: 123}))
	f := start()[3].Frame
	f[0] = pulse.High
	p.Step([]pulse.Reading{{Kind: pulse.Controls, Frame: f}})
	for range 1000 {
		p.Step(nil)
	}
	p.Step([]pulse.Reading{{Kind: pulse.Power}})
	p.Change(sim.Default())
	p.Step([]pulse.Reading{{Kind: pulse.Power, Value: 1}})
	require.Equal(t, happening.Power, p.Happenings()[0].Code)
	for range 500 {
		p.Step(nil)
		for _, h := range p.Happenings() {
			assert.NotEqual(t, happening.LinkLost, h.Code)
		}
	}
	s := p.Bench().State()
	assert.Equal(t, pulse.Low, s.LastValid[0])
	assert.Equal(t, f, *p.Hands())
	assert.EqualValues(t, 123, s.In.Craft.TiltTenths)
}

// Changed in the air, the new craft stands on its feet at the start.
func TestANewCraftStands(t *testing.T) {
	p := practice.New(sim.Default())
	p.Step(append(start(), pulse.Reading{Kind: pulse.Air, Value: 1}))
	for range 500 {
		p.Step(nil)
	}
	s := p.Bench().State()
	s.Air.Body.Pos.Z, s.Air.Flying = -30, true
	p.Bench().Restore(s)
	p.Step([]pulse.Reading{{Kind: pulse.Power}})
	p.Change(sim.Default())
	now := p.Bench().State()
	assert.True(t, now.In.Air && !now.Air.Flying)
	assert.Greater(t, now.Air.Body.Pos.Z, -0.1)
}

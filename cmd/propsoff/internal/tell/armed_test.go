package tell

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// What disarms an armed craft, in the states in which that is not what it usually is.
func TestWhatDisarmsNow(t *testing.T) {
	var tell facts.Teller
	set := func(k pulse.Kind, v int32) pulse.Reading { return pulse.Reading{Kind: k, Value: v} }
	armed := func(cfg sim.Config) (*practice.Practice, *pulse.Frame) {
		cfg.Link.Needed = cfg.Layout.Needed()
		p, f := practice.New(cfg), &pulse.Frame{}
		for c := range f {
			f[c] = pulse.Low
		}
		f[1], f[2], f[3] = pulse.Centre, pulse.Centre, pulse.Centre
		steps(p, 4000, set(pulse.Plug, 1), set(pulse.Link, 1), set(pulse.Power, 1), pulse.Reading{Kind: pulse.Controls, Frame: *f})
		f[cfg.Layout.Arm] = pulse.High
		steps(p, 100, pulse.Reading{Kind: pulse.Controls, Frame: *f})
		require.True(t, p.Bench().Armed())
		return p, f
	}
	says := func(p *practice.Practice) (what, next string) {
		f := tell.Of(p, facts.Whose{Hand: facts.Radio})
		return spoken(WhatDisarms(&f)), spoken(Next(&f, Keys{Pack: words.AsIs("P"), Radio: words.AsIs("L")}))
	}
	const refuses = " What would keep it from arming does not disarm it; of all that, only a lost link can."

	cfg := sim.Default()
	p, _ := armed(cfg)
	what, _ := says(p)
	assert.Equal(t, "What disarms now: the arm switch off, at once; the pack pulled; a radio silent for 0.24 s, which cuts the motors."+refuses, what)
	asked := tell.Of(p, facts.Whose{Hand: facts.Radio})
	asked.Plain = true
	assert.Equal(t, "What disarms now: the arm switch off, at once; the pack pulled."+refuses, spoken(WhatDisarms(&asked)), "a drill may ask what a silent radio does")

	v, ok := fault.Plant(fault.Stuck, int32(cfg.Layout.Arm)+1, 0)
	require.True(t, ok)
	steps(p, 100, set(pulse.Instructor, v))
	what, next := says(p)
	assert.Equal(t, "What disarms now: channel 5 below 1600 µs, which this hand cannot bring about; the pack pulled; a radio silent for 0.24 s, which cuts the motors."+refuses, what)
	assert.Equal(t, "To disarm, channel 5 must read below 1600 µs; it reads 2012 µs. A radio silent for 0.24 s disarms it too. Or press P to pull the pack.", next)

	cfg.Arming.SinkSlots = 200 // 4 s
	p, f := armed(cfg)
	f[0] = pulse.Centre
	steps(p, 100, pulse.Reading{Kind: pulse.Controls, Frame: *f})
	what, _ = says(p)
	assert.Contains(t, what, "; a radio silent for 0.24 s and 4 s of sinking.")
	steps(p, 1240, set(pulse.Link, 0))
	require.True(t, p.Bench().Sinking())
	what, _ = says(p)
	assert.Equal(t, "It disarms by itself, in 3.0 s. What else disarms now: the radio back with the arm switch off; the pack pulled."+refuses, what)
	f[cfg.Layout.Arm] = pulse.Low
	steps(p, 20, pulse.Reading{Kind: pulse.Controls, Frame: *f})
	steps(p, 40, set(pulse.Link, 1))
	assert.False(t, p.Bench().Armed(), "as it said")
}

// The arm switch in words of what the craft must read, wherever its span lies.
func TestWhereTheArmSwitchIsRead(t *testing.T) {
	cfg := sim.Default()
	for _, c := range []struct {
		low, high    pulse.Width
		arms, disarm string
	}{
		{pulse.Micros(1600), pulse.Highest, "channel 5 at 1600 µs or above", "channel 5 below 1600 µs"},
		{pulse.Lowest, pulse.Micros(1400), "channel 5 below 1400 µs", "channel 5 at 1400 µs or above"},
		{pulse.Micros(1400), pulse.Micros(1600), "channel 5 between 1400 and 1600 µs", "channel 5 below 1400 or from 1600 µs on"},
	} {
		cfg.Layout.ArmSpan.Low, cfg.Layout.ArmSpan.High = c.low, c.high
		assert.Equal(t, c.arms, spoken(armedBy(&cfg)))
		assert.Equal(t, c.disarm, spoken(disarmedBy(&cfg)))
	}
}

// steps puts readings into a practice and lets time pass.
func steps(p *practice.Practice, ms int, r ...pulse.Reading) {
	p.Step(r)
	for range ms {
		p.Step(nil)
	}
}

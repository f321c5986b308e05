package mend

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// No end is set beyond full travel, 988 to 2012. Each end is set to what the rule asks for, rounded to 10 µs away from its limit; the other stays as it was measured. By hand: low mark 1000 and 5 clear,
// so 995, so 990; fully left 1064.75 and right 1935.25.
func TestTravelIsWhatTheRuleAsks(t *testing.T) {
	ends := func(m *made, job string) [2]float64 {
		for i := range m.Radio.Controls {
			if m.Radio.Controls[i].Job == job {
				low, high := endsOf(&m.Layout, i)
				return [2]float64{float64(low) / pulse.Eighths, float64(high) / pulse.Eighths}
			}
		}
		return [2]float64{}
	}
	with := func(m *made, change func(*made)) *made { change(m); return m }
	for name, c := range map[string]struct {
		m    *made
		job  string
		want [2]float64
	}{
		"throttle short":            {with(bySwitch(), func(m *made) { m.travel("throttle", 1004, 1990) }), "throttle", [2]float64{990, 1990}},
		"throttle as it should be":  {with(bySwitch(), func(m *made) { m.travel("throttle", 994, 1990) }), "throttle", [2]float64{994, 1990}},
		"throttle noisy":            {with(bySwitch(), func(m *made) { m.travel("throttle", 988, 2012); m.control("throttle").Noise = 3 * pulse.Eighths }), "throttle", [2]float64{988, 2012}},
		"yaw short, by sticks":      {with(bySticks(), func(m *made) { m.travel("yaw", 1200, 1800) }), "yaw", [2]float64{1060, 1940}},
		"yaw short to the right":    {with(bySticks(), func(m *made) { m.travel("yaw", 1003, 1800) }), "yaw", [2]float64{1003, 1940}},
		"yaw short, by switch":      {with(bySwitch(), func(m *made) { m.travel("yaw", 1200, 1800) }), "yaw", [2]float64{1200, 1800}},
		"roll beyond pulses":        {with(bySwitch(), func(m *made) { m.travel("roll", 988, 2300) }), "roll", [2]float64{988, 2170}},
		"roll all beyond pulses":    {with(bySwitch(), func(m *made) { m.travel("roll", 2190, 2210) }), "roll", [2]float64{990, 2010}},
		"arm switch short":          {with(bySwitch(), func(m *made) { m.positions("arm", 988, 1550) }), "arm", [2]float64{988, 1610}},
		"arm switch never off":      {with(bySwitch(), func(m *made) { m.positions("arm", 1700, 2012) }), "arm", [2]float64{1590, 2012}},
		"mode switch short":         {with(bySwitch(), func(m *made) { m.positions("mode", 988, 1500, 1600) }), "mode", [2]float64{988, 1760}},
		"a span beyond full travel": {with(bySwitch(), func(m *made) { m.Config.Layout.ArmSpan = layout.Span{Low: pulse.Micros(2050), High: pulse.Highest} }), "arm", [2]float64{988, 2012}},
	} {
		assert.Equal(t, c.want, ends(c.m, c.job), name)
	}
}

package mend

import (
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// made is a layout under test, changed step by step from a sound one.
type made struct{ prove.Layout }

// bySwitch is the built-in craft and a radio that nothing is wrong with, which has two switches more that do nothing yet.
func bySwitch() *made {
	m := &made{prove.Layout{Config: sim.Default()}}
	m.Radio = handset.Ideal([]handset.Want{
		{Channel: 0, Job: "throttle"}, {Channel: 1, Job: "roll"}, {Channel: 2, Job: "pitch"}, {Channel: 3, Job: "yaw"},
		{Channel: 4, Job: "arm", Kind: handset.Switch}, {Channel: 5, Job: "mode", Kind: handset.Switch},
		{Channel: 6, Job: "channel 7", Kind: handset.Switch}, {Channel: 7, Job: "channel 8", Kind: handset.Switch},
	})
	m.positions("arm", 988, 2012)
	return m.positions("channel 8", 988, 2012)
}

// bare takes the two switches away that do nothing.
func (m *made) bare() *made {
	m.Radio.Controls = m.Radio.Controls[:6]
	return m
}

func bySticks() *made {
	m := bySwitch()
	m.Config.Layout.Arm, m.Config.Arming.By = layout.NoChannel, arming.BySticks
	m.Config.Link.Needed = m.Config.Layout.Needed()
	m.control("arm").Job = "channel 5"
	return m
}

func (m *made) with(change func(*made)) *made {
	change(m)
	return m
}

func (m *made) second() *made {
	m.Config.Layout.Second, m.Config.Layout.SecondSpan = 6, us(1600, 2180)
	m.control("channel 7").Job = "second"
	return m
}

// six gives the mode switch six positions, two for each mode.
func (m *made) six() *made {
	m.positions("mode", 988, 1193, 1398, 1602, 1807, 2012)
	return m.modes(in(layout.Angle, 860, 1290), in(layout.Horizon, 1290, 1700), in(layout.Rate, 1700, 2180))
}

// stored in µs: throttle, yaw, arm.
func (m *made) stored(throttle, yaw, arm int) *made {
	c := &m.Config
	c.Link.OnLoss = link.SendsStored
	f := pulse.Frame{pulse.Micros(throttle), pulse.Centre, pulse.Centre, pulse.Micros(yaw)}
	if c.Layout.Arm != layout.NoChannel {
		f[c.Layout.Arm] = pulse.Micros(arm)
	}
	c.Link.Stored = f
	return m
}

func (m *made) control(job string) *handset.Control {
	for i := range m.Radio.Controls {
		if m.Radio.Controls[i].Job == job {
			return &m.Radio.Controls[i]
		}
	}
	panic("no control for " + job)
}

func (m *made) positions(job string, us ...int) *made {
	c := m.control(job)
	c.Positions = nil
	for _, w := range us {
		c.Positions = append(c.Positions, handset.Position{Width: pulse.Micros(w), Spread: pulse.Eighths})
	}
	return m
}

func (m *made) travel(job string, low, high int) *made {
	c := m.control(job)
	c.Low, c.High = pulse.Micros(low), pulse.Micros(high)
	c.Rest = max(c.Rest, c.Low)
	return m
}

func (m *made) modes(spans ...layout.ModeSpan) *made {
	l := &m.Config.Layout
	clear(l.Spans[:])
	l.SpanCount = int8(copy(l.Spans[:], spans))
	return m
}

func us(a, b int) layout.Span { return layout.Span{Low: pulse.Micros(a), High: pulse.Micros(b)} }

func in(m layout.Mode, a, b int) layout.ModeSpan { return layout.ModeSpan{Mode: m, Span: us(a, b)} }

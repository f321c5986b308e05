package prove

import (
	"slices"
	"testing"

	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// made is a layout under test, changed step by step from a sound one.
type made struct{ Layout }

// bySwitch is the built-in craft and a radio that nothing is wrong with.
func bySwitch() *made {
	m := &made{Layout{Config: sim.Default()}}
	return m.fresh()
}

func bySticks() *made {
	m := bySwitch()
	m.Config.Layout.Arm = layout.NoChannel
	m.Config.Arming.By = arming.BySticks
	m.Config.Link.Needed = m.Config.Layout.Needed()
	return m.fresh()
}

// fresh gives the radio a control for every channel that the craft listens to.
func (m *made) fresh() *made {
	l := &m.Config.Layout
	wants := []handset.Want{{Channel: l.Throttle, Job: "throttle"}, {Channel: l.Roll, Job: "roll"}, {Channel: l.Pitch, Job: "pitch"}, {Channel: l.Yaw, Job: "yaw"}}
	for _, w := range []handset.Want{{Channel: l.Arm, Job: "arm"}, {Channel: l.Mode, Job: "mode"}, {Channel: l.Second, Job: "second"}} {
		if w.Channel != layout.NoChannel {
			w.Kind = handset.Switch
			wants = append(wants, w)
		}
	}
	m.Radio = handset.Ideal(wants)
	return m
}

// short makes the times a few slots of 4 ms.
func (m *made) short(silence, clean, still, armDwell, disarmDwell, sink uint16) *made {
	c := &m.Config
	c.SlotTicks = 4
	c.Link.SilenceSlots, c.Link.CleanSlots = silence, clean
	c.Arming.StillSlots, c.Arming.ArmDwell, c.Arming.DisarmDwell, c.Arming.SinkSlots = still, armDwell, disarmDwell, sink
	return m
}

func (m *made) with(change func(*made)) *made {
	change(m)
	return m
}

func (m *made) second() *made {
	m.Config.Layout.Second, m.Config.Layout.SecondSpan = 6, layout.Span{Low: pulse.Micros(1600), High: pulse.Highest}
	return m.fresh()
}

func (m *made) levelOnly() *made {
	m.Config.Arming.OnlySelfLevelling = true
	return m
}

func (m *made) hold() *made {
	m.Config.Link.OnLoss = link.RepeatsLast
	return m
}

// stored in µs: throttle, yaw, arm.
func (m *made) stored(throttle, yaw, arm int) *made {
	m.Config.Link.OnLoss = link.SendsStored
	f := pulse.Frame{pulse.Micros(throttle), pulse.Centre, pulse.Centre, pulse.Micros(yaw)}
	if ch := m.Config.Layout.Arm; ch != layout.NoChannel {
		f[ch] = pulse.Micros(arm)
	}
	f[m.Config.Layout.Mode] = pulse.Low
	m.Config.Link.Stored = f
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

// positions of a switch in µs.
func (m *made) positions(job string, us ...int) *made {
	c := m.control(job)
	c.Positions = nil
	for _, w := range us {
		c.Positions = append(c.Positions, handset.Position{Width: pulse.Micros(w)})
	}
	return m
}

// spread of each position of a switch, and noise of a stick, in µs.
func (m *made) spread(job string, us int) *made {
	c := m.control(job)
	for i := range c.Positions {
		c.Positions[i].Spread = pulse.Micros(us)
	}
	return m
}

func (m *made) noise(job string, us int) *made {
	m.control(job).Noise = pulse.Micros(us)
	return m
}

// same makes one control the same piece of the radio as another.
func (m *made) same(job, as string, turned bool) *made {
	for i := range m.Radio.Controls {
		if m.Radio.Controls[i].Job == as {
			m.control(job).Same, m.control(job).Turned = i+1, turned
		}
	}
	return m
}

// travel of a stick in µs.
func (m *made) travel(job string, low, high int) *made {
	c := m.control(job)
	c.Low, c.High = pulse.Micros(low), pulse.Micros(high)
	c.Rest = max(c.Rest, c.Low)
	return m
}

// without takes a control away.
func (m *made) without(job string) *made {
	for i := range m.Radio.Controls {
		if m.Radio.Controls[i].Job == job {
			m.Radio.Controls = append(m.Radio.Controls[:i], m.Radio.Controls[i+1:]...)
			return m
		}
	}
	panic("no control for " + job)
}

// modes sets the spans of the mode channel.
func (m *made) modes(spans ...layout.ModeSpan) *made {
	l := &m.Config.Layout
	l.SpanCount = int8(copy(l.Spans[:], spans))
	return m
}

func span(mode layout.Mode, low, high int) layout.ModeSpan {
	return layout.ModeSpan{Mode: mode, Span: layout.Span{Low: pulse.Micros(low), High: pulse.Micros(high)}}
}

// replay runs a way through the whole bench, 1 ms a step, and holds what comes of it against the claim.
func replay(t testing.TB, l *Layout, r *Result) {
	t.Helper()
	w := r.Way
	p := practice.New(l.Config)
	b := p.Bench()
	rs := w.Readings
	for tick := int64(0); tick <= w.Final; tick++ {
		n := 0
		for n < len(rs) && rs[n].At <= tick*1000 {
			if rs[n].At%1000 != 0 {
				t.Errorf("%s: a reading at %d µs", r.Rule.Code(), rs[n].At)
			}
			n++
		}
		p.Step(rs[:n])
		rs = rs[n:]
	}
	if len(rs) > 0 {
		t.Errorf("%s: %d readings come after the end", r.Rule.Code(), len(rs))
	}
	s := b.State()
	a := &s.Slot.Arming
	got := Claim{Armed: a.Armed, Mode: uint8(s.Slot.Layout.Mode), Phase: uint8(s.Slot.Link.Phase), Sinking: a.Sink > 0}
	for _, h := range p.Happenings() {
		if uint8(h.Code) == w.Claim.Happens {
			got.Happens = w.Claim.Happens
		}
	}
	if got != w.Claim {
		t.Errorf("%s: replayed %+v, claimed %+v", r.Rule.Code(), got, w.Claim)
	}
	moves := 0
	for i, st := range w.Steps {
		if !slices.Contains([]Kind{Start, Wait, LetGo, Tremble}, st.Kind) {
			moves++
		}
		if (st.Kind == Start) != (i == 0) || (st.Kind == Wait) != (st.Ms > 0) {
			t.Errorf("%s: step %d is %+v", r.Rule.Code(), i, st)
		}
	}
	if moves != w.Movements {
		t.Errorf("%s: %d movements are told, %d counted", r.Rule.Code(), moves, w.Movements)
	}
}

// notSound are the rules of a report that neither hold nor are left unasked.
func notSound(rep *Report) (out []string) {
	for i := range rep.Results {
		r := &rep.Results[i]
		if r.Outcome == Broken || r.Outcome == Undecided {
			out = append(out, r.Rule.Code()+": "+r.Cause.Code())
		}
	}
	return out
}

package prove

import (
	"propsoff.example/sim/arming"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// Place is where a control stands: a position of a switch or the Zone of a stick or knob, and the width that it sends.
type Place struct {
	Position int
	Width    pulse.Width
}

// Elsewhere is the one thing in which a way that is made again differs: from a step on, until a hand moves it again, a control stands in a place
// of its own. The step is one that moves it, or the beginning.
type Elsewhere struct {
	Step, Control int
	Place
}

// Again is what comes of a way that is made again on the whole bench, motors, gestures and menus included. It has as many steps as the way.
type Again struct {
	// Way has the steps as they were made, with what the bench did in each, and the state in which it ends.
	Way Way
	// Happens: it breaks the rule that the way was found for.
	Happens bool
	// Turning: motors turn at its end. Refused is what refused arming when it was last asked for in vain.
	Turning bool
	Refused arming.Set
	// ever is all that happened, modes have a bit for each mode that some position has chosen; sent is what the radio sends at the end, off: it is silent then.
	ever  Event
	letGo bool // a control was let go
	modes uint8
	sent  pulse.Frame
	off   bool
}

// Answer is what the craft does at its end.
func (a *Again) Answer() Answer {
	c := &a.Way.Claim
	return Answer{Armed: c.Armed, Motors: a.Turning, Sinking: c.Sinking, Mode: layout.Mode(c.Mode), Refused: a.Refused}
}

// remake makes a way of one layout again in another one, or in the same, slot by slot.
type remake struct {
	*trial
	from  *Layout
	h     *hands // of the layout that it is made in
	other *Elsewhere
	// holds: the control of other stands in its place.
	holds bool
	// refused is how many steps there were when arming was refused last.
	refused int
	out     Again
}

// again makes a way that was found in one layout in that of h; other may be nil.
func again(from *Layout, h *hands, l *Layout, w *Way, other *Elsewhere) Again {
	frames := framesOf(w)
	m := &remake{trial: &trial{l: l, p: practice.New(l.Config), zero: -1}, from: from, h: h, other: other, holds: other != nil && other.Step == 0}
	m.frame = m.carried(&frames[0])
	m.way.Steps = []Step{{Kind: Start, Control: -1}}
	m.begin()
	for i := 1; i < len(w.Steps); i++ {
		m.step(i, &w.Steps[i], &frames[i])
	}
	m.out.Way, m.out.sent = *m.end(), m.frame
	for i := range m.out.Way.Steps {
		if st := &m.out.Way.Steps[i]; st.Kind == Tremble && st.Control < 0 { // nothing trembled
			st.Kind, st.Ms = Wait, int64(l.Config.SlotTicks)
		}
	}
	s := m.p.Bench().State()
	m.out.Turning = s.Motor != [flight.Motors]uint16{}
	return m.out
}

// framesOf are what the radio sends from each step of a way on.
func framesOf(w *Way) []pulse.Frame {
	all, n := make([]pulse.Frame, len(w.Steps)), 0
	for i := range all {
		if i > 0 {
			all[i] = all[i-1]
		}
		at := (w.Steps[i].At - w.Steps[0].At) * 1000
		for ; n < len(w.Readings) && w.Readings[n].At <= at; n++ {
			if w.Readings[n].Kind == pulse.Controls {
				all[i] = w.Readings[n].Frame
			}
		}
	}
	return all
}

// carried is a frame of the layout that the way was found in as this one sends it: a switch by its position, what has none by its width as far as it goes
// here. What stands elsewhere does.
func (m *remake) carried(f *pulse.Frame) (out pulse.Frame) {
	all := m.l.Radio.Controls
	for i := range all {
		c := &all[i]
		if out[c.Channel] = f[c.Channel]; m.from != m.l {
			out[c.Channel] = sentHere(m.from.Radio.On(c.Channel), c, f[c.Channel])
		}
	}
	if m.holds {
		m.l.Radio.Stands(&out, m.other.Control, m.other.Position, m.other.Width)
	}
	return out
}

// sentHere is what a control sends where that of another radio, or none, sends a width.
func sentHere(was, c *handset.Control, w pulse.Width) pulse.Width {
	switch {
	case was == nil && c.Kind == handset.Switch:
		return c.Positions[c.RestPosition()].Width
	case was == nil:
		return c.Rest
	case c.Kind != was.Kind || c.Kind == handset.Switch && len(c.Positions) != len(was.Positions):
		return w
	case c.Kind == handset.Switch:
		n := was.Nearest(w)
		return c.Positions[n].Width + w - was.Positions[n].Width
	case w == min(was.Low, was.High):
		return min(c.Low, c.High)
	case w == max(was.Low, was.High):
		return max(c.Low, c.High)
	}
	return min(max(w, min(c.Low, c.High)), max(c.Low, c.High))
}

// step makes one step, in as many slots as it took.
func (m *remake) step(i int, st *Step, f *pulse.Frame) {
	st = &Step{Kind: st.Kind, Ms: st.Ms, Control: st.Control, FromPosition: st.FromPosition, ToPosition: st.ToPosition, From: st.From, To: st.To, Value: st.Value}
	tell := func(k pulse.Kind, v int32) { m.do(*st, pulse.Reading{Kind: k, Value: v}) }
	if st.Kind == LetGo && (m.other == nil || m.other.Step != i || m.other.Width == st.To) {
		m.out.letGo = true
	}
	switch st.Kind {
	case Move, LetGo, Tremble:
		m.hand(i, st, f)
	case RadioOff, RadioOn:
		m.out.off = st.Kind == RadioOff
		tell(pulse.Link, int32(bit(!m.out.off)))
	case PowerOn, PowerOff:
		tell(pulse.Power, int32(bit(st.Kind == PowerOn)))
	case CableIn, CableOut:
		tell(pulse.Cable, int32(bit(st.Kind == CableIn)))
	case Nudge:
		tell(pulse.Nudge, 0)
	case Tilt:
		tell(pulse.Tilt, st.Value)
	case Wait:
		for range max(1, st.Ms/int64(m.l.Config.SlotTicks)) {
			m.wait(1)
			m.note()
		}
		return
	}
	m.note()
}

// hand moves a control, or what noise makes of one.
func (m *remake) hand(i int, st *Step, f *pulse.Frame) {
	mine := m.other != nil && m.other.Control == st.Control
	switch {
	case mine && i == m.other.Step:
		m.holds, st.Kind = true, Move
	case mine && st.Kind == Tremble && m.holds:
		m.tremble(st)
		return
	case mine && st.Kind != Tremble:
		m.holds = false
	}
	next := m.carried(f)
	if at := m.l.Radio.Controls; st.Control >= 0 && st.Control < len(at) {
		c := &at[st.Control]
		st.From, st.To = m.frame[c.Channel], next[c.Channel]
		st.FromPosition, st.ToPosition = PlaceOf(c, st.From), PlaceOf(c, st.To)
	}
	m.send(st, next)
}

// send makes a step after which the radio sends a frame. One that changes nothing is a step all the same, so that each stays what it was.
func (m *remake) send(st *Step, next pulse.Frame) {
	if next == m.frame {
		m.do(*st)
		return
	}
	m.frame = next
	m.do(*st, pulse.Reading{Kind: pulse.Controls, Frame: next})
}

// tremble is what noise makes of a control that stands elsewhere: the same, where noise can do that there.
func (m *remake) tremble(st *Step) {
	for i := range m.h.digits {
		d := &m.h.digits[i]
		if d.control != st.Control {
			continue
		}
		here := m.frame[d.channel]
		for a := range d.classes {
			for b := range d.classes {
				from, to := &d.classes[a], &d.classes[b]
				if from.width == here && from.trembles != 0 && from.trembles == to.trembles && a != b && to.sign == m.h.sign(d.channel, st.To) {
					next := m.frame
					m.h.send(d, b, &next)
					st.From, st.To, st.FromPosition, st.ToPosition = here, to.width, m.other.Position, m.other.Position
					m.send(st, next)
					return
				}
			}
		}
	}
	m.do(Step{Kind: Tremble, Control: -1})
}

// note keeps what cannot be read off the end.
func (m *remake) note() {
	n := len(m.way.Steps)
	then := m.way.Steps[n-1].Then
	if m.out.ever |= then; then&Refused != 0 && m.refused != n { // of a wait that goes on, once
		m.refused, m.out.Refused = n, m.p.Bench().Refusals()
	}
	if then&Armed != 0 { // what refused before tells nothing of how it ends
		m.out.Refused = 0
	}
	if l := &m.l.Config.Layout; m.powered && l.Mode != layout.NoChannel && m.frame[l.Mode].Valid() && inModeSpan(l, m.frame[l.Mode]) {
		m.out.modes |= 1 << l.ModeAt(m.frame[l.Mode])
	}
}

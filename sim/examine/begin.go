package examine

import (
	"slices"

	"propsoff.example/sim/layout"
	"propsoff.example/sim/prove"
)

// several reports whether a hand that moves a control moves others with it.
func (e *Examiner) several(control int) bool {
	return e.l.Radio.Controls[control].Same != 0 || len(e.l.Radio.With(control)) > 0
}

// tellable reports whether nothing in some steps moves several controls at once.
func (e *Examiner) tellable(steps []prove.Step) bool {
	return !slices.ContainsFunc(steps, func(st prove.Step) bool { return st.Control >= 0 && e.several(st.Control) })
}

// begin is the beginning of a story, of a craft that is armed or not; false where none was met.
func (e *Examiner) begin(armed bool) (s story, ok bool) {
	all := e.from[bit(armed)][e.r.IntN(movements+1)]
	if len(all) == 0 {
		return s, false
	}
	s = begun(e.begins.Way(int(all[e.r.IntN(len(all))])).Steps)
	return s, e.tellable(s.steps)
}

// arms is a story that arms, or nearly: the way to an armed situation up to the movement that arms, which is the last one.
func (e *Examiner) arms() (s story, ok bool) {
	all := e.from[1][e.r.IntN(movements+1)]
	if len(all) == 0 {
		return s, false
	}
	steps := e.begins.Way(int(all[e.r.IntN(len(all))])).Steps
	at := slices.IndexFunc(steps, func(st prove.Step) bool { return st.Then&prove.Armed != 0 })
	for at > 0 && steps[at].Kind == prove.Wait { // the wait in which it arms is that of a corner which is held
		at--
	}
	if at <= 0 || steps[at].Kind == prove.PowerOn {
		return s, false
	}
	s = begun(steps[:at+1])
	s.last = len(s.steps) - 1
	s.steps = append(s.steps, wait(e.settles(s.steps[s.last].Control)))
	return s, e.tellable(s.steps)
}

// settles is for how long it is waited after a last movement, in ms: a corner may have to be held.
func (e *Examiner) settles(control int) int64 {
	const usual = 1000
	c := &e.l.Config
	if is := e.about(control); is == Yaw || is == Throttle {
		return max(usual, int64(max(c.Arming.ArmDwell, c.Arming.DisarmDwell))*int64(c.SlotTicks)*3/2+500)
	}
	return usual
}

// last puts the last movement at the end of a story, and the wait after it.
func (e *Examiner) last(ask Ask, s *story) {
	c, r := &e.l.Config, e.r
	slot := int64(c.SlotTicks)
	st := e.move(r.IntN(len(e.goes)))
	after := e.settles(st.Control)
	switch n := r.IntN(10); {
	case n >= 8 && ask != Arms:
		limit, sinks := int64(c.Link.SilenceSlots)*slot, int64(c.Arming.SinkSlots)*slot
		st, after = do(prove.RadioOff), pick(r, limit/2, limit+1000, (limit+sinks)*4/3+1000)
	case n == 7:
		st, after = do([...]prove.Kind{prove.RadioOn, prove.CableOut, prove.CableIn, prove.Nudge}[r.IntN(4)]), e.settles(-1)
	}
	s.last = len(s.steps)
	s.put(s.last, st, wait(after))
}

// move takes a control to one of its places.
func (e *Examiner) move(control int) prove.Step {
	if all := e.goes[control]; len(all) > 0 {
		return all[e.r.IntN(len(all))]
	}
	return prove.Step{Kind: prove.Move, Control: -1}
}

// about is what a control is.
func (e *Examiner) about(control int) About {
	if control < 0 {
		return OtherControl
	}
	l := &e.l.Config.Layout
	ch := e.l.Radio.Controls[control].Channel
	for _, is := range [...]struct {
		channel int8
		about   About
	}{{l.Throttle, Throttle}, {l.Yaw, Yaw}, {l.Roll, RollPitch}, {l.Pitch, RollPitch}, {l.Arm, ArmControl}, {l.Second, SecondSwitch}, {l.Mode, ModeControl}} {
		if is.channel == ch && ch != layout.NoChannel {
			return is.about
		}
	}
	return OtherControl
}

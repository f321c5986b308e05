package prove

import (
	"cmp"
	"slices"

	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// Around is what lies around the way to a broken rule: what comes of it where one control stands elsewhere in one of its steps, all else the same. It
// is held against the rule itself: a rule about steps by the search's own judge, any other by what the finding says of how the way ends.
type Around struct {
	l     *Layout
	r     *Result
	h     *hands
	trial *Trial
	plain Again
}

// NewAround begins it; it fails where the layout cannot be searched, or the result has no way.
func NewAround(l *Layout, r *Result) (*Around, error) {
	t, err := NewTrial(l)
	if err != nil {
		return nil, err
	}
	a := &Around{l: l, r: r, h: withModes(t), trial: t}
	a.plain = again(l, a.h, l, r.Way, nil)
	a.plain.Happens = a.judge(t, &a.plain, nil)
	return a, nil
}

// withModes are hands that tell modes apart, where those are not too many places.
func withModes(t *Trial) *hands {
	if h, err := newHands(t.l, question{modes: true}); err == nil {
		return h
	}
	return t.h
}

// Plain is the way as it was found, made again.
func (a *Around) Plain() *Again { return &a.plain }

// Turn is a step of a way in which a control could stand elsewhere, with all its places from its low end on, and the index of the way's own.
type Turn struct {
	Step, Control int
	Places        []Place
	Own           int
}

// Turns are all of a way: where each control that counts stands at the beginning, then each step that moves one.
func (a *Around) Turns() (all []Turn) {
	w := a.r.Way
	frames := framesOf(w)
	for i := range a.l.Radio.Controls {
		if c := &a.l.Radio.Controls[i]; c.Same == 0 && a.counts(c) {
			all = append(all, a.turn(0, i, frames[0][c.Channel]))
		}
	}
	for i := range w.Steps {
		if st := &w.Steps[i]; (st.Kind == Move || st.Kind == LetGo) && st.Control >= 0 {
			all = append(all, a.turn(i, st.Control, st.To))
		}
	}
	return all
}

// counts reports whether it makes a difference to this craft where a control stands.
func (a *Around) counts(c *handset.Control) bool {
	return slices.ContainsFunc(a.h.digits, func(d digit) bool { return d.carries(c.Channel) })
}

// turn has every position of a switch; of a stick or knob its ends, where it rests, a place in each stretch of another meaning, and the way's own.
func (a *Around) turn(step, control int, own pulse.Width) Turn {
	c := &a.l.Radio.Controls[control]
	t := Turn{Step: step, Control: control}
	if c.Kind == handset.Switch {
		for i, p := range c.Positions {
			t.Places = append(t.Places, Place{i, p.Width})
		}
		slices.SortStableFunc(t.Places, func(p, q Place) int { return cmp.Compare(p.Width, q.Width) })
		t.Own = slices.IndexFunc(t.Places, func(p Place) bool { return p.Position == c.Nearest(own) })
		return t
	}
	add := func(w pulse.Width) {
		if !slices.ContainsFunc(t.Places, func(p Place) bool { return p.Width == w }) {
			t.Places = append(t.Places, Place{PlaceOf(c, w), w})
		}
	}
	means := a.meanings(c)
	for _, w := range []pulse.Width{own, min(c.Low, c.High), c.Rest, max(c.Low, c.High)} {
		add(w)
	}
	for _, p := range places(c, means) {
		if !slices.ContainsFunc(t.Places, func(q Place) bool { return q.Width >= p.low && q.Width <= p.high }) {
			add(p.width)
		}
	}
	slices.SortFunc(t.Places, func(p, q Place) int { return cmp.Compare(p.Width, q.Width) })
	t.Own = slices.IndexFunc(t.Places, func(p Place) bool { return p.Width == own })
	return t
}

// meanings numbers what the widths of a control mean to this craft, modes told apart.
func (a *Around) meanings(c *handset.Control) func(pulse.Width) int {
	var seen []sign
	return func(w pulse.Width) int {
		s := a.h.sign(c.Channel, w)
		if i := slices.Index(seen, s); i >= 0 {
			return i
		}
		seen = append(seen, s)
		return len(seen) - 1
	}
}

// SameTo reports whether two widths of a control are the same to this craft.
func (a *Around) SameTo(control int, v, w pulse.Width) bool {
	means := a.meanings(&a.l.Radio.Controls[control])
	return means(v) == means(w)
}

// With makes the way with one control elsewhere.
func (a *Around) With(t *Turn, place int) Again {
	e := Elsewhere{Step: t.Step, Control: t.Control, Place: t.Places[place]}
	out := again(a.l, a.h, a.l, a.r.Way, &e)
	out.Happens = a.judge(a.trial, &out, &e)
	return out
}

// Tried is a Turn with what comes of each of its places, and whether any of them avoids what the way came to.
type Tried struct {
	Turn
	Came    []Again
	Avoided bool
}

// Try tries every place of a turn.
func (a *Around) Try(t Turn) Tried {
	out := Tried{Turn: t, Came: make([]Again, len(t.Places))}
	for n := range t.Places {
		out.Came[n] = a.With(&t, n)
		out.Avoided = out.Avoided || !out.Came[n].Happens
	}
	return out
}

// In makes the way in another layout of the same craft and radio, such as one that was mended.
func (a *Around) In(l *Layout) (Again, error) {
	t, err := NewTrial(l)
	if err != nil {
		return Again{}, err
	}
	out := again(a.l, withModes(t), l, a.r.Way, nil)
	out.Happens = a.judge(t, &out, nil)
	return out, nil
}

// judge reports whether a way that was made again breaks the rule. A control that stands elsewhere from the beginning is taken there before anything else:
// the craft without its pack cannot tell.
func (a *Around) judge(t *Trial, came *Again, e *Elsewhere) bool {
	if !a.r.Rule.ofSteps() {
		return a.bites(came)
	}
	way := &came.Way
	if e != nil && e.Step == 0 {
		moved := Step{Kind: Move, Control: e.Control, ToPosition: e.Position, To: e.Width}
		way = &Way{Steps: slices.Insert(slices.Clone(way.Steps), 1, moved)}
	}
	return t.Breaks(a.r.Rule, way)
}

// bites reports of a rule that is not about steps whether a way comes to what the finding says: something that is never reached, a state, or
// what happens at the end.
func (a *Around) bites(came *Again) bool {
	was, is := &a.r.Way.Claim, &came.Way.Claim
	switch a.r.Rule {
	case CanArm:
		return came.ever&Armed == 0
	case CanDisarm:
		return came.ever&Disarmed == 0
	case EveryModeReached:
		return came.modes>>a.r.Mode&1 == 0
	case GestureCanBeMade:
		return came.ever&GestureMade == 0
	case NoModeGap:
		return layout.Mode(is.Mode) == layout.Rate && !inModeSpan(&a.l.Config.Layout, came.sent[a.l.Config.Layout.Mode])
	case PowerUpLevels, NoRateOnTheWay:
		return layout.Mode(is.Mode) == layout.Rate
	case SweepNeverArms:
		return came.ever&Armed != 0
	case CornersBelowPower:
		return came.ever&Disarmed != 0 && !is.Armed && asksPower(came.sent[a.l.Config.Layout.Throttle])
	case SilenceStopsSoon:
		return came.Turning && came.off
	case SilenceSinks:
		return came.ever&Armed != 0 && came.off && came.ever&Sinking == 0
	case SinkComesDown:
		return came.ever&Sinking != 0
	case OneFrameIsNoLoss:
		return link.Phase(is.Phase) == link.Lost
	case SilenceIsSeenSoon:
		return is.Armed && came.off && link.Phase(is.Phase) != link.Lost
	case ThrottleStays, ThrottleStaysUp, ArmControlStays, ArmRestsOff: // by itself, and not by a hand
		if !came.letGo && slices.ContainsFunc(a.r.Way.Steps, func(st Step) bool { return st.Kind == LetGo }) {
			return false
		}
		if a.r.Rule == ThrottleStays {
			return is.Armed && came.Turning
		}
	case ArmingStartsNoMotor:
		return is.Armed && came.Turning
	case SecondGoesOff, ArmHasPositions, ArmControlIsAlone, CleanTimeIsSet, StillTimeIsSet, TiltRefuses: // of a switch turned round, that it never is
		return is.Armed == was.Armed
	}
	return is.Armed == was.Armed && is.Happens == was.Happens
}

// Ever reports whether something happened in a way, at whatever step.
func (a *Again) Ever(e Event) bool { return a.ever&e != 0 }

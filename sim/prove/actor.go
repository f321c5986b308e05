package prove

import (
	"slices"

	"propsoff.example/sim/arming"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// Actor makes movements that somebody thought of on a layout, one a slot, and writes down what comes of them. Controls go to any place, not
// only to those that a search tells apart.
type Actor struct {
	l      *Layout
	start  pulse.Frame
	t      tale
	motors motors
	// refused is what refused arming last, since somebody forgot.
	refused arming.Set
}

// NewActor begins as every search does: the radio on, every control at its normal place, the craft without power. Noise is left out. It fails
// where the layout cannot be searched.
func NewActor(l *Layout) (*Actor, error) {
	h, err := l.firmHands()
	if err != nil {
		return nil, err
	}
	a := &Actor{l: l, start: h.frames[h.start&h.sentBits()]}
	a.Begin()
	return a, nil
}

// Begin begins anew, with nothing done yet.
func (a *Actor) Begin() {
	a.refused = 0
	a.t, a.motors = newTale(&a.l.Config, a.l.Radio.StickMode, true, a.start), motors{}
}

// Do makes one movement and runs the slot that it falls into. Of a Step it reads Kind, of one that moves a control also Control, and where that is to
// go: ToPosition of a switch, To of a stick or knob; of a Wait Ms, rounded up to slots. It reports false, and does nothing, where the movement
// cannot be made: there is no such control or position, the control stands there already, or the radio is on that is to be turned on.
func (a *Actor) Do(st Step) bool {
	t := &a.t
	sent := t.sent
	switch st.Kind {
	case Move, LetGo:
		if !a.goes(&st, &sent) {
			return false
		}
	case RadioOn, RadioOff:
		if t.on == (st.Kind == RadioOn) {
			return false
		}
	case CableIn, CableOut:
		if t.cable == (st.Kind == CableIn) {
			return false
		}
	case PowerOn, PowerOff:
		if t.powered == (st.Kind == PowerOn) {
			return false
		}
	case Nudge:
		if !t.powered {
			return false
		}
	case Wait:
		for ms := int64(0); ms < st.Ms; ms += int64(t.cfg.SlotTicks) {
			a.slot(Step{Kind: Wait, Control: -1}, sent)
		}
		return true
	default:
		return false
	}
	a.slot(st, sent)
	return true
}

// slot makes a movement, and has flight say whether the motors turn.
func (a *Actor) slot(st Step, sent pulse.Frame) {
	t := &a.t
	before := t.slot.Arming
	t.step(st, sent)
	for _, h := range t.log.All() {
		if h.Code == happening.Refused {
			a.refused = arming.Set(h.A)
		}
	}
	if !t.powered {
		a.motors = motors{}
		return
	}
	a.motors = a.motors.step(t.cfg, &before, &t.slot, &t.facts)
}

// goes takes a control where a step wants it, and with it what else the same part of the radio sends.
func (a *Actor) goes(st *Step, sent *pulse.Frame) bool {
	all := a.l.Radio.Controls
	if st.Control < 0 || st.Control >= len(all) {
		return false
	}
	c := &all[st.Control]
	st.From = sent[c.Channel]
	if c.Kind == handset.Switch {
		if st.ToPosition < 0 || st.ToPosition >= len(c.Positions) {
			return false
		}
		st.To = c.Positions[st.ToPosition].Width
	} else {
		st.ToPosition = PlaceOf(c, st.To)
	}
	st.FromPosition = PlaceOf(c, st.From)
	a.l.Radio.Stands(sent, st.Control, st.ToPosition, st.To)
	return st.To != st.From
}

// Refused is what refused arming last, since Forget.
func (a *Actor) Refused() arming.Set { return a.refused }

// Forget forgets what refused arming so far.
func (a *Actor) Forget() { a.refused = 0 }

// Stands is what a control sends now.
func (a *Actor) Stands(control int) pulse.Width { return a.t.sent[a.l.Radio.Controls[control].Channel] }

// Powered tells whether the craft has its pack.
func (a *Actor) Powered() bool { return a.t.powered }

// Armed tells whether the craft is armed.
func (a *Actor) Armed() bool { return a.t.powered && a.t.slot.Arming.Armed }

// Turning tells whether the motors turn, on the desk bench.
func (a *Actor) Turning() bool { return a.motors.turning }

// Way is what was done so far.
func (a *Actor) Way() *Way {
	t := a.t
	t.way.Steps = slices.Clone(t.way.Steps) // the actor goes on
	return t.end()
}

// Steps is how many steps the way has so far.
func (a *Actor) Steps() int { return len(a.t.way.Steps) }

// Tick is the time of the last step, in ms from the beginning.
func (a *Actor) Tick() int64 { return a.t.tick }

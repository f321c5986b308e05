package screen

import (
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/live/whodrives"
	"propsoff/sim/handset"
	"propsoff/sim/practice"
)

// told asks for the facts of a picture.
type told struct {
	Teller facts.Teller
	Live   practice.Practice
	reach  handset.Radio
	who    whodrives.Who
	fresh  int64 // the tick until which reach is used again
}

// reachTicks is how long what a radio can send is not worked out anew: its file changes only when it is learned again (ours).
const reachTicks = 1000

// now are the facts of the practice as it stands, for whoever drives.
func (t *told) now(s *Screen) facts.Facts {
	s.Options.Loop.Copy(&t.Live)
	return t.Teller.Of(&t.Live, t.Whose(s))
}

// Whose is the hand that drives, with what it can send.
func (t *told) Whose(s *Screen) facts.Whose {
	d := &s.Driving
	if tick := t.Live.Tick(); d.Who != t.who || tick >= t.fresh || tick < t.fresh-reachTicks {
		t.who, t.fresh = d.Who, tick+reachTicks
		switch d.Who {
		case whodrives.Keyboard:
			t.reach = facts.KeyboardReach(s.Options.Names)
		case whodrives.Radio:
			t.reach = facts.Reach(d.File, &d.Info, s.Options.Names)
		}
	}
	switch d.Who {
	case whodrives.Nobody:
		return facts.Whose{Hand: facts.Nobody}
	case whodrives.Keyboard:
		return facts.Whose{Hand: facts.Keyboard, Reach: t.known(), Taken: d.Taken}
	case whodrives.Radio:
		return facts.Whose{Hand: facts.Radio, Reach: t.known(), Taken: d.Taken}
	}
	if s.Played() {
		return facts.Whose{Hand: facts.Played}
	}
	return facts.Whose{Hand: facts.NoHand}
}

// known is what the hand can send, nil where nothing is known of it.
func (t *told) known() *handset.Radio {
	if len(t.reach.Controls) == 0 {
		return nil
	}
	return &t.reach
}

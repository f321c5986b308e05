package screen

import (
	"propsoff/cmd/propsoff/internal/drive"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim/handset"
	"propsoff/sim/practice"
)

// told asks for the facts of a picture.
type told struct {
	teller facts.Teller
	live   practice.Practice
	reach  handset.Radio
	who    drive.Who
	fresh  int64 // the tick until which reach is used again
}

// reachTicks is how long what a radio can send is not worked out anew: its file changes only when it is learned again (ours).
const reachTicks = 1000

// now are the facts of the practice as it stands, for whoever drives.
func (t *told) now(s *Screen) facts.Facts {
	s.o.Loop.Copy(&t.live)
	return t.teller.Of(&t.live, t.whose(s))
}

// whose is the hand that drives, with what it can send.
func (t *told) whose(s *Screen) facts.Whose {
	d := &s.driver
	if tick := t.live.Tick(); d.Who != t.who || tick >= t.fresh || tick < t.fresh-reachTicks {
		t.who, t.fresh = d.Who, tick+reachTicks
		switch d.Who {
		case drive.Keyboard:
			t.reach = facts.KeyboardReach(s.o.Names)
		case drive.Radio:
			t.reach = facts.Reach(d.File, &d.Info, s.o.Names)
		}
	}
	switch d.Who {
	case drive.Nobody:
		return facts.Whose{Hand: facts.Nobody}
	case drive.Keyboard:
		return facts.Whose{Hand: facts.Keyboard, Reach: t.known(), Taken: d.Taken}
	case drive.Radio:
		return facts.Whose{Hand: facts.Radio, Reach: t.known(), Taken: d.Taken}
	}
	if s.played() {
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

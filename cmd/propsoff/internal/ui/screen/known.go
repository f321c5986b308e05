package screen

import (
	"slices"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/live/whodrives"
	"propsoff/input"
	"propsoff/input/radio"
	"propsoff/sim/craftfile"
	"propsoff/sim/handset"
	"propsoff/sim/practice"
	"propsoff/sim/prove"
)

// known is the radio that the sheets of layout, prove and card are about.
type known struct {
	// File is nil for an ideal radio.
	File *radio.File
	Info input.Info
	By   facts.By
}

// NoteRadio notes whose radio it is: the one that drives, else that of --radio. What is shown, and the first questions, leave it as it
// was.
func (s *Screen) NoteRadio() {
	switch d := &s.Driving; {
	case d.Who == whodrives.Radio:
		s.Known = known{d.File, d.Info, facts.ItsFile}
	case (d.Who == whodrives.Script || d.Who == whodrives.Questions || d.Who == whodrives.Which) && s.Known.File != nil:
	case s.Options.Radio != nil:
		s.Known = known{File: s.Options.Radio, By: facts.GivenFile}
	default:
		s.Known = known{By: facts.NoneDrives}
	}
}

// LayoutOf puts a craft and that radio together.
func (s *Screen) LayoutOf(craft *craftfile.File) prove.Layout {
	info := &s.Known.Info
	if info.Name == "" {
		info = nil
	}
	l := facts.LayoutOf(craft, s.Known.File, info)
	if mode := s.Driving.StickMode; s.Known.By.Ideal() && mode > 0 {
		l.Radio.StickMode = mode
	}
	return l
}

// SameControl reports whether two controls are read alike.
func SameControl(a, b radio.Control) bool {
	return a.Job == b.Job && a.Form == b.Form && a.Axis == b.Axis && slices.Equal(a.Buttons, b.Buttons) && slices.Equal(a.Positions, b.Positions) &&
		(a.Scale == nil) == (b.Scale == nil) && (a.Scale == nil || *a.Scale == *b.Scale) && a.Backwards == b.Backwards && a.Stays == b.Stays && a.Called == b.Called
}

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

// Whose is the hand that drives, with what it can send where anything is known of that.
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
	w := facts.Whose{Hand: facts.NoHand}
	switch {
	case s.Played():
		w.Hand = facts.Played
	case d.Who == whodrives.Nobody:
		w.Hand = facts.Nobody
	case d.Who == whodrives.Keyboard || d.Who == whodrives.Radio:
		w = facts.Whose{Hand: facts.Keyboard, Taken: d.Taken}
		if d.Who == whodrives.Radio {
			w.Hand = facts.Radio
		}
		if len(t.reach.Controls) > 0 {
			w.Reach = &t.reach
		}
	}
	return w
}

// Played reports whether a script or take drives and has not ended: nothing may change what is on the bench then.
func (s *Screen) Played() bool { return s.Driving.Who == whodrives.Script && !s.Driving.Ended }

package screen

import (
	"slices"

	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/prove"
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

// practised are craft, gestures and radio by where they are kept: each is replaced as a whole, and none is changed in place.
type practised struct {
	craft     *craftfile.File
	gestures  *byte
	controls  *radio.Control
	name      string // of the radio
	by        facts.By
	who       whodrives.Who
	stickMode int
}

// Revision is another number whenever craft, gestures or radio are others than when it was asked for last.
func (s *Screen) Revision() int {
	d, k := &s.Driving, &s.Known
	now := practised{craft: s.Options.Craft, gestures: first(s.Options.Gestures.Text), name: k.Info.Name, by: k.By, who: d.Who, stickMode: d.StickMode}
	if k.File != nil {
		now.controls = first(k.File.Controls)
	}
	if now != s.practised || s.revision == 0 {
		s.practised, s.revision = now, s.revision+1
	}
	return s.revision
}

// first is where a list begins, nil for an empty one.
func first[T any](all []T) *T {
	if len(all) == 0 {
		return nil
	}
	return &all[0]
}

// Holds tells whether the radio that was checked drives, and is read as it was then. A radio that is pulled out keeps driving.
func (c *ControlsCheck) Holds(d *whodrives.View) bool {
	return d.Who == whodrives.Radio && d.File != nil && radio.DeviceOf(d.Info) == c.Device && slices.EqualFunc(d.File.Controls, c.Controls, sameControl)
}

// sameControl reports whether two controls are read alike.
func sameControl(a, b radio.Control) bool {
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

// Planted are the faults that stand.
func (s *Screen) Planted() fault.Set {
	s.Options.Loop.Copy(&s.Told.Live)
	return s.Told.Live.Faults().All()
}

// SticksTaken tells whether the instructor's radio has the sticks.
func (s *Screen) SticksTaken() bool { return s.Driving.Taken>>s.Config.Layout.Throttle&1 == 1 }

// Played reports whether a script or take drives and has not ended: nothing may change what is on the bench then.
func (s *Screen) Played() bool { return s.Driving.Who == whodrives.Script && !s.Driving.Ended }

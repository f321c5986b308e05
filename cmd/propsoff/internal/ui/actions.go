package ui

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/input/keyboard"
)

// Shows tells whether an action is there to be done on a sheet with this view.
func (v *View) Shows(a Action, on Place) bool {
	if !v.House.Has(on, a) {
		return false
	}
	if s := v.House.Of(on); s.Shows != nil {
		if shows, known := s.Shows(v, a); known {
			return shows
		}
	}
	return v.usual(a)
}

// usual tells whether an action is there to be done, for all sheets that have no rule of their own for it.
func (v *View) usual(a Action) bool {
	shows := v.House.acts[a].Shows
	return (shows == nil || shows(v)) && !(BenchInput(a) && v.Playing()) // a script that is meddled with is no longer what was written
}

// BenchInput tells whether an action changes what stands on the bench.
func BenchInput(a Action) bool {
	return slices.Contains([]Action{SwitchRadio, SwitchPack, PlugCable, TiltCraft, NudgeCraft, TurnMenu, StandAgain, FlyAgain, NextBench}, a)
}

// Playing tells whether a script or take drives and has not ended.
func (v *View) Playing() bool { return v.Driver == Played && !v.Ended }

// Does says in a few words what the key of an action does now on a sheet.
func (v *View) Does(a Action, on Place) words.Text {
	if s := v.House.Of(on); s != nil && s.Does != nil {
		if text := s.Does(v, a); !text.Empty() {
			return text
		}
	}
	act := v.House.acts[a]
	if act.Says != nil {
		return act.Says(v)
	}
	back := a == Leave && on != OnBench && on != OnStart && on != OnCautions || v.House.Of(on) != nil && on.Open() == a // it leads back from the sheet
	next := 0
	if a == Leave && on == OnBench {
		next = 1 // to the first sheet
	}
	if act.Next != nil {
		next = act.Next(v)
	}
	return tell.Does(a.Code(), back || act.On != nil && act.On(v), next)
}

// Idle says why the key of an action does nothing on a sheet now; empty where it does something, or has no place there.
func (v *View) Idle(a Action, on Place) words.Text {
	if !v.House.Has(on, a) || v.Shows(a, on) {
		return words.Text{}
	}
	i := tell.Idling{Drill: v.Drilling, Air: v.Snap.In.Air, CableHeld: v.Facts.CableHeld, Radios: len(v.Radios), Reading: v.Reading >= 0,
		Next: v.KeyToRadio(on), First: v.KeyFor(OnFirst.Open(), on), Pause: v.KeyHere(PauseFlight, on), Record: v.CannotRecord}
	if v.Flight.Replay.On {
		i.Replay = v.KeyFor(ReplayFlight, on)
	}
	if v.Playing() { // is that what it waits for?
		ended := *v
		ended.Ended = true
		i.Waits = ended.Shows(a, on) || a == NextDriver
	}
	return tell.Idle(a.Code(), i)
}

// KeyFor is the key of an action as a sentence on a sheet names it: one that works on the bench alone with where, and one that does
// nothing now not at all.
func (v *View) KeyFor(a Action, on Place) words.Text {
	if key := v.KeyHere(a, on); !key.Empty() {
		return key
	}
	if key := v.KeyHere(a, OnBench); !key.Empty() {
		return words.T("advice.on-the-bench", words.Args{"key": key})
	}
	return words.Text{}
}

// KeyHere is the key of an action, as Named names it; empty where it does nothing on a sheet now.
func (v *View) KeyHere(a Action, on Place) words.Text {
	if v.Shows(a, on) {
		return v.Named(a, on)
	}
	return words.Text{}
}

// Named is how a sentence on a sheet names what is pressed for an action: its key, or after a finger the words of the button that stands there, in
// quotes. A finger that finds no button for it there is told of none.
func (v *View) Named(a Action, on Place) words.Text {
	if !v.Touch {
		return v.Caps.Word(v.House.KeyOf(a))
	}
	if own, common := v.Printed(on); slices.Contains(own, a) || slices.Contains(common, a) {
		return words.T("key-cap.button", words.Args{"does": v.Does(a, on)})
	}
	return words.Text{}
}

// Key is how a sentence names a key for which no button stands anywhere: not at all after a finger.
func (v *View) Key(physical string) words.Text {
	if v.Touch {
		return words.Text{}
	}
	return v.Caps.Word(physical)
}

// PilotKey is Key of one of the keyboard pilot; a finger moves what is drawn.
func (v *View) PilotKey(k keyboard.Key) words.Text { return v.Key(KeyOf(k)) }

// stickKeys are the keys that fly, as a sentence names them.
func (v *View) stickKeys() words.Text {
	if v.Touch {
		return words.Text{}
	}
	return v.Caps.Sticks()
}

// KeyToRadio is the key that lets a radio drive, as KeyFor names it: that of the next driver where it leads to one, else that of the choice.
func (v *View) KeyToRadio(on Place) words.Text {
	if v.Leads {
		return v.KeyFor(NextDriver, on)
	}
	return v.KeyFor(ChooseRadio, on)
}

// KeyOf is the physical key that stands for k.
func KeyOf(k keyboard.Key) string {
	for _, b := range LayoutKeys {
		if b.Key == k {
			return b.Physical
		}
	}
	return ""
}

// LayoutKeys is the keyboard's layout, made once; read only.
var LayoutKeys = keyboard.Layout()

// KeyWords are the keys as sentences on a sheet name them. A finger moves drawn sticks and switches as a hand does those of a radio.
func (v *View) KeyWords(on Place) tell.Keys {
	drive := v.Driver == Keyboard || v.Driver == Nobody || v.Driver == Demo
	return tell.Keys{
		Drive: drive && !v.Touch, Finger: drive && v.Touch, Demo: v.Driver == Demo, Nobody: v.Driver == Nobody, Played: v.Playing(), Ended: v.Driver == Played && v.Ended,
		Arm: v.PilotKey(keyboard.Arm), Second: v.PilotKey(keyboard.Second), Down: v.PilotKey(keyboard.ThrottleDown), Zero: v.PilotKey(keyboard.ThrottleZero),
		YawLeft: v.PilotKey(keyboard.YawLeft), YawRight: v.PilotKey(keyboard.YawRight), Pack: v.KeyFor(SwitchPack, on), Radio: v.KeyFor(SwitchRadio, on), TakeOver: v.KeyFor(NextDriver, on), After: int(v.Next), AfterName: v.NextName,
	}
}

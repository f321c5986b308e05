// Package gestures is one sheet: two-stick gestures and the menus that they open.
package gestures

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/sim/pulse"
)

// What the sheet's own keys do.
const (
	Above  ui.Action = "gesture-above"  // the one above
	Below  ui.Action = "gesture-below"  // the one below
	Record ui.Action = "gesture-record" // record one from the pilot's hand, or end that
	Keep   ui.Action = "gesture-keep"   // name the recorded one, then keep it
	ByJob  ui.Action = "gesture-by-job" // the recorded one by job, or by stick
	Opens  ui.Action = "gesture-menu"   // the menu that the recorded one opens
	Drop   ui.Action = "gesture-drop"   // throw the recorded one away
)

// Of is what this sheet knows besides what all know.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// About is what there is to know of the sheet.
func About() *ui.About {
	return &ui.About{
		Place: ui.OnGestures, Key: "O", Flown: true,
		Shared: []ui.Action{ui.SwitchRadio, ui.TurnMenu, ui.NextDriver, ui.TurnStickMode, ui.TurnSheet, ui.TurnFullScreen, ui.ShowHelp, ui.Leave, ui.TurnRecording},
		Own: []ui.Act{
			{Action: Above, Physical: "PageUp"},
			{Action: Below, Physical: "PageDown"},
			{Action: Record, Physical: "N"},
			{Action: Keep, Physical: "Enter"},
			{Action: ByJob, Physical: "Y"},
			{Action: Opens, Physical: "B"},
			{Action: Drop, Physical: "K"},
		},
		Shows: shows,
		Does:  does,
	}
}

func shows(v *ui.View, a ui.Action) (shows, known bool) {
	r := &Of(v).Recording
	set := setOf(v)
	switch a {
	case Above, Below:
		return !r.on() && set != nil && len(set.Patterns) > 1 && !v.Goggles.Open, true
	case Record:
		return r.Phase != Naming && !v.Goggles.Open && !v.Playing() && (r.on() || v.CannotRecord.Empty()), true
	case Keep, ByJob:
		return r.seen() && (a == Keep || r.Phase == Ended), true
	case Opens:
		return r.seen() && r.Phase == Ended && hasMenus(v), true
	case Drop:
		return r.on() && r.Phase != Naming, true
	case ui.TurnMenu:
		return v.Snap.In.Craft.Menu != pulse.MenuClosed && !v.Playing(), true
	}
	return false, false
}

func does(v *ui.View, a ui.Action) words.Text {
	r := &Of(v).Recording
	switch a {
	case Record:
		return tell.Does(a.Code(), r.runs(), 0)
	case Keep:
		return tell.Does(a.Code(), r.Phase == Naming, 0)
	case ByJob:
		return tell.Does(a.Code(), r.Pattern.Physical, 0)
	}
	return words.Text{}
}

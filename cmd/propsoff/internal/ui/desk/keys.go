// Package desk is one sheet: the instructor's desk.
package desk

import (
	"slices"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
)

// What the keys of the desk do.
const (
	Plant   ui.Action = "desk-plant"    // plant the fault looked at, or lift it
	Above   ui.Action = "desk-above"    // the fault above
	Below   ui.Action = "desk-below"    // the fault below
	More    ui.Action = "desk-more"     // its number higher
	Less    ui.Action = "desk-less"     // its number lower
	Other   ui.Action = "desk-other"    // its other number
	LiftAll ui.Action = "desk-lift-all" // lift everything
	Mark    ui.Action = "desk-mark"     // a commentary mark
	Hidden  ui.Action = "desk-hidden"   // hidden keys on or off
	Radio   ui.Action = "desk-radio"    // the next radio is the instructor's
)

// Of is what the desk knows besides what all sheets know.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// About is what there is to know of the sheet.
func About() *ui.About {
	return &ui.About{
		Place: ui.OnDesk, Key: "I", Flown: true,
		Shared: []ui.Action{ui.SwitchRadio, ui.TurnSheet, ui.TurnFullScreen, ui.ShowHelp, ui.Leave, ui.TurnRecording, ui.PauseFlight, ui.SlowFlight, ui.StepFlight, ui.ReplayFlight},
		Own: []ui.Act{
			{Action: Plant, Physical: "Enter"},
			{Action: Above, Physical: "PageUp"},
			{Action: Below, Physical: "PageDown"},
			{Action: More, Physical: "O"},
			{Action: Less, Physical: "K"},
			{Action: Other, Physical: "U"},
			{Action: LiftAll, Physical: "V"},
			{Action: Mark, Physical: "N"},
			{Action: Hidden, Physical: "Y"},
			{Action: Radio, Physical: "T"},
		},
		Shows: shows,
		Does:  does,
	}
}

func shows(v *ui.View, a ui.Action) (shows, known bool) {
	d := Of(v)
	switch a {
	case Plant, Above, Below, Mark, Hidden:
		return len(d.Faults) > 0, true
	case More, Less:
		return len(d.Numbers) > 0, true
	case Other:
		return len(d.Numbers) > 1, true
	case LiftAll:
		return slices.ContainsFunc(d.Faults, func(f Fault) bool { return f.On }), true
	case Radio:
		return len(v.Radios) > 1 && (v.Driver == ui.Radio || v.Driver == ui.Keyboard), true
	}
	return false, false
}

func does(v *ui.View, a ui.Action) words.Text {
	d := Of(v)
	switch a {
	case Plant:
		return tell.DeskPlantKey(d.Selected >= 0 && d.Selected < len(d.Faults) && d.Faults[d.Selected].On)
	case Hidden:
		return tell.DeskHiddenKey(d.Hidden)
	}
	return words.Text{}
}

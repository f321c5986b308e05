// Package drills is one sheet: the course of drills, and a drill that runs.
package drills

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
)

// What the sheet's own keys do.
const (
	Begin           ui.Action = "drill-begin"      // begin the one looked at, go on, or answer
	Above           ui.Action = "drill-above"      // the one above, or the answer above
	Below           ui.Action = "drill-below"      // the one below, or the answer below
	LeaveRun        ui.Action = "drill-leave"      // leave the run
	CallPupil       ui.Action = "call-pupil"       // a name for who practises is typed, or the typing ends
	PropellersRight ui.Action = "propellers-right" // the propellers were checked
)

// Of is what this sheet knows besides what all know.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// About is what there is to know of the sheet.
func About() *ui.About {
	return &ui.About{
		Place: ui.OnDrills, Key: "C", Flown: true,
		Shared: []ui.Action{ui.SwitchRadio, ui.SwitchPack, ui.PlugCable, ui.TiltCraft, ui.NudgeCraft, ui.TurnMenu, ui.NextDriver, ui.TurnSheet, ui.TurnFullScreen, ui.ShowHelp, ui.Leave, ui.TurnRecording},
		Own: []ui.Act{
			{Action: Begin, Physical: "Enter"},
			{Action: Above, Physical: "PageUp"},
			{Action: Below, Physical: "PageDown"},
			{Action: LeaveRun, Physical: "B"},
			{Action: CallPupil, Physical: "Y"},
			{Action: PropellersRight, Physical: "K"},
		},
		Shows: shows,
		Does:  does,
	}
}

func shows(v *ui.View, a ui.Action) (shows, known bool) {
	r := &Of(v).Run
	switch a {
	case Begin:
		return !r.On && len(Of(v).Rows) > 0 || r.asks(), true
	case Above, Below:
		return !r.On && len(Of(v).Rows) > 1 || r.asks(), true
	case LeaveRun:
		return r.On, true
	case CallPupil:
		return !r.On, true
	case PropellersRight:
		return r.On && r.ShowPropellers, true
	case ui.SwitchRadio, ui.SwitchPack, ui.PlugCable, ui.TiltCraft, ui.NudgeCraft, ui.TurnMenu:
		return false, !r.On
	case ui.NextDriver:
		return false, r.On
	}
	return false, false
}

func does(v *ui.View, a ui.Action) words.Text {
	switch r := &Of(v).Run; a {
	case Begin:
		return tell.DrillKey(r.asks(), r.Over)
	case Above, Below:
		return tell.DrillMove(a == Above)
	}
	return words.Text{}
}

// Package prove is the sheet of the search: every situation that craft and radio can come into, the rules that are held against each, and the
// shortest way to a broken one.
package prove

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
)

// What its own keys do.
const (
	ShowWay   ui.Action = "show-way"   // play the way to the broken rule on the bench
	RuleAbove ui.Action = "rule-above" // the rule above
	RuleBelow ui.Action = "rule-below" // the rule below
	MoreSteps ui.Action = "more-steps" // further steps of the way
	SearchNow ui.Action = "search"     // begin the search, or stop it
)

// About is what there is to know of the sheet.
func About() *ui.About {
	return &ui.About{
		Place: ui.OnProve, Key: "F8", Everywhere: true,
		Shared: []ui.Action{ui.TurnSheet, ui.TurnFullScreen, ui.ShowHelp, ui.Leave},
		Own: []ui.Act{
			{Action: ShowWay, Physical: "Enter"},
			{Action: RuleAbove, Physical: "PageUp"},
			{Action: RuleBelow, Physical: "PageDown"},
			{Action: MoreSteps, Physical: "N"},
			{Action: SearchNow, Physical: "B"},
		},
		Shows: shows,
		Does:  does,
	}
}

func shows(v *ui.View, a ui.Action) (shows, known bool) {
	switch a {
	case RuleAbove, RuleBelow:
		return len(Of(v).Rules) > 1, true
	case MoreSteps:
		return len(Of(v).rule().Steps) > moreSteps+1, true
	case ShowWay:
		return len(Of(v).rule().Steps) > 0 && !v.Playing(), true
	}
	return false, false
}

func does(v *ui.View, a ui.Action) words.Text {
	if a == SearchNow {
		return tell.Does(a.Code(), Of(v).Searching, 0)
	}
	return words.Text{}
}

// Package learn is one sheet: learning a radio, and choosing between radio files.
package learn

import (
	"strconv"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/input/learn"
	"propsoff/input/radio"
)

// What its own keys do.
const (
	Back        ui.Action = "question-back"   // one step back
	Skip        ui.Action = "question-skip"   // this question stays without a control
	Enough      ui.Action = "question-enough" // what learn.View.Enough says; at the end: to the bench
	Restart     ui.Action = "questions-anew"  // from the beginning
	SideLeft    ui.Action = "side-left"       // the switch found last sits at the left
	SideRight   ui.Action = "side-right"      // … at the right
	SideTop     ui.Action = "side-top"        // … on top
	SpringsBack ui.Action = "springs-back"    // the switch found last springs back, or stays
	CallSwitch  ui.Action = "call-switch"     // the switch found last gets a name, or the typing of it ends
	Anew        ui.Action = "learn-anew"      // which file: none of them, learn the radio
)

// About is what there is to know of the sheet.
func About() *ui.About {
	return &ui.About{
		Place:  ui.OnQuestions,
		Shared: []ui.Action{ui.NextDriver, ui.ChooseRadio, ui.TurnSheet, ui.TurnFullScreen, ui.ShowHelp, ui.Leave, ui.KeepAgain},
		Own: []ui.Act{
			{Action: Back, Physical: "B"},
			{Action: Skip, Physical: "K"},
			{Action: Enough, Physical: "Enter"},
			{Action: Restart, Physical: "O"},
			{Action: SideLeft, Physical: "L"},
			{Action: SideRight, Physical: "R"},
			{Action: SideTop, Physical: "T"},
			{Action: SpringsBack, Physical: "M"},
			{Action: CallSwitch, Physical: "C"},
		},
		Shows: shows,
		Does:  does,
	}
}

func shows(v *ui.View, a ui.Action) (shows, known bool) {
	l := &v.Learn
	switch a {
	case Skip:
		return l.CanSkip, true
	case Enough:
		return l.Enough != learn.NoUse || l.Question == learn.Done, true
	case Back:
		return l.CanBack, true
	case Restart:
		return l.CanBack || l.Question >= learn.Done, true
	case SideLeft, SideRight, SideTop, CallSwitch:
		return l.Question < learn.Done && lastFound(v) != nil, true
	case SpringsBack:
		c := lastFound(v)
		return l.Question < learn.Done && c != nil && (c.Form != radio.Axis || len(c.Positions) > 0), true
	}
	return false, false
}

func does(v *ui.View, a ui.Action) words.Text {
	switch a {
	case Enough:
		return tell.EnoughWord(v.Learn.Enough, v.Learn.Question)
	case SpringsBack:
		k := lastFound(v)
		return tell.Does(a.Code(), k != nil && k.Momentary, 0)
	}
	return words.Text{}
}

// AboutWhich is what there is to know of the sheet.
func AboutWhich() *ui.About {
	return &ui.About{
		Place:  ui.OnWhich,
		Shared: []ui.Action{ui.NextDriver, ui.ChooseRadio, ui.TurnSheet, ui.TurnFullScreen, ui.ShowHelp, ui.Leave},
		Own: []ui.Act{
			{Action: Anew, Physical: "N"},
		},
	}
}

// answer is the control found for a job, nil for none.
func answer(v *ui.View, job string) *radio.Control {
	for i := range v.Learn.Answers {
		if job != "" && v.Learn.Answers[i].Job == job {
			return &v.Learn.Answers[i]
		}
	}
	return nil
}

// lastFound is the switch that was found last, nil for none.
func lastFound(v *ui.View) *radio.Control {
	if n := v.Learn.Last; n >= 0 && n < len(v.Learn.Answers) {
		return &v.Learn.Answers[n]
	}
	return nil
}

// Carries are the craft's own words for what the channel of a job named by number does.
func Carries(v *ui.View, job string) string {
	for i := range v.Carries {
		if v.Carries[i] != "" && job == "channel "+strconv.Itoa(i+1) {
			return v.Carries[i]
		}
	}
	return ""
}

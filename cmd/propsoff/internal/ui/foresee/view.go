// Package foresee is one sheet: the examiner: two situations that differ in one thing, how each ends, and which beliefs were wrong.
package foresee

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/sim"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// Phase is how far a question is.
type Phase uint8

// The phases.
const (
	Making Phase = iota // questions are being made, or none can be
	Asking              // both ends are to be foreseen
	Ending              // the bench shows both ends
	Shown               // both ends are shown
	Over                // the round is over
)

// View is what the sheet may know.
type View struct {
	Phase Phase
	// Of says which craft and radio are asked about; Trouble why nothing can be asked; Kept why an answer was not kept.
	Of, Trouble, Kept words.Text
	// Number is the question's, from 1, of so many.
	Number, Count int
	// Begin is how everything stands at first, Is how both stand before the last movement and which that is, Asks what is asked of them.
	Begin, Is, Asks words.Text
	Answers         []words.Text
	// Answer is the one that was given, from 0; −1 before.
	Answer  int
	Stories [2]Story
	// Radio and Layout are what the hands are on. Job is the control of the last movement, empty where that is none of the radio's; To is where it goes, 0 … 1,
	// and Up which way, −1 or 1.
	Radio  *handset.Radio
	Layout *layout.Config
	Job    string
	To, Up float64
	// Share is how much has gone of what the bench shows.
	Share float64
	// Verdict is what the answer shows; Right: both ends were foreseen.
	Verdict words.Text
	Right   bool
	// Score is what the round came to, Beliefs each that was wrong.
	Score   words.Text
	Beliefs []words.Text
}

// Story is one of the two as it stands.
type Story struct {
	Name  words.Text
	Steps []tell.ForeseeStep
	Sent  pulse.Frame
	// Snap is the craft, once the bench shows it. End says how it ended, once it has.
	Snap sim.Snapshot
	End  words.Text
}

// Of is what this sheet knows besides what all know.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// What its own keys do.
const (
	GoOn     ui.Action = "foresee-on"  // to the end of what is shown, to the next question, or to another round
	EndRound ui.Action = "foresee-end" // end the round
)

// answerPrefix and a number from 1 name the hit areas of the answers.
const answerPrefix = "foresee-answer-"

// About is what there is to know of the sheet.
func About() *ui.About { return new(part).About() }

// About is what there is to know of the sheet.
func (p *part) About() *ui.About {
	return &ui.About{
		Place: ui.OnForesee, Key: "Minus", Everywhere: true,
		Shared: ui.Usual(),
		Own: []ui.Act{
			{Action: GoOn, Physical: "Enter", Do: p.goOn, Next: func(v *ui.View) int { return goOnDoes(Of(v)) },
				Shows: func(v *ui.View) bool { return Of(v).Phase >= Ending }},
			{Action: EndRound, Physical: "Backspace", Do: p.endRound, Shows: func(v *ui.View) bool { f := Of(v); return f.Phase > Making && f.Phase < Over }},
		},
		Picks: []ui.Pick{{Prefix: answerPrefix, Keys: true, Do: p.answer}},
	}
}

// goOnDoes is what the key goes on to: 0 the end of what is shown, 1 the next question, 2 what the round came to, 3 another round.
func goOnDoes(v *View) int {
	switch {
	case v.Phase == Over:
		return 3
	case v.Phase == Shown && v.Number >= v.Count:
		return 2
	case v.Phase == Shown:
		return 1
	}
	return 0
}

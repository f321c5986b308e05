// Package first is one sheet: what comes before the first flight.
package first

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/figure"
	"propsoff/sim/flight"
)

// What its own keys do.
const (
	NextMotor         ui.Action = "next-motor"         // the next motor
	TurnPropeller     ui.Action = "turn-propeller"     // another propeller on it: NextHand
	PropellersChecked ui.Action = "propellers-checked" // the propellers are right, or to be looked at again
	GoOut             ui.Action = "go-out"             // carry the craft to the other bench
)

// Of is what this sheet knows besides what all know.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// About is what there is to know of the sheet.
func About() *ui.About {
	return &ui.About{
		Place: ui.OnFirst, Key: "B",
		Shared: []ui.Action{ui.TurnSheet, ui.TurnFullScreen, ui.ShowHelp, ui.Leave},
		Own: []ui.Act{
			{Action: NextMotor, Physical: "N"},
			{Action: TurnPropeller, Physical: "O"},
			{Action: PropellersChecked, Physical: "C"},
			{Action: GoOut, Physical: "Enter"},
		},
		Shows: shows,
		Does:  does,
	}
}

func shows(v *ui.View, a ui.Action) (shows, known bool) {
	switch a {
	case TurnPropeller, PropellersChecked, NextMotor:
		return !v.Playing(), true
	case GoOut:
		return (v.Snap.In.Air || Of(v).Ready()) && !v.Playing(), true
	}
	return false, false
}

func does(v *ui.View, a ui.Action) words.Text {
	switch a {
	case TurnPropeller:
		return tell.FitNext(NextHand(Of(v).hand()))
	case PropellersChecked:
		return tell.Does(a.Code(), Of(v).Checked, 0)
	case GoOut:
		return tell.Does(a.Code(), v.Snap.In.Air, 0)
	}
	return words.Text{}
}

// What must have been seen before the first flight, in the order in which it is shown.
const (
	NeedCheck      = iota // every control of the radio was checked
	NeedArmed             // the craft armed on the desk bench
	NeedDisarmed          // … and disarmed
	NeedLinkLost          // it was seen what it does when the radio goes silent
	NeedPropellers        // the propellers are checked; View.Checked says so
	NeedCount
)

// View is what the sheet may know.
type View struct {
	// Needs are the things that must have been seen on the desk bench; that of NeedPropellers is not used, Checked is.
	Needs [NeedCount]Need
	figure.Propellers
	// Checked: the pilot says that the propellers are right. Changing one takes it back.
	Checked bool
	// Came is what the last flight came to, Tried the propellers with which it was flown. Planted: an instructor put another one on.
	Came    Outing
	Tried   [flight.Motors]int8
	Planted bool
}

// Need is one thing that must have been seen.
type Need struct {
	Done bool
	// Tick is when it was seen, in ms of the practice; negative where that is not known.
	Tick int64
	// How says how it was seen, as a sentence; it says nothing where there is nothing to add.
	How words.Text
}

// Outing is what a flight with the propellers as they were came to.
type Outing uint8

// The outings.
const (
	NoOuting Outing = iota
	Flipped         // it tipped over
	NoLift          // it never left the ground, with the throttle up
)

// done tells whether a need is met.
func (v *View) done(need int) bool {
	if need == NeedPropellers {
		return v.Checked
	}
	return v.Needs[need].Done
}

// Ready tells whether everything is done that is asked for before the craft may be carried out.
func (v *View) Ready() bool {
	for i := range NeedCount {
		if !v.done(i) {
			return false
		}
	}
	return true
}

// NextHand is the propeller after one: clockwise, counter-clockwise, none.
func NextHand(hand int8) int8 {
	switch hand {
	case 1:
		return -1
	case -1:
		return 0
	}
	return 1
}

// hand is the propeller on the motor selected.
func (v *View) hand() int8 {
	if v.Selected < 0 || v.Selected >= len(v.Hands) {
		return 0
	}
	return v.Hands[v.Selected]
}

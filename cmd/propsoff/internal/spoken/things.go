package spoken

import "propsoff.example/sim/happening"

// thing is how a kind of happening is told.
type thing struct {
	// of is the first code of those that are about one and the same thing.
	of happening.Code
	// stands: it is a state, so coming back to what was said is no news. Else each time is news.
	stands bool
	// urgent: it is said at once. settle is how long it must have stood, in ms.
	urgent bool
	settle int64
	// unsteady is the word of what is said where it changes too often.
	unsteady string
}

// things are those that are not told as one polite line each.
var things = [happening.CodeCount]thing{
	happening.Armed:       {of: happening.Armed, stands: true, urgent: true, unsteady: "armed"},
	happening.Disarmed:    {of: happening.Armed, stands: true, urgent: true, unsteady: "armed"},
	happening.Refused:     {of: happening.Refused, urgent: true, unsteady: "refused"},
	happening.LinkLost:    {of: happening.LinkLost, stands: true, urgent: true, unsteady: "link"},
	happening.LinkBack:    {of: happening.LinkLost, stands: true, unsteady: "link"},
	happening.LinkClean:   {of: happening.LinkLost, stands: true, unsteady: "link"},
	happening.Sinking:     {of: happening.Sinking, stands: true, urgent: true, unsteady: "link"},
	happening.SinkEnded:   {of: happening.Sinking, stands: true, urgent: true, unsteady: "link"},
	happening.Mode:        {of: happening.Mode, stands: true, settle: settleFor, unsteady: "mode"},
	happening.AirMode:     {of: happening.AirMode, unsteady: "mode"},
	happening.Power:       {of: happening.Power, stands: true, unsteady: "power"},
	happening.Cable:       {of: happening.Cable, stands: true, unsteady: "craft"},
	happening.Transmitter: {of: happening.Transmitter, stands: true, unsteady: "radio"},
	happening.Plug:        {of: happening.Plug, stands: true, urgent: true, unsteady: "radio"},
	happening.Tilted:      {of: happening.Tilted, stands: true, unsteady: "craft"},
	happening.Menu:        {of: happening.Menu, stands: true, unsteady: "menu"},
	happening.MenuMark:    {of: happening.MenuMark, settle: settleFor, unsteady: "menu"},
	happening.MenuValue:   {of: happening.MenuValue, settle: settleFor, unsteady: "menu"},
	happening.MenuLeft:    {of: happening.MenuLeft, unsteady: "menu"},
	happening.Gesture:     {of: happening.Gesture, unsteady: "gesture"},
	happening.GestureNear: {of: happening.GestureNear, unsteady: "gesture"},
	happening.TookOff:     {of: happening.TookOff, unsteady: "flight"},
	happening.TouchedDown: {of: happening.TouchedDown, unsteady: "flight"},
	happening.TippedOver:  {of: happening.TippedOver, urgent: true, unsteady: "flight"},
	happening.Broke:       {of: happening.Broke, urgent: true, unsteady: "flight"},
	happening.Instructed:  {of: happening.Instructed, urgent: true, unsteady: "hands"},
	happening.StickMode:   {of: happening.StickMode, stands: true, unsteady: "radio"},
	happening.Moved:       {of: happening.Moved, stands: true, unsteady: "craft"},
	happening.Fitted:      {of: happening.Fitted, stands: true, unsteady: "craft"},
	happening.Pack:        {of: happening.Pack, stands: true, unsteady: "power"},
}

// thingOf is how a kind of happening is told.
func thingOf(c happening.Code) thing {
	if c < happening.CodeCount && things[c].of != 0 {
		return things[c]
	}
	return thing{of: c, unsteady: "craft"}
}

// number is a state as a number: which of the codes about it, and its value where the code has several.
func (t thing) number(h *happening.Happening) int64 {
	switch t.of {
	case happening.Armed, happening.LinkLost, happening.Sinking: // the code says it
		return int64(h.Code)
	}
	return int64(h.A) + 1<<32 // so that 0 is what nothing was said of
}

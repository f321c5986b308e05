package sound

import (
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
)

// Of is the tone of something that happened; None where that is silent.
func Of(h happening.Happening) Code {
	switch {
	case h.Code >= happening.CodeCount:
		return None
	case h.Code != happening.Mode:
		return happened[h.Code]
	case h.A < 0 || h.A >= layout.Modes:
		return None
	}
	return OfMode(layout.Mode(h.A))
}

// happened are the tones of what happens. None is for what a person does with their own hands, what another tone tells of in the same moment
// (a craft that sinks: the lost link sounds), what asks for no hands, and what the instructor does, which nobody is to hear. A change of
// mode has the tone of its mode.
var happened = [happening.CodeCount]Code{
	happening.Armed:     Armed,
	happening.Disarmed:  Disarmed,
	happening.Refused:   Refused,
	happening.LinkLost:  LinkLost,
	happening.LinkBack:  LinkBack,
	happening.LinkClean: LinkClean,
}

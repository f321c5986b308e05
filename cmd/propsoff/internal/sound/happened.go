package sound

import (
	"propsoff/sim/happening"
	"propsoff/sim/layout"
)

// Of is the tone of something that happened; None where that is silent.
func Of(h happening.Happening) Code {
	if h.Code >= happening.CodeCount {
		return None
	}
	if h.Code == happening.Mode {
		if h.A < 0 || int(h.A) >= len(modes) {
			return None
		}
		return modes[h.A]
	}
	return happened[h.Code].tone
}

// sounds is one line of the table: a tone, or silent on purpose.
type sounds struct {
	tone   Code
	silent bool
}

// modes are the tones of the modes that a craft changes to.
var modes = [layout.Modes]Code{layout.Angle: ModeAngle, layout.Horizon: ModeHorizon, layout.Rate: ModeRate}

// happened is the decision for every code. Silent is what a person does with their own hands, what another tone tells of in the same
// moment, and what asks for no hands.
var happened = [happening.CodeCount]sounds{
	happening.Armed:     {tone: Armed},
	happening.Disarmed:  {tone: Disarmed},
	happening.Refused:   {tone: Refused},
	happening.LinkLost:  {tone: LinkLost},
	happening.LinkBack:  {tone: LinkBack},
	happening.LinkClean: {tone: LinkClean},
	happening.Mode:      {tone: ModeAngle}, // or that of the mode: modes

	happening.Sinking:      {silent: true}, // the lost link sounds
	happening.SinkEnded:    {silent: true}, // the good link sounds
	happening.AirMode:      {silent: true},
	happening.Settled:      {silent: true},
	happening.Power:        {silent: true},
	happening.Cable:        {silent: true},
	happening.Transmitter:  {silent: true},
	happening.Plug:         {silent: true},
	happening.Tilted:       {silent: true},
	happening.Nudged:       {silent: true},
	happening.Menu:         {silent: true},
	happening.Pack:         {silent: true},
	happening.TravelShort:  {silent: true},
	happening.ReadingsLost: {silent: true},
	happening.Slept:        {silent: true},
	happening.Moved:        {silent: true},
	happening.Fitted:       {silent: true},
	happening.TookOff:      {silent: true},
	happening.TouchedDown:  {silent: true},
	happening.TippedOver:   {silent: true},
	happening.StickMode:    {silent: true},
	happening.Gesture:      {silent: true},
	happening.GestureNear:  {silent: true},
	happening.MenuMark:     {silent: true},
	happening.MenuValue:    {silent: true},
	happening.MenuLeft:     {silent: true},
	happening.Instructed:   {silent: true}, // nobody is to hear what the instructor does
}

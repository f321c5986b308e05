package ui

import (
	"strconv"

	"propsoff.example/sim/pulse"
)

// canChoose: there is a radio to choose besides the one that is being read.
func (v *View) canChoose() bool { return len(v.Radios) > 1 || len(v.Radios) == 1 && v.Reading < 0 }

// ChoosesRadio: a radio is being chosen.
func (v *View) ChoosesRadio() bool { return v.Choosing && v.canChoose() }

// TiltSteps are the tilts that TiltCraft goes through, in tenths of a degree (ours): level, within the usual limit,
// beyond it, and upside down.
var TiltSteps = [...]int16{0, 200, 450, 1700}

// NextTilt is the tilt after one in tenths of a degree: the first step above it, else level.
func NextTilt(tenths int16) int16 {
	for _, s := range TiltSteps {
		if s > tenths {
			return s
		}
	}
	return 0
}

// NextMenu is the value of pulse.Menu after one: an open menu is closed, then the craft's and the camera's open in turn. last is the one
// that was open last.
func NextMenu(menu, last uint8) uint8 {
	switch {
	case menu != pulse.MenuClosed:
		return pulse.MenuClosed
	case last == pulse.MenuCraft:
		return pulse.MenuCamera
	}
	return pulse.MenuCraft
}

// NextStickMode is the stick mode after one, 1 to 4.
func NextStickMode(mode int) int { return StickMode(mode)%4 + 1 }

// choicePrefix and a number from 1 name the hit areas of a choice between radios.
const choicePrefix = "choose-"

// ChoiceOf finds the index in View.Radios of a choice's hit area.
func ChoiceOf(code string) (int, bool) { return DigitOf(code, choicePrefix, MostChoices) }

// DigitOf is the number from 0 that a digit from 1 after a prefix stands for.
func DigitOf(code, prefix string, most int) (int, bool) {
	n, ok := NumberOf(code, prefix)
	return n, ok && n < most
}

// MostChoices is how many radios can be chosen between: one digit each.
const MostChoices = 9

// Numbers are the number keys, as one row of help has them.
var Numbers = "1–" + strconv.Itoa(MostChoices)

// NumberOf is the number from 0 that one from 1 after a prefix stands for.
func NumberOf(code, prefix string) (int, bool) {
	if len(code) <= len(prefix) || code[:len(prefix)] != prefix {
		return 0, false
	}
	n, err := strconv.Atoi(code[len(prefix):])
	return n - 1, err == nil && n > 0
}

// StickMode keeps a stick mode within 1 to 4; 2 where it is not.
func StickMode(mode int) int {
	if mode < 1 || mode > 4 {
		return 2
	}
	return mode
}

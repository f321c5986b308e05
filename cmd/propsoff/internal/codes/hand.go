package codes

import (
	"slices"

	"propsoff.example/sim/layout"
	"propsoff.example/sim/mark"
	"propsoff.example/sim/pulse"
)

// The words of axes stand in logbooks for ever.
var axisCodes = [mark.Axes]string{mark.Roll: "roll", mark.Pitch: "pitch", mark.Yaw: "yaw"}

// Axis is the code word of the stick that followed a mark.
func Axis(a mark.Axis) string { return word(axisCodes[:], int(a), "axis") }

// AxisOf is the axis of a code word.
func AxisOf(s string) (mark.Axis, bool) {
	i, ok := codeOf(axisCodes[:], s)
	return mark.Axis(i), ok
}

// ModeOf is the flight mode of a code word.
func ModeOf(s string) (layout.Mode, bool) {
	i := slices.Index(pulse.ModeCodes(), s)
	return layout.Mode(max(i, 0)), i >= 0
}

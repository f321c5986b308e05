package codes

import (
	"propsoff/sim/prove"
)

// WayMark begins every script that prove writes: a file without it is somebody else's, and is never overwritten.
const WayMark = "Written by propsoff prove: "

// Step is the code word of a kind of step.
func Step(k prove.Kind) string {
	return word([]string{
		prove.Start: "start", prove.Move: "move", prove.LetGo: "let-go", prove.RadioOff: "radio-off", prove.RadioOn: "radio-on",
		prove.PowerOn: "pack-in", prove.PowerOff: "pack-out", prove.CableIn: "cable-in", prove.CableOut: "cable-out",
		prove.Nudge: "nudge", prove.Wait: "wait", prove.Tremble: "tremble", prove.Tilt: "tilt",
	}, int(k), "step")
}

// Events are the code words of what happened in a step, those of the record where it has them.
func Events(e prove.Event) []string {
	return among(uint(e), "armed", "disarmed", "link-lost", "link-back", "link-clean", "sinking", "control-back", "refused", "mode", "settled", "gesture", "menu")
}

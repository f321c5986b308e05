package codes

import (
	"propsoff.example/sim/prove"
)

// WayMark begins every script that prove writes: a file without it is somebody else's, and is never overwritten.
const WayMark = "Written by propsoff prove: "

// Step is the code word of a kind of step.
func Step(k prove.Kind) string {
	return word([]string{
		prove.Start: "start", prove.Move: "move", prove.LetGo: "let-go", prove.RadioOff: "radio-off", prove.RadioOn: "radio-on",
		prove.PowerOn: "pack-in", prove.PowerOff: "pack-out", prove.CableIn: "cable-in", prove.CableOut: "cable-out",
		prove.Nudge: "nudge", prove.Wait: "wait", prove.Tremble: "tremble", prove.Tilt: "tilt", prove.Level: "level", prove.PackSags: "pack-sags", prove.PackWell: "pack-well",
		prove.CameraMenu: "camera-menu", prove.MenuShut: "menu-shut", prove.PupilOff: "pupil-off", prove.PupilOn: "pupil-on", prove.PlugOut: "plug-out", prove.PlugIn: "plug-in",
	}, int(k), "step")
}

// Events are the code words of what happened in a step, those of the record where it has them.
func Events(e prove.Event) []string {
	return among(uint(e), "armed", "disarmed", "link-lost", "link-back", "link-clean", "sinking", "control-back", "refused", "mode", "settled", "gesture", "menu")
}

// Parts are the code words of what two layouts differ in, the gravest first.
func Parts(p prove.Part) []string {
	return among(uint(p), "armed", "sinking", "motors", "mode", "refused")
}

// Apart are the code words of what two layouts may differ in and is not searched.
func Apart(a prove.Apart) []string {
	return among(uint(a), "gestures", "flight", "frame-period", "gesture-on-the-way", "frames-on-the-way")
}

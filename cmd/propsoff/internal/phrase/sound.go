package phrase

import (
	"strings"

	"propsoff/cmd/propsoff/internal/sound"
)

// captions are the words for the tones, for eyes.
var captions = [sound.CodeCount]string{
	sound.Armed: "armed", sound.Disarmed: "disarmed", sound.Refused: "arming refused",
	sound.ModeAngle: "mode: angle", sound.ModeHorizon: "mode: horizon", sound.ModeRate: "mode: rate",
	sound.LinkLost: "link lost", sound.LinkBack: "link heard again", sound.LinkClean: "link good",
	sound.DrillAlarm: "alarm!", sound.DrillCall: "now", sound.DrillRight: "right", sound.DrillWrong: "not right",
}

// SoundCaption is the word for one tone; empty for none.
func SoundCaption(c sound.Code) string {
	if c >= sound.CodeCount {
		return ""
	}
	return captions[c]
}

// SoundCaptions are the words for the tones of one moment, the most urgent first; quiet: none of them was to be heard.
func SoundCaptions(all []sound.Code, quiet bool) string {
	words := make([]string, 0, len(all))
	for _, c := range all {
		words = append(words, SoundCaption(c))
	}
	if len(words) == 0 {
		return ""
	}
	s := "♪ " + strings.Join(words, ", ")
	if quiet {
		s += " (no sound)"
	}
	return s
}

// NoSoundDevice is said once where nothing can be heard.
func NoSoundDevice() string {
	return "No sound can be played here; each tone is written at the upper edge of the sheet instead."
}

// SoundsNotRead is said where the settings of sounds are not right; the error names the place.
func SoundsNotRead(err string) string { return "All sounds are on. " + err }

// SoundsNotKept is said where the settings of sounds could not be kept.
func SoundsNotKept(err string) string { return "Set until the end of this session only. " + err }

package tell

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/sound"
)

// captions are the words for the tones, for eyes.
var captions = [sound.CodeCount]words.ID{
	sound.Armed: "sound.armed", sound.Disarmed: "sound.disarmed", sound.Refused: "sound.refused",
	sound.ModeAngle: "sound.mode-angle", sound.ModeHorizon: "sound.mode-horizon", sound.ModeRate: "sound.mode-rate",
	sound.LinkLost: "sound.link-lost", sound.LinkBack: "sound.link-back", sound.LinkClean: "sound.link-clean",
	sound.DrillAlarm: "sound.drill-alarm", sound.DrillCall: "sound.drill-call", sound.DrillRight: "sound.drill-right", sound.DrillWrong: "sound.drill-wrong",
}

// SoundCaption is the word for one tone; nothing for none.
func SoundCaption(c sound.Code) words.Text {
	if c >= sound.CodeCount || captions[c] == "" {
		return words.Text{}
	}
	return words.T(captions[c])
}

// SoundCaptions are the words for the tones of one moment, the most urgent first; quiet: none of them was to be heard.
func SoundCaptions(all []sound.Code, quiet bool) words.Text {
	if len(all) == 0 {
		return words.Text{}
	}
	tones := make([]words.Text, 0, len(all))
	for _, c := range all {
		tones = append(tones, SoundCaption(c))
	}
	return words.T("sound.captions", words.Args{"tones": words.Listed(tones...), "quiet": words.Flag(quiet)})
}

// SoundsNotRead is said where the settings of sounds are not right; the error names the place.
func SoundsNotRead(why words.Text) words.Text {
	return words.T("sound.not-read", words.Args{"why": why})
}

// SoundsNotKept is said where the settings of sounds could not be kept.
func SoundsNotKept(why words.Text) words.Text {
	return words.T("sound.not-kept", words.Args{"why": why})
}

package radioreach

import (
	"maps"

	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/sim/handset"
)

// HandsetForBoth is one radio that serves two crafts. Whoever edits a craft file does not change what the radio sends: each control stays on the
// channel where the first craft listens to it, and what only the second has a job for goes where that listens, if the radio sends nothing there.
func HandsetForBoth(file *radio.File, info *input.Info, first, second input.Names) handset.Radio {
	r := Handset(file, info, first)
	names := first
	names.Channel = maps.Clone(first.Channel)
	for job, channel := range second.Channel {
		if _, has := first.Channel[job]; !has && r.On(int8(channel)) == nil {
			names.Channel[job] = channel
		}
	}
	if len(names.Channel) == len(first.Channel) {
		return r
	}
	return Handset(file, info, names)
}

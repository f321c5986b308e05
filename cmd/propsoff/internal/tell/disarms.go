package tell

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
)

// WhatDisarms tells what ends the armed state of this craft, and what does not.
func WhatDisarms(f *facts.Facts) words.Text {
	if !f.Reaches() && f.Hearing == facts.ItsReceiver {
		return keepsOn(f)
	}
	ways := words.Clauses(handDisarms(f), radioBackDisarms(f), words.T("disarms.pack"), silenceDisarms(f))
	now := words.T("disarms.now", words.Args{"ways": ways})
	if i := f.Disarm[facts.ByItself]; i.OK {
		now = words.T("disarms.by-itself", words.Args{"left": left(int(i.Ms)), "ways": ways})
	}
	return words.Row(now, words.T("disarms.refusals-not"))
}

// handDisarms is what a hand does, or what must be read where that is what counts.
func handDisarms(f *facts.Facts) words.Text {
	hand := f.Disarm[facts.ByHand].OK
	switch {
	case !f.Reaches():
		return words.Text{}
	case !hand || f.Unsure:
		return words.T("disarms.reading", words.Args{"what": disarmedBy(&f.Craft), "beyond": words.Flag(!hand && f.Tried)})
	case f.BySticks:
		return words.T("disarms.corner", words.Args{"time": slots(&f.Craft, f.Craft.Arming.DisarmDwell)})
	}
	return words.T("disarms.switch")
}

func radioBackDisarms(f *facts.Facts) words.Text {
	if !f.Disarm[facts.ByRadioBack].OK {
		return words.Text{}
	}
	return words.T("disarms.radio-back", words.Args{"corner": words.Flag(f.BySticks)})
}

// silenceDisarms says whether a radio that goes silent disarms; nothing where a drill may ask for just this.
func silenceDisarms(f *facts.Facts) words.Text {
	switch {
	case f.Plain || f.IfSilent == facts.Unchanged:
		return words.Text{}
	case f.ReceiverHidden:
		return words.T("disarms.silence-hidden")
	case f.IfSilent == facts.Cuts:
		return words.T("disarms.silence-cuts", words.Args{"radio": silentRadio(f)})
	case f.IfSilent == facts.Sinks:
		return silentRadio(f)
	case f.IfSilent == facts.DisarmsStored:
		return words.T("disarms.silence-stored")
	case f.IfSilent == facts.DisarmsHeld:
		return words.T("disarms.silence-held")
	}
	return words.T("disarms.silence-not")
}

// silentRadio is what must be silent, and for how long, for the radio's silence to disarm.
func silentRadio(f *facts.Facts) words.Text {
	lost := slots(&f.Craft, f.Craft.Link.SilenceSlots)
	switch f.IfSilent {
	case facts.Cuts:
		return words.T("disarms.silent-for", words.Args{"time": lost})
	case facts.Sinks:
		return words.T("disarms.silent-and-sunk", words.Args{"time": lost, "sinking": slots(&f.Craft, f.Craft.Arming.SinkSlots)})
	}
	return words.T("disarms.silent")
}

// keepsOn is said of an armed craft whose receiver goes on sending while the radio is silent.
func keepsOn(f *facts.Facts) words.Text {
	if i := f.Disarm[facts.ByItself]; i.OK {
		return words.T("disarms.keeps-on-itself", words.Args{"left": left(int(i.Ms))})
	}
	back := f.Disarm[facts.ByRadioBack].OK
	return words.T("disarms.keeps-on", words.Args{"corner": words.Flag(back && f.BySticks), "switch": words.Flag(back && !f.BySticks)})
}

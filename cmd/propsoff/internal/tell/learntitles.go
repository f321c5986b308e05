package tell

import "propsoff/assets/words"

// PensTitle heads the pens: shown of n axes have one.
func PensTitle(shown, n int) words.Text {
	if shown == n {
		return words.T("learn-title.pens", words.Args{"n": words.Count(n)})
	}
	return words.T("learn-title.pens-of", words.Args{"shown": words.Whole(shown), "n": words.Count(n)})
}

// ZoneHere says what the zone is that is hatched, or filled with slashes where there are letters only.
func ZoneHere(slashes bool) words.Text {
	return words.T("learn-title.zone", words.Args{"slashes": words.Flag(slashes)})
}

// ButtonsTitle heads the buttons.
func ButtonsTitle(n int) words.Text {
	return words.T("learn-title.buttons", words.Args{"n": words.Count(n)})
}

// NotKeptWhy says why there is no radio file; why says nothing where it is not to be kept.
func NotKeptWhy(why words.Text) words.Text {
	if why.Empty() {
		return words.T("learn-title.not-kept")
	}
	return words.T("learn-title.not-kept-why", words.Args{"why": why})
}

// SpareTitle says how many controls were found for which no channel was free.
func SpareTitle(n int) words.Text {
	return words.T("learn-title.spare", words.Args{"n": words.Count(n)})
}

// RadioTitle heads the drawing of the radio.
func RadioTitle(mode int) words.Text {
	return words.T("learn-title.radio", words.Args{"mode": words.Whole(mode)})
}

// LeanTitle heads the drawing of the craft that does what is asked.
func LeanTitle(job string) words.Text {
	switch job {
	case "pitch", "yaw", "roll":
		return words.Of("lean-title", job)
	}
	return words.T("lean-title.throttle")
}

// LeanEnds names what the craft does at the low and at the high end of a stick direction.
func LeanEnds(job string) (low, high words.Text) {
	switch job {
	case "pitch":
		return words.T("learn-title.back"), words.T("learn-title.forward")
	case "throttle":
		return words.T("learn-title.ground"), words.T("learn-title.climb")
	}
	return HandSide(false), HandSide(true)
}

// HandTitle names a hand of a picture of a stick mode, and HandSide its side alone.
func HandTitle(right bool) words.Text {
	return words.T("learn-title.hand", words.Args{"right": words.Flag(right)})
}

func HandSide(right bool) words.Text {
	return words.T("learn-title.side", words.Args{"right": words.Flag(right)})
}

// StickModeTitle heads the picture of a stick mode.
func StickModeTitle(mode int) words.Text {
	return words.T("learn-title.stick-mode", words.Args{"mode": words.Whole(mode)})
}

// ReplayTitle heads the list that is ticked off.
func ReplayTitle(seen, all int) words.Text {
	return words.T("learn-title.replay", words.Args{"seen": words.Whole(seen), "all": words.Whole(all)})
}

// FirstPlace and LastPlace name the ends of a switch that is led from one to the other; arm: from off.
func FirstPlace(arm bool) words.Text {
	return words.T("learn-title.first-place", words.Args{"arm": words.Flag(arm)})
}

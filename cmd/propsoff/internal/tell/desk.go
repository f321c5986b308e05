package tell

import "propsoff/assets/words"

// DeskPackLimit says what a craft makes of a pack, by its limit in mV, where that is nothing; else it says nothing. The pack has so many mV.
func DeskPackLimit(limit, pack int) words.Text {
	switch {
	case limit == 0:
		return words.T("desk.no-pack-limit")
	case pack >= limit:
		return words.T("desk.pack-above", words.Args{"limit": Volts(limit)})
	}
	return words.Text{}
}

// DeskFault is a fault in the list; planted is said in a word too.
func DeskFault(name words.Text, planted bool) words.Text {
	if planted {
		return words.T("desk.planted", words.Args{"fault": name})
	}
	return name
}

// DeskHidden says what the hidden keys are.
func DeskHidden(on bool) words.Text {
	return words.T("desk.hidden", words.Args{"on": words.Flag(on)})
}

// DeskHiddenKey is what the key for them does, DeskPlantKey what the one does that plants a fault, or lifts it where it is on.
func DeskHiddenKey(on bool) words.Text {
	return words.T("desk.hidden-key", words.Args{"on": words.Flag(on)})
}
func DeskPlantKey(on bool) words.Text {
	return words.T("desk.plant-key", words.Args{"on": words.Flag(on)})
}

// InstructorNotLearned says that a radio cannot be the instructor's yet; key chooses among radios, empty where it does not now.
func InstructorNotLearned(name string, key words.Text) words.Text {
	return words.T("desk.not-learned", words.Args{"radio": words.Quote(name), "key": key})
}

// DeskRadio says which radio is the instructor's, and which switch on it takes the sticks; key changes that, empty where it does not now.
func DeskRadio(name string, takes, key words.Text, several bool) words.Text {
	switch {
	case name != "":
		return words.T("desk.radio", words.Args{"radio": words.Quote(name), "takes": takes})
	case !key.Empty():
		return words.T("desk.take-one", words.Args{"key": key})
	case several:
		return words.T("desk.none-taken")
	}
	return words.T("desk.none-plugged")
}

// DeskHands says who has the sticks.
func DeskHands(instructor bool) words.Text {
	return words.T("desk.hands", words.Args{"instructor": words.Flag(instructor)})
}

// DeskMark is a commentary mark in the list.
func DeskMark(n int, tick int64) words.Text {
	return words.T("desk.mark", words.Args{"n": words.Grouped(n), "at": Clock(tick)})
}

// DeskRefused says that a fault cannot be planted with this craft.
func DeskRefused(fault words.Text) words.Text {
	return words.T("desk.refused", words.Args{"fault": fault})
}

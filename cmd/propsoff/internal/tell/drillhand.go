package tell

import "propsoff/assets/words"

// DrillHand is what a sentence about the hand that a drill needs must know besides who drives.
type DrillHand struct {
	Driving
	// StickKey is one of the keys by which the keyboard takes over.
	StickKey string
	// Unplugged: the radio that drives is pulled out. Instructor: the instructor's radio has the sticks.
	Unplugged, Instructor bool
}

// DrillNeedsHand says whose hand a drill waits for, and how it takes over; it says nothing where it is the pupil's that drives.
func DrillNeedsHand(h DrillHand) words.Text {
	switch {
	case h.Instructor:
		return words.T("drill.hand-instructor")
	case h.Who == 1:
		return words.T("drill.hand-demo", words.Args{"how": h.takesOver()})
	case h.Who == 2, h.Who == 3 && !h.Unplugged:
		return words.Text{}
	case h.Who == 3:
		back := words.T("drill.how-replug", words.Args{"how": h.goesOn()})
		return words.T("drill.hand-unplugged", words.Args{"name": words.Quote(h.Name), "how": back})
	case h.Who == 4 && h.Ended:
		return words.T("drill.hand-ended", words.Args{"how": h.goesOn()})
	case h.Who == 4 && h.Next != 0:
		return words.T("drill.hand-played", words.Args{"how": h.goesOn()})
	case h.Who == 4:
		return words.T("drill.hand-played-wait")
	}
	return words.T("drill.hand-nobody", words.Args{"how": h.takesOver()})
}

// takesOver says how a hand takes the sticks that nobody's hand has.
func (h *DrillHand) takesOver() words.Text {
	stick := words.Quote(h.StickKey)
	if h.Next == 3 && h.NextName != "" {
		return words.T("drill.how-stick-or-next", words.Args{"stick": stick, "key": words.Quote(h.Key), "name": words.Quote(h.NextName)})
	}
	return words.T("drill.how-stick-or-plug", words.Args{"stick": stick})
}

// goesOn says how a hand takes over by the key of the next driver.
func (h *DrillHand) goesOn() words.Text {
	key := words.Quote(h.Key)
	switch h.Next {
	case 1: // the demo pilot comes back, and is no hand either
		return words.T("drill.how-stick", words.Args{"key": key, "stick": words.Quote(h.StickKey)})
	case 3:
		return words.T("drill.how-radio", words.Args{"key": key, "name": words.Quote(h.NextName)})
	}
	return words.T("drill.how-keyboard", words.Args{"key": key})
}

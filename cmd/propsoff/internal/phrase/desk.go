package phrase

// DeskTitle heads the instructor's desk, DeskWhat says what it is for.
func DeskTitle() string { return "Instructor's desk" }

// DeskWhat says what the desk is for.
func DeskWhat() string {
	return "Plant something wrong, go back to the bench, and let the pupil find it: no other sheet names it; they only show what the craft reads and does."
}

// DeskFaults heads the list of faults, DeskLooked the one that is looked at.
func DeskFaults() string { return "what can be wrong" }

// DeskLooked heads the facts of the fault that is looked at.
func DeskLooked() string { return "this one" }

// DeskPupilSees heads what a pupil notices.
func DeskPupilSees() string { return "what a pupil notices" }

// DeskPackLimit says what a craft makes of a pack, by its limit in mV, where that is nothing; else it is empty. The pack has so many mV.
func DeskPackLimit(limit, pack int) string {
	switch {
	case limit == 0:
		return "This craft has no limit (pack-limit), so nothing refuses: only the chart paper tells the voltage."
	case pack >= limit:
		return "This craft refuses below " + Volts(limit) + " only, so nothing refuses."
	}
	return ""
}

// DeskFault is a fault in the list; planted is said in a word too.
func DeskFault(name string, planted bool) string {
	if planted {
		return name + ": planted"
	}
	return name
}

// DeskHidden says what the hidden keys are.
func DeskHidden(on bool) string {
	if on {
		return "Hidden keys are on: on the bench the keys 4 to 9 plant and lift what bears that number here, and nothing shows it."
	}
	return "Hidden keys are off. Turned on, the keys 4 to 9 on the bench plant and lift faults unseen."
}

// DeskHiddenKey is what the key for them does.
func DeskHiddenKey(on bool) string {
	if on {
		return "hidden keys off"
	}
	return "hidden keys on"
}

// DeskPlantKey is what the key that plants does.
func DeskPlantKey(on bool) string {
	if on {
		return "lift it"
	}
	return "plant it"
}

// InstructorNotLearned says that a radio cannot be the instructor's yet; key chooses among radios, empty where it does not now.
func InstructorNotLearned(name, key string) string {
	if key != "" {
		key = " (" + key + ")"
	}
	return "The radio " + name + " is not learned yet, so it cannot be the instructor's: choose it" + key + ", learn it once, and come back."
}

// DeskRadio says which radio is the instructor's, and which switch on it takes the sticks; key changes that, empty where it does not now.
func DeskRadio(name, takes, key string, several bool) string {
	switch {
	case name != "":
		return "The instructor's radio is " + name + ". While its " + takes + " stands high its sticks replace the pupil's; the craft can be armed only while its arm switch is on too."
	case key != "":
		return "No second radio is the instructor's; press " + key + " to take one."
	case several:
		return "No second radio is the instructor's. It joins a pupil who drives by radio or keyboard."
	}
	return "No second radio is plugged in. An instructor's radio can take the sticks from the pupil's."
}

// DeskHands says who has the sticks.
func DeskHands(instructor bool) string {
	if instructor {
		return "The instructor has the sticks."
	}
	return "The pupil has the sticks."
}

// DeskMark is a commentary mark in the list.
func DeskMark(n int, tick int64, word string) string {
	s := "Mark " + Whole(uint64(n)) + " at " + Clock(tick)
	if word != "" {
		s += ": " + word
	}
	return s
}

// DeskRefused says that a fault cannot be planted with this craft.
func DeskRefused(name string) string { return "This craft has nothing for \"" + name + "\"." }

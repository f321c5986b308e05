package phrase

// DrillHand is what a sentence about the hand that a drill needs must know besides who drives.
type DrillHand struct {
	Driving
	// StickKey is one of the keys by which the keyboard takes over.
	StickKey string
	// Unplugged: the radio that drives is pulled out. Instructor: the instructor's radio has the sticks.
	Unplugged, Instructor bool
}

// DrillNeedsHand says whose hand a drill waits for, and how it takes over; empty where it is the pupil's that drives.
func DrillNeedsHand(h DrillHand) string {
	const needs = ", and a drill needs your own hand"
	then := func(how string) string { return needs + ": " + how + ". Then begin." }
	key := "press any stick key, such as " + h.StickKey
	other := key + ", or plug your radio in"
	if h.Next == 3 && h.NextName != "" {
		other = key + ", or " + h.Key + " for " + h.NextName
	}
	tab := "press " + h.Key + " to " + goOn(Keys{After: h.Next, AfterName: h.NextName})
	if h.Next == 1 { // the demo pilot comes back, and is no hand either
		tab = "press " + h.Key + ", and then any stick key, such as " + h.StickKey
	}
	switch {
	case h.Instructor:
		return "The instructor's radio has the sticks" + needs + ". Begin once you have them again."
	case h.Who == 1:
		return "The demo pilot drives" + then(other)
	case h.Who == 2, h.Who == 3 && !h.Unplugged:
		return ""
	case h.Who == 3:
		return h.Name + " is unplugged" + then("plug it in again, or "+tab)
	case h.Who == 4 && h.Ended:
		return "What was played has ended" + then(tab)
	case h.Who == 4 && h.Next != 0:
		return "A script or a take is played" + then(tab)
	case h.Who == 4:
		return "A script or a take is played" + needs + ". Begin once it has ended."
	}
	return "Nobody drives" + then(other)
}

// DrillWaitsForHand says in a terminal what a drill waits for.
func DrillWaitsForHand() string {
	return "A drill needs your own hand: plug in a radio that has been learned. It begins by itself then."
}

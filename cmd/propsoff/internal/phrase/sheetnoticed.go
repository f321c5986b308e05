package phrase

import (
	"strconv"

	"propsoff/input/learn"
)

// Noticed says what was noticed last while a radio is learned; empty for nothing.
func Noticed(n learn.Notice) string {
	name, other := rawName(n.Axis, n.Button), rawName(n.OtherAxis, n.OtherButton)
	share := fixed(int64(n.Share), 1) + " %"
	switch n.Code {
	case learn.StillMoving:
		return name + " keeps moving, over " + share + " of its way. Let it lie still."
	case learn.Restless:
		return name + " trembles over " + share + " of its way even at rest. That is allowed for."
	case learn.TooLittle:
		return name + " went " + share + " of its way and stopped. On to its end; if it goes no farther, take it as it is."
	case learn.NotAtEnd:
		return name + " stands at " + share + " of its way. On to its end; if it goes no farther, take it as it is."
	case learn.Two:
		return withJob(name, n.Job) + " and " + withJob(lower(other), n.OtherJob) + " moved together. Bring both back to where they were, then move one."
	case learn.Taken:
		return name + " is " + n.Job + " already. Another one is asked for; to change that answer, go back."
	case learn.WantStick:
		return name + " answers, and this is about a stick."
	case learn.StartFirst:
		return name + " did not begin at its first position. Put the switch there, then click it on, step by step."
	case learn.TooQuick:
		return name + " came and went too fast to be sure. Wait a moment at each step."
	case learn.Mixed:
		return mixed(name, other, n)
	case learn.Springs:
		return name + " springs back, to " + share + " of its way; a throttle should stay. If this is your throttle, go on as it is. If not, go back."
	case learn.NoSpring:
		return name + " stays at " + share + " of its way when it is let go; a stick for " + n.Job + " should spring back. If this is your " + n.Job + ", go on as it is. If not, go back."
	case learn.TurnedRound:
		return upper(n.Job) + " stands at its wrong end: it was learned the wrong way round. Go back to show it again."
	case learn.NotThere:
		return upper(n.Job) + " gets to " + share + " of its way only. Push the stick into the corner, or go back to show it again."
	case learn.NoChannel:
		return name + " was found, but every channel has its control: it is left out."
	case learn.MorePositions:
		return "The " + n.Job + " control stands in a place that is new: it has " + count(n.Count, "position") + " now."
	case learn.Lost:
		return "Readings were lost: begin this movement again."
	case learn.CannotSkip:
		return "Every craft needs pitch, yaw, roll and throttle: this one cannot be left out."
	}
	return ""
}

// mixed says of one movement that moves two axes by how much, and where such a thing comes from.
func mixed(name, other string, n learn.Notice) string {
	share, way := n.Share, "along with it"
	if share < 0 {
		share, way = -share, "against it"
	}
	return withJob(name, n.Job) + " takes " + withJob(lower(other), n.OtherJob) + " " + way + ", by " + fixed(int64(share), 1) +
		" % of its movement: the radio mixes them. Take the mix out in the radio's settings."
}

// PensTitle heads the pens: shown of n axes have one.
func PensTitle(shown, n int) string {
	if shown == n {
		return axes(n) + ", a pen for each"
	}
	return strconv.Itoa(shown) + " of " + axes(n) + "; one that moves comes in"
}

// PenAnswers marks the pen whose axis answers.
func PenAnswers() string { return "answers" }

// ZoneHere says what the hatched zone is.
func ZoneHere() string { return "hatched: where it is to go" }

// ButtonsTitle heads the buttons.
func ButtonsTitle(n int) string { return count(n, "button") + ", filled while pressed" }

// HatAxis marks an axis that is half of a hat.
func HatAxis() string { return "hat" }

// KeptWhere stands over the path of the radio file.
func KeptWhere() string {
	return "What was learned is kept in this radio file, and found again whenever the radio is plugged in:"
}

// NotKeptWhy says why there is no radio file.
func NotKeptWhy(why string) string {
	if why == "" {
		return "It is not kept in a file."
	}
	return "It could not be kept in a file (" + why + "). It holds until the program is left; mend that and try again."
}

// AnswersTitle heads the table of what was learned.
func AnswersTitle() string { return "what was learned" }

// SpareTitle says how many controls were found for which no channel was free.
func SpareTitle(n int) string { return count(n, "control") + " more without a free channel" }

// RadioTitle heads the drawing of the radio.
func RadioTitle(mode int) string {
	return "your radio from the front, stick mode " + strconv.Itoa(mode)
}

// LeanTitle heads the drawing of the craft that does what is asked.
func LeanTitle(job string) string {
	switch job {
	case "pitch":
		return "the craft from its right side, as your stick leans it"
	case "yaw":
		return "the craft from above; the arrow is how fast your stick turns it"
	case "roll":
		return "the craft from behind, as your stick leans it"
	}
	return "the craft from behind; its height is your throttle"
}

// LeanEnds names what the craft does at the low and at the high end of a stick direction.
func LeanEnds(job string) (low, high string) {
	switch job {
	case "pitch":
		return "back", "forward"
	case "throttle":
		return "ground", "climb"
	}
	return "left", "right"
}

// HandTitle names a hand of a picture of a stick mode.
func HandTitle(right bool) string {
	if right {
		return "right hand"
	}
	return "left hand"
}

// StickModeTitle heads the picture of a stick mode.
func StickModeTitle(mode int) string { return "stick mode " + strconv.Itoa(mode) }

// ReplayTitle heads the list that is ticked off.
func ReplayTitle(seen, all int) string {
	return strconv.Itoa(seen) + " of " + strconv.Itoa(all) + " moved"
}

// LeverTitle heads the positions of the switch that is being moved.
func LeverTitle() string { return "positions so far" }

// FirstPlace and LastPlace name the ends of a switch that is led from one to the other; arm: from off.
func FirstPlace(arm bool) string {
	if arm {
		return "off"
	}
	return "first"
}

// LastPlace is told with FirstPlace.
func LastPlace() string { return "last" }

// TheCraft is what a mark stands for that moves as the craft would.
func TheCraft() string { return "the craft" }

func axes(n int) string {
	if n == 1 {
		return "1 axis"
	}
	return strconv.Itoa(n) + " axes"
}

// CornerWords says where one stick direction stands in the check of all at once.
func CornerWords(name string, c learn.Corner) string {
	switch {
	case c.There:
		return name + ": there"
	case c.Turned:
		return name + ": at its wrong end"
	}
	return name + ": " + fixed(int64(c.Share), 1) + " % of its way"
}

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
		return name + " is still moving, over " + share + " of its way. Let it rest."
	case learn.Restless:
		return name + " never comes quite to rest: it trembles over " + share + " of its way. That is allowed for."
	case learn.TooLittle:
		return name + " moved over " + share + " of its way only. Move it all the way; if it goes no farther, take it as it is."
	case learn.NotAtEnd:
		return name + " stands at " + share + " of its way, short of an end. Move it all the way and hold it; if it goes no farther, take it as it is."
	case learn.Two:
		return withJob(name, n.Job) + " and " + withJob(lower(other), n.OtherJob) + " moved at once. Let both go back, then move one alone."
	case learn.Taken:
		return name + " is " + n.Job + " already. Move another one, or go back to the question before."
	case learn.WantStick:
		return name + " is a button, and a stick is asked for."
	case learn.StartFirst:
		return name + " did not start in its first position. Put the switch there, then move it through the others."
	case learn.TooQuick:
		return name + " moved too quickly to be sure of. Move it slowly, with a moment in each position."
	case learn.Mixed:
		return mixed(name, other, n)
	case learn.Springs:
		return name + " springs back, to " + share + " of its way: a throttle should stay where it is left. Was that the throttle? If so, go on all the same."
	case learn.NoSpring:
		return name + " stays at " + share + " of its way when it is let go: the " + n.Job + " stick should spring back. Was that the right stick? If so, go on all the same."
	case learn.TurnedRound:
		return "The " + n.Job + " stands at its low end: it was learned the wrong way round. Go back to learn it again."
	case learn.NotThere:
		return "The " + n.Job + " gets only to " + share + " of its way. Push the stick into the corner; or go back to learn it again."
	case learn.NoChannel:
		return name + " was found, but every channel has its control: it is left out."
	case learn.MorePositions:
		return "The " + n.Job + " control stands in a place that was not known: it has " + count(n.Count, "position") + " now."
	case learn.Lost:
		return "Readings were lost, so this question starts again."
	case learn.CannotSkip:
		return "This one cannot be skipped: every craft needs its four stick directions."
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

// AxesTitle and ButtonsTitle head the raw state of a radio.
func AxesTitle(n int) string { return axes(n) + ", as the radio sends them" }

// ButtonsTitle heads the buttons.
func ButtonsTitle(n int) string { return count(n, "button") + ": a pressed one is filled" }

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

// StickModeTitle heads the picture of a stick mode.
func StickModeTitle(mode int) string { return "stick mode " + strconv.Itoa(mode) }

// ReplayTitle heads the list that is ticked off.
func ReplayTitle(seen, all int) string {
	return strconv.Itoa(seen) + " of " + strconv.Itoa(all) + " moved"
}

// LeverTitle heads the positions of the switch that is being moved.
func LeverTitle() string { return "positions seen" }

func axes(n int) string {
	if n == 1 {
		return "1 axis"
	}
	return strconv.Itoa(n) + " axes"
}

// CornerWords says where one stick direction stands in the corner check.
func CornerWords(name string, c learn.Corner) string {
	switch {
	case c.There:
		return name + ": at its high end"
	case c.Turned:
		return name + ": at its low end, turned round"
	}
	return name + ": " + fixed(int64(c.Share), 1) + " % of its way"
}

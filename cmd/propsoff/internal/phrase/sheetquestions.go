package phrase

import (
	"strconv"

	"propsoff/input/learn"
)

// RightStick tells whether a stick direction (throttle, yaw, pitch, roll) is on the right stick in a stick mode from 1 to 4
// (common practice, no source).
func RightStick(job string, mode int) bool {
	switch job {
	case "yaw":
		return mode == 3 || mode == 4
	case "roll":
		return mode == 1 || mode == 2
	case "pitch":
		return mode == 2 || mode == 4
	}
	return mode == 1 || mode == 3 // throttle
}

func stick(job string, mode int) string {
	if RightStick(job, mode) {
		return "right stick"
	}
	return "left stick"
}

// ways are the movements of the stick directions: to the high end, to the low end, and what to call them there.
var ways = map[string][2]string{
	"throttle": {"Push the % all the way up and hold it there: throttle.", "Pull the % all the way down and hold it there: throttle."},
	"yaw":      {"Move the % all the way to the right and hold it there: yaw.", "Move the % all the way to the left and hold it there: yaw."},
	"pitch":    {"Push the % all the way up, away from you, and hold it there: pitch.", "Pull the % all the way down, towards you, and hold it there: pitch."},
	"roll":     {"Move the % all the way to the right and hold it there: roll.", "Move the % all the way to the left and hold it there: roll."},
}

// Ask says which movement is asked for. carries are the craft's own words for what its job's channel does, empty where it
// has none.
func Ask(v *learn.View, carries string) string {
	switch v.Step {
	case learn.Choose:
		return "Which stick does what on your radio? Choose a picture: " + "1, 2, 3 or 4."
	case learn.HighEnd, learn.LowEnd:
		which := 0
		if v.Step == learn.LowEnd {
			which = 1
		}
		return fill(ways[v.Job][which], stick(v.Job, v.StickMode))
	case learn.LetGo:
		if v.Job == "throttle" {
			return fill("Let the % go: the throttle should stay where it is.", stick(v.Job, v.StickMode))
		}
		return fill("Let the % go: it should spring back to its middle.", stick(v.Job, v.StickMode))
	case learn.Through:
		switch v.Question {
		case learn.Arm:
			return "Choose the switch that is to arm the craft. Move it from off through every position to its last, with a moment in each, and leave it there."
		case learn.Mode:
			return "Choose the switch for the flight mode. Move it from its first position through every other to its last, with a moment in each, and leave it there."
		case learn.Also:
			return "Choose the switch for " + JobInFull(v.Job, carries) + ". Move it from its first position through every other to its last, with a moment in each, and leave it there."
		}
		return "Move any other switch from its first position through every other to its last, with a moment in each, and leave it there; or turn a knob slowly from end to end."
	case learn.Corners:
		return "Hold both sticks in their top right corners: all four directions must stand at their high ends."
	case learn.Each:
		return "Move every control once more, from end to end, in any order: each is ticked off."
	}
	return "That was all: this radio is known now."
}

// fill puts a word in the place of the one % of a text.
func fill(text, word string) string {
	for i := range text {
		if text[i] == '%' {
			return text[:i] + word + text[i+1:]
		}
	}
	return text
}

// JobInFull names a job for a question: "the second switch", "channel 9 (finder sound)".
func JobInFull(job, carries string) string {
	switch {
	case job == "second":
		return "the second switch, which must be on before the arm switch works"
	case carries != "":
		return job + " (" + carries + ")"
	}
	return job
}

// AskFirst says how everything must stand before the movement; empty for nothing to say.
func AskFirst(v *learn.View) string {
	switch {
	case v.Step == learn.Choose:
		return "Many radios are stick mode 2. The throttle, with a foot under its stick here, stays where it is left; every other direction springs back."
	case v.Question == learn.Throttle && v.Step == learn.HighEnd:
		return "Before you move it: throttle down, the other stick let go, every switch in its first position, away from you."
	case v.Step == learn.HighEnd:
		return "Before you move it: bring the throttle down and let the other directions rest."
	case v.Question == learn.Arm:
		return "Before you move it: leave the sticks alone. A craft that is armed by its sticks needs no such switch: skip it."
	case v.Question == learn.Mode:
		return "Before you move it: it stands in its first position. A craft that always flies in one mode needs none: skip it."
	case v.Question == learn.Also:
		return "Before you move it: it stands in its first position. If your radio has no switch for this, skip it."
	case v.Question == learn.More:
		return count(v.FreeLeft, "channel") + " left for further controls. When there is nothing left to show, say that is all."
	case v.Step == learn.Corners:
		return "This is the quickest check of the directions that there is. Hold the sticks until it goes on."
	case v.Step == learn.Each:
		return "Sticks to both ends, switches through all positions. What does not move was learned wrongly: go back, or start over."
	}
	return ""
}

// AskedTitle counts the questions.
func AskedTitle(v *learn.View) string {
	n := 0
	for i := range v.Plan {
		if v.Plan[i].Question < learn.Done {
			n++
		}
	}
	if v.Question >= learn.Done || n == 0 {
		return "Learning the radio: done"
	}
	return "Learning the radio: " + strconv.Itoa(v.Now+1) + " of " + strconv.Itoa(n)
}

// Asked says, in place of who drives, which radio is learned.
func Asked(name string, q learn.Question) string {
	if q >= learn.Done {
		return name + " drives."
	}
	return "The questions are about " + name + ". What is learned of it is kept in a radio file, and found again when it is plugged in."
}

// PlanWord names one question of the plan in few letters.
func PlanWord(i *learn.Item) string {
	switch i.Question {
	case learn.StickMode:
		return "stick mode"
	case learn.More:
		return "others"
	case learn.TopRight:
		return "corners"
	case learn.Replay:
		return "once more"
	}
	return i.Job
}

// StickModeWord says which stick mode was chosen.
func StickModeWord(mode int) string { return "mode " + strconv.Itoa(mode) }

// AskPhase says how far a step is, and what the program waits for. out: the radio is pulled out.
func AskPhase(v *learn.View, out bool) string {
	switch {
	case v.Phase == learn.Finished:
		return ""
	case out:
		return "The radio is unplugged. Plug it in again and the questions go on here."
	case v.Step == learn.Choose:
		return "Press its number."
	case !v.Begun:
		return "Nothing has been read yet: move any stick a little."
	case v.Phase == learn.Settling:
		return "Let everything rest: waiting until all is still …"
	case v.Phase == learn.Returning:
		return "Let everything go back to where it was …"
	case v.Phase == learn.Deciding:
		return "Go on all the same, or go back and do it again."
	case v.Step == learn.Through && v.Positions > 1:
		return count(v.Positions, "position") + " seen. Go on to the next, or rest in the last one."
	case v.Phase == learn.Holding && v.Step == learn.LetGo:
		return "Leave it alone …"
	case v.Phase == learn.Holding && v.Step == learn.Through:
		return rawName(v.Axis, v.Button) + " moves. Rest in the last position, or at the end of its way."
	case v.Phase == learn.Holding:
		return rawName(v.Axis, v.Button) + " moves: hold it …"
	case v.Step == learn.LetGo:
		return "Let it go now."
	case v.Step == learn.Corners:
		return "Move both sticks there."
	case v.Step == learn.Each:
		return "Move them one after the other."
	}
	return "Now move it."
}

// LastFound says what was found last and asks where it sits. name is that of the control, what is what it was found to be.
func LastFound(name, what string, sided bool) string {
	s := "Found: " + name + ", " + what + "."
	if sided {
		return s
	}
	return s + " At which side of the radio does it sit?"
}

// Naming shows the name that is typed for a switch so far.
func Naming(job, typed string) string {
	return "Name of the " + job + " switch: " + typed + "_ (Enter)"
}

// rawName calls a raw control by its number, counted from 1.
func rawName(axis, button int) string {
	switch {
	case axis >= 0:
		return "Axis " + strconv.Itoa(axis+1)
	case button >= 0:
		return "Button " + strconv.Itoa(button+1)
	}
	return "A control"
}

// withJob adds the job that a raw control has already.
func withJob(name, job string) string {
	if job == "" {
		return name
	}
	return name + " (" + job + ")"
}

func lower(s string) string {
	if s == "" || s[0] < 'A' || s[0] > 'Z' {
		return s
	}
	return string(s[0]-'A'+'a') + s[1:]
}

// EnoughWord says in at most fifteen letters what the key for "enough" does now.
func EnoughWord(m learn.Means, q learn.Question) string {
	switch {
	case q >= learn.Done:
		return "to the bench"
	case m == learn.TakeIt:
		return "take it so"
	case m == learn.AcceptIt:
		return "go on so"
	case q == learn.TopRight:
		return "leave it out"
	}
	return "that is all"
}

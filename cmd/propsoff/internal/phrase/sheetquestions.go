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

// leans says what the craft does at the high and at the low end of a stick direction, and what becomes of it when the stick is let go.
var leans = map[string][3]string{
	"pitch":    {"Pitch: lean the craft forward, nose down.", "Pitch: now lean it back, nose up.", "Pitch: let go. The craft should come level by itself."},
	"yaw":      {"Yaw: turn the craft to the right.", "Yaw: now turn it to the left.", "Yaw: let go. The craft should stop turning by itself."},
	"roll":     {"Roll: lean the craft to the right.", "Roll: now lean it to the left.", "Roll: let go. The craft should come level by itself."},
	"throttle": {"Throttle: make the craft climb.", "Throttle: now set it down again.", "Throttle: take your hand away. It should stay down."},
}

// Ask says what is asked for: what the craft is to do. carries are the craft's own words for what its job's channel does, empty where
// it has none.
func Ask(v *learn.View, carries string) string {
	const click = "click it from its first position to its last, step by step."
	switch v.Step {
	case learn.HighEnd:
		return leans[v.Job][0]
	case learn.LowEnd:
		return leans[v.Job][1]
	case learn.LetGo:
		return leans[v.Job][2]
	case learn.Through:
		switch v.Question {
		case learn.Arm:
			return "Arm switch: click it from off to its last position, step by step."
		case learn.Mode:
			return "Flight mode switch: " + click
		case learn.Also:
			return upper(JobInFull(v.Job, carries)) + ": " + click
		}
		return "Anything else? Click another switch step by step, or turn a knob from end to end."
	case learn.Choose:
		return "Which of these four are your hands: 1, 2, 3 or 4?"
	case learn.Corners:
		return "Everything at once: climb, turn right, lean forward and to the right."
	case learn.Each:
		return "Show every control once more, one after another."
	}
	return "This radio is known now."
}

// JobInFull names a job for a question: "second switch", "channel 9 (finder sound)".
func JobInFull(job, carries string) string {
	switch {
	case job == "second":
		return "second switch"
	case carries != "":
		return job + " (" + carries + ")"
	}
	return job
}

// AskFirst says how that is done, and how everything must stand before; empty for nothing to say. No stick is called left or right:
// before it is asked for, nobody knows which hand carries what.
func AskFirst(v *learn.View) string {
	const patience = "Wait a moment at each step, and leave it at the last. "
	switch v.Step {
	case learn.HighEnd:
		switch v.Job {
		case "pitch":
			how := "Pitch, or elevator: the stick that springs back, pushed away from you to its stop."
			if len(v.Answers) == 0 { // later a switch may stand anywhere
				how = "Start from rest: throttle down, no hand on the sticks, switches at off or at their first position. " + how
			}
			return how
		case "yaw":
			return "Yaw, or rudder: a stick moved to the right, to its stop. The craft turns on the spot."
		case "roll":
			return "Roll, or aileron: the stick that did not turn the craft, moved to the right, to its stop."
		}
		return "Begin with it down, then push it away from you to its stop. It is the one that may stay where it is left."
	case learn.LowEnd:
		return "The same stick the other way, to its stop."
	case learn.LetGo, learn.Over:
		return ""
	case learn.Choose:
		return "Throttle makes the craft climb, yaw turns it, pitch leans it forward and back, roll to the sides. Stick mode 2 is the commonest. " +
			"If none fits, something was learned wrongly: go back."
	case learn.Corners:
		return "That is both sticks to the top right, whichever hand carries what: the quick check of directions."
	case learn.Each:
		return "The order is yours. What is not counted though you move it was taken for something else: go back, or start over."
	}
	switch v.Question {
	case learn.Arm:
		return "Sticks at rest. " + patience + "If your craft is armed by its sticks, skip this."
	case learn.Mode:
		return patience + "If your craft always flies in one mode, skip this."
	case learn.Also:
		if v.Job == "second" {
			return "It must be on before the arm switch works. " + patience + "If your radio has none for this, skip it."
		}
		return patience + "If your radio has none for this, skip it."
	}
	left := count(v.FreeLeft, "channel") + " left. "
	if v.FreeLeft == 0 {
		left = "Every channel has its control by now: what is found is left out. "
	}
	return left + "A switch begins at its first position; a knob is turned slowly. If there is nothing more, say that is all."
}

// HandsMove says how to find the picture of one's own hands, where the pictures move with the sticks.
func HandsMove() string { return "Move both sticks about: one picture moves as your hands do." }

// AskedTitle counts the questions.
func AskedTitle(v *learn.View) string {
	if v.Question >= learn.Done || len(v.Plan) == 0 {
		return "every question answered"
	}
	return "question " + strconv.Itoa(v.Now+1) + " of " + strconv.Itoa(len(v.Plan))
}

// Asked says, in place of who drives, which radio is learned.
func Asked(name string) string {
	return "The questions are about " + name + ". What is learned of it is kept in a radio file, and found again when it is plugged in."
}

// AskedDriver says who drives once everything is answered. out: the radio is pulled out.
func AskedDriver(name string, out bool) string {
	if out {
		return name + " is unplugged. It drives again when it is plugged in."
	}
	return name + " drives."
}

// PlanWord names one question of the plan in few letters.
func PlanWord(i *learn.Item) string {
	switch i.Question {
	case learn.StickMode:
		return "hands"
	case learn.More:
		return "others"
	case learn.TopRight:
		return "all at once"
	case learn.Replay:
		return "once more"
	}
	return i.Job
}

// AskedNow marks the question that is asked.
func AskedNow() string { return "asked now" }

// StickModeWord says which stick mode was chosen.
func StickModeWord(mode int) string { return "mode " + strconv.Itoa(mode) }

// AskPhase says how far a step is, and what the program waits for; empty where the question says it all. out: the radio is pulled out.
func AskPhase(v *learn.View, out bool) string {
	control := rawName(v.Axis, v.Button) + " answers"
	switch {
	case v.Phase == learn.Finished:
		return ""
	case out:
		return "The radio is unplugged. Plug it in again and the questions go on here."
	case !v.Begun:
		return "Nothing has been read yet: move any stick a little."
	case v.Step == learn.Choose:
		return ""
	case v.Phase == learn.Settling:
		return "Hands off: nothing may move yet …"
	case v.Phase == learn.Returning:
		return "Back to where you began …"
	case v.Phase == learn.Deciding:
		return "Go on as it is, or go back and show it again."
	case v.Step == learn.Through && v.Positions > 1:
		return count(v.Positions, "position") + " so far. Click again; at the last, leave it."
	case v.Phase != learn.Holding:
		return waitsFor(v.Step)
	}
	switch v.Step {
	case learn.LetGo:
		return "Wait …"
	case learn.Through:
		return control + ". Rest in the last position, or at the end of the knob's turn."
	case learn.Corners:
		return "All four are there. Steady …"
	case learn.Each:
		return control + "."
	}
	if v.InZone {
		return control + " and is there. Steady …"
	}
	return control + ". On to its stop …"
}

// waitsFor says what is waited for while nothing moves.
func waitsFor(s learn.Step) string {
	switch s {
	case learn.LetGo:
		return "Hands off now."
	case learn.Corners:
		return "Both sticks, please."
	case learn.Each:
		return "The next one, please."
	}
	return "Ready when you are."
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

func upper(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}

// EnoughWord says in at most fifteen letters what the key for "enough" does now.
func EnoughWord(m learn.Means, q learn.Question) string {
	switch {
	case q >= learn.Done:
		return "to the bench"
	case q == learn.StickMode:
		return "marked one"
	case m == learn.TakeIt:
		return "take as it is"
	case m == learn.AcceptIt:
		return "go on as it is"
	case q == learn.TopRight:
		return "leave it out"
	}
	return "that is all"
}

package phrase

import (
	"propsoff/gestures"
)

// RecordTitle heads the recording of a gesture.
func RecordTitle() string { return "record a gesture of your own" }

// RecordSay says what to do now while a gesture is recorded. moved: the sticks have left their rest; back: they rest again.
func RecordSay(moved, back bool, key string) string {
	switch {
	case !moved:
		return "Take the sticks. From where they rest now, make the gesture, hold it, and let go."
	case back:
		return "At rest again: two seconds of rest end it. A further step may follow now."
	}
	return "Hold it as long as your craft asks, then back to rest. Or press " + key + " when it is whole."
}

// RecordTime says how long the recording runs.
func RecordTime(ms int64) string { return "recording for " + tenthsOf(ms) }

// RecordVerdict says what came of a recording.
func RecordVerdict(v gestures.Verdict, p *gestures.Pattern, mode uint8) string {
	switch v.Recording {
	case gestures.Recorded:
		if p.Count > 1 {
			return "This is what was seen, a chain of " + count(int(p.Count), "step") + ". Is it what you meant?"
		}
		return "This is what was seen. Is it what you meant?"
	case gestures.NothingHeld:
		return "Nothing was held: the sticks never stood still away from where they began. Try again, and hold it longer."
	case gestures.StoodBetween:
		return capital(GestureControl(p, int(v.Direction), mode)) + " stood between two zones, so nobody can know which was meant. Try again, and move it fully or not at all."
	case gestures.TooManyParts:
		return "The sticks stood in more places than a gesture can have steps. Try again with fewer."
	}
	return ""
}

// RecordBy says whether the recorded gesture is by job or by physical stick, and which key turns it.
func RecordBy(physical bool, key string) string {
	if physical {
		return "By stick: the same sticks in every stick mode (" + key + ": by job)."
	}
	return "By job: throttle, roll, pitch and yaw, wherever they are (" + key + ": by stick)."
}

// RecordOpens says which menu the recorded gesture is to open, and which key takes another.
func RecordOpens(menu, key string) string {
	if menu == "" {
		return "Opens no menu (" + key + ": another)."
	}
	return "Opens the menu “" + menu + "” (" + key + ": another)."
}

// RecordName asks for the name.
func RecordName(typed string) string { return "Its name: " + typed + "_" }

// RecordAskName says how a name is given.
func RecordAskName(key string) string { return "Press " + key + " to name and keep it." }

// RecordTyping says how typing ends.
func RecordTyping() string { return "Type letters; Enter keeps it, Esc goes back." }

// RecordNeedsName is said where a name is empty.
func RecordNeedsName() string { return "It needs a name." }

// RecordKept says that the gesture is kept, and where.
func RecordKept(name, path string) string {
	return "“" + name + "” is kept in " + path + ", and counts from now on. The craft got its pack afresh."
}

// RecordNotKept says why a gesture could not be kept.
func RecordNotKept(err string) string { return "Not kept: " + err }

// RecordNotNow says why no gesture can be recorded now.
func RecordNotNow(why string) string {
	switch why {
	case "played":
		return "A script or take is played: it brings its own gestures."
	case "drill":
		return "A drill runs on this bench: leave it first."
	case "folder":
		return "There is no folder to keep gestures in."
	}
	return ""
}

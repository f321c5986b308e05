package tell

import (
	"propsoff/assets/words"
	"propsoff/gestures"
)

// RecordSay says what to do now while a gesture is recorded. moved: the sticks have left their rest; back: they rest again.
func RecordSay(moved, back bool, key string) words.Text {
	switch {
	case !moved:
		return words.T("gesture.record-begin")
	case back:
		return words.T("gesture.record-back")
	}
	return words.T("gesture.record-hold", words.Args{"key": words.Quote(key)})
}

// RecordTime says how long the recording runs.
func RecordTime(ms int64) words.Text {
	return words.T("gesture.record-time", words.Args{"time": ShortSeconds(ms)})
}

// RecordVerdict says what came of a recording.
func RecordVerdict(v gestures.Verdict, p *gestures.Pattern, mode uint8) words.Text {
	switch v.Recording {
	case gestures.Recorded:
		if p.Count > 1 {
			return words.T("gesture.recorded-chain", words.Args{"n": words.Count(p.Count)})
		}
		return words.T("gesture.recorded")
	case gestures.NothingHeld:
		return words.T("gesture.nothing-held")
	case gestures.StoodBetween:
		return words.T("gesture.stood-between", words.Args{"control": GestureControl(p, int(v.Direction), mode)})
	case gestures.TooManyParts:
		return words.T("gesture.too-many")
	}
	return words.Text{}
}

// RecordBy says whether the recorded gesture is by job or by physical stick, and which key turns it.
func RecordBy(physical bool, key string) words.Text {
	if physical {
		return words.T("gesture.record-by-stick", words.Args{"key": words.Quote(key)})
	}
	return words.T("gesture.record-by-job", words.Args{"key": words.Quote(key)})
}

// RecordOpens says which menu the recorded gesture is to open, and which key takes another; menu says nothing for none.
func RecordOpens(menu words.Text, key string) words.Text {
	if menu.Empty() {
		return words.T("gesture.record-opens-none", words.Args{"key": words.Quote(key)})
	}
	return words.T("gesture.record-opens", words.Args{"menu": menu, "key": words.Quote(key)})
}

// RecordName asks for the name.
func RecordName(typed string) words.Text {
	return words.T("gesture.record-name", words.Args{"typed": words.Quote(typed)})
}

// RecordAskName says how a name is given.
func RecordAskName(key string) words.Text {
	return words.T("gesture.record-ask-name", words.Args{"key": words.Quote(key)})
}

// RecordKept says that the gesture is kept, and where.
func RecordKept(name, path string) words.Text {
	return words.T("gesture.record-kept", words.Args{"name": words.Quote(name), "path": words.Quote(path)})
}

// RecordNotKept says why a gesture could not be kept.
func RecordNotKept(why words.Text) words.Text {
	return words.T("gesture.record-not-kept", words.Args{"why": why})
}

// RecordNotNow says why no gesture can be recorded now, by a code word.
func RecordNotNow(why string) words.Text {
	switch why {
	case "played":
		return words.T("gesture.record-played")
	case "drill":
		return words.T("gesture.record-drill")
	case "folder":
		return words.T("gesture.record-folder")
	}
	return words.Text{}
}

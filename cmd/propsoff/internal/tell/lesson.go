package tell

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/lesson"
	"propsoff.example/sim/pulse"
)

// Saved says until when a craft that broke could have been saved, and by what; or that nothing saved it. Where its propellers were wrong, it says that: no
// hand was to blame.
func Saved(f *lesson.Found) words.Text {
	saved := words.T("lesson.saved", words.Args{"before": before(f, f.Last.At), "by": savedBy(f.Last)})
	switch {
	case f.Turns != f.Fitted:
		return words.Row(append(wrongOnes(f.Turns, f.Fitted), words.T("lesson.wrong"))...)
	case untried(f):
		saved = words.T("lesson.untried")
	case !f.Last.Any:
		saved = words.T("lesson.nothing", words.Args{"time": before(f, f.From)})
	}
	if f.ByHand {
		return words.Row(saved, words.T("lesson.by-hand"))
	}
	return saved
}

// untried: it was disarmed all the time, and hears no hand then.
func untried(f *lesson.Found) bool { return f.From == f.Broke }

// SavedAt is Saved for one who looks at a tick of it again: until that moment, or, later, that it is past.
func SavedAt(f *lesson.Found, tick int64) words.Text {
	switch w := f.Last; {
	case f.Turns != f.Fitted:
	case w.Any && tick == w.At:
		return words.T("lesson.here", words.Args{"by": savedBy(w)})
	case w.Any && tick < w.At:
		return words.T("lesson.still", words.Args{"before": before(f, w.At), "by": savedBy(w)})
	case w.Any:
		return words.T("lesson.was-here", words.Args{"before": before(f, w.At), "by": savedBy(w)})
	}
	return Saved(f)
}

// SavedEach says the last moment of each kind of hands, and whose hands are meant.
func SavedEach(f *lesson.Found) words.Text {
	if untried(f) || f.Turns != f.Fitted {
		return words.Text{}
	}
	var all []words.Text
	for h, w := range f.Of {
		if !w.Any && !Never(f, lesson.Hands(h)) {
			continue
		}
		args := words.Args{"before": words.Text{}}
		if w.Any {
			args["before"] = before(f, w.At)
		}
		all = append(all, words.Of("saved-until", codes.OtherHands(lesson.Hands(h)), args))
	}
	return words.T("lesson.each", words.Args{"each": words.Clauses(all...)})
}

// AtOnce says whose hands are meant by what saved it; nothing where nothing is said of any.
func AtOnce(f *lesson.Found) words.Text {
	if f == nil || untried(f) || f.Turns != f.Fitted || !f.Last.Any {
		return words.Text{}
	}
	return words.T("lesson.at-once")
}

// Never tells whether a kind of hands was tried, and never saved it.
func Never(f *lesson.Found, h lesson.Hands) bool {
	return !untried(f) && !f.Of[h].Any && h != lesson.Level // which is mostly not tried, since it flew in angle, or has no switch for it
}

// Seeking says that the last seconds of a wreck are being flown again.
func Seeking() words.Text {
	return words.T("lesson.seeking", words.Args{"time": Seconds(lesson.Reach)})
}

// savedBy is a way in words.
func savedBy(w lesson.Way) words.Text {
	return words.Of("saved-by", codes.OtherHands(w.Hands), words.Args{"hover": words.Flag(w.Gas == lesson.Hovering), "full": words.Flag(w.Gas == lesson.Full)})
}

// before is how long before the wreck a moment was, in hundredths rounded up: that early it is true.
func before(f *lesson.Found, at int64) words.Text {
	return unit("seconds", words.Fixed{N: (f.Broke - at + 9) / 10, Places: 2, Least: 2})
}

// LessonKeys says what can be done after a wreck; a key that does nothing now is empty. back is how far before the wreck it goes on, in ms.
func LessonKeys(replay, again words.Text, back int64) words.Text {
	return words.T("lesson.keys", words.Args{"replay": replay, "again": again, "time": Seconds(back)})
}

// HandsThen are hands as they were Before (ms) a wreck, when a flight goes on from there, and as they are.
type HandsThen struct {
	Before int64
	// Elsewhere are the controls that they hold otherwise. Then and Now are their throttle, ModeThen and ModeNow what their mode switch asks for, Arm and
	// Second where those switches stood then.
	Elsewhere         lesson.Elsewhere
	Then, Now         pulse.Width
	ModeThen, ModeNow layout.Mode
	Arm, Second       bool
	// Radio is the key that switches a radio on that is off then; nothing where it sends.
	Radio words.Text
}

// FlyAgain says what lets a flight go on that was put back to before a wreck, and which of the hands' controls are elsewhere than they were then.
func FlyAgain(h *HandsThen, key words.Text) words.Text {
	var all []words.Text
	add := func(is bool, name words.ID, args words.Args) {
		if is {
			all = append(all, words.T(name, args))
		}
	}
	e := &h.Elsewhere
	add(e.Throttle, "lesson.again-throttle", words.Args{"then": Width(h.Then), "now": Width(h.Now)})
	add(e.Arm, "lesson.again-arm", words.Args{"on": words.Flag(h.Arm)})
	add(e.Second, "lesson.again-second", words.Args{"on": words.Flag(h.Second)})
	add(e.Mode, "lesson.again-mode", words.Args{"then": Mode(h.ModeThen), "now": Mode(h.ModeNow)})
	out := words.T("lesson.again", words.Args{"time": Seconds(h.Before), "elsewhere": words.Listed(all...), "any": words.Flag(len(all) > 0), "key": key})
	if !h.Radio.Empty() {
		out = words.Row(out, words.T("lesson.again-radio", words.Args{"key": h.Radio}))
	}
	return out
}

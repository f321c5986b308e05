package tell

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/gestures"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
)

// askedFor is the code word of what is asked for: of a stick its job and the step, else the question or the step.
func askedFor(v *learn.View) string {
	step := codes.LearnStep(v.Step)
	switch v.Step {
	case learn.HighEnd, learn.LowEnd, learn.LetGo:
		return v.Job + "-" + step
	case learn.Through:
		return codes.LearnQuestion(v.Question)
	case learn.ItsWay, learn.AndBack:
		return tryWhat(v)
	case learn.Over:
		if v.Trying && slices.ContainsFunc(v.Plan, func(i learn.Item) bool { return i.Skipped }) {
			return "over-untried"
		} else if v.Trying {
			return "over-tried"
		}
	}
	return step
}

// tryWhat is the code word of what is asked for of one control of a file that is tried.
func tryWhat(v *learn.View) string {
	c, stick := asked(v), slices.Contains(radio.Needed(), v.Job)
	switch {
	case v.Step == learn.AndBack && v.Job == "throttle" && c.Stays:
		return "try-down"
	case v.Step == learn.AndBack:
		return "try-let-go"
	case v.Job == "throttle" && !c.Stays:
		return "try-throttle-springs"
	case stick:
		return "try-" + v.Job
	case c.Momentary:
		return "try-springs"
	case c.Form == radio.Axis && !c.IsSwitch():
		return "try-knob"
	case v.Job == "arm":
		return "try-arm"
	}
	return "try-switch"
}

// asked is the control that a question is about as the file has it that is tried; no more than its job where this radio has no such one.
func asked(v *learn.View) radio.Control {
	for i := range v.Answers {
		if v.Answers[i].Job == v.Job {
			return v.Answers[i]
		}
	}
	return radio.Control{Job: v.Job}
}

// Ask says what is asked for: what the craft is to do. carries are the craft's own words for what its job's channel does, empty where
// it has none.
func Ask(v *learn.View, carries string) words.Text {
	return words.Of("ask.what", askedFor(v), words.Args{"what": JobInFull(v.Job, carries), "switch": askedSwitch(v.Job, carries)})
}

// askedSwitch names the switch of a job for a question: "mode switch", "channel 9 switch", or by what it does.
func askedSwitch(job, carries string) words.Text {
	if carries != "" {
		return JobInFull(job, carries)
	}
	return SwitchOfJob(job)
}

// JobInFull names a job for a question: "second switch", "channel 9 (finder sound)".
func JobInFull(job, carries string) words.Text {
	switch {
	case job == "second":
		return SwitchOfJob(job)
	case carries != "":
		return words.T("ask.also-carries", words.Args{"job": JobName(job), "carries": words.Quote(carries)})
	}
	return JobName(job)
}

// AskFirst says how that is done, and how everything must stand before; it says nothing where there is nothing to say. No stick is called
// left or right: before it is asked for, nobody knows which hand carries what.
func AskFirst(v *learn.View) words.Text {
	code, begin := askedFor(v), words.Text{}
	switch {
	case v.Step == learn.LetGo, v.Step == learn.Over:
		return words.Text{}
	case v.Trying && v.Step == learn.Corners:
		return words.T("ask.first-try")
	case v.Question == learn.Once:
		c, what := asked(v), words.Text{}
		if c.Form != 0 {
			what = LearnedInFull(&c)
		}
		return words.T("ask.first-once", words.Args{"what": what, "switch": words.Flag(c.IsSwitch() && !c.Momentary)})
	case v.Step == learn.LowEnd:
		code = "low-end"
	case v.Step == learn.HighEnd && v.Job == "pitch" && len(v.Answers) == 0: // later a switch may stand anywhere
		begin = words.T("ask.first-begin")
	case v.Step == learn.Through && v.Question == learn.Also && v.Job == "second":
		code = "second"
	case v.Step == learn.Through && v.Question == learn.More && v.FreeLeft == 0:
		code = "more-full"
	}
	return words.Row(begin, words.Of("ask.first", code, words.Args{"n": words.Count(v.FreeLeft)}))
}

// AskedTitle counts the questions.
func AskedTitle(v *learn.View) words.Text {
	done := v.Question >= learn.Done || len(v.Plan) == 0
	if v.Trying {
		left := done && slices.ContainsFunc(v.Plan, func(i learn.Item) bool { return i.Skipped })
		return words.T("ask.title-try", words.Args{"done": words.Flag(done), "left": words.Flag(left), "n": words.Whole(v.Now + 1), "all": words.Whole(len(v.Plan))})
	}
	return words.T("ask.title", words.Args{"done": words.Flag(done), "n": words.Whole(v.Now + 1), "all": words.Whole(len(v.Plan))})
}

// PlanWord names one question of the plan in few letters.
func PlanWord(i *learn.Item) words.Text {
	if i.Question < learn.More || i.Question == learn.Once {
		return JobName(i.Job)
	}
	return words.Of("ask.plan", codes.LearnQuestion(i.Question))
}

// AskPhase says how far a step is, and what the program waits for; it says nothing where the question says it all. out: the radio is pulled
// out.
func AskPhase(v *learn.View, out bool) words.Text {
	code := codes.LearnPhase(v.Phase)
	switch {
	case v.Phase == learn.Finished, v.Step == learn.Choose && v.Begun && !out:
		return words.Text{}
	case out:
		code = "unplugged"
	case !v.Begun:
		code = "unread"
	case v.Phase != learn.Moving && v.Phase != learn.Holding:
	case v.Step == learn.Through && v.Positions > 1:
		code = "positions"
	case v.Step == learn.ItsWay && v.Places > 0:
		code += "-places"
	case v.Step == learn.HighEnd, v.Step == learn.LowEnd:
		code += "-end"
	default:
		code += "-" + codes.LearnStep(v.Step)
	}
	return words.Of("ask.phase", code, words.Args{"control": RawName(v.Axis, v.Button), "n": words.Count(v.Positions), "seen": words.Whole(v.Seen), "all": words.Whole(v.Places), "there": words.Flag(v.InZone)})
}

// Naming asks for the name of a switch.
func Naming(job string) words.Text {
	return words.T("ask.naming", words.Args{"switch": SwitchOfJob(job)})
}

// EnoughWord says in at most fifteen letters what the key for "enough" does now.
func EnoughWord(m learn.Means, q learn.Question) words.Text {
	switch {
	case q >= learn.Done:
		return words.T("ask.enough-done")
	case q == learn.StickMode:
		return words.T("ask.enough-hands")
	case m == learn.TakeIt:
		return words.T("ask.enough-take")
	case m == learn.Untried:
		return words.T("ask.enough-untried")
	case m == learn.AcceptIt:
		return words.T("ask.enough-accept")
	case q == learn.TopRight:
		return words.T("ask.enough-leave")
	case q == learn.Replay:
		return words.T("ask.enough-rest")
	}
	return words.T("ask.enough")
}

// Noticed says what was noticed last while a radio is learned; nothing for nothing.
func Noticed(n learn.Notice) words.Text {
	if n.Code == learn.Nothing {
		return words.Text{}
	}
	control, share := RawName(n.Axis, n.Button), n.Share
	if n.Code == learn.Mixed {
		share = max(share, -share)
	}
	return words.Of("noticed", codes.LearnNotice(n.Code), words.Args{
		"control": control, "share": Tenths(int64(share)), "against": words.Flag(n.Share < 0), "job": JobName(n.Job), "n": words.Count(n.Count), "of": words.Whole(n.Of), "switch": SwitchOfJob(n.Job),
		"one": withJob(control, n.Job), "other": withJob(RawName(n.OtherAxis, n.OtherButton), n.OtherJob), // with the jobs that they have already
	})
}

// CornerWords says where one stick direction, called by a name, stands in the check of all at once.
func CornerWords(name words.Text, c learn.Corner) words.Text {
	code := "share"
	switch {
	case c.There:
		code = "there"
	case c.Turned:
		code = "turned"
	}
	return words.Of("noticed.corner", code, words.Args{"name": name, "share": Tenths(int64(c.Share))})
}

// ToTry says that a radio file is tried and not learned, and how it is learned instead: by a key, or a word where that is empty.
func ToTry(name, path, key string) words.Text {
	return words.T("ask.try", words.Args{"name": words.Quote(name), "path": words.Quote(path), "key": words.Quote(key)})
}

// LearnKeepAgain says what can be done about a radio file that could not be written: by two keys, or by words where they are empty.
func LearnKeepAgain(why words.Text, save, quit string) words.Text {
	return words.T("ask.keep-again", words.Args{"why": why, "save": words.Quote(save), "quit": words.Quote(quit)})
}

// RightStick tells whether a stick direction (throttle, yaw, pitch, roll) is on the right stick in a stick mode from 1 to 4.
func RightStick(job string, mode int) bool {
	for i, on := range gestures.OnSticks(uint8(mode)) {
		if stickJobs[on] == job {
			return i >= int(gestures.RightAcross)
		}
	}
	return false
}

// StickModeLine is one stick mode in words.
func StickModeLine(mode int) words.Text {
	return words.T("ask.stick-mode", words.Args{"left": stickCarries(false, mode), "right": stickCarries(true, mode)})
}

// stickCarries says what a stick carries in a stick mode.
func stickCarries(right bool, mode int) words.Text {
	up, across := "throttle", "yaw"
	if RightStick(up, mode) != right {
		up = "pitch"
	}
	if RightStick(across, mode) != right {
		across = "roll"
	}
	return words.T("ask.stick", words.Args{"up": JobName(up), "across": JobName(across)})
}

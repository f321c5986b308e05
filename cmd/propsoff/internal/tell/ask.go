package tell

import (
	"propsoff/assets/words"
	"propsoff/input/learn"
)

// leans are the messages of what the craft is to do at the high and at the low end of a stick direction, and of letting the stick go.
var leans = map[string][3]words.ID{
	"pitch":    {"ask.pitch-high", "ask.pitch-low", "ask.pitch-go"},
	"yaw":      {"ask.yaw-high", "ask.yaw-low", "ask.yaw-go"},
	"roll":     {"ask.roll-high", "ask.roll-low", "ask.roll-go"},
	"throttle": {"ask.throttle-high", "ask.throttle-low", "ask.throttle-go"},
}

// Ask says what is asked for: what the craft is to do. carries are the craft's own words for what its job's channel does, empty where
// it has none.
func Ask(v *learn.View, carries string) words.Text {
	switch v.Step {
	case learn.HighEnd:
		return words.T(leans[v.Job][0])
	case learn.LowEnd:
		return words.T(leans[v.Job][1])
	case learn.LetGo:
		return words.T(leans[v.Job][2])
	case learn.Through:
		switch v.Question {
		case learn.Arm:
			return words.T("ask.arm")
		case learn.Mode:
			return words.T("ask.mode")
		case learn.Also:
			return words.T("ask.also", words.Args{"what": JobInFull(v.Job, carries)})
		}
		return words.T("ask.more")
	case learn.Choose:
		return words.T("ask.hands")
	case learn.Corners:
		return words.T("ask.corners")
	case learn.Each:
		return words.T("ask.each")
	}
	return words.T("ask.known")
}

// JobInFull names a job for a question: "second switch", "channel 9 (finder sound)".
func JobInFull(job, carries string) words.Text {
	switch {
	case job == "second":
		return switchName(job)
	case carries != "":
		return words.T("ask.also-carries", words.Args{"job": JobName(job), "carries": words.Quote(carries)})
	}
	return JobName(job)
}

// AskFirst says how that is done, and how everything must stand before; it says nothing where there is nothing to say. No stick is called
// left or right: before it is asked for, nobody knows which hand carries what.
func AskFirst(v *learn.View) words.Text {
	switch v.Step {
	case learn.HighEnd:
		return askFirstLean(v)
	case learn.LowEnd:
		return words.T("ask.first-low")
	case learn.LetGo, learn.Over:
		return words.Text{}
	case learn.Choose:
		return words.T("ask.first-hands")
	case learn.Corners:
		return words.T("ask.first-corners")
	case learn.Each:
		return words.T("ask.first-each")
	}
	switch v.Question {
	case learn.Arm:
		return words.T("ask.first-arm")
	case learn.Mode:
		return words.T("ask.first-mode")
	case learn.Also:
		if v.Job == "second" {
			return words.T("ask.first-second")
		}
		return words.T("ask.first-also")
	}
	if v.FreeLeft == 0 {
		return words.T("ask.first-more-full")
	}
	return words.T("ask.first-more", words.Args{"n": words.Count(v.FreeLeft)})
}

// askFirstLean is AskFirst of a stick direction's first movement.
func askFirstLean(v *learn.View) words.Text {
	switch v.Job {
	case "pitch":
		how := words.T("ask.first-pitch")
		if len(v.Answers) == 0 { // later a switch may stand anywhere
			return words.Row(words.T("ask.first-pitch-begin"), how)
		}
		return how
	case "yaw":
		return words.T("ask.first-yaw")
	case "roll":
		return words.T("ask.first-roll")
	}
	return words.T("ask.first-throttle")
}

// AskedTitle counts the questions.
func AskedTitle(v *learn.View) words.Text {
	if v.Question >= learn.Done || len(v.Plan) == 0 {
		return words.T("ask.title-done")
	}
	return words.T("ask.title", words.Args{"n": words.Whole(v.Now + 1), "all": words.Whole(len(v.Plan))})
}

// Asked says, in place of who drives, which radio is learned.
func Asked(name string) words.Text {
	return words.T("ask.about", words.Args{"name": words.Quote(name)})
}

// AskedDriver says who drives once everything is answered. out: the radio is pulled out.
func AskedDriver(name string, out bool) words.Text {
	if out {
		return words.T("ask.drives-again", words.Args{"name": words.Quote(name)})
	}
	return words.T("ask.drives", words.Args{"name": words.Quote(name)})
}

// PlanWord names one question of the plan in few letters.
func PlanWord(i *learn.Item) words.Text {
	switch i.Question {
	case learn.StickMode:
		return words.T("ask.plan-hands")
	case learn.More:
		return words.T("ask.plan-others")
	case learn.TopRight:
		return words.T("ask.plan-all")
	case learn.Replay:
		return words.T("ask.plan-again")
	}
	return JobName(i.Job)
}

// StickModeWord says which stick mode was chosen.
func StickModeWord(mode int) words.Text {
	return words.T("ask.mode-word", words.Args{"n": words.Whole(mode)})
}

// AskPhase says how far a step is, and what the program waits for; it says nothing where the question says it all. out: the radio is pulled
// out.
func AskPhase(v *learn.View, out bool) words.Text {
	switch {
	case v.Phase == learn.Finished:
		return words.Text{}
	case out:
		return words.T("ask.phase-unplugged")
	case !v.Begun:
		return words.T("ask.phase-unread")
	case v.Step == learn.Choose:
		return words.Text{}
	case v.Phase == learn.Settling:
		return words.T("ask.phase-settling")
	case v.Phase == learn.Returning:
		return words.T("ask.phase-returning")
	case v.Phase == learn.Deciding:
		return words.T("ask.phase-deciding")
	case v.Step == learn.Through && v.Positions > 1:
		return words.T("ask.phase-positions", words.Args{"n": words.Count(v.Positions)})
	case v.Phase != learn.Holding:
		return askWaits(v.Step)
	}
	return askHolding(v)
}

// askHolding is AskPhase while a control is held where it was moved to.
func askHolding(v *learn.View) words.Text {
	control := words.Args{"control": RawName(v.Axis, v.Button)}
	switch {
	case v.Step == learn.LetGo:
		return words.T("ask.phase-wait")
	case v.Step == learn.Through:
		return words.T("ask.phase-through", control)
	case v.Step == learn.Corners:
		return words.T("ask.phase-corners")
	case v.Step == learn.Each:
		return words.T("ask.phase-each", control)
	case v.InZone:
		return words.T("ask.phase-steady", control)
	}
	return words.T("ask.phase-on", control)
}

// askWaits says what is waited for while nothing moves.
func askWaits(s learn.Step) words.Text {
	switch s {
	case learn.LetGo:
		return words.T("ask.waits-let-go")
	case learn.Corners:
		return words.T("ask.waits-corners")
	case learn.Each:
		return words.T("ask.waits-each")
	}
	return words.T("ask.waits")
}

// LastFound says what was found last and asks where it sits, unless that is said: sided. name is that of the control, what is what it was
// found to be.
func LastFound(name, what words.Text, sided bool) words.Text {
	return words.T("ask.found", words.Args{"name": name, "what": what, "where": words.Flag(!sided)})
}

// Naming shows the name that is typed for a switch so far.
func Naming(job, typed string) words.Text {
	return words.T("ask.naming", words.Args{"switch": switchName(job), "typed": words.Quote(typed)})
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
	case m == learn.AcceptIt:
		return words.T("ask.enough-accept")
	case q == learn.TopRight:
		return words.T("ask.enough-leave")
	}
	return words.T("ask.enough")
}

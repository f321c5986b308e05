package phrase

import (
	"strconv"

	"propsoff/sim/drill"
)

// DrillKey is what the key that begins a drill does now.
func DrillKey(answering, over bool) string {
	switch {
	case answering:
		return "take answer"
	case over:
		return "go on"
	}
	return "begin"
}

// DrillMove is what the keys up and down do.
func DrillMove(up bool) string {
	if up {
		return "above"
	}
	return "below"
}

// DrillsTitle heads the sheet of drills.
func DrillsTitle(course string) string { return "Drills: " + course }

// DrillsPupil says who practises; typed tells that the name is being typed.
func DrillsPupil(name string, typing bool, key string) string {
	switch {
	case typing:
		return "Pupil: " + name + "_  (Enter when it is right)"
	case name == "":
		return "Nobody is named; press " + key + " to type a name. Results are kept by it."
	}
	return "Pupil: " + name
}

// DrillStands says in a few words how a drill stands on a day.
func DrillStands(c *drill.Card, day int32) string {
	switch {
	case c.Box == 0:
		return "new"
	case c.Failed && c.Last == day:
		return "failed today"
	case c.Failed:
		return "failed last time"
	case c.Due <= day:
		return "due again"
	case c.Mastered():
		return "mastered"
	}
	return "due " + inDays(c, day) // that it is learned its mark tells
}

// inDays says when a drill comes back that is not due yet.
func inDays(c *drill.Card, day int32) string {
	n := int(c.Due - day)
	return "in " + strconv.Itoa(n) + plural(n, " day", " days")
}

// DrillNext says which drill is next and why.
func DrillNext(name string, why drill.Reason) string {
	switch why {
	case drill.ComesBack:
		return "Next: " + name + ", which comes back today."
	case drill.IsNew:
		return "Next: " + name + ", which is new."
	case drill.FailedToday:
		return "Next: " + name + ", once more: it was failed today."
	}
	return "All is done for today. Any drill may be run again; it counts when it is due."
}

// DrillHeadings are the headings over what is asked for.
func DrillHeading(p drill.Phase, verdict drill.Verdict) string {
	switch p {
	case drill.Preparing, drill.Starting:
		return "First"
	case drill.Waiting:
		return "Ready"
	case drill.Running:
		return "Now"
	case drill.Resting:
		return capital(VerdictWord(verdict))
	}
	return "The drill is over"
}

// VerdictWord is a verdict in a word or two.
func VerdictWord(v drill.Verdict) string {
	return [drill.Verdicts]string{drill.Right: "right", drill.Wrong: "wrong", drill.TooLate: "too late", drill.FalseStart: "false start",
		drill.Anticipated: "guessed, not seen", drill.Void: "does not count"}[v]
}

// DrillWait is said while the cue is to come.
func DrillWait(unannounced bool) string {
	if unannounced {
		return "Hold it so, and wait: it comes at a time of its own."
	}
	return "Hold it so."
}

// DrillDo is said at the cue of a drill that has no words of its own for it.
func DrillDo() string { return "Now." }

// DrillTry counts the tries.
func DrillTry(n, most int) string {
	return "try " + strconv.Itoa(n) + " of at most " + strconv.Itoa(most)
}

// DrillAsks says what counts as learned.
func DrillAsks(cfg *drill.Config) string {
	if cfg.InARow > 1 {
		return "It counts as learned after " + strconv.Itoa(int(cfg.InARow)) + " right ones in a row."
	}
	if cfg.InARow == 1 {
		return "It counts as learned after one right one."
	}
	return "It counts as learned when " + strconv.Itoa(int(cfg.Right)) + " of the last " + strconv.Itoa(int(cfg.Of)) + " were right."
}

// DrillSum says what tries came to.
func DrillSum(s drill.Summary) string {
	if s.Counted == 0 {
		return "No try has counted yet."
	}
	text := strconv.Itoa(s.Right) + " of " + strconv.Itoa(s.Counted) + " right"
	if s.FalseStarts > 0 {
		text += ", " + strconv.Itoa(s.FalseStarts) + plural(s.FalseStarts, " false start", " false starts")
	}
	if s.Anticipated > 0 {
		text += ", " + strconv.Itoa(s.Anticipated) + " guessed"
	}
	if s.Timed > 0 {
		text += "; median " + drillSeconds(s.Median) + " s"
		if s.Timed > 2 {
			text += ", spread " + drillSeconds(s.Spread) + " s"
		}
		text += " (±" + thousandths((s.Uncertain+999)/1000) + " s)"
	}
	if ms := rounded(s.Trend, 1000); s.Timed > 2 && ms != 0 {
		text += "; " + slower(ms) + " by " + thousandths(max(ms, -ms)) + " s a try"
	}
	return text + "."
}

// thousandths writes ms as seconds, to the millisecond.
func thousandths(ms int64) string { return strconv.FormatFloat(float64(ms)/1000, 'f', 3, 64) }

// rounded is how many of a unit a number comes to, to the nearest.
func rounded(n, unit int64) int64 {
	if n < 0 {
		return -rounded(-n, unit)
	}
	return (n + unit/2) / unit
}

// slower is the word for times that have grown by this much in the digits in which they are shown.
func slower(by int64) string {
	if by < 0 {
		return "faster"
	}
	return "slower"
}

// hundredth is a hundredth of a second in µs: the last digit of drillSeconds.
const hundredth = 10_000

func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// drillSeconds writes µs as seconds with two decimals.
func drillSeconds(us int64) string {
	n := rounded(us, hundredth)
	s := strconv.FormatInt(n%100, 10)
	if len(s) == 1 {
		s = "0" + s
	}
	return strconv.FormatInt(n/100, 10) + "." + s
}

// DrillTime is a reaction time with what is not known of it.
func DrillTime(ms int32, uncertain uint16) string {
	return drillSeconds(int64(ms)*1000) + " s (±" + thousandths(int64(uncertain)) + " s)"
}

// DrillOver says what a run came to. c is how the drill stands after it, nil where results are not kept.
func DrillOver(learned, brokenOff bool, c *drill.Card, day int32) string {
	switch {
	case brokenOff:
		return "The drill was left; it counts neither way."
	case learned && c == nil:
		return "Learned, but not kept: " + DrillNobody() + "."
	case learned:
		return "Learned. It is due again " + inDays(c, day) + "."
	case c == nil:
		return "Not yet. You may run it again at once."
	}
	return "Not yet. It is due again " + inDays(c, day) + ", and you may run it again at once."
}

// DrillOtherHand is said where something else than the pupil's own hand came into a drill, by its code word.
func DrillOtherHand(code string) string {
	const left = ": the drill was left and counts neither way."
	switch code {
	case "demo-pilot":
		return "The demo pilot drives, and a drill is for the pupil's own hand" + left
	case "script":
		return "A script or a take is played, and a drill is for the pupil's own hand" + left
	case "instructor":
		return "The instructor's radio came in, and a drill is for the pupil's own hand" + left
	case "fault":
		return "An instructor planted or lifted a fault while the drill ran" + left
	}
	return ""
}

// DrillOffPace is said where time ran slower, or stood.
func DrillOffPace() string {
	return "Time stood still or ran slower, so nothing could be measured: the drill was ended."
}

// ModeHidden stands where the mode would be said.
func ModeHidden() string { return "Which mode it flies in is not told." }

// DrillPropellers heads the propellers of a drill.
func DrillPropellers() string { return "propellers, seen from above" }

// DrillKept says where results go.
func DrillKept(path string) string { return "Results are kept in " + path + "." }

// DrillNotKept says why results are kept nowhere.
func DrillNotKept(why string) string { return "Results are not kept: " + why + "." }

// DrillNobody is why results are not kept where nobody is named.
func DrillNobody() string { return "nobody is named" }

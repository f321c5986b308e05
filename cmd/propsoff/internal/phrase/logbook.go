package phrase

import (
	"strconv"
	"strings"
	"time"

	"propsoff/sim/drill"
)

// The words of verdicts and of why stand in logbooks for ever.
var verdictCodes = [drill.Verdicts]string{
	drill.Right: "right", drill.Wrong: "wrong", drill.TooLate: "too-late", drill.FalseStart: "false-start", drill.Anticipated: "anticipated", drill.Void: "void",
}

var whyCodes = [drill.Whys]string{
	drill.NeverSeen: "never-seen", drill.WrongAnswer: "wrong-answer", drill.OutOfOrder: "out-of-order", drill.StillMissing: "still-missing", drill.CameLate: "came-late",
	drill.BrokeBefore: "broke-before", drill.ActedBefore: "acted-before", drill.UnderHundred: "under-hundred", drill.NotShown: "not-shown", drill.Slept: "slept",
}

// VerdictCode is the code word of a verdict.
func VerdictCode(v drill.Verdict) string { return word(verdictCodes[:], int(v), "verdict") }

// WhyCode is the code word of why; empty for none.
func WhyCode(w drill.Why) string {
	if w == 0 {
		return ""
	}
	return word(whyCodes[:], int(w), "why")
}

// VerdictOf and WhyOf read the code words; an empty one is none. Verdicts lists them.
func VerdictOf(s string) (drill.Verdict, bool) {
	i, ok := codeOf(verdictCodes[:], s)
	return drill.Verdict(i), ok
}

func WhyOf(s string) (drill.Why, bool) {
	i, ok := codeOf(whyCodes[:], s)
	return drill.Why(i), ok
}

func Verdicts() []string { return append([]string(nil), verdictCodes[1:]...) }

func codeOf(words []string, s string) (int, bool) {
	for i, w := range words {
		if w == s && w != "" {
			return i, true
		}
	}
	return 0, false
}

// RefusalName is a refusal in a few words, by its code word.
func RefusalName(code string) string {
	r, ok := RefusalOf(code)
	if !ok {
		return code // of a later version
	}
	return capital(Reason(r))
}

// VerdictName is a verdict in a word or two, by its code word.
func VerdictName(code string) string {
	if v, ok := VerdictOf(code); ok {
		return VerdictWord(v)
	}
	return code
}

// ReportDay and ReportDate are a calendar day, short and in full; over years the short one is a month.
func ReportDay(t time.Time, years bool) string {
	if years {
		return t.Format("Jan 2006")
	}
	return t.Format("2 Jan")
}

func ReportDate(t time.Time) string { return CardDay(t) }

// ReportSpan is from one day to another.
func ReportSpan(from, to time.Time) string {
	switch {
	case from.Equal(to):
		return ReportDate(from)
	case from.Year() == to.Year():
		return from.Format("2 January") + " to " + ReportDate(to)
	}
	return ReportDate(from) + " to " + ReportDate(to)
}

// ReportTitle is what the page is.
func ReportTitle() string { return "Logbook report" }

// ReportFileTitle and ReportFileAbout stand in the particulars of the file.
func ReportFileTitle(pupil string) string { return "Logbook report of " + pupil }
func ReportFileAbout() string {
	return "Reaction times over days, drills mastered, reasons why arming was refused."
}

// ReportSums is the first sentence: what was practised.
type ReportSums struct {
	Practices, Days, Unended                        int
	Lasted                                          time.Duration
	Runs, Drills, Tries, Right, FalseStarts, Broken int
}

// ReportSentence says what was practised. Nothing at all is said too.
func ReportSentence(s ReportSums) string {
	if s.Practices == 0 && s.Runs == 0 && s.Broken == 0 {
		return "Nothing is in the logbook yet."
	}
	text := countOf(s.Practices, "practice", "practices") + " on " + countOf(s.Days, "day", "days")
	if s.Practices == 0 {
		text = "Practised on " + countOf(s.Days, "day", "days")
	}
	if s.Lasted > 0 {
		text += ", "
		if s.Unended > 0 {
			text += "at least "
		}
		text += lasting(s.Lasted) + " in all"
	}
	text += ". "
	if s.Runs == 0 {
		text += "No drill was run to its end yet"
	} else {
		text += countOf(s.Runs, "run", "runs") + " of " + countOf(s.Drills, "drill", "drills") + ", " + countOf(s.Tries, "try", "tries") + ": " + strconv.Itoa(s.Right) + " right"
		if s.FalseStarts > 0 {
			text += ", " + countOf(s.FalseStarts, "begun too early", "begun too early")
		}
	}
	if s.Broken > 0 {
		text += "; " + countOf(s.Broken, "run", "runs") + " broken off, which " + plural(s.Broken, "does", "do") + " not count"
	}
	return text + "."
}

func countOf(n int, one, many string) string { return strconv.Itoa(n) + " " + plural(n, one, many) }

// lasting is a time in hours and minutes.
func lasting(d time.Duration) string {
	m := int(d.Round(time.Minute) / time.Minute)
	switch {
	case m < 1:
		return "less than a minute"
	case m < 60:
		return strconv.Itoa(m) + " min"
	}
	return strconv.Itoa(m/60) + " h " + strconv.Itoa(m%60) + " min"
}

// ReportChange says how the times of a drill went from the first days to the last ones; µs. Empty where there is only one.
func ReportChange(drillName string, first, last int64, n int) string {
	switch {
	case n == 0:
		return ""
	case n == 1:
		return drillName + ": median " + drillSeconds(last) + "\u00a0s."
	}
	by := rounded(last, hundredth) - rounded(first, hundredth)
	if by == 0 {
		return drillName + ": median " + drillSeconds(last) + "\u00a0s, as at first."
	}
	return drillName + ": median " + drillSeconds(last) + "\u00a0s last, " + slower(by) + " than at first (" + drillSeconds(first) + "\u00a0s)."
}

// The headings of the report.
func ReportReaction() string { return "reaction time in seconds" }
func ReportMastered() string { return "drills over time" }
func ReportRefused() string  { return "why arming was refused" }
func ReportDrills() string   { return "drill by drill" }

// ReportReactionAbout says what a plot of reaction times shows; days is how many days one mark stands for.
func ReportReactionAbout(days int32) string {
	of := "a day"
	if days > 1 {
		of = strconv.Itoa(int(days)) + " days"
	}
	return "Dot: median of " + of + "; bar: the spread about it (median distance). Answers that came late count too."
}

// ReportNoTimes, ReportNoDrills, ReportNoRefusals stand where there is nothing to plot.
func ReportNoTimes() string    { return "No answer to a cue has been timed yet." }
func ReportNoDrills() string   { return "No drill was run to its end yet." }
func ReportNoRefusals() string { return "No refused arming has been noted." }

// ReportPass names the pass line, ReportSeconds its scale. Times in ms and µs.
func ReportPass(ms int32) string { return "pass " + drillSecondsShort(int64(ms)*1000) + "\u00a0s" }

func ReportSeconds(us int64) string { return drillSeconds(us) }

func drillSecondsShort(us int64) string {
	s := drillSeconds(us)
	return strings.TrimSuffix(s, "0")
}

// ReportStood names the lines of the plot of drills: how many were learned, how many mastered.
func ReportStood(n int, mastered bool) string {
	if mastered {
		return strconv.Itoa(n) + " mastered"
	}
	return strconv.Itoa(n) + " learned"
}

// ReportStoodAbout says when a drill counts as learned, and when as mastered.
func ReportStoodAbout(total int) string {
	return "Of " + countOf(total, "drill", "drills") + ". Learned: in its last run. Mastered: learned on three days with days between."
}

// ReportColumns head the table of drills.
func ReportColumns() []string {
	return []string{"drill", "runs", "right", "early", "median s", "stands"}
}

// ReportOf is so many of so many.
func ReportOf(n, of int) string { return strconv.Itoa(n) + "/" + strconv.Itoa(of) }

// ReportNotYet names the drills of which no run came to its end.
func ReportNotYet(names []string) string {
	if len(names) == 0 {
		return ""
	}
	return "Not run to the end yet (" + strconv.Itoa(len(names)) + "): " + strings.Join(names, "; ") + "."
}

// ReportStands says in a word how a drill stands.
func ReportStands(c *drill.Card) string {
	switch {
	case c.Box == 0:
		return "new"
	case c.Mastered():
		return "mastered"
	case c.Failed:
		return "to redo"
	}
	return "learned"
}

// ReportMore says that a table goes on elsewhere.
func ReportMore(n int) string {
	return "And " + countOf(n, "drill", "drills") + " more, which the HTML report has."
}

// ReportDamaged says that lines of the logbook could not be used.
func ReportDamaged(n int) string {
	return countOf(n, "line", "lines") + " of the logbook could not be read and " + plural(n, "is", "are") + " not in here."
}

// ReportLeft says that the logbook names more drills and reasons than are counted.
func ReportLeft(n int) string {
	return countOf(n, "run or reason", "runs and reasons") + " of the logbook " + plural(n, "is", "are") + " not counted: it names too many different ones."
}

// ReportUndrawn says that a name has characters that the page cannot draw.
func ReportUndrawn() string {
	return "Characters that the built-in text face lacks are drawn as a dot in the middle of the line; the HTML report has them."
}

// ReportCaution is the caution that every result comes with.
func ReportCaution() string { return Cautions()[3] }

// ReportMade stands at the foot.
func ReportMade(program string) string {
	if program != "" {
		program = " " + program
	}
	return "Made by propsoff" + program + " on this machine; nothing was sent anywhere."
}

// ReportWhat says what a plot of a drill's times shows, for who cannot see it.
func ReportWhat(drillName string) string { return "Reaction times of " + drillName + " over days" }

// The columns of the tables that say what the plots show.
func ReportTimeColumns() []string    { return []string{"from", "median s", "spread s", "answers"} }
func ReportStoodColumns() []string   { return []string{"day", "learned", "mastered"} }
func ReportRefusedColumns() []string { return []string{"why", "times"} }

// ReportNumbers opens the table beside a plot.
func ReportNumbers() string { return "the same in numbers" }

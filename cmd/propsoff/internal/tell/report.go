package tell

import (
	"time"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/codes"
	"propsoff/sim/drill"
)

// RefusalName is a refusal in a few words, by its code word.
func RefusalName(code string) words.Text {
	if _, ok := codes.RefusalOf(code); !ok {
		return words.AsIs(code) // of a later version
	}
	return words.T("report.refusal", words.Args{"why": words.Of("reason", code)})
}

// ReportDay is a calendar day in short; over years it is the month.
func ReportDay(t time.Time, years bool) words.Text {
	if years {
		return ShortMonth(t)
	}
	return ShortDay(t)
}

// ReportFileTitle stands in the particulars of the file as its title.
func ReportFileTitle(pupil string) words.Text {
	return words.T("report.file-title", words.Args{"pupil": words.Quote(pupil)})
}

// ReportSums is the first sentence: what was practised.
type ReportSums struct {
	Practices, Days, Unended                        int
	Lasted                                          time.Duration
	Runs, Drills, Tries, Right, FalseStarts, Broken int
}

// ReportSentence says what was practised. Nothing at all is said too.
func ReportSentence(s ReportSums) words.Text {
	if s.Practices == 0 && s.Runs == 0 && s.Broken == 0 {
		return words.T("report.nothing")
	}
	var practices, time words.Text
	if s.Practices > 0 {
		practices = reportPractices(s.Practices)
	}
	if s.Lasted > 0 {
		time = lasting(s.Lasted)
	}
	practised := words.T("report.practised", words.Args{"practices": practices, "days": words.T("report.on-days", words.Args{"n": words.Count(s.Days)}),
		"time": time, "least": words.Flag(s.Unended > 0)})
	return words.Row(practised, reportDone(s))
}

// reportDone says what was run to its end, and what was not.
func reportDone(s ReportSums) words.Text {
	var early, broken words.Text
	if s.Broken > 0 {
		broken = words.T("report.broken", words.Args{"n": words.Count(s.Broken)})
	}
	if s.Runs == 0 {
		return words.T("report.done-none", words.Args{"broken": broken})
	}
	if s.FalseStarts > 0 {
		early = words.T("report.early", words.Args{"n": words.Whole(s.FalseStarts)})
	}
	return words.T("report.done", words.Args{"runs": reportRuns(s.Runs), "drills": reportOfDrills(s.Drills),
		"tries": words.T("report.tries", words.Args{"n": words.Count(s.Tries)}), "right": words.Whole(s.Right), "early": early, "broken": broken})
}

func reportPractices(n int) words.Text {
	return words.T("report.practices", words.Args{"n": words.Count(n)})
}
func reportRuns(n int) words.Text { return words.T("report.runs", words.Args{"n": words.Count(n)}) }
func reportOfDrills(n int) words.Text {
	return words.T("report.of-drills", words.Args{"n": words.Count(n)})
}

// ReportChange says how the times of a drill went from the first days to the last ones; µs. n is how many days there are; it says nothing
// of none.
func ReportChange(drillName words.Text, first, last int64, n int) words.Text {
	switch by := nearest(last, hundredth) - nearest(first, hundredth); {
	case n == 0:
		return words.Text{}
	case n == 1:
		return words.T("report.median", words.Args{"drill": drillName, "last": inHundredths(last)})
	case by == 0:
		return words.T("report.as-first", words.Args{"drill": drillName, "last": inHundredths(last)})
	case by < 0:
		return words.T("report.faster", words.Args{"drill": drillName, "last": inHundredths(last), "first": inHundredths(first)})
	}
	return words.T("report.slower", words.Args{"drill": drillName, "last": inHundredths(last), "first": inHundredths(first)})
}

// ReportReactionAbout says what a plot of reaction times shows; days is how many days one mark stands for.
func ReportReactionAbout(days int32) words.Text {
	return words.T("report.reaction-about", words.Args{"n": words.Count(max(days, 1))})
}

// ReportPlotAbout says it below a plot of one drill, with the times that pass before it, in ms.
func ReportPlotAbout(allowed []int32, days int32) words.Text {
	var passes []words.Text
	for _, ms := range allowed {
		passes = append(passes, ReportPass(ms))
	}
	if len(passes) == 0 {
		return ReportReactionAbout(days)
	}
	return words.Row(words.T("report.passes", words.Args{"all": words.Listed(passes...)}), ReportReactionAbout(days))
}

// ReportPass names the pass line; ms.
func ReportPass(ms int32) words.Text {
	n := inHundredths(int64(ms) * 1000)
	n.Least = 1
	return words.T("report.pass", words.Args{"n": n})
}

// ReportSeconds is a time in seconds without its unit, in hundredths; µs.
func ReportSeconds(us int64) words.Text {
	return words.T("report.number", words.Args{"n": inHundredths(us)})
}

// ReportStood names the lines of the plot of drills: how many were learned, how many mastered.
func ReportStood(n int, mastered bool) words.Text {
	return words.T("report.stood", words.Args{"n": words.Whole(n), "mastered": words.Flag(mastered)})
}

// ReportStoodAbout says when a drill counts as learned, and when as mastered.
func ReportStoodAbout(total int) words.Text {
	return words.T("report.stood-about", words.Args{"n": words.Count(total)})
}

// ReportColumns head the table of drills.
func ReportColumns() []words.Text {
	return []words.Text{words.T("report.column-drill"), words.T("report.column-runs"), words.T("report.column-right"), words.T("report.column-early"),
		words.T("report.column-median"), words.T("report.column-stands")}
}

// ReportOf is so many of so many.
func ReportOf(n, of int) words.Text {
	return words.T("report.of", words.Args{"n": words.Whole(n), "of": words.Whole(of)})
}

// ReportNotYet names the drills of which no run came to its end.
func ReportNotYet(names []words.Text) words.Text {
	if len(names) == 0 {
		return words.Text{}
	}
	return words.T("report.not-yet", words.Args{"n": words.Whole(len(names)), "names": words.Clauses(names...)})
}

// ReportStands says in a word how a drill stands.
func ReportStands(c *drill.Card) words.Text {
	switch {
	case c.Box == 0:
		return words.T("report.stands-new")
	case c.Mastered():
		return words.T("report.stands-mastered")
	case c.Failed:
		return words.T("report.stands-redo")
	}
	return words.T("report.stands-learned")
}

// ReportMore says that a table goes on elsewhere.
func ReportMore(n int) words.Text { return words.T("report.more", words.Args{"n": words.Count(n)}) }

// ReportDamaged says that lines of the logbook could not be used.
func ReportDamaged(n int) words.Text {
	return words.T("report.damaged", words.Args{"n": words.Count(n)})
}

// ReportLeft says that the logbook names more drills and reasons than are counted.
func ReportLeft(n int) words.Text { return words.T("report.left", words.Args{"n": words.Count(n)}) }

// ReportCaution is the caution that every result comes with.
func ReportCaution() words.Text { return Cautions()[3] }

// ReportMade stands at the foot.
func ReportMade(version string) words.Text {
	return words.T("report.made", words.Args{"version": words.Quote(version)})
}

// ReportWhat says what a plot of a drill's times shows, for who cannot see it.
func ReportWhat(drillName words.Text) words.Text {
	return words.T("report.what", words.Args{"drill": drillName})
}

// ReportTimeColumns head the table of reaction times, which says what the plot shows.
func ReportTimeColumns() []words.Text {
	return []words.Text{words.T("report.column-from"), words.T("report.column-median"), words.T("report.column-spread"), words.T("report.column-answers")}
}

// ReportStoodColumns head the table of how many drills stood learned and mastered.
func ReportStoodColumns() []words.Text {
	return []words.Text{words.T("report.column-day"), words.T("report.column-learned"), words.T("report.column-mastered")}
}

// ReportRefusedColumns head the table of why arming was refused.
func ReportRefusedColumns() []words.Text {
	return []words.Text{words.T("report.column-why"), words.T("report.column-times")}
}

package tell

import (
	"strings"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/sim/drill"
)

// LogbookNobody is said where the folder holds no logbook.
func LogbookNobody(folder string) words.Text {
	return words.T("logbook.nobody", words.Args{"folder": words.Quote(folder)})
}

// LogbookNoPupil is said of a name without a logbook; near is one that may have been meant, or empty.
func LogbookNoPupil(name, folder, near string) words.Text {
	return words.T("logbook.no-pupil", words.Args{"name": words.Typed(name), "folder": words.Quote(folder), "near": words.Typed(near)})
}

// LogbookWhose asks for a name where there are several logbooks, or where one must be named.
func LogbookWhose(command string, names []string) words.Text {
	return words.T("logbook.whose", words.Args{"command": words.Quote(command), "names": words.And(words.AsAre(names...)...)})
}

// LogbookPupil is one line of the list of pupils, after the name; any: there are entries.
func LogbookPupil(practices, runs, drills int, last time.Time, any bool) words.Text {
	return words.T("logbook.pupil", words.Args{
		"any": words.Flag(any), "practices": reportPractices(practices), "runs": reportRuns(runs), "drills": reportOfDrills(drills), "day": Day(last),
	})
}

// LogbookBegan is the entry of a practice that begins.
func LogbookBegan(craft words.Text, arming, radio string, stickMode int) words.Text {
	return words.T("logbook.began", words.Args{"of": logbookCraft(craft, arming, radio, stickMode)})
}

// LogbookChanged is the entry of another craft or radio.
func LogbookChanged(craft words.Text, arming, radio string, stickMode int) words.Text {
	return words.T("logbook.changed", words.Args{"of": logbookCraft(craft, arming, radio, stickMode)})
}

func logbookCraft(craft words.Text, arming, radio string, stickMode int) words.Text {
	of := []words.Text{craft}
	if arming != "" {
		of = append(of, words.T("logbook.armed-by", words.Args{
			"switch": words.Flag(arming == "switch"), "sticks": words.Flag(arming == "sticks"), "arming": words.Quote(arming), // of a later version
		}))
	}
	if stickMode > 0 {
		of = append(of, words.T("logbook.stick-mode", words.Args{"n": words.Whole(stickMode)}))
	}
	if radio != "" {
		of = append(of, words.T("logbook.radio", words.Args{"name": logbookHand(radio)}))
	}
	return words.Listed(of...)
}

// logbookHand is what drove: one of the two code words of hands, or the name of a radio.
func logbookHand(hand string) words.Text {
	switch hand {
	case "radio":
		return words.T("logbook.by-radio")
	case codes.Keyboard:
		return words.T("logbook.by-keyboard")
	}
	return words.AsIs(hand)
}

// LogbookEnded is the entry of a practice that ends.
func LogbookEnded(lasted time.Duration) words.Text {
	return words.T("logbook.ended", words.Args{"time": lasting(lasted)})
}

// LogbookRefused says how often arming was refused and why; refusals are code words, and go together with times.
func LogbookRefused(refusals []string, times []int64) words.Text {
	var all []words.Text
	for i, code := range refusals {
		why := words.AsIs(code) // of a later version
		if _, ok := codes.RefusalOf(code); ok {
			why = words.Of("reason", code)
		}
		all = append(all, words.T("logbook.refused-times", words.Args{"why": why, "n": words.Whole(times[i])}))
	}
	return words.T("logbook.refused", words.Args{"whys": words.Listed(all...)})
}

// LogbookRun is a run as a sentence: by which hands (their code words, none where that was not noted), what came in and ended it, and sum,
// what its tries came to.
func LogbookRun(name words.Text, hands []string, learned, brokenOff bool, cameIn string, sum words.Text) words.Text {
	var by []words.Text
	for _, hand := range hands {
		by = append(by, logbookHand(hand))
	}
	came := words.T("logbook.run-not-learned")
	switch {
	case brokenOff:
		came = logbookBroken(cameIn)
	case learned:
		came = words.T("logbook.run-learned")
	}
	return words.T("logbook.run", words.Args{"name": name, "hands": words.And(by...), "came": came, "sum": sum})
}

// logbookBroken says that a run was broken off, by the code word of what came in; empty for nothing.
func logbookBroken(cameIn string) words.Text {
	switch cameIn {
	case "":
		return words.T("logbook.run-broken")
	case "demo-pilot", "script", "instructor", "fault":
		return words.Of("logbook.broken", cameIn)
	}
	return words.T("logbook.run-other", words.Args{"code": words.Quote(cameIn)}) // of a later version
}

// LogbookNoVerdict refuses an unknown verdict.
func LogbookNoVerdict(text string, known []string, near string) words.Text {
	return words.T("logbook.no-verdict", words.Args{"text": words.Quote(text), "known": words.And(words.AsAre(known...)...), "near": words.Quote(near)})
}

// LogbookFile is a file that is to be deleted. Unread: its lines could not be counted to the end.
type LogbookFile struct {
	Path             string
	Entries, Damaged int
	Copy, Unread     bool
	Says             string // whose its first line says that it is, where that is somebody else
}

// LogbookAskWhat says before everything of a pupil is deleted what it is, a line each.
func LogbookAskWhat(name string, files []LogbookFile) []words.Text {
	if len(files) == 1 && !files[0].Copy && files[0].Says == "" {
		return []words.Text{words.T("logbook.ask", words.Args{"name": words.Quote(name), "holds": logbookHolds(files[0]), "path": words.Quote(files[0].Path)})}
	}
	lines := []words.Text{words.T("logbook.ask-files", words.Args{"name": words.Quote(name), "n": words.Count(len(files))})}
	for _, f := range files {
		lines = append(lines, words.T("logbook.ask-file", words.Args{"path": words.Quote(f.Path), "holds": logbookHolds(f), "copy": words.Flag(f.Copy), "says": words.Quote(f.Says)}))
	}
	return lines
}

func logbookHolds(f LogbookFile) words.Text {
	var damaged words.Text
	if f.Damaged > 0 {
		damaged = words.T("logbook.damaged-lines", words.Args{"n": words.Count(f.Damaged)})
	}
	return words.T("logbook.holds", words.Args{"entries": words.T("logbook.entries", words.Args{"n": words.Count(f.Entries)}), "damaged": damaged, "unread": words.Flag(f.Unread)})
}

// LogbookHalf is said where only some files could be deleted.
func LogbookHalf(done, of int) words.Text {
	return words.T("logbook.half", words.Args{"done": words.Whole(done), "n": words.Count(of)})
}

// RefusalName is a refusal in a few words, by its code word.
func RefusalName(code string) words.Text {
	if _, ok := codes.RefusalOf(code); !ok {
		return words.AsIs(code) // of a later version
	}
	return words.T("report.refusal", words.Args{"why": words.Of("reason", code)})
}

// ReportDay is a calendar day in short; over years it is the month.
func ReportDay(t time.Time, years bool) words.Text {
	month := words.Of("month-short", strings.ToLower(t.Month().String()))
	if years {
		return words.T("date.month-year", words.Args{"month": month, "year": words.Whole(t.Year())})
	}
	return words.T("date.day-month", words.Args{"day": words.Whole(t.Day()), "month": month})
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
	if n == 0 {
		return words.Text{}
	}
	by := nearest(last, hundredth) - nearest(first, hundredth)
	return words.T("report.change", words.Args{"drill": drillName, "last": inHundredths(last), "first": inHundredths(first), "several": words.Flag(n > 1),
		"faster": words.Flag(n > 1 && by < 0), "slower": words.Flag(n > 1 && by > 0)})
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
	return words.Each("report.column", "drill", "runs", "right", "early", "median", "stands")
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

// ReportCaution is the caution that every result comes with.
func ReportCaution() words.Text { return Cautions()[3] }

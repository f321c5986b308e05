package tell

import (
	"strconv"
	"time"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/codes"
)

// inQuotes is a name that somebody typed as it stands between quotation marks: what cannot be printed is written as Go would write it.
func inQuotes(name string) words.Quote {
	s := strconv.Quote(name)
	return words.Quote(s[1 : len(s)-1])
}

// LogbookNobody is said where the folder holds no logbook.
func LogbookNobody(folder string) words.Text {
	return words.T("logbook.nobody", words.Args{"folder": words.Quote(folder)})
}

// LogbookNoPupil is said of a name without a logbook; near is one that may have been meant, or empty.
func LogbookNoPupil(name, folder, near string) words.Text {
	return words.T("logbook.no-pupil", words.Args{"name": inQuotes(name), "folder": words.Quote(folder), "near": inQuotes(near)})
}

// LogbookWhose asks for a name where there are several logbooks, or where one must be named.
func LogbookWhose(command string, names []string) words.Text {
	return words.T("logbook.whose", words.Args{"command": words.Quote(command), "names": words.And(words.AsAre(names...)...)})
}

// LogbookPupil is one line of the list of pupils, after the name; any: there are entries.
func LogbookPupil(practices, runs, drills int, last time.Time, any bool) words.Text {
	if !any {
		return words.T("logbook.pupil-none")
	}
	return words.T("logbook.pupil", words.Args{"practices": reportPractices(practices), "runs": reportRuns(runs), "drills": reportOfDrills(drills), "day": Day(last)})
}

// LogbookBegan, LogbookChanged, LogbookEnded and LogbookRefused are entries as sentences.
func LogbookBegan(craft words.Text, arming, radio string, stickMode int) words.Text {
	return words.T("logbook.began", words.Args{"of": logbookCraft(craft, arming, radio, stickMode)})
}

func LogbookChanged(craft words.Text, arming, radio string, stickMode int) words.Text {
	return words.T("logbook.changed", words.Args{"of": logbookCraft(craft, arming, radio, stickMode)})
}

func logbookCraft(craft words.Text, arming, radio string, stickMode int) words.Text {
	of := []words.Text{craft}
	switch arming {
	case "":
	case "switch":
		of = append(of, words.T("logbook.armed-by-switch"))
	case "sticks":
		of = append(of, words.T("logbook.armed-by-sticks"))
	default: // of a later version
		of = append(of, words.T("logbook.armed-by", words.Args{"arming": words.Quote(arming)}))
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
	case "demo-pilot":
		return words.T("logbook.run-demo")
	case "script":
		return words.T("logbook.run-script")
	case "instructor":
		return words.T("logbook.run-instructor")
	case "fault":
		return words.T("logbook.run-fault")
	}
	return words.T("logbook.run-other", words.Args{"code": words.Quote(cameIn)}) // of a later version
}

// LogbookSaved is said of a file that was written.
func LogbookSaved(path string) words.Text {
	return words.T("logbook.saved", words.Args{"path": words.Quote(path)})
}

// LogbookEnding refuses an ending that cannot be written.
func LogbookEnding(path string, endings []string) words.Text {
	return words.T("logbook.ending", words.Args{"path": words.Quote(path), "endings": words.Or(words.AsAre(endings...)...)})
}

// LogbookNoDay refuses what is no day.
func LogbookNoDay(flag, text string) words.Text {
	return words.T("logbook.no-day", words.Args{"flag": words.Quote(flag), "text": words.Quote(text)})
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

// LogbookAskWhat and LogbookAskYes ask before everything of a pupil is deleted: what it is, a line each.
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

// LogbookUnjudged tells of a file that stays because it is not known whose it is, and why.
func LogbookUnjudged(path string, why words.Text) words.Text {
	return words.T("logbook.unjudged", words.Args{"path": words.Quote(path), "why": why})
}

// LogbookHalf is said where only some files could be deleted.
func LogbookHalf(done, of int) words.Text {
	return words.T("logbook.half", words.Args{"done": words.Whole(done), "n": words.Count(of)})
}

// LogbookDeleted says what was deleted.
func LogbookDeleted(path string, bytes int64) words.Text {
	return words.T("logbook.deleted", words.Args{"path": words.Quote(path), "n": words.Count(bytes)})
}

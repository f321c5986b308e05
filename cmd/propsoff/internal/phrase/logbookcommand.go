package phrase

import (
	"strconv"
	"strings"
	"time"
)

// LogbookNobody is said where the folder holds no logbook.
func LogbookNobody(folder string) string {
	return "No logbook is kept in " + folder + " yet. One begins when a pupil is named: propsoff --pupil NAME, or on the sheet of drills."
}

// LogbookNoPupil is said of a name without a logbook; near is one that may have been meant, or empty.
func LogbookNoPupil(name, folder, near string) string {
	s := "there is no logbook of " + strconv.Quote(name) + " in " + folder
	if near != "" {
		s += ": did you mean " + strconv.Quote(near) + "?"
	}
	return s
}

// LogbookWhose asks for a name where there are several logbooks, or where one must be named.
func LogbookWhose(command string, names []string) string {
	s := command + ": say whose by --pupil NAME"
	if len(names) > 0 {
		s += "; there are logbooks of " + list(names, "and")
	}
	return s
}

// LogbookPupil is one line of the list of pupils, after the name.
func LogbookPupil(practices, runs, drills int, last time.Time, any bool) string {
	if !any {
		return "nothing yet"
	}
	return countOf(practices, "practice", "practices") + ", " + countOf(runs, "run", "runs") + " of " + countOf(drills, "drill", "drills") + ", last on " + ReportDate(last)
}

// LogbookKeyboard is what the logbook calls the keyboard in the place of a radio.
func LogbookKeyboard() string { return "keyboard" }

// LogbookNothing is said where the filters leave nothing.
func LogbookNothing() string { return "No entry is like that." }

// LogbookBegan, LogbookChanged, LogbookEnded and LogbookRefused are entries as sentences.
func LogbookBegan(craft, arming, radio string, stickMode int) string {
	return "practice began" + ofCraft(craft, arming, radio, stickMode)
}

func LogbookChanged(craft, arming, radio string, stickMode int) string {
	return "from here on" + ofCraft(craft, arming, radio, stickMode)
}

func ofCraft(craft, arming, radio string, stickMode int) string {
	var of []string
	if craft != "" {
		of = append(of, craft)
	}
	if arming != "" {
		of = append(of, "armed by "+arming)
	}
	if stickMode > 0 {
		of = append(of, "stick mode "+strconv.Itoa(stickMode))
	}
	if radio != "" {
		of = append(of, "radio "+radio)
	}
	if len(of) == 0 {
		return ""
	}
	return ": " + strings.Join(of, ", ")
}

func LogbookEnded(lasted time.Duration) string { return "practice ended after " + lasting(lasted) }

// LogbookRefused says how often arming was refused and why; codes and times go together.
func LogbookRefused(codes []string, times []int64) string {
	var parts []string
	for i, c := range codes {
		parts = append(parts, uncapital(RefusalName(c))+" ("+strconv.FormatInt(times[i], 10)+")")
	}
	return "arming refused: " + strings.Join(parts, ", ")
}

// LogbookRun is a run as a sentence: by which hands (their code words, none where that was not noted), what came in and ended it, and sum,
// what its tries came to.
func LogbookRun(name string, hands []string, learned, brokenOff bool, cameIn, sum string) string {
	word := "not learned yet"
	switch {
	case brokenOff && cameIn != "":
		word = "broken off because " + logbookCameIn(cameIn)
	case brokenOff:
		word = "broken off"
	case learned:
		word = "learned"
	}
	if len(hands) > 0 {
		name += ", by " + list(hands, "and")
	}
	return name + ": " + word + ". " + sum
}

// logbookCameIn says what came into a run, by its code word.
func logbookCameIn(code string) string {
	switch code {
	case "demo-pilot":
		return "the demo pilot took the sticks"
	case "script":
		return "something was played"
	case "instructor":
		return "the instructor's radio came in"
	case "fault":
		return "a fault was planted or lifted"
	}
	return code + " came in" // of a later version
}

// LogbookSaved is said of a file that was written.
func LogbookSaved(path string) string { return "Saved: " + path }

// LogbookEnding refuses an ending that cannot be written.
func LogbookEnding(path string, endings []string) string { return CardEnding(path, endings) }

// LogbookNoDay refuses what is no day.
func LogbookNoDay(flag, text string) string {
	return "--" + flag + " " + text + ": write a day as 2031-04-05"
}

// LogbookNoVerdict refuses an unknown verdict.
func LogbookNoVerdict(text string, known []string, near string) string {
	s := "--verdict " + text + ": there is no such verdict"
	if near != "" {
		return s + "; did you mean " + near + "? They are " + list(known, "and")
	}
	return s + ". They are " + list(known, "and")
}

// LogbookFile is a file that is to be deleted. Unread: its lines could not be counted to the end.
type LogbookFile struct {
	Path             string
	Entries, Damaged int
	Copy, Unread     bool
	Says             string // whose its first line says that it is, where that is somebody else
}

// LogbookAskWhat and LogbookAskYes ask before everything of a pupil is deleted: what it is, a line each.
func LogbookAskWhat(name string, files []LogbookFile) []string {
	if len(files) == 1 && !files[0].Copy && files[0].Says == "" {
		return []string{"This deletes the logbook of " + name + " for ever: " + logbookHolds(files[0]) + " in " + files[0].Path + "."}
	}
	lines := []string{"This deletes what is kept of " + name + " for ever, " + countOf(len(files), "file", "files") + ":"}
	for _, f := range files {
		text := "  " + f.Path + ": " + logbookHolds(f)
		if f.Copy {
			text += ", a copy"
		}
		if f.Says != "" {
			text += ", though its first line names " + f.Says
		}
		lines = append(lines, text)
	}
	return lines
}

func logbookHolds(f LogbookFile) string {
	text := countOf(f.Entries, "entry", "entries")
	if f.Damaged > 0 {
		text += " and " + countOf(f.Damaged, "damaged line", "damaged lines")
	}
	if f.Unread {
		return "at least " + text + " (it cannot be read to its end)"
	}
	return text
}

func LogbookAskYes() string { return "Type yes to delete it: " }

// LogbookUnjudged tells of a file that stays because it is not known whose it is, and why.
func LogbookUnjudged(path, why string) string {
	return path + ": left alone, as it is not clear whose it is: " + why
}

// LogbookHalf is said where only some files could be deleted.
func LogbookHalf(done, of int) string {
	return "not everything was deleted: " + strconv.Itoa(done) + " of " + countOf(of, "file", "files") + "; put right what is said above and run it again"
}

// LogbookKept is said when it was not deleted.
func LogbookKept() string { return "Nothing was deleted." }

// LogbookNobodyAnswers is said where nobody can be asked.
func LogbookNobodyAnswers() string {
	return "nobody answered, so nothing was deleted; write --yes to delete without being asked"
}

// LogbookDeleted says what was deleted.
func LogbookDeleted(path string, bytes int64) string {
	return "Deleted: " + path + " (" + countOf(int(bytes), "byte", "bytes") + ")"
}

// LogbookElsewhere says what the program cannot know of.
func LogbookElsewhere() string {
	return "Reports, tables and copies that were put in other places are not known here and are still there."
}

package main

import (
	"bytes"
	"cmp"
	"fmt"
	"maps"
	"slices"
	"time"
	"unicode/utf8"

	"propsoff/assets/mouth"
	"propsoff/cmd/propsoff/internal/logbook"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim/drill"
)

// pupilLine is a pupil in the list, as JSON.
type pupilLine struct {
	Pupil     string `json:"pupil"`
	Begun     string `json:"begun,omitempty"`
	Practices int    `json:"practices"`
	Runs      int    `json:"runs"`
	Drills    int    `json:"drills"`
	Last      string `json:"last,omitempty"`
	Damaged   int    `json:"damaged,omitempty"`
	File      string `json:"file"`
}

// printPupils lists the pupils with what they did, in the order of their names.
func printPupils(w *world, asJSON bool, all []*logbook.Contents) error {
	wide := 0
	for _, c := range all {
		wide = max(wide, utf8.RuneCountInString(c.Pupil))
	}
	var out []byte
	for _, c := range all {
		l := pupilLine{Pupil: c.Pupil, File: c.Path, Damaged: len(c.Notices)}
		if !c.Begun.IsZero() {
			l.Begun = c.Begun.Format(time.RFC3339)
		}
		drills := map[string]bool{}
		last := int32(0)
		for i := range c.Entries {
			e := &c.Entries[i]
			last = max(last, e.Day)
			switch {
			case e.Kind == logbook.KindBegan:
				l.Practices++
			case e.Kind == logbook.KindDrill && !e.Drill.BrokenOff:
				l.Runs++
				drills[e.Drill.Code] = true
			}
		}
		l.Drills = len(drills)
		if len(c.Entries) > 0 {
			l.Last = logbook.Date(last).Format(time.DateOnly)
		}
		if !asJSON {
			out = fmt.Appendf(out, "%-*s  %s\n", wide, mouth.Printable(c.Pupil), phrase.LogbookPupil(l.Practices, l.Runs, l.Drills, logbook.Date(last), len(c.Entries) > 0))
			continue
		}
		out = append(mouth.AppendJSON(out, &l), '\n')
	}
	return put(w, out)
}

func put(w *world, text []byte) error {
	if _, err := w.out.Write(text); err != nil {
		return trouble(err)
	}
	return nil
}

// entryLine is one line to print.
type entryLine struct {
	at    time.Time
	pupil string
	entry *logbook.Entry
	raw   []byte
}

// printEntries lists entries, those of several pupils by time. As JSON, lines of kinds that a later version knows are printed too where
// nothing is filtered, at the end of their pupil's time.
func printEntries(w *world, asJSON bool, all []*logbook.Contents, f *logbook.Filter) error {
	var lines []entryLine
	for _, c := range all {
		last := time.Time{}
		for i := range c.Entries {
			if e := &c.Entries[i]; f.Keeps(e) {
				lines = append(lines, entryLine{e.At, c.Pupil, e, e.Raw})
				last = e.At
			}
		}
		for _, l := range c.Later {
			if asJSON && f.All() {
				lines = append(lines, entryLine{last, c.Pupil, nil, l.Raw})
			}
		}
	}
	if len(lines) == 0 {
		w.say(phrase.LogbookNothing())
		return nil
	}
	slices.SortStableFunc(lines, func(a, b entryLine) int { return cmp.Or(a.at.Compare(b.at), cmp.Compare(a.pupil, b.pupil)) })
	var out []byte
	for _, l := range lines {
		if asJSON {
			out = appendWithPupil(out, l.pupil, l.raw)
			continue
		}
		name := ""
		if len(all) > 1 {
			name = l.pupil + "  "
		}
		out = fmt.Appendln(out, mouth.Printable(l.at.Local().Format("2006-01-02 15:04:05")+"  "+name+entryText(l.entry)))
	}
	return put(w, out)
}

// appendWithPupil appends a line as it is kept with the pupil's name as its first field.
func appendWithPupil(dst []byte, pupil string, raw []byte) []byte {
	rest := bytes.TrimLeft(bytes.TrimSpace(raw)[1:], " \t")
	dst = mouth.AppendJSON(append(dst, `{"pupil":`...), pupil)
	if len(rest) > 0 && rest[0] != '}' {
		dst = append(dst, ',')
	}
	return append(mouth.AppendEscaped(dst, rest), '\n')
}

// entryText is an entry as a sentence.
func entryText(e *logbook.Entry) string {
	c := &e.Practice.Craft
	switch e.Kind {
	case logbook.KindBegan:
		return phrase.LogbookBegan(c.Name, c.Arming, e.Practice.Radio, c.StickMode)
	case logbook.KindChanged:
		return phrase.LogbookChanged(c.Name, c.Arming, e.Practice.Radio, c.StickMode)
	case logbook.KindEnded:
		return phrase.LogbookEnded(e.Lasted)
	case logbook.KindRefusals:
		codes := slices.SortedFunc(maps.Keys(e.Counts), func(a, b string) int { return cmp.Or(cmp.Compare(e.Counts[b], e.Counts[a]), cmp.Compare(a, b)) })
		var times []int64
		for _, code := range codes {
			times = append(times, e.Counts[code])
		}
		return phrase.LogbookRefused(codes, times)
	}
	name := e.Drill.Code
	if e.Drill.Name != "" {
		name = e.Drill.Name + " (" + e.Drill.Code + ")"
	}
	run := e.Run()
	return phrase.LogbookRun(name, e.Drill.Hands, e.Drill.Learned, e.Drill.BrokenOff, e.Drill.CameIn, phrase.DrillSum(drill.Summarise(run.Tries)))
}

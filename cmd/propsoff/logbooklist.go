package main

import (
	"bufio"
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"hash/fnv"
	"io"
	"maps"
	"math"
	"slices"
	"time"
	"unicode/utf8"

	"propsoff/assets/mouth"
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/exit"
	"propsoff/cmd/propsoff/internal/logbook"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/world"
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
	// Damaged is how many lines could not be used.
	Damaged int    `json:"damaged,omitempty"`
	File    string `json:"file"`
	// Others are files of the same pupil, whose name was typed in another way.
	Others []string `json:"others,omitempty"`
}

// printPupils lists the pupils with what they did, in the order of their names.
func printPupils(w *world.World, asJSON bool, names []string, read func(string, logbook.Taker) (*logbook.Contents, error)) error {
	wide := 0
	for _, name := range names {
		wide = max(wide, utf8.RuneCountInString(name))
	}
	out := bufio.NewWriter(w.Out)
	for _, name := range names {
		var l pupilLine
		drills := map[uint64]bool{} // by their digests: a file from a stranger may name any number
		last := int32(math.MinInt32)
		c, err := read(name, func(_ *logbook.Contents, e *logbook.Entry) error {
			if !e.Later() {
				last = max(last, e.Day)
			}
			switch {
			case e.Kind == logbook.KindBegan:
				l.Practices++
			case e.Kind == logbook.KindDrill && !e.Drill.BrokenOff:
				l.Runs++
				drills[digest(e.Drill.Code)] = true
			}
			return nil
		})
		if err != nil {
			return err
		}
		if c == nil {
			continue
		}
		l.Pupil, l.File, l.Damaged, l.Drills = c.Pupil, c.Files[0], c.Damaged, len(drills)
		l.Others = c.Files[1:]
		if !c.Begun.IsZero() {
			l.Begun = c.Begun.Format(time.RFC3339)
		}
		if c.Entries > 0 {
			l.Last = logbook.Date(last).Format(time.DateOnly)
		}
		if !asJSON {
			fmt.Fprintf(out, "%-*s  %s\n", wide, mouth.Printable(c.Pupil), w.Say(tell.LogbookPupil(l.Practices, l.Runs, l.Drills, logbook.Date(last), c.Entries > 0)))
			continue
		}
		if _, err := out.Write(append(mouth.AppendJSON(out.AvailableBuffer(), &l), '\n')); err != nil {
			return exit.Trouble(err)
		}
	}
	return flushed(out)
}

func digest(s string) uint64 {
	h := fnv.New64a()
	_, _ = io.WriteString(h, s)
	return h.Sum64()
}

func put(w *world.World, text []byte) error {
	if _, err := w.Out.Write(text); err != nil {
		return exit.Trouble(err)
	}
	return nil
}

func flushed(out *bufio.Writer) error {
	if err := out.Flush(); err != nil {
		return exit.Trouble(err)
	}
	return nil
}

// printEntries lists entries, those of several pupils by time. As JSON, lines of kinds that a later version knows are printed too where
// nothing is filtered, each behind what it stands behind.
func printEntries(w *world.World, asJSON, named bool, f logbook.Filter, all func(logbook.Taker) error) error {
	x := logbook.Index{Filter: f, Later: asJSON}
	if err := all(x.Take); err != nil {
		return err
	}
	if x.Len() == 0 {
		w.Tell(words.T("logbook.nothing"))
		return nil
	}
	out := bufio.NewWriter(w.Out)
	err := x.Each(func(c *logbook.Contents, e *logbook.Entry) error {
		if asJSON {
			_, err := out.Write(appendWithPupil(out.AvailableBuffer(), c.Pupil, e.Raw))
			return err
		}
		name := ""
		if named {
			name = c.Pupil + "  "
		}
		_, err := fmt.Fprintln(out, mouth.Printable(e.At.Local().Format("2006-01-02 15:04:05")+"  "+name+w.Say(entryText(e))))
		return err
	})
	if err != nil {
		return exit.Trouble(errors.Join(err, out.Flush()))
	}
	return flushed(out)
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
func entryText(e *logbook.Entry) words.Text {
	c := &e.Practice.Craft
	switch e.Kind {
	case logbook.KindBegan:
		return tell.LogbookBegan(words.AsIs(c.Name), c.Arming, e.Practice.Radio, c.StickMode)
	case logbook.KindChanged:
		return tell.LogbookChanged(words.AsIs(c.Name), c.Arming, e.Practice.Radio, c.StickMode)
	case logbook.KindEnded:
		return tell.LogbookEnded(e.Lasted)
	case logbook.KindRefusals:
		codes := slices.SortedFunc(maps.Keys(e.Counts), func(a, b string) int { return cmp.Or(cmp.Compare(e.Counts[b], e.Counts[a]), cmp.Compare(a, b)) })
		var times []int64
		for _, code := range codes {
			times = append(times, e.Counts[code])
		}
		return tell.LogbookRefused(codes, times)
	}
	name := words.AsIs(e.Drill.Code)
	if e.Drill.Name != "" {
		name = words.T("logbook.drill", words.Args{"name": tell.DrillText(e.Drill.Code, e.Drill.Name), "code": words.Quote(e.Drill.Code)})
	}
	run := e.Run()
	return tell.LogbookRun(name, e.Drill.Hands, e.Drill.Learned, e.Drill.BrokenOff, e.Drill.CameIn, tell.DrillSum(drill.Summarise(run.Tries)))
}

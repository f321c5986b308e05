package terminal

import (
	"bytes"
	"cmp"
	"fmt"
	"hash/fnv"
	"io"
	"maps"
	"math"
	"slices"
	"time"

	"propsoff.example/assets/mouth"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/drill"
)

// Pupil sums up what a pupil did. Use NewPupil.
type Pupil struct {
	practices, runs int
	drills          map[uint64]bool // by their digests: a file from a stranger may name any number
	last            int32
}

// NewPupil has done nothing yet.
func NewPupil() *Pupil { return &Pupil{drills: map[uint64]bool{}, last: math.MinInt32} }

// Take counts an entry of the logbook (logbook.Taker).
func (p *Pupil) Take(_ *logbook.Contents, e *logbook.Entry) error {
	if !e.Later() {
		p.last = max(p.last, e.Day)
	}
	switch {
	case e.Kind == logbook.KindBegan:
		p.practices++
	case e.Kind == logbook.KindDrill && !e.Drill.BrokenOff:
		p.runs++
		h := fnv.New64a()
		_, _ = io.WriteString(h, e.Drill.Code)
		p.drills[h.Sum64()] = true
	}
	return nil
}

// Pupil appends one pupil's logbook as a line of a list, with names of at most wide places: in JSON with how many lines could not be used, and
// with other files of the same pupil, whose name was typed in another way.
func (f Form) Pupil(dst []byte, c *logbook.Contents, p *Pupil, wide int) []byte {
	entered := c.Entries > 0
	if !f.JSON {
		name := mouth.Printable(c.Pupil)
		return fmt.Appendf(dst, "%-*s  %s\n", wide, name, say(f.Book, tell.LogbookPupil(p.practices, p.runs, len(p.drills), logbook.Date(p.last), entered)))
	}
	begun, last, others := "", "", orNone(c.Files[1:])
	if !c.Begun.IsZero() {
		begun = c.Begun.Format(time.RFC3339)
	}
	if entered {
		last = logbook.Date(p.last).Format(time.DateOnly)
	}
	return AppendFields(dst, "pupil", c.Pupil, "begun", orNil(begun), "practices", p.practices, "runs", p.runs, "drills", len(p.drills), "last", orNil(last),
		"damaged", orNil(c.Damaged), "file", c.Files[0], "others", others)
}

// Entry appends an entry of a logbook: as JSON as it is kept, with the pupil's name as its first field; as text a line, with the name where
// several pupils are listed.
func (f Form) Entry(dst []byte, c *logbook.Contents, e *logbook.Entry, named bool) []byte {
	if f.JSON {
		rest := bytes.TrimLeft(bytes.TrimSpace(e.Raw)[1:], " \t")
		dst = mouth.AppendJSON(append(dst, `{"pupil":`...), c.Pupil)
		if len(rest) > 0 && rest[0] != '}' {
			dst = append(dst, ',')
		}
		return append(mouth.AppendEscaped(dst, rest), '\n')
	}
	name := ""
	if named {
		name = mouth.Printable(c.Pupil) + "  "
	}
	return fmt.Appendf(dst, "%s  %s%s\n", e.At.Local().Format(time.DateTime), name, say(f.Book, entryText(e)))
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
	case logbook.KindForeseen:
		if a, ok := e.Asked(); ok {
			return tell.LogbookForeseen(&a)
		}
		return words.T("logbook.foreseen-later")
	}
	name := words.AsIs(e.Drill.Code)
	if e.Drill.Name != "" {
		name = words.T("logbook.drill", words.Args{"name": tell.DrillText(e.Drill.Code, e.Drill.Name), "code": words.Quote(e.Drill.Code)})
	}
	run := e.Run()
	all := []words.Text{tell.LogbookRun(name, e.Drill.Hands, e.Drill.Learned, e.Drill.BrokenOff, e.Drill.CameIn, tell.DrillSum(drill.Summarise(run.Tries)))}
	for i := range run.Tries {
		all = append(all, tell.HandSentence(&run.Tries[i].Hand))
	}
	return words.Row(all...)
}

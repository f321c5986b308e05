package logbook

import (
	"bufio"
	"io"
	"maps"
	"slices"
	"strconv"
	"strings"
)

// Filter chooses entries. The zero Filter takes all.
type Filter struct {
	// Drill is a drill's code word; Verdict that of a verdict which at least one try must have. Entries of other kinds are left out then.
	Drill, Verdict string
	// Since and Until are the first and the last day, nil for none.
	Since, Until *int32
}

// All reports whether nothing is left out.
func (f *Filter) All() bool { return *f == Filter{} }

// Keeps reports whether an entry is taken.
func (f *Filter) Keeps(e *Entry) bool {
	switch {
	case f.Since != nil && e.Day < *f.Since, f.Until != nil && e.Day > *f.Until:
		return false
	case f.Drill != "" && (e.Kind != KindDrill || e.Drill.Code != f.Drill):
		return false
	case f.Verdict != "":
		return e.Kind == KindDrill && slices.ContainsFunc(e.Drill.Tries, func(t Try) bool { return t.Verdict == f.Verdict })
	}
	return true
}

// columns head the table.
var columns = [...]string{"pupil", "at", "day", "kind", "drill", "name", "seed", "learned", "broken_off", "try", "case", "verdict", "why", "number",
	"reaction_ms", "uncertain_ms", "allowed_ms", "refusal", "times", "lasted_ms", "program", "radio", "craft", "arming", "stick_mode", "gestures",
	"hands", "came_in", "question", "ask", "about", "showed",
	"axis", "mode", "delay_ms", "delay_within_ms", "crossover_mrad_s", "crossover_within_mrad_s", "noise_thousandths"}

// NewTable writes entries as a table (RFC 4180, every cell in quotation marks), one row for each try of a drill, one for each reason
// of refusals, one for anything else. The filter leaves out tries of other verdicts too.
//
// A spreadsheet takes a cell that begins with = + - @ for a formula and runs it, and a name is whatever somebody typed. So a cell that begins
// with one of these, with their wide forms, or with an apostrophe, spaces before them or not, gets an apostrophe in front, as does one that
// begins with a tab or a line's end: taking one apostrophe off what begins with one gives the text back. Numbers and times written here never begin so.
func NewTable(w io.Writer, f Filter) *Table {
	t := &Table{out: bufio.NewWriter(w), f: f, row: map[string]string{}}
	for _, n := range columns {
		t.row[n] = n
	}
	t.write()
	return t
}

// Table writes entries as a table, see NewTable.
type Table struct {
	out *bufio.Writer
	f   Filter
	row map[string]string // the cells that are not empty, by column
}

// Close writes what is still to be written.
func (t *Table) Close() error { return t.out.Flush() }

// write writes the row as it stands.
func (t *Table) write() {
	for i, n := range columns {
		if i > 0 {
			t.out.WriteByte(',')
		}
		t.out.WriteByte('"')
		t.out.WriteString(strings.ReplaceAll(harmless(t.row[n]), `"`, `""`))
		t.out.WriteByte('"')
	}
	t.out.WriteString("\r\n")
}

// Take writes the rows of an entry; it is for Read.
func (t *Table) Take(c *Contents, e *Entry) error {
	if e.Later() || !t.f.Keeps(e) {
		return nil
	}
	clear(t.row)
	put := func(name, text string) { t.row[name] = text }
	put("pupil", c.Pupil)
	put("at", e.At.Format(stamp))
	put("day", Date(e.Day).Format(day))
	put("kind", string(e.Kind))
	switch e.Kind {
	case KindBegan, KindChanged:
		put("program", e.Practice.Program)
		put("radio", e.Practice.Radio)
		put("craft", e.Practice.Craft.Name)
		put("arming", e.Practice.Craft.Arming)
		put("gestures", e.Practice.Craft.Gestures)
		if n := e.Practice.Craft.StickMode; n > 0 {
			put("stick_mode", strconv.Itoa(n))
		}
	case KindEnded:
		put("lasted_ms", strconv.FormatInt(e.Lasted.Milliseconds(), 10))
	case KindRefusals:
		for _, code := range slices.Sorted(maps.Keys(e.Counts)) {
			put("refusal", code)
			put("times", strconv.FormatInt(e.Counts[code], 10))
			t.write()
		}
		return t.failed()
	case KindForeseen:
		q := &e.Foreseen
		put("question", q.Question)
		put("ask", q.Ask)
		put("about", q.About)
		put("showed", q.Showed)
	case KindDrill:
		d := &e.Drill
		put("drill", d.Code)
		put("name", d.Name)
		put("seed", d.Seed)
		put("learned", strconv.FormatBool(d.Learned))
		put("broken_off", strconv.FormatBool(d.BrokenOff))
		put("hands", strings.Join(d.Hands, " "))
		put("came_in", d.CameIn)
		for n := range d.Tries {
			try := &d.Tries[n]
			if t.f.Verdict != "" && try.Verdict != t.f.Verdict {
				continue
			}
			put("try", strconv.Itoa(n+1))
			put("case", strconv.Itoa(int(try.Case)))
			put("verdict", try.Verdict)
			put("why", try.Why)
			put("number", strconv.Itoa(int(try.Number)))
			put("reaction_ms", "")
			if try.Reaction != nil {
				put("reaction_ms", strconv.Itoa(int(*try.Reaction)))
			}
			put("uncertain_ms", strconv.Itoa(int(try.Uncertain)))
			put("allowed_ms", strconv.Itoa(int(try.Allowed)))
			t.hand(try.Hand)
			t.write()
		}
		if len(d.Tries) > 0 {
			return t.failed()
		}
	}
	t.write()
	return t.failed()
}

// hand puts what a mark said of the hand, and nothing where none was followed, or none could be measured.
func (t *Table) hand(h *Hand) {
	if h == nil {
		h = &Hand{}
	}
	t.row["axis"], t.row["mode"] = h.Axis, h.Mode
	for name, n := range map[string]int32{"delay_ms": h.DelayMS, "delay_within_ms": h.DelayWithin, "crossover_mrad_s": h.Crossover,
		"crossover_within_mrad_s": h.CrossoverWithin, "noise_thousandths": h.Noise} {
		if t.row[name] = ""; h.Measured {
			t.row[name] = strconv.Itoa(int(n))
		}
	}
}

// failed is the error of a write that has failed, so that nobody reads on for nothing.
func (t *Table) failed() error {
	_, err := t.out.Write(nil)
	return err
}

// harmless is a cell that no spreadsheet takes for a formula.
func harmless(s string) string {
	if strings.HasPrefix(s, "\t") || strings.HasPrefix(s, "\r") || strings.HasPrefix(s, "\n") {
		return "'" + s
	}
	for _, sign := range []string{"=", "+", "-", "@", "'", "＝", "＋", "－", "＠"} {
		if strings.HasPrefix(strings.TrimSpace(s), sign) {
			return "'" + s
		}
	}
	return s
}

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

// CSVColumns head the table that CSV writes.
func CSVColumns() []string {
	return []string{"pupil", "at", "day", "kind", "drill", "name", "seed", "learned", "broken_off", "try", "case", "verdict", "why", "number",
		"reaction_ms", "uncertain_ms", "allowed_ms", "refusal", "times", "lasted_ms", "program", "radio", "craft", "arming", "stick_mode", "gestures",
		"hands", "came_in"}
}

// CSV writes entries as a table (RFC 4180, every cell in quotation marks), one row for each try of a drill, one for each reason
// of refusals, one for anything else. The filter leaves out tries of other verdicts too.
//
// A spreadsheet takes a cell that begins with = + - @ for a formula and runs it, and a name is whatever somebody typed. So a cell that begins
// with one of these, with their wide forms, or with an apostrophe, spaces before them or not, gets an apostrophe in front, as does one that
// begins with a tab or a line's end: taking one apostrophe off what begins with one gives the text back. Numbers and times written here never begin so.
func CSV(w io.Writer, all []*Contents, f *Filter) error {
	out := bufio.NewWriter(w)
	names := CSVColumns()
	at := map[string]int{}
	for i, n := range names {
		at[n] = i
	}
	row := make([]string, len(names))
	write := func(cells []string) {
		for i, c := range cells {
			if i > 0 {
				out.WriteByte(',')
			}
			out.WriteByte('"')
			out.WriteString(strings.ReplaceAll(harmless(c), `"`, `""`))
			out.WriteByte('"')
		}
		out.WriteString("\r\n")
	}
	write(names)
	for _, c := range all {
		for i := range c.Entries {
			e := &c.Entries[i]
			if !f.Keeps(e) {
				continue
			}
			put := func(name, text string) { row[at[name]] = text }
			clear(row)
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
					write(row)
				}
				continue
			case KindDrill:
				d := &e.Drill
				put("drill", d.Code)
				put("name", d.Name)
				put("seed", strconv.FormatUint(d.Seed, 10))
				put("learned", strconv.FormatBool(d.Learned))
				put("broken_off", strconv.FormatBool(d.BrokenOff))
				put("hands", strings.Join(d.Hands, " "))
				put("came_in", d.CameIn)
				for n := range d.Tries {
					t := &d.Tries[n]
					if f.Verdict != "" && t.Verdict != f.Verdict {
						continue
					}
					put("try", strconv.Itoa(n+1))
					put("case", strconv.Itoa(int(t.Case)))
					put("verdict", t.Verdict)
					put("why", t.Why)
					put("number", strconv.Itoa(int(t.Number)))
					put("reaction_ms", "")
					if t.Reaction >= 0 {
						put("reaction_ms", strconv.Itoa(int(t.Reaction)))
					}
					put("uncertain_ms", strconv.Itoa(int(t.Uncertain)))
					put("allowed_ms", strconv.Itoa(int(t.Allowed)))
					write(row)
				}
				if len(d.Tries) > 0 {
					continue
				}
			}
			write(row)
		}
	}
	return out.Flush()
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

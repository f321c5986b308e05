package logbook

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"propsoff.example/assets/words"
)

// mostLine is the longest line that is read, in bytes; the longest that is written is a hundredth of it.
const mostLine = 1 << 20

// headerWord is what the first line begins its field propsoff with.
const headerWord = "logbook "

// Times are RFC 3339, UTC, with Z: what an entry has to the ms, when a logbook was begun to the ns, by which it is told from another
// of its name.
const (
	stamp  = "2006-01-02T15:04:05.000Z"
	moment = "2006-01-02T15:04:05.000000000Z"
	day    = time.DateOnly
)

// header is the first line.
type header struct {
	Propsoff string `json:"propsoff"`
	Pupil    string `json:"pupil"`
	Begun    string `json:"begun"`
}

// version of a header; ok is false where it is none of a logbook.
func (h *header) version() (n int, ok bool) {
	word, ok := strings.CutPrefix(h.Propsoff, headerWord)
	n, err := strconv.Atoi(word)
	return n, ok && err == nil && n > 0 && strconv.Itoa(n) == word
}

func appendHeader(dst []byte, pupil string, begun time.Time) ([]byte, error) {
	return appendJSON(dst, header{headerWord + strconv.Itoa(Version), pupil, begun.UTC().Format(moment)})
}

// line is an entry as it is written: the names and the order of fields.
type line struct {
	At   string `json:"at"`
	Day  string `json:"day"`
	Kind Kind   `json:"kind"`
	*Practice
	LastedMS *int64 `json:"lasted_ms,omitempty"`
	*Drill
	Counts map[string]int64 `json:"counts,omitempty"`
	*Foreseen
}

// appendEntry appends the line of an entry with its end.
func appendEntry(dst []byte, e *Entry) ([]byte, error) {
	if err := e.check(); err != nil {
		return dst, err
	}
	l := line{At: e.At.UTC().Format(stamp), Day: Date(e.Day).Format(day), Kind: e.Kind}
	switch e.Kind {
	case KindBegan, KindChanged:
		l.Practice = &e.Practice
	case KindEnded:
		l.LastedMS = new(e.Lasted.Milliseconds())
	case KindRefusals:
		l.Counts = e.Counts
	case KindDrill:
		l.Drill = &e.Drill
	case KindForeseen:
		l.Foreseen = &e.Foreseen
	}
	from := len(dst)
	dst, err := appendJSON(dst, &l)
	if err != nil {
		return dst[:from], err
	}
	if len(dst)-from > mostLine {
		return dst[:from], words.Wrong("logbook-file.entry-long", words.Args{"n": words.Whole(len(dst) - from), "most": words.Whole(mostLine)})
	}
	if _, _, err := parse(dst[from : len(dst)-1]); err != nil { // what cannot be read is never written
		return dst[:from], err
	}
	return dst, nil
}

func appendJSON(dst []byte, v any) ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false) // names stay readable
	if err := enc.Encode(v); err != nil {
		return dst, err
	}
	return append(dst, b.Bytes()...), nil
}

// parse reads one line without its end: a first line, or an entry. An error says what is wrong with it.
func parse(b []byte) (*header, Entry, error) {
	if err := checkLine(b); err != nil {
		return nil, Entry{}, err
	}
	var l struct {
		header
		line
	}
	if err := json.Unmarshal(b, &l); err != nil {
		return nil, Entry{}, plainJSON(err)
	}
	if l.Propsoff != "" {
		if _, ok := l.version(); !ok {
			return nil, Entry{}, words.Wrong("logbook-file.no-logbook", words.Args{"text": quoted(l.Propsoff)})
		}
		return &l.header, Entry{}, nil
	}
	e, err := l.entry()
	return nil, e, err
}

func (l *line) entry() (Entry, error) {
	e := Entry{Kind: l.Kind}
	switch {
	case l.Kind == "":
		return e, words.Wrong("logbook-file.kind-missing")
	case e.Later():
		return e, nil
	}
	at, err := time.Parse(time.RFC3339, l.At)
	if err != nil {
		return e, words.Wrong("logbook-file.no-time", words.Args{"text": quoted(l.At)})
	}
	d, err := time.Parse(day, l.Day)
	if err != nil {
		return e, words.Wrong("logbook-file.no-day", words.Args{"text": quoted(l.Day)})
	}
	e.At, e.Day = at.UTC().Truncate(time.Millisecond), Day(d)
	if l.Practice != nil {
		e.Practice = *l.Practice
	}
	if ms := l.LastedMS; ms != nil {
		if *ms < 0 || *ms > int64(100*365*24*time.Hour/time.Millisecond) {
			return e, words.Wrong("logbook-file.lasted", words.Args{"ms": words.Whole(*ms)})
		}
		e.Lasted = time.Duration(*ms) * time.Millisecond
	}
	e.Counts = l.Counts
	for word, n := range l.Counts {
		if n < 0 {
			return e, words.Wrong("logbook-file.counted", words.Args{"what": words.Quote(Shortened(word, mostQuoted)), "n": words.Whole(n)})
		}
	}
	if l.Kind == KindDrill && l.Drill != nil {
		e.Drill = *l.Drill
		if err := e.Drill.check(); err != nil {
			return e, err
		}
	}
	if l.Kind == KindForeseen && l.Foreseen != nil {
		e.Foreseen = *l.Foreseen
	}
	return e, e.check()
}

// check says what is wrong with a run, and writes its seed as every seed is written.
func (d *Drill) check() error {
	seed, err := strconv.ParseUint(cmp.Or(d.Seed, "0"), 10, 64)
	if err != nil {
		return words.Wrong("logbook-file.seed", words.Args{"text": quoted(d.Seed)})
	}
	d.Seed = strconv.FormatUint(seed, 10)
	for i, t := range d.Tries {
		switch {
		case t.Verdict == "":
			return words.Wrong("logbook-file.no-verdict", words.Args{"n": words.Whole(i + 1)})
		case t.Reaction != nil && *t.Reaction < 0, t.Allowed < 0:
			return words.Wrong("logbook-file.time-below", words.Args{"n": words.Whole(i + 1)})
		case t.Hand == nil:
			continue
		}
		if err := t.Hand.check(i + 1); err != nil {
			return err
		}
	}
	return nil
}

// plainJSON says an error of the standard library's reader in plain words.
func plainJSON(err error) error {
	var kind *json.UnmarshalTypeError
	if errors.As(err, &kind) {
		field := kind.Field[strings.LastIndexByte(kind.Field, '.')+1:] // what stands before it are names of this program's own
		return words.Wrong("logbook-file.cannot-be", words.Args{"field": words.Quote(field)})
	}
	return err
}

// errEmpty is said of so many lines at times that it is made once.
var errEmpty = words.Wrong("logbook-file.line-empty")

// checkLine refuses what is no JSON object, what is not UTF-8, and what names a field twice, for the standard library would take the
// last one silently. Large and small letters of a name count as the same, as they do for that library.
func checkLine(b []byte) error {
	switch rest := bytes.TrimSpace(b); {
	case len(rest) == 0:
		return errEmpty
	case len(bytes.Trim(rest, "\x00")) == 0:
		return words.Wrong("logbook-file.zeros")
	case !utf8.Valid(b):
		return words.Wrong("logbook-file.not-utf8")
	case !json.Valid(b):
		return words.Wrong("logbook-file.not-json")
	case rest[0] != '{':
		return words.Wrong("logbook-file.not-object")
	}
	return twice(b)
}

// twice looks for a name that stands twice in one object of valid JSON. The names of an object are sorted once it ends, so that a line
// of a hundred thousand names takes no longer than as many lines of one.
func twice(b []byte) error {
	type name struct{ folded, text string }
	var names []name // those of every open object, one object after the other
	var open []int   // where each open object begins in them; −1 for an array
	for i := 0; i < len(b); i++ {
		switch b[i] {
		case '{':
			open = append(open, len(names))
		case '[':
			open = append(open, -1)
		case '}', ']':
			from := open[len(open)-1]
			open = open[:len(open)-1]
			if from < 0 {
				continue
			}
			of := names[from:]
			slices.SortStableFunc(of, func(a, b name) int { return strings.Compare(a.folded, b.folded) })
			for k := 1; k < len(of); k++ {
				if of[k].folded == of[k-1].folded {
					return words.Wrong("logbook-file.twice", words.Args{"name": quoted(of[k].text)})
				}
			}
			names = names[:from]
		case '"':
			from := i
			for i++; b[i] != '"'; i++ {
				if b[i] == '\\' {
					i++
				}
			}
			if in := len(open) - 1; in < 0 || open[in] < 0 || !bytes.HasPrefix(bytes.TrimLeft(b[i+1:], " \t\r\n"), []byte{':'}) {
				continue // a value
			}
			text := string(b[from+1 : i])
			if strings.Contains(text, `\`) {
				if err := json.Unmarshal(b[from:i+1], &text); err != nil {
					return err
				}
			}
			names = append(names, name{strings.Map(simplest, text), text})
		}
	}
	return nil
}

// simplest is the first of the letters that differ in being large or small only, as strings.EqualFold has it.
func simplest(r rune) rune {
	first := r
	for other := unicode.SimpleFold(r); other != r; other = unicode.SimpleFold(other) {
		first = min(first, other)
	}
	return first
}

package logbook

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A few lines are damaged, anywhere and anyhow: every other one is read as it was written, at its own line, and each damaged one is told of
// by its line. A new entry can be appended to whatever that has left.
func TestDamagedLines(t *testing.T) {
	dir := t.TempDir()
	s := Store{dir}
	path := written(t, s, "A", 0, 30).Path()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	lines := bytes.Split(bytes.TrimSuffix(text, []byte("\n")), []byte("\n"))
	rapid.Check(t, func(t *rapid.T) {
		now := slices.Clone(lines)
		hurt := map[int]bool{}
		for range rapid.IntRange(0, 6).Draw(t, "how many") {
			i := rapid.IntRange(0, len(now)-1).Draw(t, "line")
			if hurt[i] {
				continue // two damages may undo each other
			}
			l := bytes.Clone(now[i])
			at := rapid.IntRange(1, len(l)-2).Draw(t, "at")
			switch rapid.SampledFrom([]string{"cut", "nothing", "zeros", "junk", "latin", "twice", "joined"}).Draw(t, "how") {
			case "cut":
				l = l[:at]
			case "nothing":
				l = nil
			case "zeros":
				l = make([]byte, at)
			case "junk":
				l = []byte("+" + strings.ReplaceAll(rapid.String().Draw(t, "junk"), "\n", " "))
			case "latin":
				l[at] = 0xe4
			case "twice":
				l = append([]byte(`{"kind":1,`), l[1:]...)
				if i == 0 { // the first line has no such field
					l = []byte(`{"a":1,"\u0041":2}`)
				}
			case "joined":
				l = append(l, lines[(i+1)%len(lines)]...)
			}
			now[i], hurt[i] = l, true
		}
		if err := os.WriteFile(path, append(bytes.Join(now, []byte("\n")), '\n'), 0o600); err != nil {
			t.Fatal(err)
		}
		see := func(extra ...Entry) {
			c, err := s.all("A")
			if err != nil {
				t.Fatal(err)
			}
			var want []Entry
			for i := range 30 {
				if !hurt[i+1] {
					e := some(i)
					e.Line, e.Raw = i+2, lines[i+1]
					want = append(want, e)
				}
			}
			got := c.Entries
			if len(extra) > 0 && len(got) > 0 {
				last := bare(got[len(got)-1:])
				if !reflect.DeepEqual(last, extra) {
					t.Fatalf("appended: %+v", last)
				}
				got = got[:len(got)-1]
			}
			if len(got) != len(want) || len(want) > 0 && !reflect.DeepEqual(got, want) {
				at := func(es []Entry) (out []int) {
					for i := range es {
						out = append(out, es[i].Line-1)
					}
					return out
				}
				t.Fatalf("damaged are %v, read were %v, and should be %v", hurt, at(got), at(want))
			}
			if len(hurt) == 0 {
				if len(c.Notices) > 0 {
					t.Fatalf("nothing is damaged, and told is %v", c.Notices)
				}
				return
			}
			lines := slices.Sorted(maps.Keys(hurt))
			if len(c.Notices) != 1 || c.Damaged != len(hurt) || c.Notices[0].Damaged != len(hurt) || c.Notices[0].Torn {
				t.Fatalf("damaged are %v, told of %v", hurt, c.Notices)
			}
			text := c.Notices[0].Problem().Error()
			if !strings.HasPrefix(text, fmt.Sprintf("%s:%d: ", path, lines[0]+1)) {
				t.Fatalf("notice %v", text)
			}
			for i, n := range lines {
				if len(lines) > 1 && (i < 3) != strings.Contains(text, fmt.Sprintf(" line %d: ", n+1)) {
					t.Fatalf("damaged are %v, told of %v", hurt, text)
				}
			}
		}
		see()
		b, err := s.Open("A", begun)
		if err != nil {
			t.Fatal(err)
		}
		if err := b.Append(some(77)); err != nil {
			t.Fatal(err)
		}
		see(some(77))
	})
}

func TestWordsForDamage(t *testing.T) {
	for text, want := range map[string]string{
		"":                                 "it is empty",
		"\x00\x00":                         "filled with zeros",
		"{\"a\":\"\xe4\"}":                 "not UTF-8",
		"{\"kind\":":                       "not whole",
		"null":                             "not an entry of a logbook", // a JSON value, so a line of JSON Lines (jsonlines.org), but no entry
		"[1,2]":                            "not an entry of a logbook",
		"{\"kind\":NaN}":                   "not whole", // RFC 8259, 6: no NaN, no leading zeros
		"{\"a\":01}":                       "not whole",
		"{}":                               "does not say what kind",
		`{"kind":7}`:                       "kind has a value that cannot stand there",
		`{"a":1,"b":2,"a":1}`:              `names “a” twice`,
		`{"a":{"x":[{"é":1,"\u00e9":2}]}}`: `names “é” twice`,
		`{"kind":"ended","Kind":"ended"}`:  `names “Kind” twice`,
		`{"propsoff":"take 1"}`:            `“take 1”, and no logbook`,
		`{"propsoff":"logbook 01"}`:        `no logbook`,
		`{"kind":"ended"}`:                 "at is “”",
		`{"kind":"ended","at":"2031-04-05 08:20:11Z"}`:                                                                                       "at is",
		`{"kind":"ended","at":"2031-04-05T08:20:11Z","day":"5.4.2031"}`:                                                                      "day is “5.4.2031”",
		`{"kind":"ended","at":"2031-04-05T08:20:11Z","day":"2031-04-05","lasted_ms":-1}`:                                                     "lasted_ms is -1",
		`{"kind":"ended","at":"2031-04-05T08:20:11Z","day":"2031-04-05","lasted_ms":9007199254740993}`:                                       "lasted_ms is 9007199254740993",
		`{"kind":"drill","at":"2031-04-05T08:20:11Z","day":"2031-04-05"}`:                                                                    "code word",
		`{"kind":"drill","at":"2031-04-05T08:20:11Z","day":"2031-04-05","drill":"a","seed":"-1"}`:                                            "seed is",
		`{"kind":"drill","at":"2031-04-05T08:20:11Z","day":"2031-04-05","drill":"a","tries":[{}]}`:                                           "try 1 has no verdict",
		`{"kind":"drill","at":"2031-04-05T08:20:11Z","day":"2031-04-05","drill":"a","tries":[{"verdict":"right","reaction_ms":-4}]}`:         "try 1 has a time below 0",
		`{"kind":"drill","at":"2031-04-05T08:20:11Z","day":"2031-04-05","drill":"a","tries":[{"verdict":"right","reaction_ms":5000000000}]}`: "reaction_ms has a value that cannot stand there",
		`{"kind":"refusals","at":"2031-04-05T08:20:11Z","day":"2031-04-05","counts":{"tilted":-1}}`:                                          "tilted was counted -1 times",
		`{"kind":"refusals","at":"2031-04-05T08:20:11Z","day":"2031-04-05","counts":{"tilted":1.5}}`:                                         "counts has a value that cannot stand there",
		"{\"kind\":\"ended\",\"at\":\"2031-04-05T08:20:11Z\",\"day\":\"2031-04-05\"}" + strings.Repeat("]", 3):                               "not whole",
		strings.Repeat("[", 20000): "not whole",
	} {
		_, _, err := parse([]byte(text))
		assert.ErrorContains(t, err, want, "%.80s", text)
		assert.NotRegexp(t, `(line|header|Drill)\.`, err.Error(), "a name of this program's own") // not of the file
	}
	// What is right: an offset from UTC, fields and kinds of a later version, a return before the line's end, no end at all.
	c, err := readAll(strings.NewReader("{\"kind\":\"ended\",\"at\":\"1996-12-19T16:39:57-08:00\",\"day\":\"1996-12-19\",\"later\":{\"a\":[1]}}\r\n{\"kind\":\"flown\",\"x\":1}\n"+
		`{"kind":"ended","at":"1985-04-12T23:20:50.52Z","day":"1985-04-12"}`), "f", "A")
	require.NoError(t, err)
	require.Len(t, c.Entries, 2)
	assert.Equal(t, time.Date(1996, 12, 20, 0, 39, 57, 0, time.UTC), c.Entries[0].At) // RFC 3339, 5.8
	assert.Equal(t, time.Date(1985, 4, 12, 23, 20, 50, 52e7, time.UTC), c.Entries[1].At)
	assert.Equal(t, []Entry{{Kind: "flown", Line: 2, Raw: []byte(`{"kind":"flown","x":1}`)}}, c.Later)
	require.Len(t, c.Notices, 1)
	assert.Contains(t, c.Notices[0].Problem().Error(), "first line does not say")
}

func TestLongLines(t *testing.T) {
	junk := strings.Repeat("x", mostLine+7)
	line, err := appendEntry(nil, &Entry{At: begun, Kind: KindEnded})
	require.NoError(t, err)
	head, err := appendHeader(nil, "A", begun)
	require.NoError(t, err)
	c, err := readAll(strings.NewReader(string(head)+junk+"\n"+string(line)+strings.Repeat("\x00", 3*mostLine)), "f", "A")
	require.NoError(t, err)
	assert.Len(t, c.Entries, 1)
	require.Len(t, c.Notices, 1)
	assert.Equal(t, "f:2: 2 lines were left out, everything else is read: line 2: it is longer than 1048576 bytes; line 4: it is torn, as a kill or a full disk may leave it", c.Notices[0].Problem().Error())
	assert.True(t, c.Notices[0].Torn)
	c, err = readAll(strings.NewReader("\ufeff"+string(head)+string(line)), "f", "A")
	require.NoError(t, err)
	assert.Len(t, c.Entries, 1)
	assert.Equal(t, begun, c.Begun)
	require.Len(t, c.Notices, 1)
	assert.Contains(t, c.Notices[0].Problem().Error(), "f:1: a byte-order mark stands")
}

var update = flag.Bool("update", false, "write the golden of this version anew; that of an older version never changes")

// Logbooks of every version that there ever was are read for ever, as they were.
func TestOldLogbooksAreReadForEver(t *testing.T) {
	s := Store{"testdata"}
	if *update {
		require.NoError(t, os.WriteFile("testdata/entries-1.json", golden(t, s), 0o666))
	}
	want, err := os.ReadFile("testdata/entries-1.json")
	require.NoError(t, err)
	assert.Equal(t, string(want), string(golden(t, s)))
}

// plainEntry is an entry as the golden file has it, whatever the tags of Entry are.
type plainEntry struct {
	At       time.Time
	Day      int32
	Kind     Kind
	Practice struct {
		Program, Radio string
		Craft          Craft
	}
	Lasted time.Duration
	Drill  struct {
		Code, Name                      string
		Seed                            uint64
		Hands                           []string `json:",omitempty"`
		CameIn                          string   `json:",omitempty"`
		Learned, BrokenOff, Unannounced bool
		Tries                           []plainTry
	}
	Counts map[string]int64
	Line   int
	Raw    []byte
}

type plainTry struct {
	Tick         int64
	Case         uint8
	Verdict, Why string
	Number       uint8
	Reaction     int32 // ms, −1 for none
	Uncertain    uint16
	Allowed      int32
}

func plain(t *testing.T, e *Entry) (p plainEntry) {
	p.At, p.Day, p.Kind, p.Lasted, p.Counts, p.Line = e.At, e.Day, e.Kind, e.Lasted, e.Counts, e.Line
	p.Practice.Program, p.Practice.Radio, p.Practice.Craft = e.Practice.Program, e.Practice.Radio, e.Practice.Craft
	d := &e.Drill
	if e.Kind == KindDrill {
		var err error
		p.Drill.Seed, err = strconv.ParseUint(d.Seed, 10, 64)
		require.NoError(t, err)
	}
	p.Drill.Code, p.Drill.Name, p.Drill.Hands, p.Drill.CameIn = d.Code, d.Name, d.Hands, d.CameIn
	p.Drill.Learned, p.Drill.BrokenOff, p.Drill.Unannounced = d.Learned, d.BrokenOff, d.Unannounced
	for _, y := range d.Tries {
		n := plainTry{y.Tick, y.Case, y.Verdict, y.Why, y.Number, -1, y.Uncertain, y.Allowed}
		if y.Reaction != nil {
			n.Reaction = *y.Reaction
		}
		p.Drill.Tries = append(p.Drill.Tries, n)
	}
	return p
}

func golden(t *testing.T, s Store) []byte {
	c, err := s.all("Version 1")
	require.NoError(t, err)
	type later struct {
		Kind Kind
		Line int
	}
	var out struct {
		Begun   time.Time
		Version int
		Entries []plainEntry
		Later   []later
		Notices []string
	}
	out.Begun, out.Version = c.Begun, c.Version
	for i := range c.Entries {
		out.Entries = append(out.Entries, plain(t, &c.Entries[i]))
	}
	for _, l := range c.Later {
		out.Later = append(out.Later, later{l.Kind, l.Line})
	}
	for _, n := range c.Notices {
		out.Notices = append(out.Notices, filepath.ToSlash(n.Problem().Error()))
	}
	b, err := json.MarshalIndent(out, "", " ")
	require.NoError(t, err)
	return append(b, '\n')
}

// Whatever a file holds, reading it ends, and what is read of it can be written and is then read the same.
func FuzzRead(f *testing.F) {
	text, err := os.ReadFile(filepath.Join("testdata", fileName("Version 1")))
	require.NoError(f, err)
	for _, line := range bytes.SplitAfter(text, []byte("\n")) {
		f.Add(line)
	}
	for i := range 5 {
		e := some(i)
		line, err := appendEntry(nil, &e)
		require.NoError(f, err)
		f.Add(line)
	}
	f.Add([]byte("\ufeff{\"propsoff\":\"logbook 2\"}\n\n\x00"))
	f.Fuzz(func(t *testing.T, data []byte) {
		c, err := readAll(bytes.NewReader(data), "f", "A")
		if err != nil {
			t.Fatal(err)
		}
		if lines := bytes.Count(data, []byte("\n")) + 1; len(c.Entries)+len(c.Later) > lines {
			t.Fatalf("%d entries in %d lines", len(c.Entries), lines)
		}
		for i := range c.Entries {
			e := &c.Entries[i]
			line, err := appendEntry(nil, e)
			if err != nil {
				t.Fatalf("%s\nis read and cannot be written: %v", e.Raw, err)
			}
			_, back, err := parse(line[:len(line)-1])
			if err != nil {
				t.Fatal(err)
			}
			again, err := appendEntry(nil, &back)
			if err != nil || !bytes.Equal(line, again) {
				t.Fatalf("%s\n%s\n%v", line, again, err)
			}
		}
	})
}

func BenchmarkRead10000(b *testing.B) {
	s := Store{b.TempDir()}
	book, err := s.Open("A", begun)
	require.NoError(b, err)
	var all []Entry
	for i := range 10_000 {
		all = append(all, some(i))
	}
	require.NoError(b, book.Append(all...))
	st, err := os.Stat(book.Path())
	require.NoError(b, err)
	b.SetBytes(st.Size())
	b.ReportAllocs()
	for b.Loop() {
		if c, err := s.all("A"); err != nil || len(c.Entries) != 10_000 {
			b.Fatal(err)
		}
	}
}

func benchmarkAppend(b *testing.B, sync bool) {
	book, err := Store{b.TempDir()}.Open("A", begun)
	require.NoError(b, err)
	book.Sync = sync
	e := some(4)
	for b.Loop() {
		if err := book.Append(e); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAppend(b *testing.B)     { benchmarkAppend(b, false) }
func BenchmarkAppendSync(b *testing.B) { benchmarkAppend(b, true) }

package take

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"propsoff.example/sim/pulse"
)

// memory is a file in memory that may fail after so many bytes.
type memory struct {
	bytes.Buffer
	room int // -1: without end
	err  error
}

func (m *memory) Write(b []byte) (int, error) {
	if m.room >= 0 && len(b) > m.room {
		n, _ := m.Buffer.Write(b[:m.room])
		m.room = 0
		return n, m.err
	}
	if m.room >= 0 {
		m.room -= len(b)
	}
	return m.Buffer.Write(b)
}
func (m *memory) Truncate(n int64) error { m.Buffer.Truncate(int(n)); return nil }
func (m *memory) Sync() error            { return nil }
func (m *memory) Close() error           { return nil }

var testSettings = Settings{
	Program: "test 1", CraftName: "built-in", CraftText: "propsoff: craft 1\n", RadioName: "desk.yaml",
	RadioText: "propsoff: radio 1\n", Note: "desk bench", Codes: []string{"", "armed", "disarmed", "refused"},
	Model: 2, CraftFilled: "propsoff: craft 1\nname: all\n", GesturesFilled: "propsoff: gestures 1\n",
}

// newWriter begins a take in f.
func newWriter(name string, f file, s Settings) (*Writer, error) {
	o := &output{path: name, f: f, from: s.From}
	if err := o.write(firstLine(), s.From, false); err != nil {
		return nil, err
	}
	w := writerTo(o)
	return w, w.Part(s)
}

// write writes entries and returns the file's bytes.
func write(t interface{ Fatal(...any) }, s Settings, es []Entry, closed bool) []byte {
	m := &memory{room: -1}
	w, err := newWriter("mem", m, s)
	if err != nil {
		t.Fatal(err)
	}
	put(t, w, es)
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	if closed {
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
	}
	return m.Bytes()
}

func put(t interface{ Fatal(...any) }, w *Writer, es []Entry) {
	for _, e := range es {
		var err error
		switch e.Kind {
		case Reading:
			err = w.Reading(e.Tick, e.Reading)
		case Happening:
			err = w.Happening(e.Tick, e.Code, e.A, e.B)
		case Digest:
			err = w.Digest(e.Tick, e.Digest)
		case Part:
			err = w.Part(partFrom(e.Tick))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

// partFrom are the settings of a part that begins at a tick.
func partFrom(tick int64) Settings {
	s := testSettings
	s.Note, s.From = fmt.Sprint("part from ", tick), tick
	frame := pulse.Frame{pulse.Low, pulse.High, pulse.Missing, -1}
	s.Stands = []pulse.Reading{
		{At: tick * 1000, Kind: pulse.Plug, Value: 1}, {At: tick * 1000, Kind: pulse.Controls, Frame: frame},
		{At: tick / 2 * 1000, Kind: pulse.Instructor, Value: -7}, {At: 0, Kind: pulse.Tilt, Value: 1800},
	}
	return s
}

// drain reads everything; err is what ended it.
func drain(r *Reader) (es []Entry, err error) {
	for {
		e, err := r.Next()
		if err != nil {
			return es, err
		}
		es = append(es, e)
	}
}

func load(t *testing.T, b []byte) ([]Entry, *Reader) {
	t.Helper()
	r, err := NewReader(bytes.NewReader(b), "mem")
	if err != nil {
		t.Fatal(err)
	}
	es, err := drain(r)
	if err != io.EOF {
		t.Fatal(err)
	}
	return es, r
}

// anyEntries draws entries of all kinds with widths, values and ticks up to their limits.
func anyEntries(t *rapid.T) []Entry {
	var es []Entry
	var tick int64
	var frame pulse.Frame
	n := rapid.IntRange(0, 200).Draw(t, "n")
	for range n {
		tick += rapid.OneOf(rapid.Int64Range(0, 3), rapid.Int64Range(13, 17), rapid.Int64Range(0, LongestTicks)).Draw(t, "d")
		tick = min(tick, LongestTicks)
		e := Entry{Tick: tick, Kind: Kind(rapid.IntRange(1, 4).Draw(t, "kind"))}
		switch e.Kind {
		case Reading:
			e.Reading = pulse.Reading{At: tick * 1000, Kind: pulse.Kind(rapid.IntRange(int(pulse.Controls), int(pulse.KindCount)-1).Draw(t, "reading"))}
			if e.Reading.Kind == pulse.Controls {
				for range rapid.IntRange(0, 4).Draw(t, "moved") {
					frame[rapid.IntRange(0, 15).Draw(t, "channel")] = pulse.Width(rapid.Int16().Draw(t, "width"))
				}
				e.Reading.Frame = frame
			} else {
				e.Reading.Value = rapid.Int32().Draw(t, "value")
			}
		case Happening:
			e.Code, e.A, e.B = rapid.Uint8().Draw(t, "code"), rapid.Int32().Draw(t, "a"), rapid.Int32().Draw(t, "b")
		case Digest:
			e.Digest = rapid.Uint64().Draw(t, "digest")
		case Part:
			frame = pulse.Frame{} // a part needs nothing of the one before
		}
		es = append(es, e)
	}
	return es
}

func same(a, b []Entry) bool { return len(a) == 0 && len(b) == 0 || reflect.DeepEqual(a, b) }

func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		es := anyEntries(t)
		closed := rapid.Bool().Draw(t, "closed")
		r, err := NewReader(bytes.NewReader(write(t, testSettings, es, closed)), "mem")
		if err != nil {
			t.Fatal(err)
		}
		got, err := drain(r)
		if err != io.EOF || !same(got, es) {
			t.Fatalf("read %d of %d entries, %v", len(got), len(es), err)
		}
		want := testSettings
		for _, e := range es {
			if e.Kind == Part {
				want = partFrom(e.Tick)
			}
		}
		if r.Closed() != closed || r.Torn() != nil || !reflect.DeepEqual(r.Settings(), want) {
			t.Fatalf("closed %v, torn %v, settings %+v", r.Closed(), r.Torn(), r.Settings())
		}
	})
}

// A take cut anywhere gives a beginning of its entries, whole records of them, and says where it breaks off.
func TestCutAnywhere(t *testing.T) {
	var es []Entry
	m := &memory{room: -1}
	w, err := newWriter("mem", m, testSettings)
	if err != nil {
		t.Fatal(err)
	}
	settings := m.Len()
	ends := map[int]int{settings: 0} // where a whole record ends, and how many entries lie before
	for i := range 60 {
		e := []Entry{moving(int64(i*7), i), {Kind: Happening, Tick: int64(i*7 + 1), Code: 3, A: int32(i)}, {Kind: Digest, Tick: int64(i*7 + 2), Digest: math.MaxUint64 / uint64(i+1)}}[i%3]
		es = append(es, e)
		put(t, w, es[i:])
		if err := w.Flush(); err != nil {
			t.Fatal(err)
		}
		ends[m.Len()] = i + 1
	}
	whole := m.Bytes()
	for tail, name := range []string{"cut", "then zeros"} {
		for cut := 0; cut < len(whole); cut++ {
			b := append(bytes.Clone(whole[:cut]), make([]byte, tail*100)...)
			r, err := NewReader(bytes.NewReader(b), "mem")
			if cut < settings {
				if err == nil {
					t.Fatalf("%s at %d: no error though the settings are not whole", name, cut)
				}
				continue
			}
			if err != nil {
				t.Fatalf("%s at %d: %v", name, cut, err)
			}
			got, err := drain(r)
			if err != io.EOF {
				t.Fatalf("%s at %d: %v", name, cut, err)
			}
			at := cut
			for _, ok := ends[at]; !ok; _, ok = ends[at] {
				at--
			}
			if !same(got, es[:ends[at]]) {
				t.Fatalf("%s at %d: %d entries, want %d", name, cut, len(got), ends[at])
			}
			if at == len(b) {
				if r.Torn() != nil {
					t.Fatalf("%s at %d: torn %v, yet it ends with a whole record", name, cut, r.Torn())
				}
			} else if r.Torn() == nil || r.Torn().Offset != int64(at) || r.Torn().Tick != r.Tick() {
				t.Fatalf("%s at %d: torn %v, want byte %d", name, cut, r.Torn(), at)
			}
		}
	}
}

// Every single flipped bit is noticed: what is read is a beginning of what was written, and unless the flip lies in the
// last record it is an error that names the record's place.
func TestFlipAnywhere(t *testing.T) {
	m := &memory{room: -1}
	w, _ := newWriter("mem", m, testSettings)
	settings := m.Len()
	var es []Entry
	var starts []int
	for i := range 20 {
		es = append(es, moving(int64(i*20), i))
		put(t, w, es[i:])
		starts = append(starts, m.Len())
		w.Flush()
	}
	whole := m.Bytes()
	for bit := settings * 8; bit < len(whole)*8; bit++ {
		b := bytes.Clone(whole)
		b[bit/8] ^= 1 << (bit % 8)
		r, err := NewReader(bytes.NewReader(b), "mem")
		if err != nil {
			t.Fatal(err)
		}
		got, err := drain(r)
		n := 0
		for n < 20 && starts[n] <= bit/8 {
			n++
		}
		n-- // entries before the record with the flip
		if !same(got, es[:n]) {
			t.Fatalf("bit %d: %d entries, want %d", bit, len(got), n)
		}
		var d *Damage
		if n == 19 {
			if err != io.EOF || r.Torn() == nil || r.Torn().Offset != int64(starts[n]) {
				t.Fatalf("bit %d in the last record: %v, %v", bit, err, r.Torn())
			}
		} else if !errors.As(err, &d) || d.Offset != int64(starts[n]) || d.Tick != max(0, es[max(n-1, 0)].Tick) {
			t.Fatalf("bit %d: %v, want damage at byte %d", bit, err, starts[n])
		}
	}
	for bit := range settings * 8 {
		b := bytes.Clone(whole)
		b[bit/8] ^= 1 << (bit % 8)
		if _, err := NewReader(bytes.NewReader(b), "mem"); err == nil {
			t.Fatalf("bit %d of first line and settings: not noticed", bit)
		}
	}
}

func TestDamageIsNamed(t *testing.T) {
	es := []Entry{moving(0, 0), {Kind: Happening, Tick: 4200, Code: 1}, moving(9000, 3), {Kind: Digest, Tick: 9001}}
	b := write(t, testSettings, es, true)
	i := bytes.LastIndexByte(b, recReadings)
	b[i+3] ^= 0x40
	_, err := drain(must(NewReader(bytes.NewReader(b), "my.take")))
	want := "my.take: damaged at byte "
	if err == nil || !strings.HasPrefix(err.Error(), want) || !strings.Contains(err.Error(), "after 4.200 s of the practice") || !strings.Contains(err.Error(), "propsoff repair my.take") {
		t.Errorf("%v", err)
	}
}

func must(r *Reader, err error) *Reader {
	if err != nil {
		panic(err)
	}
	return r
}

func TestNotATake(t *testing.T) {
	good := string(write(t, testSettings, nil, true))
	for name, c := range map[string]struct{ file, want string }{
		"empty":          {"", "x:1:1: not a take: the file is empty"},
		"other":          {"propsoff: craft 1\nname: x\n", "x:1:1: not a take: its first line"},
		"binary":         {"\x7fELF\x00\x00\xff", "x:1:1: not a take: its first line"},
		"newer":          {"propsoff take 3\nwhat ever", "x:1:15: made by a newer propsoff: this is a take of version 3, and this propsoff reads up to version 2"},
		"nought":         {"propsoff take 0\n", "x:1:1: not a take"},
		"long line":      {"propsoff take " + strings.Repeat("1", 100) + "\n", "x:1:1: not a take"},
		"cut first line": {"propsoff ta", "x:1:1: the recording was cut off within its first line"},
		"no settings":    {"propsoff take 1\n", "x:1:1: the recording was cut off before its settings were whole"},
		"cut settings":   {good[:40], "x:1:1: the recording was cut off before its settings were whole"},
		"huge length":    {"propsoff take 1\n\x01\xff\xff\xff\xff\x7f" + good[16:], "x:2:1: the settings are damaged"},
		"too long":       {"propsoff take 1\n\x01\x81\x80\x80\x02", "x:1:1: the recording was cut off"},
		"no first":       {"propsoff take 1\n" + string(appendRecord(nil, recEnd, []byte{0})), "x:2:1: the settings are damaged"},
	} {
		_, err := NewReader(strings.NewReader(c.file), "x")
		if err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%s: got %v, want %s…", name, err, c.want)
		}
		if newer := name == "newer"; errors.Is(err, ErrNewer) != newer {
			t.Errorf("%s: ErrNewer is %v", name, !newer)
		}
	}
}

func TestUnknownKindsAreSkipped(t *testing.T) {
	es := []Entry{moving(0, 0), moving(5, 1)}
	m := &memory{room: -1}
	w, err := newWriter("mem", m, testSettings)
	if err != nil {
		t.Fatal(err)
	}
	put(t, w, es[:1])
	w.Flush()
	m.Write(appendRecord(appendRecord(nil, 77, []byte("from a later program")), 255, nil))
	put(t, w, es[1:])
	w.Flush()
	got, r := load(t, m.Bytes())
	if !same(got, es) || r.Skipped() != 2 {
		t.Errorf("%d entries, %d skipped", len(got), r.Skipped())
	}
}

// The take of version 1 in testdata was written once and must load for ever: it is never rewritten.
func TestVersion1LoadsForEver(t *testing.T) {
	path := filepath.Join("testdata", "version1.take")
	r, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	if !reflect.DeepEqual(r.Settings(), version1Settings) {
		t.Errorf("settings %+v", r.Settings())
	}
	got, err := drain(r)
	if err != io.EOF || !r.Closed() || r.Torn() != nil {
		t.Errorf("ended with %v, closed %v, torn %v", err, r.Closed(), r.Torn())
	}
	if want := version1Entries(); !same(got, want) {
		t.Errorf("got %+v\nwant %+v", got, want)
	}
}

var version1Settings = Settings{
	Model: 1, Program: "propsoff 0.1", CraftName: "built-in", CraftText: "propsoff: craft 1\nname: any text\n",
	RadioName: "moorland.yaml", RadioText: "propsoff: radio 1\n", Note: "desk bench; radio “Moorland Desk 7”",
	Codes: []string{"", "armed", "disarmed", "refused", "link-lost"},
}

func version1Entries() []Entry {
	var es []Entry
	bench := func(tick int64, k pulse.Kind, v int32) {
		es = append(es, Entry{Kind: Reading, Tick: tick, Reading: pulse.Reading{At: tick * 1000, Kind: k, Value: v}})
	}
	f := pulse.Frame{pulse.Low, pulse.Centre, pulse.Centre, pulse.Centre, pulse.Low, pulse.Low}
	controls := func(tick int64) {
		es = append(es, Entry{Kind: Reading, Tick: tick, Reading: pulse.Reading{At: tick * 1000, Kind: pulse.Controls, Frame: f}})
	}
	for k := pulse.Link; k <= pulse.Cable; k++ {
		bench(0, k, 1)
	}
	controls(0)
	bench(40, pulse.Tilt, 1800)
	bench(41, pulse.Nudge, 0)
	bench(41, pulse.Menu, pulse.MenuCamera)
	bench(56, pulse.Pack, 65000)
	bench(10056, pulse.Gap, 0)
	f[4] = pulse.High
	controls(10057)
	es = append(es, Entry{Kind: Happening, Tick: 10060, Code: 1}, Entry{Kind: Digest, Tick: 10060, Digest: 0x0123456789abcdef})
	f[0], f[15] = pulse.FromTicks(2047), pulse.Lowest
	controls(10060)
	f[15] = pulse.Missing
	controls(10061)
	es = append(es, Entry{Kind: Happening, Tick: 36000000, Code: 4, A: 240, B: -1}, Entry{Kind: Digest, Tick: 36000000, Digest: math.MaxUint64})
	return es
}

// moving is the i-th reading of two sticks that move all the time, as a hand does, on a radio of 2048 steps.
func moving(tick int64, i int) Entry {
	f := pulse.Frame{4: pulse.Low, 5: pulse.Centre, 6: pulse.High}
	for c := range 4 {
		x := math.Sin(float64(tick)/1000*(1.3+0.7*float64(c))) * 0.8
		f[c] = pulse.FromTicks(992 + int(math.Round(x*820)))
	}
	return Entry{Kind: Reading, Tick: tick, Reading: pulse.Reading{At: tick * 1000, Kind: pulse.Controls, Frame: f}}
}

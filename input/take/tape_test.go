package take

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"syscall"
	"testing"
)

// someOf are entries from a tick on, one every 10 ms.
func someOf(from int64, n int) (es []Entry) {
	for i := range int64(n) {
		e := moving(from+10*i, int(from+i))
		switch i % 3 {
		case 1:
			e = happened(e.Tick, uint8(i%3), int32(i))
		case 2:
			e = Entry{Kind: Digest, Tick: e.Tick, Digest: uint64(from + i)}
		}
		es = append(es, e)
	}
	return es
}

func read(t *testing.T, path string) ([]Entry, *Reader) {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return load(t, b)
}

// A recording may begin whenever somebody asks for it: the file holds the part under way from its beginning, what comes, and the
// parts that follow, each of which could be read alone.
func TestTapeRecordsFromTheBeginningOfAPart(t *testing.T) {
	dir := t.TempDir()
	first, second := filepath.Join(dir, "first.take"), filepath.Join(dir, "second.take")
	tape := NewTape()
	if err := tape.Part(partFrom(0)); err != nil {
		t.Fatal(err)
	}
	put(t, tape.Writer, someOf(0, 50))
	if err := tape.Part(partFrom(1000)); err != nil {
		t.Fatal(err)
	}
	a := someOf(1000, 50)
	put(t, tape.Writer, a)
	if path, err := tape.Recording(); path != "" || err != nil {
		t.Fatal(path, err)
	}
	if err := tape.Record(first); err != nil {
		t.Fatal(err)
	}
	if path, _ := tape.Recording(); path != first {
		t.Fatal(path)
	}
	if es, r := read(t, first); !same(es, a) || r.Closed() || !reflect.DeepEqual(r.Settings(), partFrom(1000)) {
		t.Fatalf("at once: %d entries of %d, %+v", len(es), len(a), r.Settings())
	}
	b := someOf(1500, 50)
	put(t, tape.Writer, b)
	if err := tape.Part(partFrom(2000)); err != nil {
		t.Fatal(err)
	}
	c := someOf(2000, 50)
	put(t, tape.Writer, c)
	if err := tape.Record(filepath.Join(dir, "first.take")); err == nil || !strings.Contains(err.Error(), "never overwritten") {
		t.Fatalf("%v", err)
	}
	if path, _ := tape.Recording(); path != "" {
		t.Fatal("the one before has ended")
	}
	want := append(append(append([]Entry{}, a...), b...), Entry{Kind: Part, Tick: 2000})
	want = append(want, c...)
	if es, r := read(t, first); !same(es, want) || !r.Closed() || !reflect.DeepEqual(r.Settings(), partFrom(2000)) {
		t.Fatalf("%d entries of %d, closed %v", len(es), len(want), r.Closed())
	}
	if err := tape.Record(second); err != nil {
		t.Fatal(err)
	}
	d := someOf(2500, 5)
	put(t, tape.Writer, d)
	if err := tape.Close(); err != nil {
		t.Fatal(err)
	}
	if es, r := read(t, second); !same(es, append(c, d...)) || !r.Closed() {
		t.Fatalf("%d entries, closed %v", len(es), r.Closed())
	}
	if err := tape.Stop(); err != nil {
		t.Error(err)
	}
}

// A file that cannot be written is told of and ends; the tape goes on, and another file holds everything.
func TestADiskThatFillsEndsTheFileAndNotTheTape(t *testing.T) {
	tape := NewTape()
	if err := tape.Part(partFrom(0)); err != nil {
		t.Fatal(err)
	}
	put(t, tape.Writer, someOf(0, 30))
	if err := tape.Flush(); err != nil {
		t.Fatal(err)
	}
	full := &memory{room: len(tape.part) + 20 + 100, err: &os.PathError{Op: "write", Path: "x", Err: syscall.ENOSPC}}
	tape.to = &output{path: "full.take", f: full}
	if err := tape.to.write(append(firstLine(), tape.part...), 290, false); err != nil {
		t.Fatal(err)
	}
	es := someOf(300, 300)
	put(t, tape.Writer, es)
	if err := tape.Flush(); err != nil {
		t.Fatalf("the tape goes on: %v", err)
	}
	path, err := tape.Recording()
	if path != "" || !errors.Is(err, syscall.ENOSPC) || !strings.Contains(err.Error(), "full.take: the disk is full; the recording ends at 0.") {
		t.Fatalf("%q, %v", path, err)
	}
	got, r := load(t, full.Bytes())
	if len(got) < 30 || !same(got, append(someOf(0, 30), es...)[:len(got)]) || r.Torn() != nil {
		t.Fatalf("%d entries, torn %v", len(got), r.Torn())
	}
	again := filepath.Join(t.TempDir(), "again.take")
	if err := tape.Record(again); err != nil {
		t.Fatal(err)
	}
	if _, err := tape.Recording(); err != nil {
		t.Errorf("what is over is over: %v", err)
	}
	if got, _ := read(t, again); !same(got, append(someOf(0, 30), es...)) {
		t.Errorf("%d entries", len(got))
	}

	// A disk that is full already leaves no file behind.
	if _, err := os.Stat("/dev/full"); err == nil {
		if err := tape.Record("/dev/full"); err == nil {
			t.Error("an existing file was taken")
		}
	}
	none := filepath.Join(t.TempDir(), "none", "a.take")
	if err := tape.Record(none); err == nil || !strings.Contains(err.Error(), "no such folder") {
		t.Errorf("%v", err)
	}
}

// A part that became too long to keep cannot be recorded from its beginning; the next one can.
func TestATapeIsBounded(t *testing.T) {
	dir := t.TempDir()
	tape := NewTape()
	tape.Most = 4000
	if err := tape.Part(partFrom(0)); err != nil {
		t.Fatal(err)
	}
	if err := tape.Record(filepath.Join(dir, "b.take")); err != nil {
		t.Fatal(err)
	}
	es := someOf(0, 2000)
	put(t, tape.Writer, es)
	if err := tape.Stop(); err != nil {
		t.Fatal(err)
	}
	if got, r := read(t, filepath.Join(dir, "b.take")); !same(got, es) || !r.Closed() {
		t.Fatal("a file that is written already goes on")
	}
	if err := tape.Record(filepath.Join(dir, "c.take")); !errors.Is(err, ErrTooLong) {
		t.Fatalf("%v", err)
	}
	if _, err := os.Stat(filepath.Join(dir, "c.take")); err == nil {
		t.Fatal("a file was left behind")
	}
	if err := tape.Part(partFrom(30_000)); err != nil {
		t.Fatal(err)
	}
	if err := tape.Record(filepath.Join(dir, "c.take")); err != nil {
		t.Fatal(err)
	}
	if err := tape.Close(); err != nil {
		t.Fatal(err)
	}
}

// A tape that keeps nothing can be recorded at once when a part has begun, and not later.
func TestATapeThatKeepsNothing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.take")
	tape := NewTape()
	tape.Most = -1
	if err := tape.Record(path); !errors.Is(err, ErrTooLong) {
		t.Fatalf("no part has begun: %v", err)
	}
	if err := tape.Part(partFrom(7)); err != nil {
		t.Fatal(err)
	}
	if err := tape.Record(path); err != nil {
		t.Fatal(err)
	}
	es := someOf(7, 20)
	put(t, tape.Writer, es)
	if err := tape.Stop(); err != nil {
		t.Fatal(err)
	}
	if got, r := read(t, path); !same(got, es) || r.Settings().From != 7 || tape.part != nil {
		t.Errorf("%d entries from %d", len(got), r.Settings().From)
	}
	if err := tape.Record(path + "2"); !errors.Is(err, ErrTooLong) {
		t.Error(err)
	}
}

// What becomes known during a part stands in the settings from there on; what has no room in them within a part is damage.
func TestWhatIsAdded(t *testing.T) {
	m := &memory{room: -1}
	w, err := newWriter("mem", m, testSettings)
	if err != nil {
		t.Fatal(err)
	}
	put(t, w, []Entry{moving(10, 0)})
	if err := w.Add(Settings{Model: 9, RadioName: "another", RadioFilled: "filled", From: 77}); err != nil {
		t.Fatal(err)
	}
	if err := w.Add(Settings{}); err != nil {
		t.Fatal(err)
	}
	put(t, w, []Entry{moving(20, 1)})
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	es, r := load(t, m.Bytes())
	want := testSettings
	want.RadioName, want.RadioFilled = "another", "filled"
	if !same(es, []Entry{moving(10, 0), moving(20, 1)}) || !reflect.DeepEqual(r.Settings(), want) || r.Skipped() != 0 {
		t.Errorf("%v, %+v", es, r.Settings())
	}
	bad := appendRecord(write(t, testSettings, []Entry{moving(10, 0)}, false), recAdded, []byte{tagModel, 1, 9})
	r, err = NewReader(strings.NewReader(string(bad)), "mem")
	if err != nil {
		t.Fatal(err)
	}
	var damage *Damage
	if _, err := drain(r); !errors.As(err, &damage) {
		t.Errorf("%v", err)
	}
}

// Settings that no take can hold are refused, and the part under way goes on.
func TestAPartThatCannotBe(t *testing.T) {
	m := &memory{room: -1}
	w, err := newWriter("mem", m, testSettings)
	if err != nil {
		t.Fatal(err)
	}
	put(t, w, []Entry{moving(100, 0)})
	for _, s := range []Settings{{From: 50}, {From: 200, CraftText: strings.Repeat("x", maxSettings)}} {
		if err := w.Part(s); err == nil {
			t.Error("taken")
		}
	}
	put(t, w, []Entry{moving(300, 1)})
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	if es, _ := load(t, m.Bytes()); !same(es, []Entry{moving(100, 0), moving(300, 1)}) {
		t.Error(es)
	}
}

// A source plays one part, then the next, once the settings of that were taken.
func TestSourcePlaysParts(t *testing.T) {
	es := []Entry{moving(0, 0), moving(5, 1), {Kind: Part, Tick: 10}, moving(10, 2), {Kind: Part, Tick: 10}, {Kind: Part, Tick: 30}, moving(40, 3)}
	for _, step := range []int64{1, 5, 100} {
		r, err := NewReader(strings.NewReader(string(write(t, testSettings, es, true))), "my.take")
		if err != nil {
			t.Fatal(err)
		}
		s := NewSource(r)
		var told []string
		var end error
		for tick := int64(0); end == nil; tick += step {
			for {
				rs, err := s.Poll(nil, tick*1000)
				for _, r := range rs {
					told = append(told, fmt.Sprint("reading ", r.At/1000))
				}
				part, ok := s.Part(tick * 1000)
				if !ok {
					end = err
					break
				}
				told = append(told, part.Note)
			}
		}
		want := "reading 0, reading 5, part from 10, reading 10, part from 10, part from 30, reading 40"
		if got := strings.Join(told, ", "); got != want {
			t.Errorf("in steps of %d: %s", step, got)
		}
	}
}

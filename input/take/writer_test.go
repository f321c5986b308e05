package take

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"propsoff.example/assets/words"
	"propsoff.example/sim/pulse"
)

// recordTo begins a tape with these settings in a file.
func recordTo(path string, s Settings) error {
	t := NewTape()
	if err := t.Part(s); err != nil {
		return err
	}
	if err := t.Record(path); err != nil {
		return err
	}
	return t.Close()
}

func TestRecordingNeverOverwrites(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.take")
	if err := os.WriteFile(path, []byte("dear"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := recordTo(path, testSettings); err == nil || !strings.Contains(err.Error(), "choose another name") {
		t.Errorf("%v", err)
	}
	if b, _ := os.ReadFile(path); string(b) != "dear" {
		t.Errorf("the file now holds %q", b)
	}
}

func TestSettingsThatNoReaderWouldTakeAreRefused(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.take")
	for name, s := range map[string]Settings{
		"at most 4194304":    {CraftText: strings.Repeat("x", maxSettings)},
		"a line break in it": {Codes: []string{"a\nb"}},
	} {
		if err := recordTo(path, s); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: %v", name, err)
		}
		if _, err := os.Stat(path); !os.IsNotExist(err) {
			t.Errorf("%s: a file was left behind", name)
		}
	}
}

// A disk that fills: the take ends with a whole record, the error says so and sticks, nothing panics.
func TestDiskFull(t *testing.T) {
	first := len(write(t, testSettings, nil, false))
	for room := first; room < first+400; room += 7 {
		m := &memory{room: room, err: &os.PathError{Op: "write", Path: "x", Err: syscall.ENOSPC}}
		w, err := newWriter("my.take", m, testSettings)
		if err != nil {
			t.Fatal(err)
		}
		var whole int
		for i := 0; ; i++ {
			e := moving(int64(i*10), i)
			w.Reading(e.Tick, e.Reading)
			if err = w.Flush(); err != nil {
				break
			}
			whole++
		}
		want := fmt.Sprintf("my.take: the disk is full; the recording ends at %s and is whole up to there, the practice goes on", words.English().Say(clock(int64(max(whole-1, 0)*10))))
		if !errors.Is(err, syscall.ENOSPC) || !strings.HasPrefix(err.Error(), want) {
			t.Fatalf("got %v, want %s", err, want)
		}
		for _, again := range []error{w.Reading(1e6, moving(0, 0).Reading), w.Happening(1e6, 1, 0, 0), w.Digest(1e6, 1), w.Flush(), w.Close(), w.Close()} {
			if again != err {
				t.Fatalf("later: %v", again)
			}
		}
		es, r := load(t, m.Bytes())
		if len(es) != whole || r.Torn() != nil {
			t.Fatalf("room %d: %d entries, want %d, torn %v", room, len(es), whole, r.Torn())
		}
	}
	m := &memory{room: 5, err: syscall.ENOSPC}
	if _, err := newWriter("my.take", m, testSettings); err == nil || !strings.Contains(err.Error(), "nothing is recorded") {
		t.Errorf("%v", err)
	}
}

func TestTicksNeverGoBack(t *testing.T) {
	w, _ := newWriter("my.take", &memory{room: -1}, testSettings)
	w.Happening(10, 1, 0, 0)
	if err := w.Digest(9, 1); err == nil || !strings.Contains(err.Error(), "tick 9 after tick 10") {
		t.Errorf("%v", err)
	}
	w, _ = newWriter("my.take", &memory{room: -1}, testSettings)
	for _, kind := range []pulse.Kind{0, pulse.KindCount, 200} {
		if err := w.Reading(1, pulse.Reading{Kind: kind}); err == nil {
			t.Errorf("kind %d taken", kind)
		}
	}
}

// Entries are not kept longer than KeepTicks even if the caller never flushes; with Flush they go out as one write.
func TestKeepsNoLongerThanItSays(t *testing.T) {
	m := &memory{room: -1}
	w, _ := newWriter("my.take", m, testSettings)
	for i := range 1000 {
		e := moving(int64(i*3), i)
		w.Reading(e.Tick, e.Reading)
		es, _ := load(t, bytes.Clone(m.Bytes()))
		last := int64(-1)
		if len(es) > 0 {
			last = es[len(es)-1].Tick
		}
		if e.Tick-last > KeepTicks+3 {
			t.Fatalf("at tick %d only what came up to %d is written", e.Tick, last)
		}
	}
}

func TestRepair(t *testing.T) {
	dir := t.TempDir()
	es := []Entry{moving(0, 0), happened(10, 1, 0), moving(20, 1), {Kind: Digest, Tick: 30, Digest: 1}}
	good := write(t, testSettings, es, true)
	damaged := bytes.Clone(good)
	damaged[bytes.LastIndexByte(good, recReadings)+4] ^= 1
	for name, c := range map[string]struct {
		file []byte
		want []Entry
	}{
		"torn.take": {good[:len(good)-1], es},
		"cut":       {good[:len(good)-8], es[:3]},
		"mid.take":  {damaged, es[:2]},
	} {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, c.file, 0o600); err != nil {
			t.Fatal(err)
		}
		copied, end, err := Repair(path)
		if err != nil || copied != RepairedPath(path) || !strings.Contains(copied, "-repaired") {
			t.Fatalf("%s: %s, %v", name, copied, err)
		}
		b, _ := os.ReadFile(copied)
		got, r := load(t, b)
		if !same(got, c.want) || r.Torn() != nil || end.Offset != int64(len(b)) || !bytes.HasPrefix(c.file, b) || end.Tick != c.want[len(c.want)-1].Tick {
			t.Errorf("%s: %d entries, want %d; torn %v; end %v", name, len(got), len(c.want), r.Torn(), end)
		}
		if b, _ := os.ReadFile(path); !bytes.Equal(b, c.file) {
			t.Errorf("%s: the original was changed", name)
		}
		if _, _, err := Repair(path); err == nil || !strings.Contains(err.Error(), "move it away first") {
			t.Errorf("%s: a second time: %v", name, err)
		}
		if _, _, err := Repair(copied); !errors.Is(err, ErrWhole) {
			t.Errorf("%s: the copy: %v", name, err)
		}
	}
	if _, _, err := Repair(filepath.Join(dir, "none")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("%v", err)
	}
}

func TestLongEnds(t *testing.T) {
	es := []Entry{moving(0, 0), happened(10, 1, 0)}
	good := write(t, testSettings, es, false)
	for name, c := range map[string]struct {
		tail []byte
		torn bool
	}{
		"3 MiB of zeros":      {make([]byte, 3<<20), true},
		"3 MiB of ones":       {bytes.Repeat([]byte{1}, 3<<20), false},
		"zeros, then a byte":  {append(make([]byte, 3<<20), 9), false},
		"half a MiB of twos":  {bytes.Repeat([]byte{2}, 512<<10), true},
		"a length of 60000":   {[]byte{2, 0xe0, 0xd4, 0x03, 1, 2, 3}, true},
		"a length of 100 MiB": {[]byte{2, 0x80, 0x80, 0x80, 0x32, 1, 2, 3}, true},
	} {
		r, err := NewReader(bytes.NewReader(append(bytes.Clone(good), c.tail...)), "my.take")
		if err != nil {
			t.Fatal(err)
		}
		got, err := drain(r)
		var d *Damage
		if torn := r.Torn() != nil && err == io.EOF; !same(got, es) || torn != c.torn || !torn && !errors.As(err, &d) {
			t.Errorf("%s: %d entries, %v, torn %v", name, len(got), err, r.Torn())
		}
		if at := int64(len(good)); c.torn && r.Torn().Offset != at || !c.torn && d.Offset != at {
			t.Errorf("%s: %v, %v, want byte %d", name, r.Torn(), err, at)
		}
	}
}

// Content that a check sum vouches for and that makes no sense is an error with its place, never a panic.
func TestWholeButSenseless(t *testing.T) {
	good := write(t, testSettings, []Entry{moving(7, 0)}, false)
	late := testSettings
	late.From = LongestTicks + 1
	nextDay, err := late.append(nil)
	if err != nil {
		t.Fatal(err)
	}
	for name, rec := range map[string][]byte{
		"reading kind 0":    appendRecord(nil, recReadings, []byte{0x10, 0}),
		"cut reading":       appendRecord(nil, recReadings, []byte{byte(pulse.Controls), 1}),
		"channel 17":        appendRecord(nil, recReadings, []byte{byte(pulse.Controls), 0x80, 0x80, 0x04, 0}),
		"width beyond":      appendRecord(nil, recReadings, []byte{byte(pulse.Controls), 1, 0xfe, 0xff, 0x7f}),
		"value beyond":      appendRecord(nil, recReadings, []byte{byte(pulse.Pack), 0xff, 0xff, 0xff, 0xff, 0xff, 0x01}),
		"tick beyond":       appendRecord(nil, recHappenings, []byte{0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 1, 1, 0, 0}),
		"a day and 8 ms":    appendRecord(nil, recHappenings, append(binary.AppendUvarint(nil, LongestTicks+1), 1, 0, 0)),
		"a part next day":   appendRecord(nil, recSettings, nextDay),
		"code 256":          appendRecord(nil, recHappenings, []byte{0, 0x80, 0x02, 0, 0}),
		"cut digest":        appendRecord(nil, recDigests, []byte{0, 1, 2, 3}),
		"empty":             appendRecord(nil, recDigests, nil),
		"end with a rest":   appendRecord(nil, recEnd, []byte{0, 0}),
		"settings again":    appendRecord(nil, recSettings, nil),
		"more after an end": appendRecord(appendRecord(nil, recEnd, []byte{0}), recEnd, []byte{0}),
	} {
		_, err := drain(must(NewReader(bytes.NewReader(append(bytes.Clone(good), rec...)), "my.take")))
		var d *Damage
		if !errors.As(err, &d) || d.Offset < int64(len(good)) || d.Tick != 7 {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A few bytes can say that years pass, and whoever plays them steps through each millisecond: a take lasts a day, and what is recorded
// ends whole at a day.
func TestATakeLastsADayAtMost(t *testing.T) {
	const from = 1_000_000
	last := from + int64(LongestTicks)
	dir := t.TempDir()
	tape := NewTape()
	if err := tape.Part(partFrom(from)); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, "day.take")
	if err := tape.Record(path); err != nil {
		t.Fatal(err)
	}
	es := []Entry{moving(from, 0), happened(last, 1, 0)}
	put(t, tape.Writer, es)
	if err := tape.Flush(); err != nil {
		t.Fatal(err)
	}
	put(t, tape.Writer, []Entry{happened(last+1, 1, 0)})
	if err := tape.Flush(); err != nil {
		t.Errorf("the practice goes on: %v", err)
	}
	if to, err := tape.Recording(); to != "" || err == nil || !strings.Contains(err.Error(), "a take lasts a day at most") {
		t.Errorf("%q %v", to, err)
	}
	if got, r := read(t, path); !same(got, es) || !r.Closed() {
		t.Errorf("%d entries, closed %v", len(got), r.Closed())
	}
	if err := tape.Record(filepath.Join(dir, "late.take")); !errors.Is(err, ErrTooLong) {
		t.Errorf("%v", err)
	}
	if err := tape.Part(partFrom(last + 1)); err != nil {
		t.Fatal(err)
	}
	if err := tape.Record(filepath.Join(dir, "next.take")); err != nil {
		t.Errorf("the next part can be recorded: %v", err)
	}
}

func TestReadErrorsArePassedOn(t *testing.T) {
	good := write(t, testSettings, []Entry{moving(0, 0)}, true)
	broken := errors.New("the disk is broken")
	r, err := NewReader(io.MultiReader(bytes.NewReader(good), failing{broken}), "my.take")
	if err == nil {
		_, err = drain(r)
	}
	if !errors.Is(err, broken) {
		t.Errorf("%v", err)
	}
	if _, err := Open(filepath.Join(t.TempDir(), "none.take")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("%v", err)
	}
	if _, err := Open(t.TempDir()); err == nil {
		t.Error("a folder was opened")
	}
	if _, err := NewReader(idle{}, "my.take"); !errors.Is(err, io.ErrNoProgress) {
		t.Errorf("%v", err)
	}
}

type failing struct{ err error }

func (f failing) Read([]byte) (int, error) { return 0, f.err }

type idle struct{}

func (idle) Read([]byte) (int, error) { return 0, nil }

// A length that no record may have is refused before memory is asked for, however much data follows.
func TestHugeLengthAsksForNoMemory(t *testing.T) {
	good := write(t, testSettings, []Entry{moving(7, 0)}, false)
	huge := append(bytes.Clone(good), 77, 0x80, 0x80, 0x80, 0x10) // 32 MiB of an unknown kind, all of them there
	r, err := NewReader(io.MultiReader(bytes.NewReader(huge), bytes.NewReader(bytes.Repeat([]byte{0x55}, 32<<20+4))), "my.take")
	if err != nil {
		t.Fatal(err)
	}
	_, err = drain(r)
	var d *Damage
	if !errors.As(err, &d) || d.Offset != int64(len(good)) || cap(r.scan.buf) > 4*tornMost {
		t.Errorf("%v; %d bytes kept", err, cap(r.scan.buf))
	}
}

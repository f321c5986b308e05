package take

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/sim/pulse"
)

// Every language says each thing that can be wrong with a take, where one breaks off, and what a replay came to.
func TestEveryLanguageSaysIt(t *testing.T) {
	room := wordstest.Of("take")
	good := string(write(t, testSettings, []Entry{moving(7, 0)}, true))
	for _, file := range []string{
		"", "propsoff: craft 1", "propsoff take 99\n", "propsoff ta", "propsoff take 2\n",
		"propsoff take 2\n" + string(appendRecord(nil, recEnd, []byte{0})), "propsoff take 2\n" + string(appendRecord(nil, recSettings, []byte{1})),
	} {
		_, err := NewReader(strings.NewReader(file), "x")
		room.Error(t, err)
	}
	for _, src := range []io.Reader{
		strings.NewReader(good + string(appendRecord(nil, recEnd, []byte{0}))),
		io.MultiReader(strings.NewReader(good), failing{errors.New("the disk is broken")}),
	} {
		_, err := drain(must(NewReader(src, "x")))
		room.Error(t, err)
	}
	// What a check sum vouches for and makes no sense, and what a check sum does not.
	for _, id := range []words.ID{
		"take.field-cut", "take.settings-number", "take.settings-stands", "take.settings-twice", "take.settings-fixed", "take.record-empty", "take.end-malformed",
		"take.part-early", "take.part-late", "take.reading-tick", "take.reading-value", "take.reading-channels", "take.reading-channel", "take.a-happening", "take.a-digest",
	} {
		room.Error(t, &Damage{Name: "x", Cause: senseless(id)})
	}
	room.Error(t, senseless("take.reading-kind", words.Args{"kind": words.Whole(15)}))
	for _, id := range []words.ID{"take.bad-sum", "take.none-found", "take.none-far", "take.last-cut", "take.zeros"} {
		room.Error(t, &badRecord{what: id})
	}
	room.Text(t, Torn{Offset: 5, Tick: 20}.Text())

	path := filepath.Join(t.TempDir(), "x.take")
	if err := recordTo(path, testSettings); err != nil {
		t.Fatal(err)
	}
	room.Error(t, recordTo(path, testSettings))
	_, _, err := Repair(path)
	room.Error(t, err)
	torn := filepath.Join(t.TempDir(), "y.take")
	for path, text := range map[string]string{torn: good[:len(good)-3], RepairedPath(torn): ""} {
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	_, _, err = Repair(torn)
	room.Error(t, err)
	for _, s := range []Settings{{Codes: []string{"a\nb"}}, {CraftText: strings.Repeat("x", maxSettings)}} {
		_, err := s.append(nil)
		room.Error(t, err)
	}
	w, err := newWriter("x", &memory{room: -1}, testSettings)
	if err != nil {
		t.Fatal(err)
	}
	w.Happening(10, 1, 0, 0)
	room.Error(t, w.Part(testSettings))
	room.Error(t, w.Digest(9, 1))
	room.Error(t, (&Writer{out: w.out}).Reading(0, pulse.Reading{Kind: 99}))
	_, err = newWriter("x", &memory{room: 5, err: syscall.ENOSPC}, testSettings)
	room.Error(t, err)
	for _, o := range []*output{{path: "x", f: &memory{room: 0, err: syscall.EIO}, size: 9, done: 4000}, {path: "x", f: &memory{room: -1}, from: -LongestTicks - 9}} {
		room.Error(t, o.write([]byte("a record"), 0, false))
	}
	for _, err := range []error{ErrNotTake, ErrNewer, ErrWhole, ErrTooLong, errClosed} {
		room.Error(t, err)
	}

	is, other := Entry{Kind: Happening, Code: 1, A: 2}, Entry{Kind: Happening, Code: 200}
	c := NewComparer(must(NewReader(bytes.NewReader([]byte(good)), "x")), nil)
	for _, d := range [][2]*Entry{{&is, &other}, {&is, &is}, {nil, &is}, {{Kind: Digest}, nil}} {
		c.differ(4200, d[0], d[1])
		room.Text(t, c.diff.Text())
	}
	c = comparer(t, true, nil, happened(4200, 1, 0))
	ended, err := c.Finish(3000)
	if err != nil {
		t.Fatal(err)
	}
	room.Text(t, ended.Text())

	room.Whole(t)
}

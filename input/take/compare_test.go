package take

import (
	"bytes"
	"errors"
	"io"
	"slices"
	"strings"
	"testing"

	"propsoff.example/assets/words"
	"propsoff.example/input"
	"propsoff.example/input/inputtest"
	"propsoff.example/sim/pulse"
)

func comparer(t *testing.T, closed bool, names []string, es ...Entry) *Comparer {
	t.Helper()
	r, err := NewReader(bytes.NewReader(write(t, testSettings, es, closed)), "my.take")
	if err != nil {
		t.Fatal(err)
	}
	return NewComparer(r, names)
}

func happened(tick int64, code uint8, a int32) Entry {
	return Entry{Kind: Happening, Tick: tick, Code: code, A: a}
}

// replay runs entries through c as the runner does: happenings as they come, then the digest of each tick that has one.
func replay(t *testing.T, c *Comparer, last int64, es ...Entry) string {
	t.Helper()
	for _, e := range es {
		switch e.Kind {
		case Happening:
			c.Happening(e.Tick, e.Code, e.A, e.B)
		case Digest:
			c.Digest(e.Tick, e.Digest)
		}
	}
	d, err := c.Finish(last)
	if err != nil {
		t.Fatal(err)
	}
	if d == nil {
		return ""
	}
	return words.English().Say(d.Text())
}

func TestComparerNamesTheFirstDifference(t *testing.T) {
	digest := func(tick int64, d uint64) Entry { return Entry{Kind: Digest, Tick: tick, Digest: d} }
	taken := []Entry{moving(0, 0), digest(1000, 7), happened(4200, 1, 0), moving(4300, 1), happened(5000, 2, 1), digest(5000, 9), digest(6000, 5)}
	of := func(es ...Entry) []Entry { return es }
	for name, c := range map[string]struct {
		replay []Entry
		last   int64
		want   string
	}{
		"the same":          {taken, 6000, ""},
		"more digests":      {of(digest(1000, 7), digest(2000, 1), happened(4200, 1, 0), happened(5000, 2, 1), digest(5000, 9), digest(5500, 2), digest(6000, 5), digest(7000, 1)), 7000, ""},
		"another happening": {of(digest(1000, 7), happened(4200, 3, 2), digest(5000, 1)), 6000, "at 4.200 s the take says armed, the replay says refused (2)"},
		"other numbers":     {of(digest(1000, 7), happened(4200, 1, 0), happened(5000, 2, 3)), 6000, "at 5.000 s the take says disarmed (1), the replay says disarmed (3)"},
		"one more":          {of(digest(1000, 7), happened(3999, 3, 1)), 6000, "at 3.999 s the take says nothing, the replay says refused (1)"},
		"one more at a digest": {of(digest(1000, 7), happened(4200, 1, 0), happened(5000, 2, 1), happened(5000, 1, 0)), 6000,
			"at 5.000 s the take says nothing, the replay says armed"},
		"one less":     {of(digest(1000, 7), happened(5000, 2, 1)), 6000, "at 4.200 s the take says armed, the replay says nothing"},
		"later":        {of(digest(1000, 7), happened(4201, 1, 0)), 6000, "at 4.200 s the take says armed, the replay says nothing"},
		"less, digest": {of(digest(1000, 7), digest(4200, 8)), 6000, "at 4.200 s the take says armed, the replay says nothing"},
		"digest":       {of(digest(1000, 7), happened(4200, 1, 0), happened(5000, 2, 1), digest(5000, 8)), 6000, "between 1.000 s and 5.000 s the replay went another way than the take, without a happening that differs"},
		"first digest": {of(digest(1000, 8)), 6000, "between the start and 1.000 s the replay went another way than the take, without a happening that differs"},
		"ends early":   {of(digest(1000, 7)), 3000, "at 4.200 s the take says armed, the replay says nothing (it ended at 3.000 s)"},
		"after the end": {of(digest(1000, 7), happened(4200, 1, 0), happened(5000, 2, 1), digest(5000, 9), digest(6000, 5), happened(6001, 1, 0)), 6001,
			""},
	} {
		for _, names := range [][]string{nil, testSettings.Codes} {
			if got := replay(t, comparer(t, true, names, taken...), c.last, c.replay...); got != c.want {
				t.Errorf("%s: got  %s\nwant %s", name, got, c.want)
			}
		}
	}
	c := comparer(t, true, nil, taken...)
	replay(t, c, 6000, taken...)
	if c.Compared() != 5 {
		t.Errorf("compared %d, want 5", c.Compared())
	}
}

// Codes are compared by name where the replaying program counts them another way.
func TestComparerTranslatesCodes(t *testing.T) {
	now := []string{"", "refused", "settled", "armed"}
	taken := []Entry{happened(10, 1, 0), happened(20, 3, 4), happened(30, 2, 0)}
	if got := replay(t, comparer(t, true, now, taken...), 30, happened(10, 3, 0), happened(20, 1, 4)); got != "at 0.030 s the take says disarmed, the replay says nothing" {
		t.Error(got)
	}
	if got := replay(t, comparer(t, true, now, taken...), 30, happened(10, 1, 0)); got != "at 0.010 s the take says armed, the replay says refused" {
		t.Error(got)
	}
}

// Nothing is said about what a kill may have cost.
func TestComparerWithACutTake(t *testing.T) {
	taken := []Entry{happened(10, 1, 0), happened(20, 3, 4)}
	more := append(slices.Clone(taken), happened(20, 2, 0), happened(40, 1, 0))
	if got := replay(t, comparer(t, false, nil, taken...), 50, more...); got != "" {
		t.Error(got)
	}
	if got := replay(t, comparer(t, true, nil, taken...), 50, more...); got != "at 0.020 s the take says nothing, the replay says disarmed" {
		t.Error(got)
	}
	if got := replay(t, comparer(t, false, nil, taken...), 50, happened(10, 1, 0), happened(15, 1, 0)); got != "at 0.015 s the take says nothing, the replay says armed" {
		t.Error(got)
	}
}

func TestComparerPassesDamageOn(t *testing.T) {
	b := write(t, testSettings, []Entry{happened(10, 1, 0), moving(20, 0), happened(30, 1, 0)}, true)
	b[bytes.LastIndexByte(b, recReadings)+4] ^= 1
	r, err := NewReader(bytes.NewReader(b), "my.take")
	if err != nil {
		t.Fatal(err)
	}
	c := NewComparer(r, nil)
	c.Happening(10, 1, 0, 0)
	d, err := c.Finish(30)
	var damage *Damage
	if d != nil || !errors.As(err, &damage) {
		t.Errorf("%v, %v", d, err)
	}
}

func TestSourcePlaysReadings(t *testing.T) {
	es := []Entry{moving(0, 0), happened(0, 1, 0), moving(5, 1), moving(5, 2), {Kind: Digest, Tick: 9}, moving(70, 3), {Kind: Digest, Tick: 100}}
	var want []pulse.Reading
	for _, e := range es {
		if e.Kind == Reading {
			want = append(want, e.Reading)
		}
	}
	for _, step := range []int64{1, 333, 1000, 5000, 7777, 1 << 40} {
		r, err := NewReader(bytes.NewReader(write(t, testSettings, es, true)), "my.take")
		if err != nil {
			t.Fatal(err)
		}
		s := NewSource(r)
		var got []pulse.Reading
		var until int64
		for ; err == nil; until += step {
			n := len(got)
			got, err = s.Poll(got, until)
			for _, x := range got[n:] {
				if x.At > until || x.At <= until-step {
					t.Fatalf("step %d: a reading of %d at %d", step, x.At, until)
				}
			}
			if err == nil && until >= 100_000 {
				t.Fatalf("step %d: not ended at %d", step, until)
			}
		}
		if err != input.ErrEnd || !slices.Equal(got, want) || until-step < 100_000 || !s.Closed() || s.Torn() != nil {
			t.Errorf("step %d: %d readings of %d, ended with %v at %d", step, len(got), len(want), err, until)
		}
		if got, err = s.Poll(nil, until); len(got) != 0 || err != input.ErrEnd {
			t.Errorf("after the end: %v, %v", got, err)
		}
		s.Close()
		if _, err = s.Poll(nil, until); err == nil || err == input.ErrEnd {
			t.Errorf("after closing: %v", err)
		}
	}
}

func TestTakeIsASource(t *testing.T) {
	inputtest.TestSource(t, func() input.Source {
		s, err := Play("testdata/version1.take")
		if err != nil {
			t.Fatal(err)
		}
		return s
	}, inputtest.Want{Until: 36_000_000, End: nil})
	es := []Entry{}
	for i := range 3000 {
		es = append(es, moving(int64(i*3), i), happened(int64(i*3), 1, 0))
	}
	for _, closed := range []bool{true, false} {
		b := write(t, testSettings, append(es, Entry{Kind: Digest, Tick: 9500}), closed)
		inputtest.TestSource(t, func() input.Source {
			r, err := NewReader(bytes.NewReader(b), "my.take")
			if err != nil {
				t.Fatal(err)
			}
			return NewSource(r)
		}, inputtest.Want{End: input.ErrEnd, NoAlloc: true})
	}
}

func TestSourceSaysTornAndDamage(t *testing.T) {
	b := write(t, testSettings, []Entry{moving(0, 0), happened(10, 1, 0), moving(20, 1), happened(30, 1, 0)}, false)
	r, _ := NewReader(bytes.NewReader(b[:len(b)-1]), "my.take")
	s := NewSource(r)
	got, err := s.Poll(nil, 1e9)
	if len(got) != 2 || err != input.ErrEnd || s.Torn() == nil || s.Torn().Tick != 20 || !strings.Contains(words.English().Say(s.Torn().Text()), "breaks off after 0.020 s") {
		t.Errorf("%d readings, %v, %v", len(got), err, s.Torn())
	}
	b[bytes.LastIndexByte(b, recReadings)+4] ^= 1
	r, _ = NewReader(bytes.NewReader(b), "my.take")
	s = NewSource(r)
	got, err = s.Poll(nil, 1e9)
	var d *Damage
	if len(got) != 1 || !errors.As(err, &d) {
		t.Errorf("%d readings, %v", len(got), err)
	}
}

var _ io.Closer = (*Comparer)(nil)

// The end may lie later than the last entry (another writer may say so): the source plays on until there.
func TestSourceEndsWithTheEndRecord(t *testing.T) {
	b := appendRecord(write(t, testSettings, []Entry{moving(20, 0)}, false), recEnd, []byte{50})
	s := NewSource(must(NewReader(bytes.NewReader(b), "my.take")))
	if got, err := s.Poll(nil, 69_999); len(got) != 1 || err != nil {
		t.Errorf("%d readings, %v", len(got), err)
	}
	if got, err := s.Poll(nil, 70_000); len(got) != 0 || err != input.ErrEnd {
		t.Errorf("%d readings, %v", len(got), err)
	}
}

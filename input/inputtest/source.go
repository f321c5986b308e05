package inputtest

import (
	"errors"
	"fmt"
	"reflect"
	"testing"
	"time"

	"propsoff.example/input"
	"propsoff.example/sim/pulse"
)

// Want is what is promised of a source beside what every source must do.
type Want struct {
	// Until is how long the source is played, in µs; 0 means 10 s.
	Until int64
	// End is the error that the source ends with within Until; nil for one that does not end.
	End error
	// NoAlloc: Poll allocates nothing of its own once it has been polled for a while with room in dst.
	NoAlloc bool
}

// TestSource is the one test that every source must pass. open makes the same source anew each time, with everything
// that will happen to it given beforehand.
func TestSource(t *testing.T, open func() input.Source, want Want) {
	t.Helper()
	for _, err := range CheckSource(open, want) {
		t.Error(err)
	}
}

// CheckSource is TestSource without the testing.T: it gives all that is wrong.
func CheckSource(open func() input.Source, want Want) []error {
	if want.Until == 0 {
		want.Until = 10_000_000
	}
	done := make(chan []error, 1)
	go func() {
		c := checker{open: open, want: want}
		defer func() {
			if r := recover(); r != nil {
				c.sayf("the source panics: %v", r)
			}
			done <- c.errs
		}()
		c.all()
	}()
	select {
	case errs := <-done:
		return errs
	case <-time.After(patience):
		return []error{errors.New("Poll blocks: it must give what it has and come back")}
	}
}

// The longest time that all polls of a source may take together before one counts as blocking; a variable for the
// package's own test only.
var patience = 60 * time.Second

type checker struct {
	open func() input.Source
	want Want
	errs []error
}

func (c *checker) sayf(format string, args ...any) {
	c.errs = append(c.errs, fmt.Errorf(format, args...))
}

// paces are the ways of polling: the times, up to end, at which Poll is called.
var paces = []struct {
	name string
	next func(at int64, n uint64) int64
}{
	{"every 1 ms", func(at int64, _ uint64) int64 { return at + 1000 }},
	{"60 times a second", func(at int64, _ uint64) int64 { return at + 16_667 }},
	{"twice a second", func(at int64, _ uint64) int64 { return at + 500_000 }},
	{"at odd times", func(at int64, n uint64) int64 { return at + int64(n%40_009) }},
	{"all at once", func(int64, uint64) int64 { return 1 << 61 }},
}

func (c *checker) all() {
	if !c.prefix() {
		return // what else it gives cannot be told
	}
	var first []pulse.Reading
	for i, pace := range paces {
		got := c.play(pace.name, pace.next)
		if i == 0 {
			first = got
			c.values(got)
			continue
		}
		if d := difference(first, got); d != "" {
			c.sayf("polled %s it gives other readings than polled %s: %s", pace.name, paces[0].name, d)
		}
	}
	c.closing()
	if c.want.NoAlloc {
		c.allocations()
	}
}

// play polls a new source at one pace until Until and a bit beyond.
func (c *checker) play(pace string, following func(int64, uint64) int64) []pulse.Reading {
	s := c.open()
	defer s.Close()
	if s.Name() == "" {
		c.sayf("the source has no name")
	}
	var got []pulse.Reading
	seed := uint64(1)
	ended := false
	last := int64(-1)
	for at := int64(0); ; {
		before := len(got)
		var err error
		got, err = s.Poll(got, at)
		for _, r := range got[before:] {
			if r.At > at {
				c.sayf("polled %s until %d µs it gives a reading of %d µs, which is yet to come", pace, at, r.At)
			}
			if r.At < last {
				c.sayf("polled %s it gives a reading of %d µs after one of %d µs", pace, r.At, last)
			}
			last = max(last, r.At)
		}
		if err != nil {
			c.ending(s, err, at, pace)
			ended = true
			break
		}
		for _, again := range []int64{at, at - 1, 0} {
			var more []pulse.Reading
			if more, err = s.Poll(nil, again); err != nil {
				c.sayf("polled %s a second Poll until %d µs ends with %v though the first did not", pace, again, err)
			}
			if len(more) > 0 {
				c.sayf("polled %s a second Poll until %d µs gives %d readings more", pace, again, len(more))
			}
		}
		if at >= c.want.Until || len(c.errs) > 20 {
			break
		}
		at = min(following(at, next(&seed)), c.want.Until)
	}
	if c.want.End != nil && !ended {
		c.sayf("polled %s it does not end within %d µs", pace, c.want.Until)
	}
	return got
}

// ending checks a source that has just ended with err.
func (c *checker) ending(s input.Source, err error, at int64, pace string) {
	switch {
	case c.want.End == nil:
		c.sayf("polled %s it ends at %d µs: %v", pace, at, err)
	case !errors.Is(err, c.want.End):
		c.sayf("polled %s it ends with %v, not with %v", pace, err, c.want.End)
	}
	for _, again := range []int64{at, at + 1, 0, 1 << 61} {
		more, err2 := s.Poll(nil, again)
		if len(more) > 0 {
			c.sayf("polled %s it gives %d readings after its end", pace, len(more))
		}
		if !errors.Is(err2, err) && (err2 == nil || c.want.End == nil || !errors.Is(err2, c.want.End)) {
			c.sayf("polled %s it ended with %v and then says %v", pace, err, err2)
		}
	}
}

// bounds are the values that each kind of bench input may have.
var bounds = map[pulse.Kind][2]int32{
	pulse.Link: {0, 1}, pulse.Plug: {0, 1}, pulse.Power: {0, 1}, pulse.Cable: {0, 1}, pulse.Tilt: {0, 1800},
	pulse.Nudge: {0, 0}, pulse.Menu: {pulse.MenuClosed, pulse.MenuCamera}, pulse.Pack: {0, 65000}, pulse.Gap: {0, 1<<31 - 1}, pulse.Sleep: {0, 1<<31 - 1},
	pulse.Air: {0, 1<<31 - 1}, pulse.Propellers: {0, 1<<9 - 1}, pulse.StickMode: {1, 4}, pulse.Instructor: {-1 << 31, 1<<31 - 1},
}

// values checks that every reading is one that a bench can take.
func (c *checker) values(got []pulse.Reading) {
	if len(got) == 0 {
		c.sayf("the source gives no reading at all within %d µs", c.want.Until)
	}
	for i, r := range got {
		b, isInput := bounds[r.Kind]
		switch {
		case r.At < 0:
			c.sayf("reading %d is before the opening: %d µs", i, r.At)
		case r.Kind == pulse.Controls && r.Value != 0:
			c.sayf("reading %d is of the controls and has a bench value too", i)
		case r.Kind == pulse.Controls:
		case !isInput:
			c.sayf("reading %d is of kind %d, which there is not", i, r.Kind)
		case r.Frame != pulse.Frame{}:
			c.sayf("reading %d is a bench input and has a frame too", i)
		case r.Value < b[0] || r.Value > b[1]:
			c.sayf("reading %d of kind %d has the value %d, outside %d..%d", i, r.Kind, r.Value, b[0], b[1])
		}
		if len(c.errs) > 20 {
			return
		}
	}
}

// prefix checks that Poll appends and leaves alone what was there.
func (c *checker) prefix() bool {
	s := c.open()
	defer s.Close()
	mark := pulse.Reading{At: 77, Kind: pulse.Nudge}
	got, _ := s.Poll([]pulse.Reading{mark}, c.want.Until)
	if len(got) == 0 || got[0] != mark {
		c.sayf("Poll must append to what it is given and leave that alone")
		return false
	}
	return true
}

// closing checks that Close does no harm twice, nor before anything was polled, and that nothing comes after it.
func (c *checker) closing() {
	for _, polled := range []bool{false, true} {
		s := c.open()
		if polled {
			s.Poll(nil, c.want.Until/2)
		}
		if err := s.Close(); err != nil {
			c.sayf("Close fails: %v", err)
		}
		if err := s.Close(); err != nil {
			c.sayf("Close fails the second time: %v", err)
		}
		more, err := s.Poll(nil, 1<<61)
		if len(more) > 0 || err == nil {
			c.sayf("Poll after Close gives %d readings and %v; it must give none, and an error", len(more), err)
		}
	}
}

// allocations checks that Poll allocates nothing while the second half is played.
func (c *checker) allocations() {
	s := c.open()
	defer s.Close()
	dst, _ := s.Poll(nil, c.want.Until/2)
	dst = make([]pulse.Reading, 0, 2*len(dst)+1000)
	at, runs := c.want.Until/2, 200
	step := max(c.want.Until/2/int64(runs+1), 1)
	got := testing.AllocsPerRun(runs, func() {
		at += step
		dst, _ = s.Poll(dst[:0], at)
	})
	if got > 0 {
		c.sayf("Poll allocates %v times a call", got)
	}
}

// difference tells where two plays differ first.
func difference(a, b []pulse.Reading) string {
	for i := range min(len(a), len(b)) {
		if !reflect.DeepEqual(a[i], b[i]) {
			return fmt.Sprintf("reading %d is %+v and %+v", i, a[i], b[i])
		}
	}
	if len(a) != len(b) {
		return fmt.Sprintf("%d readings and %d", len(a), len(b))
	}
	return ""
}

package take

import (
	"fmt"
	"io"
	"reflect"

	"propsoff.example/assets/words"
)

var errClosed error = words.Wrong("take.closed")

// Difference is the first one between a take and its replay.
type Difference struct {
	// After is the last tick up to which the two are known to agree (-1 for none), Tick the one at which they differ. Only
	// a difference of digests lies somewhere between the two.
	After, Tick int64
	// Take and Replay say what each has at Tick; neither says anything of digests.
	Take, Replay words.Text
	// Was and Now are the happenings of the take and of the replay that are meant, each with its own numbers; nil for none.
	Was, Now *Entry
}

// Text says what differs, and when.
func (d *Difference) Text() words.Text {
	if !d.Take.Empty() {
		return words.T("take.differs", words.Args{"time": clock(d.Tick), "take": d.Take, "replay": d.Replay})
	}
	var from words.Text // without a time where nothing agrees yet
	if d.After >= 0 {
		from = clock(d.After)
	}
	return words.T("take.another-way", words.Args{"from": from, "to": clock(d.Tick)})
}

// Comparer holds a replay against its take. It reads the take by itself, so it wants a Reader of its own. The caller
// tells it each happening of the replay in order, and after every step the digest; the first difference sticks.
//
// Codes are compared by name, so that a program whose numbers have changed still replays old takes. Where a take was cut
// (killed, torn or repaired) nothing that comes after its last entry counts as a difference.
type Comparer struct {
	// OnlyHappenings leaves the digests out, for a take whose model counted them another way. It is set before anything is told.
	OnlyHappenings bool
	// Alike, where given, is asked of two happenings of one name whose numbers differ: whether they mean the same.
	Alike func(was, now *Entry) bool

	r     *Reader
	names []string
	ours  [256]int16 // the take's code to the replay's, -1 for one that the replay does not know

	next Entry
	read bool
	err  error // of reading the take; io.EOF at its end
	last int64 // tick up to which all agrees
	diff *Difference
	seen int
}

// NewComparer compares with what r has still to give. names are the replaying program's names of the happening codes by
// their numbers; none means that its numbers are the take's.
func NewComparer(r *Reader, names []string) *Comparer {
	c := &Comparer{r: r, names: names, last: -1}
	for i := range c.ours {
		c.ours[i] = int16(i)
		if len(names) == 0 || len(r.settings.Codes) == 0 {
			continue
		}
		c.ours[i] = -1
		for j, name := range names {
			if j < len(c.ours) && i < len(r.settings.Codes) && name != "" && name == r.settings.Codes[i] {
				c.ours[i] = int16(j)
			}
		}
	}
	return c
}

// begin reads the take's first line of the record.
func (c *Comparer) begin() {
	if !c.read {
		c.read = true
		c.advance()
	}
}

// Happening takes one happening of the replay. It gives the first difference found so far, or nil.
func (c *Comparer) Happening(tick int64, code uint8, a, b int32) *Difference {
	now := Entry{Kind: Happening, Tick: tick, Code: code, A: a, B: b}
	if c.diff != nil || c.missed(tick) {
		return c.diff
	}
	if c.err != nil {
		// A take that was cut says nothing about its last tick, of which a part may be lost, nor about what came later.
		if c.err == io.EOF && c.r.closed && tick <= c.r.tick {
			c.differ(tick, nil, &now)
		}
		return c.diff
	}
	e := &c.next
	switch {
	case e.Tick > tick, e.Kind != Happening:
		c.differ(tick, nil, &now)
	case c.ours[e.Code] != int16(code), (e.A != a || e.B != b) && (c.Alike == nil || !c.Alike(e, &now)):
		c.differ(tick, e, &now)
	default:
		c.seen++
		c.advance()
	}
	return c.diff
}

// Digest takes the replay's digest after tick was stepped and its happenings were told. It is compared where the take
// has one of the same tick. It gives the first difference found so far, or nil.
func (c *Comparer) Digest(tick int64, digest uint64) *Difference {
	if c.diff != nil || c.missed(tick) {
		return c.diff
	}
	for c.err == nil && c.next.Tick == tick {
		switch {
		case c.next.Kind == Happening:
			c.differ(tick, &c.next, nil)
		case c.next.Digest != digest:
			c.diff = &Difference{After: c.last, Tick: tick}
		}
		if c.diff != nil {
			return c.diff
		}
		c.seen++
		c.last = tick
		c.advance()
	}
	return nil
}

// Finish is called when the replay has ended, after the Digest of tick, its last. It gives the first difference, if any,
// and an error where the take could not be read to its end. A replay that ended before the take did is a difference.
func (c *Comparer) Finish(tick int64) (*Difference, error) {
	if c.diff == nil {
		c.missed(tick + 1)
	}
	if c.diff == nil && c.err == nil {
		c.differ(c.next.Tick, &c.next, nil)
		c.diff.Replay = words.T("take.nothing-ended", words.Args{"time": clock(tick)})
	}
	if c.err != nil && c.err != io.EOF {
		return c.diff, c.err
	}
	return c.diff, nil
}

// Difference is the first one found so far, nil for none.
func (c *Comparer) Difference() *Difference { return c.diff }

// Compared is the number of happenings and digests that were found equal: a comparison of nothing proves nothing.
func (c *Comparer) Compared() int { return c.seen }

// Close closes the Comparer's Reader.
func (c *Comparer) Close() error { return c.r.Close() }

// missed looks whether the take holds something of an earlier tick that the replay never told.
func (c *Comparer) missed(tick int64) bool {
	c.begin()
	if c.err != nil || c.next.Tick >= tick {
		return false
	}
	c.differ(c.next.Tick, &c.next, nil)
	return true
}

// differ notes the first difference: what the take has and what the replay, nil for nothing.
func (c *Comparer) differ(tick int64, was, now *Entry) {
	nothing := words.T("take.nothing")
	d := &Difference{After: c.last, Tick: tick, Take: nothing, Replay: nothing}
	if was != nil {
		d.Take = words.Text{}
		if was.Kind == Happening {
			e := *was
			d.Take, d.Was = c.r.settings.happened(was), &e
		}
	}
	if now != nil {
		e := *now
		names := &c.r.settings
		if len(c.names) > 0 {
			names = &Settings{Codes: c.names}
		}
		d.Replay, d.Now = names.happened(now), &e
	}
	if was != nil && now != nil && reflect.DeepEqual(d.Take, d.Replay) { // the same name with other meanings of its number
		d.Take = words.T("take.other-number", words.Args{"code": d.Take})
	}
	c.diff = d
}

// advance goes on to the take's next happening or digest.
func (c *Comparer) advance() {
	for c.err == nil {
		c.next, c.err = c.r.Next()
		if c.err == nil && (c.next.Kind == Happening || c.next.Kind == Digest && !c.OnlyHappenings) {
			return
		}
	}
}

// happened says a happening by its code's name.
func (s *Settings) happened(e *Entry) words.Text {
	return words.T("take.happened", words.Args{"code": s.code(e.Code), "numbers": words.Quote(numbers(e.A, e.B))})
}

// numbers writes A and B where they are not both 0.
func numbers(a, b int32) string {
	switch {
	case b != 0:
		return fmt.Sprintf(" (%d, %d)", a, b)
	case a != 0:
		return fmt.Sprintf(" (%d)", a)
	}
	return ""
}

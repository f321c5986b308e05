package take

import (
	"errors"
	"fmt"
	"io"
)

var errClosed = errors.New("the take is closed")

// Difference is the first one between a take and its replay.
type Difference struct {
	// After is the last tick up to which the two are known to agree (-1 for none), Tick the one at which they differ. Only
	// a difference of digests lies somewhere between the two.
	After, Tick int64
	// Take and Replay say in words what each has at Tick.
	Take, Replay string
	// Was and Now are the happenings of the take and of the replay that are meant, each with its own numbers; nil for none.
	Was, Now *Entry
}

func (d *Difference) String() string {
	if d.Take == digestWord {
		from := "the start"
		if d.After >= 0 {
			from = Clock(d.After)
		}
		return fmt.Sprintf("between %s and %s the replay went another way than the take, without a happening that differs", from, Clock(d.Tick))
	}
	return fmt.Sprintf("at %s the take says %s, the replay says %s", Clock(d.Tick), d.Take, d.Replay)
}

const (
	nothingWord = "nothing"
	digestWord  = "one digest"
)

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

// Happening tells of one happening of the replay. It gives the first difference found so far, or nil.
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

// Digest tells the digest after tick was stepped and its happenings were told. It is compared where the take has one of
// the same tick. It gives the first difference found so far, or nil.
func (c *Comparer) Digest(tick int64, digest uint64) *Difference {
	if c.diff != nil || c.missed(tick) {
		return c.diff
	}
	for c.err == nil && c.next.Tick == tick {
		switch {
		case c.next.Kind == Happening:
			c.differ(tick, &c.next, nil)
		case c.next.Digest != digest:
			c.diff = &Difference{After: c.last, Tick: tick, Take: digestWord, Replay: "another"}
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
		c.diff.Replay += " (it ended at " + Clock(tick) + ")"
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
	d := &Difference{After: c.last, Tick: tick, Take: nothingWord, Replay: nothingWord}
	if was != nil {
		d.Take = c.takes(was)
		if was.Kind == Happening {
			e := *was
			d.Was = &e
		}
	}
	if now != nil {
		e := *now
		d.Replay, d.Now = c.name(now.Code, now.A, now.B), &e
	}
	if d.Take == d.Replay { // the same name with other meanings of its number
		d.Take += " (by another number)"
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

// takes says what the take has.
func (c *Comparer) takes(e *Entry) string {
	if e.Kind == Digest {
		return digestWord
	}
	return c.r.settings.code(e.Code) + numbers(e.A, e.B)
}

func (c *Comparer) name(code uint8, a, b int32) string {
	names := c.names
	if len(names) == 0 {
		names = c.r.settings.Codes
	}
	s := Settings{Codes: names}
	return s.code(code) + numbers(a, b)
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

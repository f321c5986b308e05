// Package check looks at each learned control as it is taken to both ends and back, full and free, and says what passes, warns
// and fails.
//
// A Checker has no clock and no device: it is fed raw states, told when the radio was pulled out and how time goes on, and
// tells what it found in a View. Every value follows from the order of its calls alone. Nothing of what it measures changes a
// radio file.
package check

import (
	"errors"
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/sim/pulse"
)

// Wants is what a craft asks of a radio.
type Wants struct {
	// LowThrottle is the mark below which throttle is low; 0 means 1000 µs.
	LowThrottle pulse.Width
}

// Config says what a Checker checks.
type Config struct {
	Info  input.Info
	File  radio.File
	Names input.Names
	Wants Wants
}

// Checker checks one radio. It belongs to one goroutine.
type Checker struct {
	cfg      Config
	controls []control
	order    []int // of controls as they are asked for

	now, lastAt int64
	last        input.Raw
	heard, out  bool
	lost, gone  int
	outSince    int64
	outFor      int64 // how long it was out in all

	restAt, restedAt int64 // begin of the rest that goes on; end of the last whole one
	rested, leading  bool
	doneAt           int64 // when the last control was done, −1 while one is not

	corner cornerHold
	rate   rate
	// fresh: the state before is the first since the device was opened, when it may not have spoken yet.
	fresh bool
}

// New makes a Checker. The error lists what in the file does not fit the device (as that of radio.NewMapper does), and
// axes without a range, of which nothing can be said.
func New(cfg Config) (*Checker, error) {
	if _, err := radio.NewMapper(cfg.File, cfg.Info, cfg.Names); err != nil {
		return nil, err
	}
	if cfg.Wants.LowThrottle == 0 {
		cfg.Wants.LowThrottle = LowThrottle
	}
	c := &Checker{cfg: cfg, doneAt: -1}
	var wrong []error
	for _, rc := range cfg.File.Controls {
		if rc.Form == radio.Axis {
			if a := cfg.Info.Axes[rc.Axis]; a.Min >= a.Max {
				wrong = append(wrong, words.Wrong("check-input.no-range", words.Args{"axis": words.Whole(rc.Axis + 1), "job": words.Quote(rc.Job)}))
				continue
			}
		}
		ct := newControl(rc, &cfg.Info, cfg.Names)
		ct.lowMark = cfg.Wants.LowThrottle
		c.controls = append(c.controls, ct)
	}
	if len(wrong) > 0 {
		return nil, errors.Join(wrong...)
	}
	for _, job := range [...]string{"throttle", "yaw", "pitch", "roll"} {
		for i := range c.controls {
			if c.controls[i].Job == job {
				c.order = append(c.order, i)
			}
		}
	}
	copy(c.corner.of[:], c.order)
	for i := range c.controls {
		if !slices.Contains(c.order, i) {
			c.order = append(c.order, i)
		}
	}
	return c, nil
}

// Feed takes the next raw state. Its time is raw.At; one that runs backwards counts as the time before. After Gone it means
// that the radio is back.
func (c *Checker) Feed(raw *input.Raw) {
	at := max(raw.At, c.now)
	opened := c.out || !c.heard
	broken := raw.Resync || opened || c.fresh && input.Woke(&c.cfg.Info, &c.last, raw)
	c.fresh = opened
	if raw.Resync && c.heard {
		c.lost++
	}
	if c.out {
		c.out = false
		c.outFor += at - c.outSince
	}
	if broken { // nobody knows what was meanwhile
		c.now = at
	} else {
		c.pass(at)
	}
	gap, period := at-c.lastAt, c.rate.period()
	if c.heard {
		c.rate.feed(raw, &c.last, len(c.cfg.Info.Axes), gap, broken)
	}
	anew := broken
	for i := range c.controls {
		ct := &c.controls[i]
		was := ct.raw
		ct.feed(raw, at, broken, gap, period)
		anew = anew || ct.perRaw == 0 && ct.raw != was // a button moved: nothing rests
	}
	if anew {
		c.restFrom(at)
	}
	if broken {
		c.corner.since = at
	}
	c.last, c.lastAt, c.heard = *raw, at, true
	c.corner.move(c)
}

// Gone tells that the radio was pulled out, at a time in µs.
func (c *Checker) Gone(at int64) {
	if c.out {
		return
	}
	c.pass(max(at, c.now))
	c.out, c.outSince = true, c.now
	c.gone++
	for i := range c.controls {
		c.controls[i].place = -1 // a row of buttons is unknown again, as in radio.Mapper.Forget
	}
}

// Tick lets time go on to now, on the clock of the raw states; it must not run ahead of states that are still to come by more
// than a few milliseconds.
func (c *Checker) Tick(now int64) {
	for n := 0; n < 100 && c.now+tickMost < now; n++ { // a rest has a beginning and an end
		c.pass(c.now + tickMost)
	}
	c.pass(max(now, c.now))
}

// pass lets time go on with everything as it stands.
func (c *Checker) pass(now int64) {
	c.now = now
	if !c.heard || c.out {
		return
	}
	all := true
	for i := range c.controls {
		c.controls[i].pass(now)
		all = all && c.controls[i].done()
	}
	if all && c.doneAt < 0 {
		c.doneAt = now
	}
	c.rest(now)
	c.corner.pass(c, now)
}

// cornerHold is the quick direction check: both sticks in their top right corners, all four at maximum (common practice, no
// source).
type cornerHold struct {
	of    [4]int // throttle, yaw, pitch, roll
	ref   [4]pulse.Width
	since int64 // all four have kept near ref since
	done  bool  // decided, for good or for now
}

// move notes that a control may have moved.
func (h *cornerHold) move(c *Checker) {
	for k, i := range h.of {
		if w := c.controls[i].width; abs(w-h.ref[k]) > cornerStill {
			h.since = c.now
			for k, i := range h.of {
				h.ref[k] = c.controls[i].width
			}
			return
		}
	}
}

// pass decides. All four at their high ends for a moment is right, whenever it is seen. While it is asked for, sticks that are
// held far from the middle for a longer while, not all at the high end, tell which of them run the wrong way; seen right
// later, that is taken back.
func (h *cornerHold) pass(c *Checker, now int64) {
	held := now - h.since
	right, far := true, true
	for _, i := range h.of {
		w := c.controls[i].width
		right = right && w >= pulse.FullyHigh
		far = far && abs(w-pulse.Centre) >= half
	}
	if !(right && held >= cornerQuick || far && held >= cornerSlow && !h.done) {
		return
	}
	h.done = true
	for _, i := range h.of {
		ct := &c.controls[i]
		switch {
		case ct.width < pulse.Centre:
			ct.cornerAt, ct.corner = ct.width, Fails
		case ct.corner != Passes || ct.width > ct.cornerAt:
			ct.cornerAt, ct.corner = ct.width, Passes
		}
	}
}

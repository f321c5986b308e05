package whodrives

import (
	"sync"

	"propsoff.example/input"
)

// Heard is one raw state of the radio that drives, as it came, for whoever looks at the radio itself (the controls check).
type Heard struct {
	Raw input.Raw
	// Gone is true where the radio was pulled out at Raw.At; Raw has nothing else then.
	Gone bool
}

// tap keeps what the radio said for the window's goroutine. The loop's goroutine fills it.
type tap struct {
	mu    sync.Mutex
	on    bool
	heard []Heard
	// last is what the radio said last, whether anybody listened or not; a still hand sends nothing.
	last  input.Raw
	there bool
	turn  int
}

// mostHeard bounds the wait between two looks: at 1000 reports a second some 8 s (ours). What is beyond is let go, oldest
// first, and the next state marked as one before which readings were lost.
const mostHeard = 8192

func (t *tap) hear(turn int, raw *input.Raw, gone bool) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if turn != t.turn {
		return // of a radio that drives no longer
	}
	t.last, t.there = *raw, !gone
	if !t.on {
		return
	}
	if len(t.heard) == mostHeard {
		t.heard = append(t.heard[:0], t.heard[mostHeard/2:]...)
		t.heard[0].Raw.Resync = true
	}
	t.heard = append(t.heard, Heard{Raw: *raw, Gone: gone})
}

// next begins with another source, and forgets what the one before said.
func (t *tap) next() (turn int) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.there = false
	t.turn++
	return t.turn
}

// Listen begins or ends keeping what the radio that drives says. It begins with the state that stands, if one is known.
func (d *Driver) Listen(on bool) {
	d.tap.mu.Lock()
	d.tap.on, d.tap.heard = on, d.tap.heard[:0]
	if on && d.tap.there && d.who == Radio {
		d.tap.heard = append(d.tap.heard, Heard{Raw: d.tap.last})
	}
	d.tap.mu.Unlock()
}

// HeardSince appends what was kept since the last call, oldest first.
func (d *Driver) HeardSince(dst []Heard) []Heard {
	d.tap.mu.Lock()
	dst = append(dst, d.tap.heard...)
	d.tap.heard = d.tap.heard[:0]
	d.tap.mu.Unlock()
	return dst
}

// Show lets a source drive that shows something, such as the way to a broken rule. When it has ended, or Next is pressed,
// whoever drove before drives again.
func (d *Driver) Show(s input.Source) {
	if d.who != Script {
		d.before = d.who
	}
	d.tidy()
	d.o.Script, d.ended, d.shown = s, false, true
	d.hand(Script, s, 0)
}

// UseNames gives jobs their channels anew, after the craft has changed: who drives drives on with them.
func (d *Driver) UseNames(names input.Names) {
	d.o.Names = names
	switch d.who {
	case Radio:
		if !d.driveOn() {
			d.keyboard()
		}
	case Keyboard:
		d.keyboard()
	}
}

// Showing reports whether what Show was given still drives.
func (d *Driver) Showing() bool { return d.shown && d.who == Script }

// endShow gives the bench back, with its pack in and everything as a person expects to find it.
func (d *Driver) endShow() {
	d.shown, d.ended, d.o.Script = false, false, nil
	d.tidy()
	switch {
	case d.before == Radio && d.driveOn():
	case d.before == Demo:
		d.demo()
	default:
		d.keyboard()
	}
}

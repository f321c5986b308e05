package usb

import (
	"encoding/binary"
	"time"

	"propsoff.example/input"
)

// The classic interface's events, 8 bytes each. Source: include/uapi/linux/joystick.h.
const (
	jsEventSize = 8
	jsButton    = 0x01
	jsAxis      = 0x02
	jsInit      = 0x80
	// jsEnd is the upper end of an axis's range after the kernel's correction; the lower is its negative.
	jsEnd = 32767
)

// jsLate is how far a state may lag behind its time stamp before the stamp is believed rather than the time of arrival,
// in µs. The stamps are whole milliseconds that step with the kernel's tick, which is at most 10 ms (ours).
const jsLate = 10_000

// classicDecoder builds states from the classic interface's events. There are no packets here: events of one read with the
// same stamp are taken as one. A burst of INIT events gives the whole state, all buttons, then all axes; the kernel sends one
// after the opening and another whenever it had to drop events, and that one is a resynchronisation, never something a hand
// did. Source: drivers/input/joydev.c.
type classicDecoder struct {
	out           *queue
	axes, buttons int
	clock         func() int64 // µs since the epoch
	now           input.Raw
	started       bool // the first burst is complete
	burst         bool // within a burst
	pending       bool // now holds a change that was not handed on
	stamp         uint32
	stamped       bool
	total, offset int64 // µs: the stamps without their overflow; the least time from stamp to arrival
}

func (d *classicDecoder) feed(b []byte) int {
	used := 0
	for ; len(b)-used >= jsEventSize; used += jsEventSize {
		e := b[used : used+jsEventSize]
		d.event(binary.NativeEndian.Uint32(e), int16(binary.NativeEndian.Uint16(e[4:])), e[6], int(e[7]))
	}
	if d.pending && !d.burst {
		d.emit(false)
	}
	return used
}

func (d *classicDecoder) event(stamp uint32, value int16, typ uint8, number int) {
	place := number // in the order of a burst
	switch {
	case typ&^jsInit == jsButton && number < d.buttons:
	case typ&^jsInit == jsAxis && number < d.axes:
		place += d.buttons
	default:
		return
	}
	init := typ&jsInit != 0
	switch {
	case d.pending && !d.burst && (init || stamp != d.stamp):
		d.emit(false)
	case d.burst && !init: // a burst that was broken off: what is known now is all that there is
		d.emit(d.started)
		d.burst, d.started = false, true
	}
	d.time(stamp)
	if typ&jsButton != 0 {
		if number < input.MaxButtons {
			setBit(&d.now, number, value != 0)
		}
	} else if number < input.MaxAxes {
		d.now.Axes[number] = max(int32(value), -jsEnd)
	}
	d.pending = true
	if init {
		d.burst = true
		if place == d.buttons+d.axes-1 {
			d.burst = false
			d.emit(d.started)
			d.started = true
		}
	}
}

// time puts the state in hand on our clock. The kernel's stamps are milliseconds of a clock that starts anywhere, so their
// distance to ours is the least that was ever seen; the time of arrival is finer than the stamp and is taken unless the
// reader was late.
func (d *classicDecoder) time(stamp uint32) {
	if d.stamped {
		d.total += int64(int32(stamp-d.stamp)) * 1000
	}
	arrival := d.clock()
	if off := arrival - d.total; !d.stamped || off < d.offset {
		d.offset = off
	}
	d.stamp, d.stamped = stamp, true
	d.now.At = max(d.now.At, min(arrival, d.total+d.offset+jsLate))
}

func (d *classicDecoder) emit(resync bool) {
	d.pending = false
	d.now.Resync = resync
	d.out.push(&d.now)
	d.now.Resync = false
}

// The classic interface says the whole state by itself after a loss, so there is nothing to ask.
func (d *classicDecoder) lost() bool               { return false }
func (d *classicDecoder) resync() error            { return nil }
func (d *classicDecoder) unsettled() time.Duration { return 0 }
func (d *classicDecoder) settle()                  {}

package usb

import (
	"encoding/binary"
	"io"
	"strconv"
	"time"

	"propsoff.example/input"
)

// Event types and codes. Source: include/uapi/linux/input-event-codes.h.
const (
	evSyn, evKey, evRel, evAbs = 0x00, 0x01, 0x02, 0x03

	synReport, synDropped = 0, 3

	// cutReport is the value of a SYN_REPORT that the kernel puts in by itself where a report has as many events as it has
	// room for: eight or ten buttons that change together are enough. The rest follows at once, with the same stamp, and
	// then the report's own SYN_REPORT of value 0; but if there is no rest, the kernel swallows that one too.
	// Source: drivers/input/input.c, input_value_sync and input_handle_event; and seen on a 6.1 kernel.
	cutReport = 1

	absCount = 0x40
	keyCount = 0x300
	absHat0X = 0x10
	absHat3Y = 0x17
)

// nativeLong is the number of bytes of each of an event's two time fields: the kernel's long as this program sees it.
// Source: include/uapi/linux/input.h, struct input_event (24 bytes on 64-bit systems, 16 on 32-bit ones).
const nativeLong = strconv.IntSize / 8

// eventDecoder builds whole states from the kernel's events. A packet is everything up to SYN_REPORT and is applied at one
// instant; after SYN_DROPPED everything up to and including the next SYN_REPORT is ignored and the device asked afresh.
// Source: Documentation/input/event-codes.rst.
//
// The kernel may answer in the middle of a report: its state is changed event by event, the packet handed out at the end.
// So the answer is held until the first packet that was stamped after it, or until the reader says that none comes. In the
// same way the first part of a report that the kernel cut in two is held until the second.
type eventDecoder struct {
	out    *queue
	ask    func(*input.Raw) error
	long   int             // bytes of each time field: 8 or 4
	axisAt [absCount]uint8 // code to axis number + 1, 0 where it is none
	keyAt  [keyCount]uint8 // code to button number + 1, 0 where it is none
	axes   []input.Axis
	epoch  int64
	now    input.Raw
	// changed: the packet in hand has moved something.
	changed bool
	// skip: SYN_DROPPED was seen and the device not yet asked; whole: nothing came after the last SYN_REPORT.
	skip, whole bool
	// fresh: the device was asked, at asked, and the answer not yet handed on.
	fresh bool
	asked int64
	// cut: the packet in hand, stamped now.At, may be the first part of a report.
	cut   bool
	clock func() int64 // µs since the epoch
}

func newEventDecoder(out *queue, info *input.Info, keys []uint16, ask func(*input.Raw) error, epoch int64) *eventDecoder {
	d := &eventDecoder{out: out, ask: ask, long: nativeLong, axes: info.Axes, epoch: epoch}
	d.clock = func() int64 { return Now() - epoch }
	for i, a := range info.Axes {
		if a.Code >= 0 && a.Code < absCount && i < input.MaxAxes {
			d.axisAt[a.Code] = uint8(i + 1)
		}
	}
	for i, k := range keys {
		if k < keyCount && i < input.MaxButtons {
			d.keyAt[k] = uint8(i + 1)
		}
	}
	return d
}

// first asks the device for its state and puts it into the queue with the time at, µs since the epoch.
func (d *eventDecoder) first(at int64) error {
	if err := d.answer(); err != nil {
		return err
	}
	d.now.At = max(at, 0)
	d.out.push(&d.now)
	return nil
}

func (d *eventDecoder) feed(b []byte) int {
	used, size := 0, 2*d.long+8
	for ; len(b)-used >= size; used += size {
		e := b[used : used+size]
		var sec, usec int64
		if d.long == 8 {
			sec = int64(binary.NativeEndian.Uint64(e))
			usec = int64(binary.NativeEndian.Uint64(e[8:]))
		} else {
			sec = int64(binary.NativeEndian.Uint32(e))
			usec = int64(binary.NativeEndian.Uint32(e[4:]))
		}
		e = e[2*d.long:]
		d.event(sec*1e6+usec-d.epoch, binary.NativeEndian.Uint16(e), binary.NativeEndian.Uint16(e[2:]),
			int32(binary.NativeEndian.Uint32(e[4:])))
	}
	return used
}

func (d *eventDecoder) event(at int64, typ, code uint16, value int32) {
	if typ == evSyn && code == synDropped {
		d.skip, d.whole = true, false
		return
	}
	if d.skip {
		// Later packets in the same buffer are ignored too: the answer, which is yet to be asked for, is newer.
		d.whole = typ == evSyn && code == synReport
		d.now.At = max(d.now.At, at)
		return
	}
	if d.cut && at != d.now.At {
		d.settle() // there was no rest
	}
	switch typ {
	case evAbs:
		if code < absCount && d.axisAt[code] > 0 {
			i := d.axisAt[code] - 1
			d.now.Axes[i] = clamp(value, d.axes[i])
			d.changed, d.cut = true, false // if it is the rest, its own SYN_REPORT hands on the whole: no half of it is ever seen
		}
	case evKey:
		// Value 2 is autorepeat, which keyboards have: pressed it is all the same.
		if code < keyCount && d.keyAt[code] > 0 {
			setBit(&d.now, int(d.keyAt[code]-1), value != 0)
			d.changed, d.cut = true, false
		}
	case evSyn:
		if code != synReport || !d.changed && !d.fresh {
			return
		}
		d.now.At = max(d.now.At, at) // time never runs back, whatever the device says
		if d.fresh {
			if value != cutReport && at >= d.asked {
				d.settle()
			}
		} else if d.cut = value == cutReport && at == d.now.At; !d.cut {
			d.settle()
		}
	}
}

func (d *eventDecoder) lost() bool { return d.skip && d.whole }

func (d *eventDecoder) resync() error {
	if err := d.answer(); err != nil {
		return err
	}
	d.asked = d.clock() // afterwards: whatever is stamped later was not in the answer as a whole report
	d.skip, d.whole, d.cut, d.fresh = false, false, false, true
	return nil
}

// The rest of a report may take so long (ours). The kernel itself takes microseconds, but it may be held up: after a loss,
// where a moment more does not matter, it is given longer.
const (
	cutWait   = 3 * time.Millisecond
	freshWait = 20 * time.Millisecond
)

func (d *eventDecoder) unsettled() time.Duration {
	switch {
	case d.skip:
		return 0
	case d.fresh:
		return freshWait
	case d.cut:
		return cutWait
	}
	return 0
}

// settle hands the state on.
func (d *eventDecoder) settle() {
	d.now.Resync = d.fresh
	d.out.push(&d.now)
	d.now.Resync, d.fresh, d.cut, d.changed = false, false, false, false
}

func (d *eventDecoder) answer() error {
	at := d.now.At
	d.now = input.Raw{}
	if err := d.ask(&d.now); err != nil {
		return err
	}
	d.now.At, d.now.Resync = at, false
	for i := range min(len(d.axes), input.MaxAxes) {
		d.now.Axes[i] = clamp(d.now.Axes[i], d.axes[i])
	}
	return nil
}

// clamp keeps a value within the axis's range: the kernel does not (include/uapi/linux/input.h: "input core does not clamp
// reported values to the [minimum, maximum] limits"). An axis without a range is left as it is.
func clamp(v int32, a input.Axis) int32 {
	if a.Min >= a.Max {
		return v
	}
	return min(max(v, a.Min), a.Max)
}

func setBit(s *input.Raw, n int, on bool) {
	if on {
		s.Buttons[n/64] |= 1 << (n % 64)
	} else {
		s.Buttons[n/64] &^= 1 << (n % 64)
	}
}

// Pipe is a radio whose events come from a pipe instead of a device node: for tests and for the measurement of the delay
// from reading to snapshot, in which the very reader and decoder of the event interface are fed with stamped events.
type Pipe struct {
	// Info is handed on as it is; its Axes give codes and ranges.
	Info input.Info
	// Keys are the kernel's key codes of the buttons, in order.
	Keys []uint16
	// Ask fills in the state (axes and buttons) as the kernel would answer it. Called once by NewFromPipe, then by the
	// reading goroutine after a SYN_DROPPED. Nil answers with zero for everything.
	Ask func(*input.Raw) error
	// Epoch is that of Options.
	Epoch int64
}

// NewFromPipe opens a radio on r, which gives the kernel's input events in this machine's own layout and is closed by the
// device's Close. The first state has At 0. The end of r counts as the radio being pulled out.
func NewFromPipe(r io.ReadCloser, p Pipe) (input.Device, error) {
	ask := p.Ask
	if ask == nil {
		ask = func(*input.Raw) error { return nil }
	}
	q := newQueue()
	dec := newEventDecoder(q, &p.Info, p.Keys, ask, p.Epoch)
	if err := dec.first(0); err != nil {
		return nil, err
	}
	return start(p.Info, q, r, dec, p.Epoch, make([]byte, eventBuffer), 0), nil
}

// eventBuffer is the room for one read, in bytes: a multiple of both event sizes (ours; the kernel keeps 64 events or
// somewhat more, hence never more than a few hundred).
const eventBuffer = 48 * 128

// AppendEvent appends one kernel input event in this machine's own layout: at is Now's clock in µs. For NewFromPipe.
func AppendEvent(b []byte, at int64, typ, code uint16, value int32) []byte {
	if nativeLong == 8 {
		b = binary.NativeEndian.AppendUint64(b, uint64(at/1e6))
		b = binary.NativeEndian.AppendUint64(b, uint64(at%1e6))
	} else {
		b = binary.NativeEndian.AppendUint32(b, uint32(at/1e6))
		b = binary.NativeEndian.AppendUint32(b, uint32(at%1e6))
	}
	b = binary.NativeEndian.AppendUint16(b, typ)
	b = binary.NativeEndian.AppendUint16(b, code)
	return binary.NativeEndian.AppendUint32(b, uint32(value))
}

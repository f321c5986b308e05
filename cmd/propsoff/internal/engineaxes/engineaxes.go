// Package engineaxes fills in the axes that the portable library cannot see, from the engine's gamepad reading.
//
// On Windows the portable library sees six axes; a radio with eight has two more (as a rule its slider and its dial). The
// engine reads them at the rate of its updates, so they are stamped at that rate, and the first six go on coming from
// the device's own reader. Nothing here knows the engine: the window says what it sees.
package engineaxes

import (
	"errors"
	"strings"
	"sync"

	"propsoff.example/input"
	"propsoff.example/input/usb"
)

// Pad is one gamepad as the engine sees it.
type Pad struct {
	Name string
	// Axes from −1 to +1.
	Axes []float64
}

// Range is the raw range of an axis that was filled in: ±Range.
const Range = 32767

// Filler keeps what the engine saw last. It is safe for concurrent use.
type Filler struct {
	mu   sync.Mutex
	now  func() int64
	pads []Pad
}

// New makes a Filler; now is the clock of the devices' stamps in µs.
func New(now func() int64) *Filler { return &Filler{now: now} }

// Saw takes what the engine sees in this update. The pads are copied.
func (f *Filler) Saw(pads []Pad) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.pads = f.pads[:0]
	for _, p := range pads {
		f.pads = append(f.pads, Pad{p.Name, append([]float64(nil), p.Axes...)})
	}
}

// of finds the pad that is the device: the one with its name, else the only one there is.
func (f *Filler) of(name string) (Pad, bool) {
	f.mu.Lock()
	defer f.mu.Unlock()
	for _, p := range f.pads {
		if strings.EqualFold(p.Name, name) {
			return p, true
		}
	}
	if len(f.pads) == 1 {
		return f.pads[0], true
	}
	return Pad{}, false
}

// Wrap gives dev with the axes filled in that the engine sees beyond its own; dev itself where it sees no more.
func (f *Filler) Wrap(dev input.Device, epoch int64) input.Device {
	info := dev.Info()
	p, ok := f.of(info.Name)
	own := len(info.Axes)
	if !ok || len(p.Axes) <= own || own >= input.MaxAxes {
		return dev
	}
	info.Axes = append([]input.Axis(nil), info.Axes...)
	for i := own; i < min(len(p.Axes), input.MaxAxes); i++ {
		info.Axes = append(info.Axes, input.Axis{Code: i, Min: -Range, Max: Range})
	}
	info.Way += usb.WithEngine
	return &filled{Device: dev, filler: f, info: info, own: own, epoch: epoch}
}

// filled is a device with more axes than it can tell of itself.
type filled struct {
	input.Device
	filler *Filler
	info   input.Info
	own    int
	epoch  int64
	last   input.Raw
	begun  bool
}

// Info is input.Device's.
func (d *filled) Info() input.Info { return d.info }

// Poll is input.Device's: the device's own states with the engine's axes beside them, and a state of its own when only
// those moved.
func (d *filled) Poll(dst []input.Raw) ([]input.Raw, error) {
	n := len(dst)
	dst, err := d.Device.Poll(dst)
	p, ok := d.filler.of(d.info.Name)
	moved := false
	extra := d.last
	if ok {
		for i := d.own; i < min(len(d.info.Axes), len(p.Axes)); i++ {
			v := int32(min(max(p.Axes[i], -1), 1) * Range)
			moved = moved || v != extra.Axes[i]
			extra.Axes[i] = v
		}
	}
	for i := n; i < len(dst); i++ {
		copy(dst[i].Axes[d.own:], extra.Axes[d.own:])
		d.last, d.begun = dst[i], true
	}
	if len(dst) == n && moved && d.begun && (err == nil || !errors.Is(err, input.ErrGone)) {
		extra.At, extra.Resync = max(d.filler.now()-d.epoch, d.last.At), false
		d.last = extra
		dst = append(dst, extra)
	}
	return dst, err
}

// Package inputtest holds fake radios with noise and faults, and the one test that every source must pass.
package inputtest

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"sync"

	"propsoff.example/input"
)

// Radio is a fake radio: hands written down beforehand, and the faults of its hardware. Fill it, then take its States,
// or open it as a Device as often as is needed. Times are µs from its opening; axes and buttons count from 0.
type Radio struct {
	// Every is the time between two reports in µs; 0 means 1000, as a USB radio's.
	Every int64
	info  input.Info
	// rest values at 0 µs
	rest    [input.MaxAxes]int32
	moves   [input.MaxAxes][]move
	presses []press
	bends   [input.MaxAxes]bend
	spikes  []spike
	lost    []span
	vanish  int64 // -1: never
	end     int64
}

type move struct {
	at, over int64
	to       int32
}

type press struct {
	at      int64
	button  int
	pressed bool
}

type spike struct {
	at   int64
	axis int
	to   int32
}

type span struct{ from, to int64 }

// bend is what the hardware of one axis does to the hand.
type bend struct {
	noise    int32
	seed     uint64
	short    bool
	low, top int32
	off      int32
}

// NewRadio makes a radio at rest: every axis in the middle of its range, every button released.
func NewRadio(info input.Info) *Radio {
	r := &Radio{info: info, vanish: -1}
	for i, a := range info.Axes {
		r.rest[i] = int32((int64(a.Min) + int64(a.Max)) / 2)
	}
	return r
}

// Info is what the device says of itself.
func (r *Radio) Info() input.Info { return r.info }

// Rest sets the value of an axis at 0 µs.
func (r *Radio) Rest(axis int, value int32) { r.rest[axis] = value }

// Move brings an axis to a value in a straight line that begins at a time and takes over µs (0: at once). It is given
// in order of time for each axis.
func (r *Radio) Move(at, over int64, axis int, value int32) {
	r.moves[axis] = append(r.moves[axis], move{at, over, value})
	r.end = max(r.end, at+over)
}

// Press presses or releases a button at a time in µs.
func (r *Radio) Press(at int64, button int, pressed bool) {
	r.presses = append(r.presses, press{at, button, pressed})
	r.end = max(r.end, at)
}

// Noise adds a random value from -amplitude to amplitude to every report of an axis; the same seed gives the same noise.
func (r *Radio) Noise(axis int, amplitude int32, seed uint64) {
	r.bends[axis].noise, r.bends[axis].seed = amplitude, seed
}

// ShortTravel makes an axis that never goes below low or above high.
func (r *Radio) ShortTravel(axis int, low, high int32) {
	b := &r.bends[axis]
	b.short, b.low, b.top = true, low, high
}

// OffCentre makes an axis read by too much everywhere (within the device's range).
func (r *Radio) OffCentre(axis int, by int32) { r.bends[axis].off = by }

// Spike makes an axis jump to a value for one report, at a time in µs.
func (r *Radio) Spike(at int64, axis int, value int32) {
	r.spikes = append(r.spikes, spike{at, axis, value})
	r.end = max(r.end, at)
}

// Lose loses every report between two times, the second left out; the state at the second is marked Resync.
func (r *Radio) Lose(from, to int64) {
	r.lost = append(r.lost, span{from, to})
	r.end = max(r.end, to)
}

// Vanish pulls the plug at a time in µs. A device that is opened at that time or later is the radio plugged in again.
func (r *Radio) Vanish(at int64) { r.vanish = at }

// Until makes the radio go on reporting noise until end.
func (r *Radio) Until(end int64) { r.end = max(r.end, end) }

// States gives every report of a device that is opened at a time: its state then, and one for each change.
func (r *Radio) States(from int64) []input.Raw {
	every := cmp.Or(r.Every, 1000)
	presses := slices.Clone(r.presses)
	slices.SortStableFunc(presses, func(a, b press) int { return cmp.Compare(a.at, b.at) })
	var hands [input.MaxAxes]hand
	var noise [input.MaxAxes]uint64
	for i := range hands {
		hands[i] = hand{value: r.rest[i], moves: r.moves[i]}
		noise[i] = r.bends[i].seed
	}
	var out []input.Raw
	var now, sent input.Raw
	resync := false
	for at := int64(0); at < max(r.end, from)+2*every; at += every {
		if r.vanish >= 0 && from < r.vanish && at >= r.vanish {
			break
		}
		for len(presses) > 0 && presses[0].at <= at {
			p := presses[0]
			presses = presses[1:]
			if p.pressed {
				now.Buttons[p.button/64] |= 1 << (p.button % 64)
			} else {
				now.Buttons[p.button/64] &^= 1 << (p.button % 64)
			}
		}
		for i := range r.info.Axes {
			now.Axes[i] = r.bends[i].apply(hands[i].at(at), r.info.Axes[i], &noise[i])
		}
		for _, s := range r.spikes {
			if s.at <= at && at < s.at+every {
				now.Axes[s.axis] = s.to
			}
		}
		if slices.ContainsFunc(r.lost, func(l span) bool { return l.from <= at && at < l.to }) {
			resync = true
			continue
		}
		if at+every <= from {
			continue
		}
		now.At = max(at, from)
		first := len(out) == 0
		if first || resync || now.Axes != sent.Axes || now.Buttons != sent.Buttons {
			now.Resync = resync && !first
			out = append(out, now)
			sent = now
		}
		resync = false
	}
	return out
}

// hand is one axis as the hand holds it while time goes on.
type hand struct {
	value int32 // after the last finished move
	moves []move
}

func (h *hand) at(at int64) int32 {
	for len(h.moves) > 0 && h.moves[0].at+h.moves[0].over <= at {
		h.value = h.moves[0].to
		h.moves = h.moves[1:]
	}
	if len(h.moves) == 0 || at < h.moves[0].at {
		return h.value
	}
	m := h.moves[0]
	return h.value + int32((int64(m.to)-int64(h.value))*(at-m.at)/m.over)
}

func (b *bend) apply(v int32, a input.Axis, state *uint64) int32 {
	x := int64(v) + int64(b.off)
	if b.short {
		x = min(max(x, int64(b.low)), int64(b.top))
	}
	if b.noise > 0 {
		x += int64(next(state)%uint64(2*int64(b.noise)+1)) - int64(b.noise)
	}
	return int32(min(max(x, int64(a.Min)), int64(a.Max)))
}

// next takes a step of the splitmix64 generator (Steele, Lea, Flood 2014): small, and the same everywhere.
func next(state *uint64) uint64 {
	*state += 0x9e3779b97f4a7c15
	z := *state
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// Device is a Radio that is open.
type Device struct {
	info   input.Info
	wake   chan struct{}
	vanish int64

	mu     sync.Mutex
	states []input.Raw
	now    int64
	closed int
}

// Open opens the radio at a time in µs; everything that it will ever say is there at once.
func (r *Radio) Open(from int64) *Device {
	d := r.OpenSlow(from)
	d.Pass(1 << 62)
	return d
}

// OpenSlow opens the radio at a time in µs; reports come as Pass lets time go on. Its first state is there at once.
func (r *Radio) OpenSlow(from int64) *Device {
	d := &Device{info: r.info, wake: make(chan struct{}, 1), vanish: r.vanish, states: r.States(from)}
	if from >= d.vanish {
		d.vanish = -1
	}
	d.Pass(from)
	return d
}

// Pass lets time go on to now: reports up to then can be polled.
func (d *Device) Pass(now int64) {
	d.mu.Lock()
	d.now = max(d.now, now)
	d.mu.Unlock()
	select {
	case d.wake <- struct{}{}:
	default:
	}
}

// Info is input.Device's.
func (d *Device) Info() input.Info { return d.info }

// Wake is input.Device's.
func (d *Device) Wake() <-chan struct{} { return d.wake }

// ErrClosed is the error of a Device that is closed.
var ErrClosed = errors.New("the fake radio is closed")

// Gone is the error of a Device that has vanished; it wraps input.ErrGone.
type Gone struct{ At int64 }

// Error says when the plug was pulled.
func (g Gone) Error() string { return fmt.Sprintf("fake radio at %d µs: %v", g.At, input.ErrGone) }

// Unwrap gives input.ErrGone.
func (g Gone) Unwrap() error { return input.ErrGone }

// GoneAt is the time at which the plug was pulled, on the clock of the stamps.
func (g Gone) GoneAt() int64 { return g.At }

// Poll is input.Device's.
func (d *Device) Poll(dst []input.Raw) ([]input.Raw, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.closed > 0 {
		return dst, ErrClosed
	}
	n := 0
	for n < len(d.states) && d.states[n].At <= d.now {
		n++
	}
	dst = append(dst, d.states[:n]...)
	d.states = d.states[n:]
	if d.vanish >= 0 && d.now >= d.vanish && len(d.states) == 0 {
		return dst, Gone{d.vanish}
	}
	return dst, nil
}

// Close is input.Device's.
func (d *Device) Close() error {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.closed++
	return nil
}

// Closed is how often Close was called.
func (d *Device) Closed() int {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.closed
}

var _ input.Device = (*Device)(nil)

// Package fakeradio makes radios for the rig: HID report descriptors, the reports that fit them, and, on Linux, real
// input devices from both.
//
// A Layout is written once and gives the descriptor (what the kernel is told) and the packing of a report (what the
// kernel is sent), so the two cannot drift apart. Parse reads a descriptor back with the rules of the HID document and
// is the plain twin that the tests hold the builder against.
package fakeradio

import "fmt"

// Generic Desktop usages (page 0x01), from the HID Usage Tables, section 4.
const (
	UsageJoystick = 0x04
	UsageX        = 0x30
	UsageHat      = 0x39

	pageDesktop = 0x01
	pageButton  = 0x09
)

// Kind says what a Part of a report holds.
type Kind uint8

// The kinds of parts. Axes and buttons are Variable fields; a hat is one Variable field with a null state.
const (
	Axes    Kind = iota + 1 // Count axes, usages X, Y, Z, Rx, Ry, Rz, Slider, Dial, Wheel in order (0x30 to 0x38)
	Buttons                 // Count buttons of one bit, usages 1 to Count
	Hat                     // one hat of 4 bits: 0 to 7 clockwise from up, 15 when at rest
)

// HatRest is the value of a hat that nobody touches: outside 0 to 7, so it is the field's null state.
const HatRest = 15

// Part is a run of like fields in a report, packed without gaps, lowest bit first.
type Part struct {
	Kind  Kind
	Count int   // axes or buttons; a hat counts 1
	Bits  int   // width of one axis, 1 to 32; buttons are 1 bit and a hat 4
	Min   int32 // logical minimum of an axis
	Max   int32 // logical maximum of an axis
}

// Layout is a whole report without a report number: the parts in the order in which they are sent.
type Layout struct {
	Parts []Part
}

// width gives the bits of one field of the part.
func (p Part) width() int {
	switch p.Kind {
	case Axes:
		return p.Bits
	case Hat:
		return 4
	}
	return 1
}

// check says what is wrong with a layout, nil if nothing is.
func (l Layout) check() error {
	axes, hats := 0, 0
	for i, p := range l.Parts {
		if p.Count < 1 || p.Count > 255 {
			return fmt.Errorf("part %d: count %d is not 1 to 255", i+1, p.Count)
		}
		switch p.Kind {
		case Axes:
			axes += p.Count
			if p.Bits < 1 || p.Bits > 32 {
				return fmt.Errorf("part %d: %d bits for an axis, 1 to 32 are possible", i+1, p.Bits)
			}
			if p.Min >= p.Max {
				return fmt.Errorf("part %d: minimum %d is not below maximum %d", i+1, p.Min, p.Max)
			}
			lo, hi := int64(0), int64(1)<<p.Bits-1
			if p.Min < 0 {
				lo, hi = -(int64(1) << (p.Bits - 1)), int64(1)<<(p.Bits-1)-1
			}
			if int64(p.Min) < lo || int64(p.Max) > hi {
				return fmt.Errorf("part %d: %d to %d does not fit in %d bits", i+1, p.Min, p.Max, p.Bits)
			}
		case Buttons:
		case Hat:
			hats += p.Count
		default:
			return fmt.Errorf("part %d: unknown kind %d", i+1, p.Kind)
		}
	}
	if axes > 9 {
		return fmt.Errorf("%d axes: the usages from X to Wheel are nine", axes)
	}
	if hats > 1 {
		return fmt.Errorf("%d hats: one is possible", hats)
	}
	if len(l.Parts) == 0 {
		return fmt.Errorf("no parts")
	}
	return nil
}

// bits gives the bits that the parts fill, before padding to a whole byte.
func (l Layout) bits() int {
	n := 0
	for _, p := range l.Parts {
		n += p.Count * p.width()
	}
	return n
}

// ReportSize gives the bytes of one report.
func (l Layout) ReportSize() int { return (l.bits() + 7) / 8 }

// AxisCount gives the number of axes, hats not counted.
func (l Layout) AxisCount() int { return l.count(Axes) }

// ButtonCount gives the number of buttons.
func (l Layout) ButtonCount() int { return l.count(Buttons) }

// HatCount gives the number of hats; the kernel shows each as two more axes.
func (l Layout) HatCount() int { return l.count(Hat) }

func (l Layout) count(k Kind) int {
	n := 0
	for _, p := range l.Parts {
		if p.Kind == k {
			n += p.Count
		}
	}
	return n
}

// AxisRange gives the logical minimum and maximum of axis i (from 0).
func (l Layout) AxisRange(i int) (lo, hi int32) {
	for _, p := range l.Parts {
		if p.Kind != Axes {
			continue
		}
		if i < p.Count {
			return p.Min, p.Max
		}
		i -= p.Count
	}
	return 0, 0
}

// Descriptor gives the HID report descriptor of the layout: one application collection of usage Joystick. Short items
// as in HID 1.11 section 6.2.2.2.
func (l Layout) Descriptor() ([]byte, error) {
	if err := l.check(); err != nil {
		return nil, fmt.Errorf("layout: %w", err)
	}
	var d descriptor
	d.unsigned(itemUsagePage, pageDesktop)
	d.unsigned(itemUsage, UsageJoystick)
	d.unsigned(itemCollection, 1) // application
	axis := uint32(UsageX)
	for _, p := range l.Parts {
		switch p.Kind {
		case Axes:
			d.unsigned(itemUsagePage, pageDesktop)
			for range p.Count {
				d.unsigned(itemUsage, axis)
				axis++
			}
			d.field(p.Min, p.Max, p.Bits, p.Count, flagVariable)
		case Buttons:
			d.unsigned(itemUsagePage, pageButton)
			d.unsigned(itemUsageMin, 1)
			d.unsigned(itemUsageMax, uint32(p.Count))
			d.field(0, 1, 1, p.Count, flagVariable)
		case Hat:
			d.unsigned(itemUsagePage, pageDesktop)
			d.unsigned(itemUsage, UsageHat)
			d.field(0, 7, 4, 1, flagVariable|flagNull)
		}
	}
	if pad := l.ReportSize()*8 - l.bits(); pad > 0 {
		d.unsigned(itemReportSize, uint32(pad))
		d.unsigned(itemReportCount, 1)
		d.unsigned(itemInput, flagConstant)
	}
	d.raw(itemEndCollection)
	return d.bytes, nil
}

// Report is the state of a radio's controls: what one report carries. Pressed is indexed from 0 for button 1.
type Report struct {
	Axes    []int32
	Pressed []bool
	Hat     int // 0 to 7, or HatRest
}

// Rest gives a report with every axis at the middle of its range, no button pressed and the hat at rest.
func (l Layout) Rest() Report {
	r := Report{Axes: make([]int32, l.AxisCount()), Pressed: make([]bool, l.ButtonCount()), Hat: HatRest}
	for i := range r.Axes {
		lo, hi := l.AxisRange(i)
		r.Axes[i] = int32((int64(lo) + int64(hi)) >> 1)
	}
	return r
}

// Pack gives the bytes of a report, lowest bit first, signed fields in two's complement. Values are not clamped: a
// field keeps its lowest bits, as a device with a fault would send them.
func (l Layout) Pack(r Report) []byte {
	out := make([]byte, l.ReportSize())
	at := 0
	put := func(v uint32, width int) {
		for i := range width {
			if v>>i&1 != 0 {
				out[(at+i)/8] |= 1 << ((at + i) % 8)
			}
		}
		at += width
	}
	axis, button := 0, 0
	for _, p := range l.Parts {
		for range p.Count {
			v := uint32(0)
			switch p.Kind {
			case Axes:
				if axis < len(r.Axes) {
					v = uint32(r.Axes[axis])
				}
				axis++
			case Buttons:
				if button < len(r.Pressed) && r.Pressed[button] {
					v = 1
				}
				button++
			case Hat:
				v = uint32(r.Hat)
			}
			put(v, p.width())
		}
	}
	return out
}

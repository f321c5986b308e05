package radio

import (
	"slices"

	"propsoff.example/input"
	"propsoff.example/sim/pulse"
)

// Half is a raw value times two: the middle of 0..4095 is 2047.5, and stays exact.
type Half int64

// Halves makes a Half from a whole raw value.
func Halves(raw int32) Half { return 2 * Half(raw) }

// farthest: a scale point lies within ±4294967296 (twice the range of int32), so that no sum below can overflow.
const farthest Half = 2 << 32

// Scale holds the raw values that mean 988, 1500 and 2012 µs. It either rises throughout or falls throughout; a
// falling one turns the control round.
type Scale struct{ Low, Middle, High Half }

// Own is the scale of an axis by its device's own range: lowest, middle and highest value.
func Own(a input.Axis) Scale {
	return Scale{Halves(a.Min), Half(a.Min) + Half(a.Max), Halves(a.Max)}
}

// Turned is s turned round.
func (s Scale) Turned() Scale { return Scale{s.High, s.Middle, s.Low} }

// Sound reports whether s rises or falls strictly and lies within ±4294967296.
func (s Scale) Sound() bool {
	if s.Low > s.High {
		s = s.Turned()
	}
	return -farthest <= s.Low && s.Low < s.Middle && s.Middle < s.High && s.High <= farthest
}

// What lies beyond these ends, ±4095 µs, does not fit a width. Both are far from being a pulse.
const (
	leastWidth = -4095 * pulse.Eighths
	mostWidth  = 4095 * pulse.Eighths
)

// Width is the width that raw means under a sound scale: straight lines through the three points, carried on beyond the
// ends, rounded to the nearest eighth of a µs (a half away from the centre, so that a scale and its turned twin mirror
// each other). It is monotonic, within 1/16 µs of the exact value, and kept within ±4095 µs. What is not a pulse
// (outside 860..2180 µs) is left as it is: pulse.Width.Valid tells.
func (s Scale) Width(raw int32) pulse.Width { return s.WidthOf(Halves(raw)) }

// WidthOf is Width for a value between two raw steps, such as the middle of a position.
func (s Scale) WidthOf(raw Half) pulse.Width {
	off := int64(raw - s.Middle)
	toHigh, toLow := int64(s.High-s.Middle), int64(s.Middle-s.Low)
	if toHigh < 0 {
		off, toHigh, toLow = -off, -toHigh, -toLow
	}
	var from int64 // from the centre, in eighths
	if off >= 0 {
		from = (2*off*int64(pulse.Travel) + toHigh) / (2 * toHigh)
	} else {
		from = -((-2*off*int64(pulse.Travel) + toLow) / (2 * toLow))
	}
	return pulse.Width(min(max(int64(pulse.Centre)+from, leastWidth), mostWidth))
}

// RowWidth is the width of position i (from 0) in a row of n >= 2 positions: equal steps from 988 to 2012 µs, rounded to
// the nearest eighth.
func RowWidth(i, n int) pulse.Width {
	return pulse.Low + pulse.Width((i*2*int(pulse.Travel)*2+n-1)/(2*(n-1)))
}

// Filled is f with the scale of every axis filled in that it leaves to the device, as the device has it: so it reads alike whatever the
// device comes to call its ends.
func (f *File) Filled(info *input.Info) File {
	g := *f
	g.Controls = slices.Clone(f.Controls)
	for i := range g.Controls {
		c := &g.Controls[i]
		if c.Form != Axis || c.Scale != nil || c.Axis < 0 || c.Axis >= len(info.Axes) {
			continue
		}
		s := Own(info.Axes[c.Axis])
		if c.Backwards {
			s = s.Turned()
		}
		if s.Sound() {
			c.Scale, c.Backwards = &s, false
		}
	}
	return g
}

// Package layout says in which span each channel stands, and how far from its edge.
package layout

import (
	"propsoff.example/sim/pulse"
	"slices"
	"strconv"
)

// Span is a range of pulse widths: its low end is inside, its high end is not, so touching spans do not overlap. Only the
// highest width of all, 2180 µs, is inside a span that ends there.
type Span struct{ Low, High pulse.Width }

// Contains reports whether w is a valid pulse inside s.
func (s Span) Contains(w pulse.Width) bool {
	return w.Valid() && w >= s.Low && (w < s.High || w == pulse.Highest && s.High == pulse.Highest)
}

// Outside is a width that a switch can stand at outside s: its end, its other end or its middle; the low end where all are inside.
func (s Span) Outside() pulse.Width {
	for _, w := range [...]pulse.Width{pulse.Low, pulse.High, pulse.Centre} {
		if !s.Contains(w) {
			return w
		}
	}
	return pulse.Low
}

// Margin is the distance in eighths from w to the nearest edge of s that leads somewhere: an edge at the very end of
// the pulse range is no edge. Positive inside, negative outside.
func (s Span) Margin(w pulse.Width) pulse.Width {
	if !s.Contains(w) {
		if w < s.Low {
			return w - s.Low
		}
		return s.High - w - 1
	}
	m := pulse.Highest - pulse.Lowest
	if s.Low > pulse.Lowest {
		m = min(m, w-s.Low+1)
	}
	if s.High < pulse.Highest {
		m = min(m, s.High-w)
	}
	return m
}

// Mode is a flight mode. Takes and menus hold the numbers.
type Mode uint8

const (
	Angle   Mode   = iota // the stick asks for a bank, and a centred stick for level
	Horizon               // angle near the middle of the stick, rate near its ends
	Rate                  // the stick asks for a rate of turning, and a centred stick holds the attitude
	Modes   = iota        // how many there are
)

// Code is the mode's code word in files; "mode" and its number for one that there is not.
func (m Mode) Code() string {
	if codes := pulse.ModeCodes(); int(m) < len(codes) {
		return codes[m]
	}
	return "mode " + strconv.Itoa(int(m))
}

// ModeOf is the mode of a code word; ok is false where there is none.
func ModeOf(code string) (m Mode, ok bool) {
	i := slices.Index(pulse.ModeCodes(), code)
	return Mode(max(i, 0)), i >= 0
}

// SelfLevelling reports whether m brings the craft level by itself.
func (m Mode) SelfLevelling() bool { return m != Rate }

// NoChannel stands for the channel of a job that none has.
const NoChannel = -1

// MaxModeSpans is the most spans a mode channel can have.
const MaxModeSpans = 8

// ModeSpan is one span of the mode channel, and the mode that is flown in it.
type ModeSpan struct {
	Mode Mode
	Span Span
}

// Config says which channel does what. Channels are indices from 0, or NoChannel; the first SpanCount of Spans count.
type Config struct {
	Throttle, Roll, Pitch, Yaw int8

	// Arm is the arm channel, NoChannel when arming is by sticks.
	Arm     int8
	ArmSpan Span

	// Second is the second switch's channel, NoChannel when none is asked for.
	Second     int8
	SecondSpan Span

	// Mode is the mode channel, NoChannel for a craft that always flies in FixedMode.
	Mode      int8
	FixedMode Mode
	Spans     [MaxModeSpans]ModeSpan
	SpanCount int8
}

// Place says where a switch channel stands.
type Place uint8

const (
	NoJob   Place = iota // no channel has this job
	NoPulse              // its channel carries no valid pulse
	Outside              // its channel stands outside the span
	Inside               // its channel stands inside the span
)

// State is what the layout remembers: the last mode, for a mode channel that carries no pulse. Its zero value is the
// state at power-up, when the mode is angle.
type State struct {
	Mode Mode
}

var _ = map[State]struct{}{}

// Output is the meaning of one frame.
type Output struct {
	Throttle, Roll, Pitch, Yaw pulse.Width
	Arm, Second                Place
	// Missing has bit c set when channel index c has a job and carries no valid pulse.
	Missing uint16
}

// PowerUp is the state of a craft that has just got power.
func PowerUp(cfg *Config) State {
	if cfg.Mode == NoChannel {
		return State{Mode: cfg.FixedMode}
	}
	return State{}
}

// Step reads one frame that was received, valid or not.
func Step(cfg *Config, s State, f *pulse.Frame) (State, Output) {
	var out Output
	take := func(c int8) pulse.Width {
		w := f[c]
		if !w.Valid() {
			out.Missing |= 1 << c
		}
		return w
	}
	out.Throttle, out.Roll = take(cfg.Throttle), take(cfg.Roll)
	out.Pitch, out.Yaw = take(cfg.Pitch), take(cfg.Yaw)
	place := func(c int8, span Span) Place {
		if c == NoChannel {
			return NoJob
		}
		w := take(c)
		switch {
		case !w.Valid():
			return NoPulse
		case span.Contains(w):
			return Inside
		}
		return Outside
	}
	out.Arm = place(cfg.Arm, cfg.ArmSpan)
	out.Second = place(cfg.Second, cfg.SecondSpan)
	if cfg.Mode != NoChannel {
		if w := take(cfg.Mode); w.Valid() {
			s.Mode = cfg.ModeAt(w)
		}
	}
	return s, out
}

// ModeAt is the mode for a valid width of the mode channel: that of the span it stands in, rate where it stands in none.
func (cfg *Config) ModeAt(w pulse.Width) Mode {
	for i := range cfg.Spans[:cfg.SpanCount] {
		if cfg.Spans[i].Span.Contains(w) {
			return cfg.Spans[i].Mode
		}
	}
	return Rate
}

// Needed is the mask of channels without which a frame is not valid: the four stick channels and the arm channel.
func (cfg *Config) Needed() uint16 {
	m := uint16(1)<<cfg.Throttle | 1<<cfg.Roll | 1<<cfg.Pitch | 1<<cfg.Yaw
	if cfg.Arm != NoChannel {
		m |= 1 << cfg.Arm
	}
	return m
}

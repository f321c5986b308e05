package lossrun

import (
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// Stored says which values the receiver that sends stored ones has stored.
type Stored uint8

const (
	// OfFile are those of the craft file; only where its receiver sends stored values.
	OfFile Stored = iota
	// Disarming: arm off, throttle low. Where arming is by sticks they stand in the disarming corner.
	Disarming
	// ArmedLow: arm on, throttle low. It looks careful and is not: the craft stays armed.
	ArmedLow
	// ArmedThrottle: arm on, the throttle where it stood in the radio's last frame, all else centred: stored by somebody who flew.
	ArmedThrottle
	storedCount
)

// Own tells whether the craft file gives stored values.
func Own(cfg *sim.Config) bool { return cfg.Link.OnLoss == link.SendsStored }

// FirstStored is what a demonstration begins with: the craft file's values, else careful ones.
func FirstStored(cfg *sim.Config) Stored {
	if Own(cfg) {
		return OfFile
	}
	return Disarming
}

// Next is the choice after s, round and round.
func (s Stored) Next(cfg *sim.Config) Stored {
	if s++; s >= storedCount {
		return FirstStored(cfg)
	}
	return s
}

// Frame are the stored values; last is the radio's last frame. Every channel without a job of the bench stands in its middle.
func (s Stored) Frame(cfg *sim.Config, last *pulse.Frame) pulse.Frame {
	if s == OfFile && Own(cfg) {
		return cfg.Link.Stored
	}
	f := Rest(cfg)
	switch s {
	case ArmedLow:
		Arm(cfg, &f, true)
	case ArmedThrottle:
		Arm(cfg, &f, true)
		if w := last[cfg.Layout.Throttle]; w.Valid() {
			f[cfg.Layout.Throttle] = w
		}
	default:
		if cfg.Arming.By == arming.BySticks {
			f[cfg.Layout.Yaw] = pulse.Low
		}
	}
	return f
}

// Rest is how careful hands hold a radio: sticks centred, throttle low, arm switch off, the second switch on, mode angle.
func Rest(cfg *sim.Config) pulse.Frame {
	var f pulse.Frame
	for c := range f {
		f[c] = pulse.Centre
	}
	l := &cfg.Layout
	f[l.Throttle] = pulse.Low
	if l.Second != layout.NoChannel {
		f[l.Second] = inside(l.SecondSpan)
	}
	if l.Mode != layout.NoChannel {
		f[l.Mode] = modeAt(l)
	}
	Arm(cfg, &f, false)
	return f
}

// Arm puts the arm switch over, where there is one.
func Arm(cfg *sim.Config, f *pulse.Frame, on bool) {
	l := &cfg.Layout
	switch {
	case l.Arm == layout.NoChannel:
	case on:
		f[l.Arm] = inside(l.ArmSpan)
	default:
		f[l.Arm] = outside(l.ArmSpan)
	}
}

// inside is the middle of a span, as far as a radio's travel reaches into it.
func inside(s layout.Span) pulse.Width {
	low, high := max(s.Low, pulse.Low), min(s.High, pulse.High)
	if low > high {
		low, high = s.Low, s.High
	}
	return low + (high-low)/2
}

// outside is an end of travel that lies outside a span; a span that holds both is left by a width beyond it, if there is one.
func outside(s layout.Span) pulse.Width {
	for _, w := range [...]pulse.Width{pulse.Low, pulse.High, pulse.Centre, pulse.Lowest, pulse.Highest} {
		if !s.Contains(w) {
			return w
		}
	}
	return pulse.Low
}

// modeAt is where the mode switch stands for angle, else for what levels by itself, else for what there is.
func modeAt(l *layout.Config) pulse.Width {
	for want := range layout.Mode(layout.Modes) {
		for i := range l.Spans[:l.SpanCount] {
			if l.Spans[i].Mode == want {
				return inside(l.Spans[i].Span)
			}
		}
	}
	return pulse.Centre
}

package fault

import (
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// BendsCraft are the faults for which Craft changes something.
const BendsCraft Set = 1<<Receiver | 1<<ModeGap

// Craft bends a craft's receiver and mode spans, which it is given as the craft has them, by what is planted.
func (s *State) Craft(c *link.Config, l *layout.Config) {
	if s.has(Receiver) && c.OnLoss != s.receiver() {
		if c.OnLoss = s.receiver(); c.OnLoss == link.SendsStored {
			c.Stored = stored(l)
		}
	}
	if s.has(ModeGap) && l.Mode != layout.NoChannel {
		half := pulse.Width(s.number[ModeGap] * pulse.Eighths)
		cut(l, pulse.Centre-half, pulse.Centre+half)
	}
}

// stored is what a receiver is given to send for a craft: throttle low, sticks in the middle, arm and all other switches off.
func stored(l *layout.Config) pulse.Frame {
	var f pulse.Frame
	for c := range f {
		f[c] = pulse.Low
	}
	f[l.Roll], f[l.Pitch], f[l.Yaw] = pulse.Centre, pulse.Centre, pulse.Centre
	if l.Arm != layout.NoChannel {
		f[l.Arm] = l.ArmSpan.Outside()
	}
	return f
}

// cut takes from low up to high out of every mode span. A span that reaches beyond both leaves two; where there is no room for
// the second it is left out, which makes the gap wider.
func cut(l *layout.Config, low, high pulse.Width) {
	old, n := l.Spans, int8(0)
	l.Spans = [layout.MaxModeSpans]layout.ModeSpan{}
	stays := func(s layout.Span) bool { return s.Low < min(s.High, low) || max(s.Low, high) < s.High }
	left := int8(0) // of those to come that leave something: each has its room
	for _, s := range old[:l.SpanCount] {
		if stays(s.Span) {
			left++
		}
	}
	put := func(m layout.Mode, from, to pulse.Width) {
		if from < to && n+left < layout.MaxModeSpans {
			l.Spans[n] = layout.ModeSpan{Mode: m, Span: layout.Span{Low: from, High: to}}
			n++
		}
	}
	for _, s := range old[:l.SpanCount] {
		if stays(s.Span) {
			left--
		}
		put(s.Mode, s.Span.Low, min(s.Span.High, low))
		put(s.Mode, max(s.Span.Low, high), s.Span.High)
	}
	l.SpanCount = n
}

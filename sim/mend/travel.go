package mend

import (
	"slices"

	"propsoff.example/sim/arming"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// round is to what the ends of a travel are rounded: finer is not set by hand (ours).
const round = 10 * pulse.Eighths

// usualLow and usualHigh are the ends of a control of which nothing measured is a pulse (ours).
const usualLow, usualHigh = 990 * pulse.Eighths, 2010 * pulse.Eighths

// measured are the ends to which a control was seen to go.
func measured(c *handset.Control) (low, high pulse.Width) {
	at := placesOf(c)
	return at[0].Width, at[len(at)-1].Width
}

// bounds are what rules ask of the two ends of a control: each lies between its least and its most.
type bounds struct{ lowLeast, lowMost, highLeast, highMost pulse.Width }

// endsOf are the ends to which the travel of a control is to be set: each as it was measured where the rules have nothing against it, else the nearest
// multiple of round that they allow.
func endsOf(l *prove.Layout, control int) (low, high pulse.Width) {
	c := &l.Radio.Controls[control]
	low, high = measured(c)
	if low > pulse.Highest || high < pulse.Lowest {
		low, high = usualLow, usualHigh
	}
	b := boundsOf(l, c)
	switch {
	case low > b.lowMost:
		low = down(b.lowMost)
	case low < b.lowLeast:
		low = up(b.lowLeast)
	}
	switch {
	case high < b.highLeast:
		high = up(b.highLeast)
	case high > b.highMost:
		high = down(b.highMost)
	}
	if was, is := measured(c); low < min(was, pulse.Low) || high > max(is, pulse.High) {
		return was, is // no radio is sure to go farther than full travel: then it is the span that must move
	}
	return low, high
}

func down(w pulse.Width) pulse.Width { return w / round * round }
func up(w pulse.Width) pulse.Width   { return down(w + round - 1) }

// boundsOf are the bounds of one control by the rules that look at its channel.
func boundsOf(l *prove.Layout, c *handset.Control) bounds {
	y, a := &l.Config.Layout, &l.Config.Arming
	clear := max(round, prove.ThrottleClear(c))
	b := bounds{pulse.Lowest + clear, pulse.Highest - clear, pulse.Lowest + clear, pulse.Highest - clear}
	stick := slices.Contains([]int8{y.Throttle, y.Roll, y.Pitch, y.Yaw}, c.Channel)
	if g := l.Config.Gestures; g != nil && stick {
		b.lowMost, b.highLeast = min(b.lowMost, g.LowIn), max(b.highLeast, g.HighIn)
	}
	switch {
	case c.Channel == y.Throttle:
		b.lowMost = min(b.lowMost, a.LowThrottle-prove.ThrottleClear(c))
	case c.Channel == y.Yaw && a.By == arming.BySticks:
		b.lowMost, b.highLeast = min(b.lowMost, a.YawLeft), max(b.highLeast, a.YawRight)
	case c.Channel == y.Arm:
		b.into(y.ArmSpan, clear)
	case c.Channel == y.Second:
		b.into(y.SecondSpan, clear)
	case c.Channel == y.Mode && y.SpanCount > 0:
		spans := slices.Clone(y.Spans[:y.SpanCount])
		slices.SortFunc(spans, func(p, q layout.ModeSpan) int { return int(p.Span.Low) - int(q.Span.Low) })
		first, last := spans[0].Span, spans[len(spans)-1].Span
		b = bounds{max(b.lowLeast, first.Low+clear), min(b.lowMost, first.High-clear), max(b.highLeast, last.Low+clear), min(b.highMost, last.High-clear)}
	}
	return b
}

// into has one end lie in a span and the other outside, where the span is at one of the ends; of one in the middle nothing is asked.
func (b *bounds) into(s layout.Span, clear pulse.Width) {
	switch {
	case s.Low > pulse.Centre:
		b.highLeast, b.highMost, b.lowMost = max(b.highLeast, s.Low+clear), min(b.highMost, s.High-clear), min(b.lowMost, s.Low-clear)
	case s.High < pulse.Centre:
		b.lowLeast, b.lowMost, b.highLeast = max(b.lowLeast, s.Low+clear), min(b.lowMost, s.High-clear), max(b.highLeast, s.High+clear)
	}
}

// travel has a control go from end to end: what lies between goes along in proportion, and a stick that springs back rests in the middle.
func travel(l *prove.Layout, control int) {
	from, to := endsOf(l, control)
	c := &l.Radio.Controls[control]
	if c.Kind == handset.Switch {
		c.Positions = slices.Clone(c.Positions)
		low, high := measured(c)
		at := func(w pulse.Width) pulse.Width { return stretched(w, low, high, from, to) }
		for i := range c.Positions {
			p := &c.Positions[i]
			p.Width = at(p.Width)
			p.Spread = pulse.Width(min(int(p.Spread)*int(to-from)/int(high-low), int(pulse.Highest))) // noise is stretched too
		}
		if c.Rest != 0 {
			c.Rest = at(c.Rest)
		}
		c.Low, c.High = from, to
		return
	}
	low, high := min(c.Low, c.High), max(c.Low, c.High)
	if c.Rest = stretched(c.Rest, low, high, from, to); !c.Stays {
		c.Rest = pulse.Centre
	}
	c.Low, c.High = from, to
}

// stretched is where a width between low and high lies between two others.
func stretched(w, low, high, from, to pulse.Width) pulse.Width {
	return from + pulse.Width(int(min(max(w, low), high)-low)*int(to-from)/int(high-low))
}

package tell

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// Shown is a width on a channel as a report tells it, without its unit: in whole µs, rounded down, but where an edge that the craft looks at lies less
// than one µs off, with the decimals on which it depends. So what is told of one width is the same everywhere in a report.
func Shown(cfg *sim.Config, channel int8, w pulse.Width) words.Value {
	for _, edge := range edgesOn(cfg, channel) {
		if d := w - edge; d > -pulse.Eighths && d < pulse.Eighths {
			return Exact(w)
		}
	}
	return Micros(w)
}

// edgesOn are the widths at which a channel comes to mean something else to a craft.
func edgesOn(cfg *sim.Config, channel int8) []pulse.Width {
	l, a := &cfg.Layout, &cfg.Arming
	edges := []pulse.Width{pulse.Lowest, pulse.Highest}
	sticks := facts.BySticks(cfg)
	switch {
	case channel == l.Throttle:
		edges = append(edges, a.LowThrottle, pulse.Micros(1000))
	case channel == l.Yaw && sticks:
		edges = append(edges, a.YawLeft, a.YawRight, a.LeaveLeft, a.LeaveRight)
	case channel == l.Arm && !sticks:
		edges = append(edges, l.ArmSpan.Low, l.ArmSpan.High)
	case channel == l.Second:
		edges = append(edges, l.SecondSpan.Low, l.SecondSpan.High)
	case channel == l.Mode:
		for _, s := range l.Spans[:l.SpanCount] {
			edges = append(edges, s.Span.Low, s.Span.High)
		}
	}
	return edges
}

// causeWidth is the width of a result: one that a control sends as it is shown, one that is set in a file to the last decimal.
func causeWidth(l *prove.Layout, r *prove.Result, c prove.Cause) words.Value {
	w := pulse.Width(r.Value)
	if r.Control < 0 || r.Control >= len(l.Radio.Controls) {
		return Exact(w)
	}
	switch c {
	case prove.LowMarkHigh, prove.CornerInFlight, prove.AirWakesLow, prove.TutorNeverTakes, prove.TutorNeverGives:
		return Exact(w)
	}
	return Shown(&l.Config, l.Radio.Controls[r.Control].Channel, w)
}

// controlStands is ControlAt with the width as a report shows it.
func controlStands(cfg *sim.Config, c *handset.Control, position int, w pulse.Width) words.Text {
	if !w.Valid() {
		return ControlAt(c, position, w)
	}
	return words.T("control.at", words.Args{"place": controlPlace(c, position, w), "width": Shown(cfg, c.Channel, w)})
}

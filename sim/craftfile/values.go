package craftfile

import (
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

func modeNamed(w string) layout.Mode {
	m, _ := layout.ModeOf(w)
	return m
}

// width reads a pulse width in µs, eighths allowed.
func width(n yamldoc.Node, to *pulse.Width) bool {
	v, ok := n.Fixed("us", pulse.Eighths, int64(pulse.Lowest), int64(pulse.Highest))
	if ok {
		*to = pulse.Width(v)
	}
	return ok
}

// span reads {from: …, to: …}.
func span(n yamldoc.Node, to *layout.Span) bool {
	if !n.Exists() {
		return false
	}
	m := n.Map("craft-file.span")
	var s layout.Span
	low, high := width(m.Need("from"), &s.Low), width(m.Need("to"), &s.High)
	m.Done()
	if !low || !high {
		return false
	}
	if s.Low >= s.High {
		n.Wrong("craft-file.span-backwards", words.Args{"low": words.Whole(s.Low.Whole()), "high": words.Whole(s.High.Whole())})
		return false
	}
	*to = s
	return true
}

// set reads a time of whole milliseconds.
func set(to *time.Duration, n yamldoc.Node, lo, hi time.Duration) {
	if t, ok := wholeMillis(n, lo, hi); ok {
		*to = t
	}
}

func wholeMillis(n yamldoc.Node, lo, hi time.Duration) (time.Duration, bool) {
	t, ok := n.Duration(lo, hi)
	if ok && t%time.Millisecond != 0 {
		n.Wrong("craft-file.whole-millis", words.Args{"time": words.Quote(t.Round(time.Millisecond).String())})
		return 0, false
	}
	return t, ok
}

// Names is the table by which scripts and radio files for this craft resolve jobs and positions. Whoever shows the record adds
// its words (refusals, happenings).
func (f *File) Names() pulse.Names {
	l := &f.cfg.Layout
	names := pulse.Names{Channel: map[string]int{}, Position: map[string]map[string]pulse.Width{}}
	for job, c := range f.jobs {
		names.Channel[job] = c
	}
	if l.Arm != layout.NoChannel {
		names.Position["arm"] = onOff(l.ArmSpan)
	}
	if l.Second != layout.NoChannel {
		names.Position["second"] = onOff(l.SecondSpan)
	}
	if l.Mode != layout.NoChannel {
		names.Position["mode"] = modePositions(l)
	}
	for i := range f.more {
		names.Position[f.more[i].Name] = f.more[i].positions()
	}
	return names
}

// positions gives a width at which a job is on and one at which it is off: the ends and the middle of a switch where they serve. A job
// whose spans leave nothing out has no off.
func (j *Job) positions() map[string]pulse.Width {
	out := map[string]pulse.Width{"on": middle(j.Spans[0])}
	for _, w := range []pulse.Width{pulse.Centre, pulse.Low, pulse.High} {
		if j.On(w) {
			out["on"] = w
		}
	}
	candidates := []pulse.Width{pulse.Lowest, pulse.Highest}
	for _, s := range j.Spans {
		candidates = append(candidates, s.Low-1, s.High)
	}
	for _, w := range append(candidates, pulse.High, pulse.Centre, pulse.Low) {
		if w.Valid() && !j.On(w) {
			out["off"] = w
		}
	}
	return out
}

// onOff gives the widths that a two-position switch would send: its ends where they serve, else the middle of the span.
func onOff(s layout.Span) map[string]pulse.Width {
	on, off := middle(s), pulse.Low
	switch {
	case s.Contains(pulse.High):
		on = pulse.High
	case s.Contains(pulse.Low):
		on, off = pulse.Low, pulse.High
	}
	for _, w := range []pulse.Width{off, pulse.Centre, pulse.Low, pulse.High} {
		if !s.Contains(w) {
			off = w
			break
		}
	}
	return map[string]pulse.Width{"on": on, "off": off}
}

// modePositions gives a width for each mode: the switch position inside its span where there is one, else its middle.
func modePositions(l *layout.Config) map[string]pulse.Width {
	out := map[string]pulse.Width{}
	for m, name := range pulse.ModeCodes() {
		for _, s := range l.Spans[:l.SpanCount] {
			if _, done := out[name]; done || s.Mode != layout.Mode(m) {
				continue
			}
			out[name] = middle(s.Span)
			for _, w := range []pulse.Width{pulse.Low, pulse.Centre, pulse.High} {
				if s.Span.Contains(w) {
					out[name] = w
				}
			}
		}
	}
	return out
}

func middle(s layout.Span) pulse.Width { return s.Low + (s.High-s.Low)/2 }

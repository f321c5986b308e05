package layout

import (
	"slices"
	"strconv"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/switches"
)

// writeName has the name of a new job typed.
func (p *part) writeName() {
	p.s.Write(screen.Writing{Says: tell.LayoutTyping(words.Text{}, layout.Span{}, false), Most: craftfile.MaxJobName, Take: func(text string) words.Text {
		name, s := strings.TrimSpace(text), p.lever()
		if slices.ContainsFunc(p.facts.Jobs, func(j craftfile.Job) bool { return strings.EqualFold(j.Name, name) }) {
			return tell.LayoutNo("same-name")
		}
		if s == nil || len(s.Positions) == 0 { // the radio has gone meanwhile
			return words.Text{}
		}
		return p.typedIn(p.take(p.file.SetJob(p.newJob(s, name))))
	}})
}

// typedIn says why what was typed does not count; nothing where it does.
func (p *part) typedIn(done bool) (why words.Text) {
	if p.stale = true; !done {
		why, p.Said = p.Said, words.Text{}
	}
	return why
}

// writeSpan has both ends typed of one of the spans on the switch; there may be others.
func (p *part) writeSpan(n int) {
	s := p.lever()
	if s == nil {
		return
	}
	all := p.spans(s)
	n %= max(len(all), 1)
	j, w := &s.Jobs[all[n].job], screen.Writing{Most: craftfile.MaxJobName, Numbers: true}
	w.Says = tell.LayoutTyping(tell.SpanOf(j, all[n].span), j.Spans[all[n].span].Span, true)
	if len(all) > 1 {
		w.More = []screen.Answer{{Says: tell.LayoutKey("other", "", false), Do: func() { p.writeSpan(n + 1) }}}
	}
	w.Take = func(text string) words.Text {
		to, ok := twoEnds(text)
		if !ok {
			return tell.LayoutNo("two-ends")
		}
		return p.typedIn(p.setSpan(n, to))
	}
	p.s.Write(w)
}

// setSpan gives the n-th span on the switch other ends.
func (p *part) setSpan(n int, to layout.Span) bool {
	s := p.lever()
	if s == nil || n >= len(p.spans(s)) { // the radio has gone meanwhile
		return true
	}
	at := p.spans(s)[n]
	j := &s.Jobs[at.job]
	modes := make([]layout.ModeSpan, len(j.Spans))
	spans := make([]layout.Span, len(j.Spans))
	for i, m := range j.Spans {
		if i == at.span {
			m.Span = to
		}
		modes[i], spans[i] = layout.ModeSpan{Mode: m.Mode, Span: m.Span}, m.Span
	}
	if j.Kind == switches.Mode {
		return p.take(p.file.SetModes(s.Channel, modes))
	}
	return p.take(p.withSpans(s, j.Kind, j.Name, spans))
}

// newJob is a job on at the chosen position. An ideal radio has a switch for every channel, so there it gets one of its own.
func (p *part) newJob(s *switches.Switch, name string) craftfile.Job {
	j := craftfile.Job{Name: name, Channel: s.Channel, Spans: switches.Touching(s.Positions, p.here(s))}
	for c := int8(0); c < pulse.Channels && p.s.Driving.File == nil; c++ {
		if !p.used(c) {
			j.Channel = c
			break
		}
	}
	return j
}

// twoEnds reads two widths in µs, exact to the eighth.
func twoEnds(text string) (s layout.Span, ok bool) {
	ends := strings.Fields(text)
	if len(ends) != 2 {
		return s, false
	}
	for i, to := range [...]*pulse.Width{&s.Low, &s.High} {
		v, err := strconv.ParseFloat(ends[i], 64)
		w := v * pulse.Eighths
		if err != nil || w != float64(int(w)) || !pulse.Width(min(max(w, 0), 30000)).Valid() {
			return s, false
		}
		*to = pulse.Width(w)
	}
	return s, true
}

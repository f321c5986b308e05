package layout

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/sim/craftfile"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
	"propsoff/sim/switches"
)

// asking tells whether something is typed.
func (p *part) asking() bool { return p.typing != notTyping }

// question is what is asked for, if anything, and the keys that answer.
func (p *part) question() (asks words.Text, answers []Key) {
	answers = []Key{offer("Enter", "take", p.typedIn), offer("Esc", "back", func() { p.typing = notTyping })}
	s := p.lever()
	switch {
	case p.typing == typingName:
		return tell.LayoutTyping(words.Text{}, layout.Span{}, false), answers
	case p.typing == typingSpan && s != nil:
		all := p.spans(s)
		at := all[min(p.span, len(all)-1)]
		j := &s.Jobs[at.job]
		if len(all) > 1 {
			answers = append(answers, offer("Backquote", "other", func() { p.span, p.Typed = (p.span+1)%len(all), "" }))
		}
		return tell.LayoutTyping(tell.SpanOf(j, at.span), j.Spans[at.span].Span, true), answers
	}
	return words.Text{}, nil
}

// letter takes a key that is typed.
func (p *part) letter(key string) {
	p.Said, p.stale = words.Text{}, true
	letters := []rune(p.Typed)
	switch {
	case key == "Backspace":
		p.Typed = string(letters[:max(0, len(letters)-1)])
	case len(letters) >= craftfile.MaxJobName:
	case key == "Space":
		p.Typed += " "
	case p.typing == typingSpan && (key == "Period" || key == "Decimal"):
		p.Typed += "."
	case p.typing == typingName && key == "Minus":
		p.Typed += "-"
	case len(key) == 1 && (key[0] >= '0' && key[0] <= '9' || p.typing == typingName && unicode.IsLetter(rune(key[0]))):
		p.Typed += strings.ToLower(key)
	}
}

// typedIn takes what was typed.
func (p *part) typedIn() {
	s, done := p.lever(), false
	switch {
	case s == nil || len(s.Positions) == 0: // the radio has gone meanwhile
		done = true
	case p.typing == typingName:
		name := strings.TrimSpace(p.Typed)
		if slices.ContainsFunc(p.facts.Jobs, func(j craftfile.Job) bool { return strings.EqualFold(j.Name, name) }) {
			p.Said = tell.LayoutNo("same-name")
			return
		}
		done = p.take(p.file.SetJob(p.newJob(s, name)))
	default:
		to, ok := twoEnds(p.Typed)
		if !ok {
			p.Said = tell.LayoutNo("two-ends")
			return
		}
		at := p.spans(s)[p.span]
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
			done = p.take(p.file.SetModes(s.Channel, modes))
		} else {
			done = p.take(p.withSpans(s, j.Kind, j.Name, spans))
		}
	}
	if done {
		p.typing = notTyping
	}
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

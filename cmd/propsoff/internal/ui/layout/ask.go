package layout

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/sim/craftfile"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
	"propsoff/sim/switches"
)

// question fills in what is asked for.
func (p *part) question(v *View) {
	s := p.lever()
	switch {
	case p.leaving != ui.NoAction:
		v.Asking = tell.LayoutLeaving(p.changes())
		v.Answers = []Key{offer("Enter", "keep"), offer("D", "drop"), offer("Esc", "stay")}
		return
	case p.typing == typingName:
		v.Asking = tell.LayoutTyping(words.Text{}, layout.Span{}, false)
	case p.typing == typingSpan && s != nil:
		all := p.spans(s)
		at := all[min(p.span, len(all)-1)]
		j := &s.Jobs[at.job]
		v.Asking = tell.LayoutTyping(tell.SpanOf(j, at.span), j.Spans[at.span].Span, true)
		if len(all) > 1 {
			v.Answers = []Key{offer("E", "other")}
		}
	default:
		return
	}
	v.Typing, v.Typed, v.Answers = true, p.typed, append([]Key{offer("Enter", "take"), offer("Esc", "back")}, v.Answers...)
}

// answer takes a key while something is asked.
func (p *part) answer(key string) {
	p.said = words.Text{}
	if a := p.leaving; a != ui.NoAction {
		switch key {
		case "Enter":
			p.leaving = ui.NoAction
			if p.save() {
				p.s.Act(a)
			}
		case "D":
			p.leaving, p.file, p.undo, p.kept = ui.NoAction, p.saved, nil, 0
			p.s.Act(a)
		case "Esc":
			p.leaving = ui.NoAction
		}
		return
	}
	if rest, is := strings.CutPrefix(key, "Numpad"); is {
		key = rest
	}
	s := p.lever()
	letters := []rune(p.typed)
	switch {
	case key == "Esc" || s == nil || len(s.Positions) == 0:
		p.typing = notTyping
	case key == "Enter":
		p.typedIn(s)
	case key == "Backspace":
		p.typed = string(letters[:max(0, len(letters)-1)])
	case key == "E" && p.typing == typingSpan:
		p.span, p.typed = (p.span+1)%len(p.spans(s)), ""
	case len(letters) >= craftfile.MaxJobName:
	case key == "Space":
		p.typed += " "
	case p.typing == typingSpan && (key == "Period" || key == "Decimal"):
		p.typed += "."
	case p.typing == typingName && key == "Minus":
		p.typed += "-"
	case len(key) == 1 && (key[0] >= '0' && key[0] <= '9' || p.typing == typingName && unicode.IsLetter(rune(key[0]))):
		p.typed += strings.ToLower(key)
	}
}

// typedIn takes what was typed.
func (p *part) typedIn(s *switches.Switch) {
	done := false
	if p.typing == typingName {
		name := strings.TrimSpace(p.typed)
		if slices.ContainsFunc(p.facts.Jobs, func(j craftfile.Job) bool { return strings.EqualFold(j.Name, name) }) {
			p.said = tell.LayoutNo("same-name")
			return
		}
		done = p.take(p.file.SetJob(p.newJob(s, name)))
	} else {
		to, ok := twoEnds(p.typed)
		if !ok {
			p.said = tell.LayoutNo("two-ends")
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

package screen

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/sim/craftfile"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
	"propsoff/sim/switches"
)

// question fills in what is asked for.
func (p *layoutPart) question(v *sheet.LayoutView) {
	take, back := layoutKey("Enter", "take", "", false), layoutKey("Esc", "back", "", false)
	s := p.lever()
	switch {
	case p.leaving != sheet.NoAction:
		v.Asking = phrase.LayoutLeaving(p.changes())
		v.Answers = []sheet.LayoutKey{layoutKey("Enter", "keep", "", false), layoutKey("D", "drop", "", false), layoutKey("Esc", "stay", "", false)}
	case p.typing == typingName:
		v.Asking, v.Typing, v.Typed = phrase.LayoutTyping("", layout.Span{}, false), true, p.typed
		v.Answers = []sheet.LayoutKey{take, back}
	case p.typing == typingSpan && s != nil:
		all := p.spans(s)
		at := all[min(p.span, len(all)-1)]
		j := &s.Jobs[at.job]
		name := phrase.SwitchJob(j)
		if j.Kind == switches.Mode {
			name = phrase.Mode(j.Spans[at.span].Mode)
		}
		v.Asking, v.Typing, v.Typed = phrase.LayoutTyping(name, j.Spans[at.span].Span, true), true, p.typed
		v.Answers = []sheet.LayoutKey{take, back}
		if len(all) > 1 {
			v.Answers = append(v.Answers, layoutKey("E", "other", "", false))
		}
	}
}

// answer takes a key while something is asked.
func (p *layoutPart) answer(key string) {
	p.said = ""
	if a := p.leaving; a != sheet.NoAction {
		switch key {
		case "Enter":
			p.leaving = sheet.NoAction
			if p.save() {
				p.s.act(a)
			}
		case "D":
			p.leaving, p.file, p.undo, p.kept = sheet.NoAction, p.saved, nil, 0
			p.s.act(a)
		case "Esc":
			p.leaving = sheet.NoAction
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
func (p *layoutPart) typedIn(s *switches.Switch) {
	if p.typing == typingName {
		name := strings.TrimSpace(p.typed)
		if slices.ContainsFunc(p.facts.Jobs, func(j craftfile.Job) bool { return strings.EqualFold(j.Name, name) }) {
			p.said = phrase.LayoutNo("same-name")
			return
		}
		if !p.take(p.file.SetJob(p.newJob(s, name))) {
			return
		}
		p.typing = notTyping
		return
	}
	to, ok := twoEnds(p.typed)
	if !ok {
		p.said = phrase.LayoutNo("two-ends")
		return
	}
	at := p.spans(s)[p.span]
	j := &s.Jobs[at.job]
	var f *craftfile.File
	var err error
	switch j.Kind {
	case switches.Arm:
		f, err = p.file.SetArm(s.Channel, to)
	case switches.Second:
		f, err = p.file.SetSecond(s.Channel, to)
	case switches.Mode:
		var all []layout.ModeSpan
		for i, m := range j.Spans {
			if i == at.span {
				m.Span = to
			}
			all = append(all, layout.ModeSpan{Mode: m.Mode, Span: m.Span})
		}
		f, err = p.file.SetModes(s.Channel, all)
	case switches.Named:
		named := craftfile.Job{Name: j.Name, Channel: s.Channel}
		for i, m := range j.Spans {
			if i == at.span {
				m.Span = to
			}
			named.Spans = append(named.Spans, m.Span)
		}
		f, err = p.file.SetJob(named)
	}
	if p.take(f, err) {
		p.typing = notTyping
	}
}

// newJob is a job on at the chosen position. An ideal radio has a switch for every channel, so there it gets one of its own.
func (p *layoutPart) newJob(s *switches.Switch, name string) craftfile.Job {
	j := craftfile.Job{Name: name, Channel: s.Channel, Spans: switches.Touching(s.Positions, only(len(s.Positions), p.at))}
	if p.s.driver.File != nil {
		return j
	}
	used := p.file.Names().Channel
	for c := range pulse.Channels {
		free := true
		for _, u := range used {
			free = free && u != c
		}
		if free {
			j.Channel = int8(c)
			return j
		}
	}
	return j
}

// twoEnds reads two widths in µs, exact to the eighth.
func twoEnds(text string) (s layout.Span, ok bool) {
	words := strings.Fields(text)
	if len(words) != 2 {
		return s, false
	}
	for i, to := range [...]*pulse.Width{&s.Low, &s.High} {
		v, err := strconv.ParseFloat(words[i], 64)
		w := v * pulse.Eighths
		if err != nil || w != float64(int(w)) || !pulse.Width(min(max(w, 0), 30000)).Valid() {
			return s, false
		}
		*to = pulse.Width(w)
	}
	return s, true
}

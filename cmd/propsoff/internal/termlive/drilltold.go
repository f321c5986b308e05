package termlive

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"propsoff.example/assets/mouth"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/console"
	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/sim"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/mark"
	"propsoff.example/sim/pulse"
)

// told prints an event of the drill, in the loop's goroutine.
func (r *drillRun) told(tick int64, e drill.Event, v *drillrun.View) {
	if r.ear != nil {
		r.ear.Told(tick, e, v)
		return
	}
	r.mu.Lock()
	d := r.now
	r.mu.Unlock()
	own, cfg := &d.Cases[e.Case], &d.Config
	text := func(own string) words.Text { return tell.DrillText(cfg.Code, own) }
	switch e.Kind {
	case drill.TryBegins:
		r.at(tick, "try", "case", int(e.Case), "say", tell.DrillLimit(&cfg.Cases[e.Case]))
	case drill.BeforeStep:
		r.at(tick, "first", "step", int(e.Number), "say", text(own.Before[e.Number]))
	case drill.WaitBegins:
		r.at(tick, "ready", "say", tell.DrillWait(&cfg.Cases[e.Case]))
	case drill.CueNow:
		r.mu.Lock()
		r.order = drill.Choices(cfg, &v.State, r.order)
		var choices []words.Text
		for _, n := range r.order {
			choices = append(choices, text(own.Choices[n]))
		}
		r.mu.Unlock()
		say := text(own.Say)
		if own.Say == "" {
			say = words.T("drill.do")
		}
		r.at(tick, "now", "say", say, "choices", choices)
	case drill.WantDone:
		r.at(tick, "seen", "want", int(e.Number), "say", tell.WantSentence(cfg.Cases[e.Case].Wants[e.Number]))
	case drill.RestBegins:
		r.at(tick, "rest", "say", words.T("drill.rest"))
	case drill.LookBegins:
		then := words.T("drill.look-again", words.Args{"key": words.T("key-cap.enter")})
		if v.Alone {
			then = words.Text{}
		}
		r.at(tick, "hand", "say", tell.DrillDid(&v.Did), "then", then)
	case drill.MarkMoved:
		if r.o.JSON {
			r.at(tick, "mark", "off_mrad", int(e.Number))
		} else {
			r.at(tick, "mark", "say", markRow(int(e.Number), &cfg.Cases[e.Case].Mark))
		}
	case drill.TryEnds:
		r.at(tick, "verdict", VerdictFields(&e.Try, own, cfg)...)
	}
}

// VerdictFields are the fields of the line that tells how a try of a case ended.
func VerdictFields(t *drill.Try, own *drillfile.Words, cfg *drill.Config) []any {
	args := []any{"verdict", tell.VerdictWord(t.Verdict), "say", tell.TryWhy(*t, own, cfg)}
	if h := &t.Hand; h.Axis != mark.NoAxis {
		args = append(args, "axis", codes.Axis(h.Axis), "mode", codes.Mode(h.Mode), "measured", h.Measured, "noise_thousandths", h.Noise, "hand", tell.HandSentence(h))
		if h.Measured {
			args = append(args, "delay_ms", h.DelayMS, "delay_within_ms", h.DelayWithin, "crossover_mrad_s", h.Crossover, "crossover_within_mrad_s", h.CrossoverWithin)
		}
	}
	if t.Reaction >= 0 {
		args = append(args, "reaction_ms", t.Reaction, "uncertain_ms", t.Uncertain)
	}
	return args
}

// say prints a line that belongs to no tick.
func (r *drillRun) say(code string, fields ...any) { r.at(-1, code, fields...) }

// at prints one line, which waits for nobody: it is out at once where the terminal takes it, for a cue must be seen when it is told.
func (r *drillRun) at(tick int64, code string, fields ...any) {
	if r.ear != nil && code != "notice" { // the ear has a sentence of its own for it
		return
	}
	r.lines.Add(func(dst []byte) []byte { return r.appendLine(dst, tick, code, fields...) })
}

// appendLine appends one line: as JSON, which is the same in every language, or as text in columns.
func (r *drillRun) appendLine(dst []byte, tick int64, code string, fields ...any) []byte {
	if r.o.JSON {
		all := []any{"code", code}
		if tick >= 0 {
			all = []any{"t_ms", tick, "code", code}
		}
		return terminal.AppendFields(dst, append(all, fields...)...)
	}
	if r.ear != nil {
		return r.plain.Sentence(dst, fields[1].(words.Text))
	}
	dst = fmt.Appendf(dst, "%-12s", code)
	for i := 0; i+1 < len(fields); i += 2 {
		switch v := fields[i+1].(type) {
		case []words.Text:
			for n, choice := range v {
				dst = fmt.Appendf(dst, "\n%12d. %s", n+1, mouth.Printable(r.w.Say(choice)))
			}
		case words.Text:
			dst = fmt.Appendf(dst, " %s", mouth.Printable(r.w.Say(v)))
		}
	}
	return append(dst, '\n')
}

// deskWords are what can be typed for the bench, besides "answer N".
var deskWords = []struct {
	word    string
	reading pulse.Reading
}{
	{"link off", pulse.Reading{Kind: pulse.Link}}, {"link on", pulse.Reading{Kind: pulse.Link, Value: 1}},
	{"power off", pulse.Reading{Kind: pulse.Power}}, {"power on", pulse.Reading{Kind: pulse.Power, Value: 1}},
	{"cable out", pulse.Reading{Kind: pulse.Cable}}, {"cable in", pulse.Reading{Kind: pulse.Cable, Value: 1}},
	{"level", pulse.Reading{Kind: pulse.Tilt}}, {"nudge", pulse.Reading{Kind: pulse.Nudge}}, {"menu closed", pulse.Reading{Kind: pulse.Menu}},
}

// TypedWords are all that can be typed while drills run.
func TypedWords() []string {
	all := []string{"answer N"}
	for _, w := range deskWords {
		all = append(all, w.word)
	}
	return append(all, "propellers checked", "leave")
}

// typed reads lines from standard input.
func (r *drillRun) typed() {
	defer close(r.nobody)
	if r.w.In == nil {
		r.o.Coach.Alone() // nobody types, so nobody is waited for
		return
	}
	next := console.Lines(r.w.In)
	for {
		line, err := next()
		switch {
		case errors.Is(err, console.ErrLongLine):
			r.say("notice", "text", words.Error(err))
			continue
		case err != nil:
			r.o.Coach.Alone() // nobody types, so nobody is waited for
			return
		}
		word := strings.Join(strings.Fields(strings.ToLower(line)), " ")
		if word == "" {
			r.o.Coach.GoOn()
			continue
		}
		r.obey(word)
	}
}

// obey does what a typed word says.
func (r *drillRun) obey(word string) {
	if n, ok := strings.CutPrefix(word, "answer "); ok {
		r.answer(n)
		return
	}
	for _, w := range deskWords {
		if w.word == word {
			r.l.Desk().Put(w.reading.Kind, w.reading.Value)
			return
		}
	}
	switch word {
	case "propellers checked":
		r.l.Desk().Put(pulse.Propellers, pulse.PropellersValue(r.fitted(), true))
	case "leave":
		r.o.Coach.Leave()
	default:
		r.say("notice", "text", words.T("typed.unknown", words.Args{"word": words.Quote(word), "words": words.Listed(words.AsAre(TypedWords()...)...)}))
	}
}

func (r *drillRun) answer(n string) {
	k, err := strconv.Atoi(n)
	r.mu.Lock()
	order := r.order
	r.mu.Unlock()
	if err != nil || k < 1 || k > len(order) {
		r.say("notice", "text", words.T("typed.no-answer", words.Args{"n": words.Quote(n), "answers": words.Count(len(order))}))
		return
	}
	r.o.Coach.Answer(order[k-1])
}

// fitted are the propellers on the craft.
func (r *drillRun) fitted() [4]int8 {
	var now sim.Snapshot
	r.l.Snapshot(&now)
	return now.In.Hands
}

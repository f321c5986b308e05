package main

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"propsoff/assets/mouth"
	"propsoff/cmd/propsoff/internal/coach"
	"propsoff/cmd/propsoff/internal/console"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim/drill"
	"propsoff/sim/pulse"
)

// told prints an event of the drill, in the loop's goroutine.
func (r *drillRun) told(tick int64, e drill.Event, s *drill.State) {
	r.mu.Lock()
	d := r.now
	r.mu.Unlock()
	words := &d.Cases[e.Case]
	cfg := &d.Config
	switch e.Kind {
	case drill.TryBegins:
		r.at(tick, "try", "case", int(e.Case))
	case drill.BeforeStep:
		r.at(tick, "first", "step", int(e.Number), "say", words.Before[e.Number])
	case drill.WaitBegins:
		r.at(tick, "ready", "say", phrase.DrillWait(cfg.Cases[e.Case].WaitHigh > cfg.Cases[e.Case].WaitLow))
	case drill.CueNow:
		r.mu.Lock()
		r.order = drill.Choices(cfg, s, r.order)
		var choices []string
		for _, n := range r.order {
			choices = append(choices, words.Choices[n])
		}
		r.mu.Unlock()
		say := words.Say
		if say == "" {
			say = phrase.DrillDo()
		}
		r.at(tick, "now", "say", say, "choices", choices)
	case drill.WantDone:
		r.at(tick, "seen", "want", int(e.Number), "say", phrase.WantSentence(cfg.Cases[e.Case].Wants[e.Number], cfg))
	case drill.TryEnds:
		t := e.Try
		args := []any{"verdict", phrase.VerdictWord(t.Verdict), "say", phrase.TryWhy(t, words, cfg)}
		if t.Reaction >= 0 {
			args = append(args, "reaction_ms", t.Reaction, "uncertain_ms", t.Uncertain)
		}
		r.at(tick, "verdict", args...)
	}
}

// say prints a line that belongs to no tick.
func (r *drillRun) say(code string, fields ...any) { r.at(-1, code, fields...) }

// at prints one line, which waits for nobody: it is out at once where the terminal takes it, for a cue must be seen when it is told.
func (r *drillRun) at(tick int64, code string, fields ...any) {
	r.lines.Add(func(dst []byte) []byte { return r.appendLine(dst, tick, code, fields...) })
}

// appendLine appends one line: as JSON, or as text in columns.
func (r *drillRun) appendLine(dst []byte, tick int64, code string, fields ...any) []byte {
	if r.df.json {
		dst = append(dst, '{')
		if tick >= 0 {
			dst = fmt.Appendf(dst, `"t_ms":%d,`, tick)
		}
		dst = fmt.Appendf(dst, `"code":%q`, code)
		for i := 0; i+1 < len(fields); i += 2 {
			dst = mouth.AppendJSON(fmt.Appendf(dst, `,"%s":`, fields[i]), fields[i+1])
		}
		return append(dst, "}\n"...)
	}
	dst = fmt.Appendf(dst, "%-12s", code)
	for i := 0; i+1 < len(fields); i += 2 {
		switch v := fields[i+1].(type) {
		case []string:
			for n, choice := range v {
				dst = fmt.Appendf(dst, "\n%12d. %s", n+1, mouth.Printable(choice))
			}
		case string:
			if fields[i] != "drill" {
				dst = fmt.Appendf(dst, " %s", mouth.Printable(v))
			}
		case int32:
			if fields[i] == "reaction_ms" {
				dst = fmt.Appendf(dst, " %s", phrase.Seconds(int64(v)))
			}
		}
	}
	return append(dst, '\n')
}

// deskWords are what can be typed for the bench, besides "answer N".
var deskWords = map[string]pulse.Reading{
	"link off": {Kind: pulse.Link}, "link on": {Kind: pulse.Link, Value: 1}, "power off": {Kind: pulse.Power}, "power on": {Kind: pulse.Power, Value: 1},
	"cable out": {Kind: pulse.Cable}, "cable in": {Kind: pulse.Cable, Value: 1}, "level": {Kind: pulse.Tilt}, "nudge": {Kind: pulse.Nudge},
	"menu closed": {Kind: pulse.Menu},
}

func typedWords() []string {
	return []string{"answer N", "link off", "link on", "power off", "power on", "cable out", "cable in", "level", "nudge", "menu closed", "propellers checked", "leave"}
}

// typed reads lines from standard input.
func (r *drillRun) typed() {
	if r.w.in == nil {
		return
	}
	next := console.Lines(r.w.in)
	for {
		line, err := next()
		switch {
		case errors.Is(err, console.ErrLongLine):
			r.say("notice", "text", err.Error())
			continue
		case err != nil:
			return
		}
		word := strings.Join(strings.Fields(strings.ToLower(line)), " ")
		if word == "" {
			continue
		}
		if n, ok := strings.CutPrefix(word, "answer "); ok {
			r.answer(n)
			continue
		}
		switch reading, ok := deskWords[word]; {
		case ok:
			r.l.Desk().Put(reading.Kind, reading.Value)
		case word == "propellers checked":
			r.l.Desk().Put(pulse.Propellers, pulse.PropellersValue(r.fitted(), true))
		case word == "leave":
			r.coach.Leave()
		default:
			r.say("notice", "text", fmt.Sprintf("%q is not known; type one of: %s", word, strings.Join(typedWords(), ", ")))
		}
	}
}

func (r *drillRun) answer(n string) {
	k, err := strconv.Atoi(n)
	r.mu.Lock()
	order := r.order
	r.mu.Unlock()
	if err != nil || k < 1 || k > len(order) {
		r.say("notice", "text", fmt.Sprintf("answer %s: there are %d answers to choose from", n, len(order)))
		return
	}
	r.coach.Answer(order[k-1])
}

// fitted are the propellers on the craft.
func (r *drillRun) fitted() [4]int8 {
	var v coach.View
	r.coach.View(&v)
	return v.Hands
}

package script

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/input"
	"propsoff.example/sim/pulse"
)

// jobs are the jobs that there are in any craft file: one that this craft lacks is told apart from a misspelt word.
var jobs = []string{"throttle", "roll", "pitch", "yaw", "arm", "second", "mode"}

// ends are the positions that every control has.
var ends = []struct {
	name string
	at   pulse.Width
}{{"low", pulse.Low}, {"middle", pulse.Centre}, {"high", pulse.High}}

const noPulse = "none"

// vocabulary is input.Names, put in order.
type vocabulary struct {
	names input.Names
	jobs  []string    // those of the craft, in a fixed order
	rest  pulse.Frame // the controls where a script says nothing of them
	known []string    // what may be expected: states first, then happenings
}

func newVocabulary(names input.Names) vocabulary {
	w := vocabulary{names: names, known: []string{"armed", "disarmed", "ready"}}
	for _, job := range append(slices.Clone(jobs), slices.Sorted(maps.Keys(names.Channel))...) {
		c, ok := names.Channel[job]
		if !ok || c < 0 || c >= pulse.Channels || slices.Contains(w.jobs, job) {
			continue
		}
		shared := slices.ContainsFunc(w.jobs, func(other string) bool { return names.Channel[other] == c })
		w.jobs = append(w.jobs, job)
		if shared {
			continue // where the control rests is said by the job that the bench knows, or the first one
		}
		switch off, ok := names.Position[job]["off"]; {
		case job == "roll" || job == "pitch" || job == "yaw":
			w.rest[c] = pulse.Centre
		case ok:
			w.rest[c] = off
		default:
			w.rest[c] = pulse.Low
		}
	}
	for _, code := range names.Happenings {
		if code != "" && !slices.Contains(w.known, code) {
			w.known = append(w.known, code)
		}
	}
	return w
}

// startFields and stepFields are the fields that are no controls.
var (
	startFields = []string{"link", "power", "cable", "radio", "menu", "tilt", "pack", "bench", "propellers", "stick-mode"}
	stepFields  = append([]string{"at", "after", "over", "expect", "within", "nudge"}, startFields...)
)

// controls reads every field that is still unread as a control and its value; over is how long it takes to get there, and
// fields are the other fields of the place. tried is false where there was no such field, not even a wrong one.
func (p *parser) controls(m *yamldoc.Map, fields []string, over int64) (sets []set, tried bool) {
	var by [pulse.Channels]string
	for key, value := range m.Rest() {
		tried = true
		name, _ := key.Text()
		c, job, ok := p.channel(key, name, fields)
		if !ok {
			continue
		}
		if by[c] != "" {
			key.Wrong("script.same-channel", words.Args{"one": words.Quote(by[c]), "other": words.Quote(name), "channel": words.Whole(c + 1)})
			continue
		}
		by[c] = name
		w, ok := p.value(value, job)
		if !ok {
			continue
		}
		switch {
		case over > 0 && w == pulse.Missing:
			value.Wrong("script.over-to-none")
			continue
		case over > 0 && p.frame[c] == pulse.Missing:
			value.Wrong("script.over-from-none", words.Args{"control": words.Quote(name)})
			continue
		}
		p.frame[c] = w
		sets = append(sets, set{channel: c, to: w, over: over})
	}
	return sets, tried
}

// channel gives the channel that a control's name means, from 0, and the job on it.
func (p *parser) channel(key yamldoc.Node, name string, fields []string) (c int, job string, ok bool) {
	if slices.Contains(p.words.jobs, name) {
		return p.words.names.Channel[name], name, true
	}
	number, isChannel := strings.CutPrefix(name, "channel ")
	if !isChannel {
		number, isChannel = strings.CutPrefix(name, "ch")
	}
	if n, err := strconv.Atoi(number); isChannel && err == nil && number == strconv.Itoa(n) {
		if n < 1 || n > pulse.Channels {
			key.Wrong("script.no-channel", words.Args{"channel": words.Whole(n), "most": words.Whole(pulse.Channels)})
			return 0, "", false
		}
		for _, job := range p.words.jobs {
			if p.words.names.Channel[job] == n-1 {
				return n - 1, job, true
			}
		}
		return n - 1, "", true
	}
	if slices.Contains(jobs, name) {
		key.Wrong("script.job-unknown", words.Args{"job": words.Quote(name), "jobs": listed(p.words.jobs)})
		return 0, "", false
	}
	near, _ := yamldoc.Near(name, append(slices.Clone(fields), p.words.jobs...))
	key.Wrong("script.unknown-field", words.Args{
		"field": words.Typed(name), "near": words.Quote(near), "fields": listed(fields), "controls": listed(p.words.jobs),
	})
	return 0, "", false
}

// listed are words as a list in a sentence.
func listed(all []string) words.Text { return words.Listed(words.AsAre(all...)...) }

// value reads a control's value.
func (p *parser) value(n yamldoc.Node, job string) (pulse.Width, bool) {
	if n.StartsNumber() {
		if s, _ := n.Text(); strings.HasSuffix(s, "%") {
			return percent(n)
		}
		v, ok := n.Fixed("us", pulse.Eighths, int64(pulse.Lowest), int64(pulse.Highest))
		return pulse.Width(v), ok
	}
	var choices []string
	for _, e := range ends {
		choices = append(choices, e.name)
	}
	for _, position := range slices.Sorted(maps.Keys(p.words.names.Position[job])) {
		if !slices.Contains(choices, position) && position != noPulse {
			choices = append(choices, position)
		}
	}
	choices = append(choices, noPulse)
	if n.Exists() && !n.IsScalar() {
		n.Wrong("script.one-value", words.Args{"words": listed(choices)})
		return 0, false
	}
	word, ok := n.Word(choices...)
	if !ok || word == noPulse {
		return pulse.Missing, ok
	}
	for _, e := range ends {
		if e.name == word {
			return e.at, true
		}
	}
	return p.words.names.Position[job][word], true
}

// percent reads a percentage of travel.
func percent(n yamldoc.Node) (pulse.Width, bool) {
	d, _, ok := n.Amount("%")
	if !ok {
		return 0, false
	}
	lo, hi := tenths(pulse.Lowest), tenths(pulse.Highest)
	v, exact := d.Times(10)
	switch f := d.Float() * 10; {
	case f < float64(lo) || f > float64(hi):
		n.Wrong("script.percent-beyond", words.Args{"value": words.Quote(d.String()), "low": words.Quote(percentText(lo)), "high": words.Quote(percentText(hi))})
	case !exact:
		n.Wrong("script.percent-fine", words.Args{"value": words.Quote(d.String())})
	default:
		return pulse.Percent(int(v)), true
	}
	return 0, false
}

// tenths gives the last tenth of a percent that does not lie beyond w, towards the centre.
func tenths(w pulse.Width) int { return int(w-pulse.Centre) * 1000 / int(pulse.Travel) }

func percentText(tenths int) string {
	return strings.TrimSuffix(strconv.FormatFloat(float64(tenths)/10, 'f', 1, 64), ".0") + " %"
}

// microsText writes a width as it is written in a script.
func microsText(w pulse.Width) string {
	return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%d.%03d", w/pulse.Eighths, w%pulse.Eighths*125), "0"), ".")
}

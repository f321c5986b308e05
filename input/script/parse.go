package script

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/input"
	"propsoff.example/sim/pulse"
)

// kindWord begins every script's first field; version is the newest that is understood.
const (
	kindWord = "script"
	version  = 1
)

// Parse reads a script. name is what errors call the file; names resolve its words. The error holds everything that is
// wrong, with its places, as words.Problems.
func Parse(name string, data []byte, names input.Names) (*Script, error) {
	doc, err := yamldoc.ParseAs(kindWord, name, data)
	if err != nil {
		return nil, err
	}
	p := &parser{words: newVocabulary(names), s: &Script{File: name}}
	p.file(doc.Root())
	if err := doc.Err(); err != nil {
		return nil, err
	}
	return p.s, nil
}

type parser struct {
	words vocabulary
	s     *Script

	frame  pulse.Frame // whether a channel has a pulse, step for step
	last   int64       // ms of the step before
	lastAt yamldoc.Pos // and its place
	any    bool        // there was one
	latest int64       // ms at which everything said so far is over
	why    words.ID    // says that the end comes before that
}

// file reads the whole file.
func (p *parser) file(root yamldoc.Node) {
	m := root.Map("script.script")
	p.head(m.Opt("propsoff"))
	p.s.Name = text(m.Opt("name"))
	p.s.Craft = text(m.Opt("craft"))
	p.s.Radio = text(m.Opt("radio-file"))
	p.s.Gestures = text(m.Opt("gestures"))
	start := m.Opt("start")
	p.start(start)
	steps := m.Opt("steps")
	if !start.Exists() {
		steps = m.Need("steps")
	}
	for _, n := range steps.List() {
		p.step(n)
	}
	p.s.end = p.latest + tail
	if n, ok := m.Field("end"); ok {
		if t, ok := p.time(n, 0); ok {
			if p.s.end = t; t < p.latest {
				n.Wrong(p.why, words.Args{"time": words.Quote(clock(p.latest))})
			}
		}
	}
	m.Done()
}

// head reads what the file says it is.
func (p *parser) head(n yamldoc.Node) {
	s, ok := n.Text()
	want := fmt.Sprintf("%s %d", kindWord, version)
	if !ok || s == want {
		return
	}
	kind, number, _ := strings.Cut(s, " ")
	v, err := strconv.Atoi(number)
	switch {
	case kind == kindWord && err == nil && v > version:
		n.Wrong("script.newer", words.Args{"version": words.Whole(v), "read": words.Whole(version)})
	case kind != kindWord && err == nil:
		n.Wrong("script.no-script", words.Args{"text": words.Typed(s), "wanted": words.Quote(want)})
	default:
		n.Wrong("script.no-kind", words.Args{"text": words.Typed(s), "wanted": words.Quote(want)})
	}
}

// text reads a text that may be left out, but not be empty.
func text(n yamldoc.Node) string {
	s, ok := n.Text()
	if ok && strings.TrimSpace(s) == "" {
		n.Wrong("script.no-text")
	}
	return s
}

// time reads a time in whole ms.
func (p *parser) time(n yamldoc.Node, lo time.Duration) (int64, bool) {
	d, ok := n.Duration(lo, Latest*time.Millisecond)
	if !ok {
		return 0, false
	}
	if d%time.Millisecond != 0 {
		n.Wrong("script.too-fine")
		return 0, false
	}
	return d.Milliseconds(), true
}

// start reads what stands at 0.
func (p *parser) start(n yamldoc.Node) {
	p.s.bench = []pulse.Reading{{Kind: pulse.Plug, Value: 1}, {Kind: pulse.Link, Value: 1}, {Kind: pulse.Power, Value: 1}}
	p.s.start = p.words.rest // what start does not name is at rest: `none` takes a pulse away
	if !n.Exists() {
		p.frame = p.s.start
		return
	}
	m := n.Map("script.start")
	for _, r := range p.benchInputs(m, false) {
		p.atStart(r)
	}
	sets, _ := p.controls(m, startFields, 0)
	for _, c := range sets {
		p.s.start[c.channel] = c.to
	}
	p.frame = p.s.start
}

// atStart puts a bench input among those at 0, in the place of one of its kind.
func (p *parser) atStart(r pulse.Reading) {
	for i := range p.s.bench {
		if p.s.bench[i].Kind == r.Kind {
			p.s.bench[i] = r
			return
		}
	}
	p.s.bench = append(p.s.bench, r)
}

// step reads one step.
func (p *parser) step(n yamldoc.Node) {
	m := n.Map("script.step")
	if !n.IsMap() {
		return
	}
	at, timed := p.when(m)
	over, ramp := int64(0), m.Opt("over")
	if ramp.Exists() {
		over, _ = p.time(ramp, time.Millisecond)
	}
	within, window := int64(0), m.Opt("within")
	if window.Exists() {
		within, _ = p.time(window, time.Millisecond)
	}
	expect, expects := m.Field("expect")
	if expects {
		for _, e := range p.expect(expect) {
			e.At, e.Within = at*1000, within*1000
			p.s.expects = append(p.s.expects, e)
		}
	}
	st := step{at: at, bench: p.benchInputs(m, true)}
	sets, moves := p.controls(m, stepFields, over)
	st.sets = sets
	if m.Len() == 1 && timed {
		n.Wrong("script.step-idle")
	}
	if window.Exists() && !expects {
		window.Wrong("script.within-alone")
	}
	if ramp.Exists() && !moves {
		ramp.Wrong("script.over-alone")
	}
	for i := range st.bench {
		st.bench[i].At = at * 1000
	}
	if at == 0 {
		for _, r := range st.bench {
			if r.Kind == pulse.Nudge { // not a state: each counts
				p.s.bench = append(p.s.bench, r)
			} else {
				p.atStart(r)
			}
		}
		st.bench = nil
	}
	if len(st.bench) > 0 || len(st.sets) > 0 {
		p.s.steps = append(p.s.steps, st)
	}
	for _, e := range []struct {
		t   int64
		at  yamldoc.Node
		why words.ID
	}{{at, n, "script.end-before-step"}, {at + over, ramp, "script.end-before-rest"}, {at + within, window, "script.end-before-expected"}} {
		if e.t > Latest {
			e.at.Wrong("script.ends-late")
		}
		if e.t > p.latest || p.why == "" {
			p.latest, p.why = e.t, e.why
		}
	}
}

// when reads a step's time, and holds it against the step before.
func (p *parser) when(m *yamldoc.Map) (at int64, timed bool) {
	abs, absOK := m.Field("at")
	rel, relOK := m.Field("after")
	ok := false
	switch {
	case absOK && relOK:
		rel.Wrong("script.two-times")
	case absOK:
		at, ok = p.time(abs, 0)
	case relOK:
		at, ok = p.time(rel, 0)
		at += p.last
		if ok && at > Latest {
			rel.Wrong("script.begins-late")
			ok = false
		}
	default:
		m.Node().Wrong("script.no-time")
	}
	if !ok {
		return p.last, absOK || relOK
	}
	if p.any && at < p.last {
		abs.Wrong("script.out-of-order", words.Args{"time": words.Quote(clock(at)), "line": words.Whole(p.lastAt.Line), "before": words.Quote(clock(p.last))})
		return p.last, true
	}
	p.last, p.lastAt, p.any = at, m.Node().Pos(), true
	return at, true
}

// switches are the bench inputs that are words.
var switches = []struct {
	name string
	kind pulse.Kind
	word []string // the values 0, 1, 2 …
	once bool     // makes no sense in start
}{
	{"link", pulse.Link, []string{"off", "on"}, false},
	{"power", pulse.Power, []string{"off", "on"}, false},
	{"cable", pulse.Cable, []string{"out", "in"}, false},
	{"radio", pulse.Plug, []string{"unplug", "plug"}, false},
	{"menu", pulse.Menu, []string{"closed", "open", "camera"}, false},
	{"nudge", pulse.Nudge, []string{"once"}, true},
	{"bench", pulse.Air, []string{"desk", "air", "stand", "height-held"}, false},
}

// benchInputs reads those of a step or, without once, of start, in the order of the file.
func (p *parser) benchInputs(m *yamldoc.Map, once bool) []pulse.Reading {
	var order []string
	for _, k := range m.Keys() {
		name, _ := k.Text()
		order = append(order, name)
	}
	type placed struct {
		i int
		r pulse.Reading
	}
	var found []placed
	add := func(name string, kind pulse.Kind, v int) {
		found = append(found, placed{slices.Index(order, name), pulse.Reading{Kind: kind, Value: int32(v)}})
	}
	for _, s := range switches {
		if s.once && !once {
			continue
		}
		if w, ok := m.Opt(s.name).Word(s.word...); ok {
			add(s.name, s.kind, slices.Index(s.word, w))
		}
	}
	if v, ok := parts(m.Opt("tilt"), 10, 1800, "script.tilt-range", "deg", "°", ""); ok {
		add("tilt", pulse.Tilt, v)
	}
	if v, ok := parts(m.Opt("pack"), 1000, 65000, "script.pack-range", "V"); ok {
		add("pack", pulse.Pack, v)
	}
	if v, ok := m.Opt("stick-mode").Int(1, 4); ok {
		add("stick-mode", pulse.StickMode, v)
	}
	if v, ok := propellers(m.Opt("propellers")); ok {
		add("propellers", pulse.Propellers, v)
	}
	slices.SortFunc(found, func(a, b placed) int { return a.i - b.i })
	var out []pulse.Reading
	for _, f := range found {
		out = append(out, f.r)
	}
	return out
}

// motors are the places of the motors, and hands what may sit there: which way a propeller lifts, seen from above.
var (
	motors = []string{"front-left", "front-right", "rear-left", "rear-right"}
	hands  = []string{"counter-clockwise", "none", "clockwise"}
)

// propellers reads {front-left: clockwise, …, checked: yes}: all four, so that none is taken off by being forgotten.
func propellers(n yamldoc.Node) (int, bool) {
	if !n.Exists() {
		return 0, false
	}
	m := n.Map("script.propellers")
	var fitted [4]int8
	for i, place := range motors {
		if w, ok := m.Need(place).Word(hands...); ok {
			fitted[i] = int8(slices.Index(hands, w)) - 1
		}
	}
	w, _ := m.Opt("checked").Word("no", "yes")
	m.Done()
	return int(pulse.PropellersValue(fitted, w == "yes")), true
}

// parts reads an amount as a whole number of 1/scale, from 0 to most; outside is the message for another one.
func parts(n yamldoc.Node, scale, most int64, outside words.ID, units ...string) (int, bool) {
	d, _, ok := n.Amount(units...)
	if !ok {
		return 0, false
	}
	v, ok := d.Times(scale)
	if !ok || v < 0 || v > most {
		n.Wrong(outside, words.Args{"value": words.Quote(d.String())})
		return 0, false
	}
	return int(v), true
}

// clock writes ms as it is written in a script.
func clock(ms int64) string {
	if ms%1000 == 0 {
		return strconv.FormatInt(ms/1000, 10) + "s"
	}
	return strings.TrimRight(fmt.Sprintf("%d.%03d", ms/1000, ms%1000), "0") + "s"
}

package card

import (
	"regexp"
	"slices"
	"strings"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/figure"
	"propsoff/sim/handset"
	"propsoff/sim/layout"
	"propsoff/sim/prove"
)

// content is a card in words: everything that is written on it is said once, and laid out as often as it takes until it fits.
type content struct {
	*Data
	title, day, radio, up string
	sticks                [figure.Jobs]struct{ name, travel string }
	low, disarm, arm      string // what marks the places where sticks arm
	sides                 [handset.Top + 1]string
	levers                [2][handset.Top + 1][]lever // of each side, with each position by itself, and with those that do the same as one
	arming, loss          section
	proved                section
	rules                 []rule // those that hold last: silent many, which rest counts
	silent                int
	rest, toSet, warned   string
	sign                  string
	parts, names          []string // what is signed for, and what goes before the lines to write on
	cautions              section
}

// section is a heading with what stands below it.
type section struct {
	group, heading string
	lines          []line
}

// line is a text of a section.
type line struct {
	name, text string
	weight     ink.Weight
	colour     ink.Role
}

// lever is a switch or knob in words.
type lever struct {
	number               int
	knob                 bool
	name, called, source string
	rows                 []row
	more                 string // counts the rows beyond mostRows
}

// mostRows is how many positions of a switch are drawn in the densest plan.
const mostRows = 6

// row is a position of a switch: its value, or the part of a knob's travel, and what the craft does there. Where the switch arms, state says
// whether it is armed there.
type row struct {
	value, state, rest string
	tone               tone
}

// tone is how a row stands out.
type tone uint8

const (
	plain tone = iota
	armed
	disarmed
	idle // nothing is done
)

// rule is what was found of one rule. why says why a broken rule is broken and what to set, set what to set alone; both are empty for any
// other.
type rule struct {
	outcome               prove.Outcome
	name, found, why, set string
}

// speaker says texts in a language.
type speaker struct{ book *words.Book }

// withUnit is a number before its unit.
var withUnit = regexp.MustCompile(`(\d) (µs|s|%)`)

// say writes a text out, each number on one line with its unit.
func (s speaker) say(t words.Text) string {
	return withUnit.ReplaceAllString(s.book.Say(t), "$1\u00a0$2")
}

func (s speaker) all(texts []words.Text) (out []string) {
	for _, t := range texts {
		out = append(out, s.say(t))
	}
	return out
}

// content says a card.
func (s speaker) content(c *Data) *content {
	w := &content{Data: c, title: s.say(words.T("card.title")), radio: s.say(tell.CardRadio(&c.Radio, c.Given)),
		low: s.say(words.T("card.low")), disarm: s.say(tell.Corner(false)), arm: s.say(tell.Corner(true)),
		sign: s.say(words.T("card.sign")), parts: s.all(tell.CardSignParts()), names: s.all(words.Each("card.signed", "by", "on"))}
	if !c.Date.IsZero() {
		w.day = s.say(tell.Day(c.Date))
	}
	for _, g := range figure.Gimbals[ui.StickMode(c.Radio.StickMode)] {
		for _, j := range [...]figure.Job{g.Up, g.Across} {
			channel := figure.ChannelOf(&c.Config.Layout, j)
			w.sticks[j].name = s.say(words.T("card.stick", words.Args{"up": words.Flag(j == g.Up), "job": tell.JobName(figure.JobFacts[j].Word), "channel": tell.ChannelNumber(channel)}))
			w.sticks[j].travel = s.say(tell.CardTravel(c.Radio.On(int8(channel))))
		}
	}
	all := c.controls()
	if len(all) > 0 {
		w.up = s.say(words.T("card.up"))
	}
	for _, k := range all {
		w.levers[0][k.Side] = append(w.levers[0][k.Side], s.lever(c, &k))
		k.positions = join(k.positions)
		w.levers[1][k.Side] = append(w.levers[1][k.Side], s.lever(c, &k))
	}
	for side, here := range w.levers[0] {
		knobs := slices.ContainsFunc(here, func(l lever) bool { return l.knob })
		w.sides[side] = s.say(tell.CardPlace(handset.Side(side), knobs, len(here) < len(all)))
	}
	layout := &c.Config.Layout
	w.arming = section{"arming", s.say(words.T("card.arming-title")), []line{
		{"arming-rule", s.say(tell.CardArming(&c.Config, &c.Radio, numberOn(all, layout.Arm), numberOn(all, layout.Second))), ink.Bold, ink.Ink},
		{"motors", s.say(tell.CardMotors(&c.Config)), ink.Regular, ink.Ink},
	}}
	if absent := c.absent(); len(absent) > 0 {
		w.arming.lines = append(w.arming.lines, line{"absent", s.say(tell.CardAbsent(absent)), ink.Bold, ink.Refusal})
	}
	w.loss = section{group: "loss", heading: s.say(words.T("card.loss-title"))}
	for _, t := range tell.CardLoss(&c.Config, &c.Radio) {
		w.loss.lines = append(w.loss.lines, line{"loss", s.say(t), ink.Regular, ink.Ink})
	}
	s.found(w)
	w.cautions = section{group: "foot", heading: s.say(words.T("help-sheet.cautions"))}
	for i, t := range tell.Cautions() {
		w.cautions.lines = append(w.cautions.lines, line{"caution", s.say(t), ui.CautionWeight(i), ink.Ink})
	}
	return w
}

// lever says a switch or knob.
func (s speaker) lever(c *Data, k *control) lever {
	l := lever{number: k.number, knob: k.Kind == handset.Knob, name: s.say(tell.CardSwitch(k.Job)), source: s.say(tell.CardSource(k.Control))}
	if k.Called != k.Job {
		l.called = k.Called
	}
	for i := range k.positions {
		p := &k.positions[i]
		r := row{value: s.say(tell.CardValue(p.low, p.high))}
		if l.knob {
			r.value = s.say(tell.SpanWords(zone(k.Control, p)))
		}
		r.state, r.rest, r.tone = s.does(c, p)
		l.rows = append(l.rows, r)
	}
	if n := len(l.rows) - mostRows; n > 0 {
		l.more = s.say(words.T("card.more-positions", words.Args{"n": words.Count(n)}))
	}
	return l
}

// does says what the craft does at a position: first whether it is armed there, where this switch arms.
func (s speaker) does(c *Data, p *position) (state, rest string, t tone) {
	d, all := &p.does, []string(nil)
	switch d.Arm {
	case layout.NoJob:
	case layout.Inside:
		state, t = s.say(words.T("card.armed", words.Args{"on": words.Flag(true)})), armed
	default:
		state, t = s.say(words.T("card.armed", words.Args{"on": words.Flag(false)})), disarmed
	}
	if d.Second != layout.NoJob {
		all = append(all, s.say(words.T("card.second", words.Args{"on": words.Flag(d.Second == layout.Inside)})))
	}
	if d.HasMode {
		all = append(all, s.say(words.T("card.mode", words.Args{"mode": tell.Mode(d.Mode), "air": words.Flag(d.Air), "gap": words.Flag(d.Gap)})))
	}
	for _, n := range d.On {
		all = append(all, c.Jobs[n].Name)
	}
	rest = strings.Join(all, " + ")
	switch {
	case state == "" && rest == "":
		return "", s.say(words.T("card.nothing")), idle
	case state != "" && rest != "":
		rest = "+ " + rest
	}
	return state, rest, t
}

// found says what a search found, or why there was none, and what else is to be looked at first.
func (s speaker) found(w *content) {
	c := w.Data
	first := line{"verdict", s.say(c.Verdict()), ink.Bold, ink.Ink}
	if c.Proved != nil && c.Proved.Verdict() == prove.AllHold {
		first.weight = ink.Regular
	}
	w.proved = section{"proved", s.say(words.T("card.proved-title")), []line{first}}
	l := prove.Layout{Config: c.Config, Radio: c.Radio}
	var set []words.Text
	for _, f := range c.found() {
		r := rule{outcome: f.Outcome, name: s.say(tell.FoundShort(f)), found: s.say(tell.CardOutcome(f))}
		switch f.Outcome {
		case prove.Broken:
			why, do := tell.CardWhy(&l, f)
			r.why, r.set = s.say(why), s.say(do)
			if !slices.ContainsFunc(w.rules, func(o rule) bool { return o.set == r.set }) {
				set = append(set, do)
			}
		case prove.Holds:
			w.silent++
		}
		w.rules = append(w.rules, r)
	}
	if len(set) > 0 {
		w.toSet = s.say(words.T("card.to-set", words.Args{"all": words.Row(set...)}))
	}
	if w.silent > 0 {
		w.rest = s.say(words.T("card.rest", words.Args{"n": words.Count(w.silent)}))
	}
	if n := c.warnings(); n > 0 {
		w.warned = s.say(words.T("card.warnings", words.Args{"n": words.Count(n)}))
	}
}

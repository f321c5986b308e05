package card

import (
	"regexp"
	"slices"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/prove"
)

// content is a card in words: everything that is written on it is said once, and laid out as often as it takes until it fits.
type content struct {
	*Data
	speaker                     speaker
	all                         []control
	title, day, whom, radio, up string
	craftOf, short              string // whose craft; whose radio, in a few words
	holds                       []hold
	modeOnly                    bool      // what arms is not among them
	cannot, first               string    // that this radio cannot arm the craft; what must be so before it is armed
	guessed                     string    // what is drawn beside what hands do is a guess
	fixed                       string    // the one mode of a craft without a mode switch
	absent                      [2]string // what the radio has no control for: of what every craft has, and of what this one has besides
	sticks                      [figure.Jobs]struct{ name, travel string }
	switches                    string
	levers                      [2][]lever // with each position by itself, and with those that do the same as one
	arming, loss, lost          section
	proved                      section
	proof, proofNamed           string   // the same in a line; with what is called out by name, where there is room
	broken                      []string // the rules that are
	warned                      string
	sign                        string
	parts, names                []string // what is signed for, and what goes before the lines to write on
	cautions, caution           string
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
	all := c.controls()
	layout := &c.Config.Layout
	second := numberOn(all, layout.Second)
	w := &content{Data: c, speaker: s, all: all, title: s.say(words.T("card.title")), radio: s.say(tell.CardRadio(&c.Radio, c.Given)),
		holds: s.holds(c, all), cannot: s.say(tell.CardCannotArm(&c.Config, &c.Radio)), first: s.say(tell.CardFirst(&c.Config, &c.Radio, second)),
		sign: s.say(words.T("card.sign")), parts: s.all(tell.CardSignParts()), names: s.all(words.Each("card.signed", "by", "on")),
		cautions: s.say(words.T("card.cautions")), caution: s.say(words.T("card.caution"))}
	w.craftOf = s.say(tell.CardCraft(c.Craft, c.Shipped, c.File))
	w.modeOnly = !facts.BySticks(&c.Config) && on(all, layout.Arm) == nil
	if !c.Date.IsZero() {
		w.day = s.say(tell.Day(c.Date))
	}
	w.whom = s.say(words.T("card.for", words.Args{"pupil": words.Quote(c.Whom)}))
	w.short = s.say(words.T("card.short-radio", words.Args{"given": words.Flag(c.Given), "radio": words.Quote(c.Radio.Name), "mode": words.Whole(c.Radio.StickMode)}))
	for _, g := range figure.Gimbals[ui.StickMode(c.Radio.StickMode)] {
		for _, j := range [...]figure.Job{g.Up, g.Across} {
			channel := figure.ChannelOf(layout, j)
			w.sticks[j].name = s.say(words.T("card.stick", words.Args{"up": words.Flag(j == g.Up), "job": tell.JobName(figure.JobFacts[j].Word), "channel": tell.ChannelNumber(channel)}))
			w.sticks[j].travel = s.say(tell.CardTravel(c.Radio.On(int8(channel))))
		}
	}
	knobs := false
	for _, k := range all {
		knobs = knobs || k.Kind == handset.Knob
		w.levers[0] = append(w.levers[0], s.lever(c, &k))
		k.positions = join(k.positions, same)
		w.levers[1] = append(w.levers[1], s.lever(c, &k))
	}
	if len(all) > 0 {
		w.up = s.say(words.T("card.up", words.Args{"guessed": words.Flag(c.unplaced())}))
	}
	w.switches = s.say(words.T("card.switches", words.Args{"knobs": words.Flag(knobs)}))
	if slices.ContainsFunc(w.holds, func(h hold) bool { return h.k != nil && h.k.Spot.Guessed }) {
		w.guessed = s.say(words.T("card.guessed"))
	}
	if layout.Mode < 0 {
		w.fixed = s.say(words.T("card.always-mode", words.Args{"mode": tell.Mode(layout.FixedMode)}))
	}
	for i, absent := range c.absent() {
		if len(absent) > 0 {
			w.absent[i] = s.say(tell.CardAbsent(absent))
		}
	}
	w.arming = section{"arming", s.say(words.T("card.arming-title")), []line{
		{"arming-rule", s.say(tell.CardArming(&c.Config, &c.Radio, numberOn(all, layout.Arm), second)), ink.Regular, ink.Ink},
		{"motors", s.say(tell.CardMotors(&c.Config)), ink.Regular, ink.Ink},
	}}
	if w.absent[1] != "" {
		w.arming.lines = append(w.arming.lines, line{"absent", w.absent[1], ink.Bold, ink.Refusal})
	}
	s.loses(w)
	s.found(w)
	return w
}

// loses says what a lost link does, in full and in short.
func (s speaker) loses(w *content) {
	from := tell.CardLostFrom(&w.Config)
	w.loss = section{group: "loss", heading: s.say(words.T("card.loss-title"))}
	for i, t := range tell.CardLoss(&w.Config, &w.Radio) {
		l := line{"loss", s.say(t), ink.Regular, ink.Ink}
		if i == 1 { // what the craft does
			l.weight = ink.Bold
		}
		w.loss.lines = append(w.loss.lines, l)
		if i == 1 {
			w.loss.lines = append(w.loss.lines, line{"loss-from", s.say(from), ink.Regular, ink.Ink})
		}
	}
	craft, pilot := tell.CardLost(&w.Config)
	w.lost = section{"lost", s.say(words.T("card.lost-title")), []line{{"lost-craft", s.say(craft), ink.Bold, ink.Ink}, {"lost-from", s.say(from), ink.Regular, ink.Ink}, {"lost-pilot", s.say(pilot), ink.Bold, ink.Ink}}}
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
		all = append(all, s.mode(p))
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
	proof := tell.CardProof(c.Proved, &c.Radio, c.Searched, c.Searching)
	for _, f := range c.broken() {
		w.broken = append(w.broken, s.say(tell.FoundShort(f)))
	}
	if c.Like != nil {
		like := tell.CardLike(c.Like)
		w.proved.lines = append(w.proved.lines, line{"like", s.say(like), ink.Regular, ink.Ink})
		proof = words.Row(proof, like)
	}
	w.proof = s.say(proof)
	w.proofNamed = w.proof
	if n, short := c.warnings(); n > 0 {
		w.warned = s.say(words.T("card.warnings", words.Args{"n": words.Count(n), "short": short}))
		called := func(short words.Text) string {
			return s.say(words.Row(proof, words.T("card.proof-called", words.Args{"n": words.Count(n), "short": short})))
		}
		w.proof, w.proofNamed = called(words.Text{}), called(short)
	}
}

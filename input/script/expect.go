package script

import (
	"slices"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/sim/pulse"
)

// Kind is what an expectation is about.
type Kind uint8

const (
	// Armed and Disarmed: the craft is so.
	Armed Kind = iota + 1
	Disarmed
	// Ready: the craft is disarmed and nothing refuses arming.
	Ready
	// Refused: the craft is disarmed and at least the refusals of Codes stand.
	Refused
	// Made: the gesture Codes[0] was made in that millisecond.
	Made
	// InMode: the flight mode is Codes[0].
	InMode
	// Happens: the happening Codes[0] is in the record of that millisecond.
	Happens
)

// Expect is one expectation.
type Expect struct {
	// At is when it must hold, in µs, after that tick (At/1000) was stepped; with Within, in µs, it must hold at one tick at
	// least from At to At+Within, both included.
	At, Within int64
	Kind       Kind
	// Codes are refusals for Refused, one happening for Happens, one gesture for Made, one mode for InMode, else nothing.
	Codes []string
	// Pos is its place in the script.
	Pos yamldoc.Pos
}

// String is the expectation as it is written in a script.
func (e Expect) String() string {
	switch e.Kind {
	case Armed:
		return "armed"
	case Disarmed:
		return "disarmed"
	case Ready:
		return "ready"
	case Made:
		return "{gesture: " + e.Codes[0] + "}"
	case InMode:
		return "{mode: " + e.Codes[0] + "}"
	case Refused:
		return "{refused: [" + strings.Join(e.Codes, ", ") + "]}"
	}
	return strings.Join(e.Codes, " ")
}

// expect reads the value of an expect field.
func (p *parser) expect(n yamldoc.Node) []Expect {
	if !n.IsList() {
		return p.expectOne(n)
	}
	var out []Expect
	for _, item := range n.List() {
		out = append(out, p.expectOne(item)...)
	}
	if len(n.List()) == 0 {
		n.Wrong("script.nothing-expected")
	}
	return out
}

func (p *parser) expectOne(n yamldoc.Node) []Expect {
	e := Expect{Pos: n.Pos()}
	if n.IsMap() {
		m := n.Map("script.expectation")
		if made, ok := m.Field("gesture"); ok {
			m.Done()
			e.Kind = Made
			if len(p.words.names.Gestures) == 0 {
				made.Wrong("script.no-gestures")
			} else if code, ok := made.Word(p.words.names.Gestures...); ok {
				e.Codes = []string{code}
				return []Expect{e}
			}
			return nil
		}
		if mode, ok := m.Field("mode"); ok {
			m.Done()
			e.Kind = InMode
			if code, ok := mode.Word(pulse.ModeCodes()...); ok {
				e.Codes = []string{code}
				return []Expect{e}
			}
			return nil
		}
		if _, ok := m.Field("refused"); !ok && m.Len() > 0 { // what stands there is the fault, not what is missing
			m.Done()
			return nil
		}
		codes := m.Need("refused")
		m.Done()
		items := []yamldoc.Node{codes}
		if !codes.IsScalar() {
			items = codes.List()
			if codes.IsList() && len(items) == 0 {
				codes.Wrong("script.no-refusal")
			}
		}
		e.Kind = Refused
		for _, c := range items {
			if c.IsScalar() {
				if word, _ := c.Text(); p.words.names.OldRefusals[word] != "" {
					e.Codes = append(e.Codes, p.words.names.OldRefusals[word])
					continue
				}
			}
			if code, ok := c.Word(p.words.names.Refusals...); ok {
				e.Codes = append(e.Codes, code)
			}
		}
		return []Expect{e}
	}
	if !n.IsScalar() {
		n.Wrong("script.not-expectable")
		return nil
	}
	if word, _ := n.Text(); slices.Contains(p.words.names.Refusals, word) && !slices.Contains(p.words.known, word) {
		n.Wrong("script.is-refusal", words.Args{"code": words.Quote(word)})
		return nil
	}
	word, ok := n.Word(p.words.known...)
	if !ok {
		return nil
	}
	switch word {
	case "armed":
		e.Kind = Armed
	case "disarmed":
		e.Kind = Disarmed
	case "ready":
		e.Kind = Ready
	default:
		e.Kind, e.Codes = Happens, []string{word}
	}
	return []Expect{e}
}

// Failed is an expectation that did not come true, and what was seen in its place.
type Failed struct {
	Expect Expect
	Seen   words.Text
}

// Problem says what was expected and what was seen: `file:line:col: at 2.5s armed was expected; seen: …`.
func (f Failed) Problem() *words.Problem {
	e := f.Expect
	args := words.Args{"from": words.Quote(clock(e.At / 1000)), "expected": words.Quote(e.String()), "seen": f.Seen}
	p := words.Wrong("script.failed-at", args)
	if e.Within > 0 {
		args["to"] = words.Quote(clock((e.At + e.Within) / 1000))
		p = words.Wrong("script.failed-within", args)
	}
	return p.At(e.Pos.File, e.Pos.Line, e.Pos.Col)
}

// seenMost is how many happenings of a window are told when the one that was expected did not come.
const seenMost = 6

// Checker holds a run against expectations. It is told every tick, in order.
type Checker struct {
	open   []pending // in order of At, those that are not decided
	total  int
	passed int
	out    []Failed
}

type pending struct {
	Expect
	began bool     // a tick of its time was told
	seen  []string // what happened in its time, for Happens
	more  int
}

// NewChecker begins a run of the script.
func (s *Script) NewChecker() *Checker { return NewChecker(s.expects) }

// NewChecker begins a run with these expectations.
func NewChecker(expects []Expect) *Checker {
	c := &Checker{total: len(expects)}
	for _, e := range expects {
		c.open = append(c.open, pending{Expect: e})
	}
	slices.SortStableFunc(c.open, func(a, b pending) int {
		switch {
		case a.At < b.At:
			return -1
		case a.At > b.At:
			return 1
		}
		return 0
	})
	return c
}

// Now is how things stand after a tick was stepped, in code words.
type Now struct {
	Armed bool
	// Refusals are those that stand now, Happenings what happened in this very tick, Gestures what was made in it.
	Refusals, Happenings, Gestures []string
	Mode                           string
}

// Tick tells how things stand after tick (ms) was stepped. It gives the expectations that can no longer come true; the slice is
// valid until the next call.
func (c *Checker) Tick(tick int64, now *Now) []Failed {
	c.out = c.out[:0]
	if len(c.open) == 0 || c.open[0].At > tick*1000 {
		return nil
	}
	keep := c.open[:0]
	for i := range c.open {
		p := c.open[i]
		if p.At > tick*1000 {
			keep = append(keep, c.open[i:]...)
			break
		}
		last := p.At + p.Within
		if tick*1000 <= last {
			if p.holds(now) {
				c.passed++
				continue
			}
			p.note(now.Happenings)
		}
		if (tick+1)*1000 > last {
			c.out = append(c.out, Failed{p.Expect, p.saw(now)})
			continue
		}
		keep = append(keep, p)
	}
	c.open = keep
	return c.out
}

// Finish ends the run: what is still open has failed, because the run ended before its time.
func (c *Checker) Finish() []Failed {
	c.out = c.out[:0]
	for _, p := range c.open {
		c.out = append(c.out, Failed{p.Expect, words.T("script.seen-ended")})
	}
	c.open = nil
	return c.out
}

// Passed is how many expectations have come true so far.
func (c *Checker) Passed() int { return c.passed }

// Total is how many expectations there are.
func (c *Checker) Total() int { return c.total }

func (p *pending) holds(now *Now) bool {
	armed, refusals := now.Armed, now.Refusals
	switch p.Kind {
	case Made:
		return slices.Contains(now.Gestures, p.Codes[0])
	case InMode:
		return now.Mode == p.Codes[0]
	case Armed:
		return armed
	case Disarmed:
		return !armed
	case Ready:
		return !armed && len(refusals) == 0
	case Refused:
		for _, code := range p.Codes {
			if !slices.Contains(refusals, code) {
				return false
			}
		}
		return !armed
	}
	return slices.Contains(now.Happenings, p.Codes[0])
}

// note keeps what happened where a happening was expected and has not come.
func (p *pending) note(happenings []string) {
	p.began = true
	if p.Kind != Happens && p.Kind != Made {
		return
	}
	for _, h := range happenings {
		if len(p.seen) == seenMost {
			p.more++
			continue
		}
		p.seen = append(p.seen, h)
	}
}

// saw says what there was in its place: the last state, or what happened.
func (p *pending) saw(now *Now) words.Text {
	armed, refusals := now.Armed, now.Refusals
	switch {
	case !p.began:
		return words.T("script.seen-passed")
	case p.Kind == InMode:
		return words.T("script.seen-mode", words.Args{"mode": words.Quote(now.Mode)})
	case (p.Kind == Happens || p.Kind == Made) && len(p.seen) == 0:
		return words.T("script.seen-nothing")
	case (p.Kind == Happens || p.Kind == Made) && p.more > 0:
		return words.T("script.seen-more", words.Args{"happenings": listed(p.seen), "n": words.Whole(p.more)})
	case p.Kind == Happens || p.Kind == Made:
		return listed(p.seen)
	case armed:
		return words.T("script.seen-armed")
	case len(refusals) == 0:
		return words.T("script.seen-ready")
	}
	return words.T("script.seen-refused", words.Args{"refusals": listed(refusals)})
}

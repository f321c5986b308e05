package drillfile

import (
	"slices"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// part is one case being read.
type part struct {
	*decoder
	c  drill.Case
	w  Words
	at yamldoc.Node
	// names are the code words of the choices.
	names    []string
	answered bool
	// grounded: the craft of this case never flies.
	grounded bool
}

// millis reads a time of whole milliseconds.
func millis(n yamldoc.Node, lo, hi time.Duration) (int32, bool) {
	t, ok := n.Duration(lo, hi)
	if ok && t%time.Millisecond != 0 {
		n.Wrong("drill-file.whole-millis", words.Args{"time": words.Quote(t.Round(time.Millisecond).String())})
		return 0, false
	}
	return int32(t / time.Millisecond), ok
}

// volts reads a voltage in mV.
func volts(n yamldoc.Node) (int32, bool) {
	v, ok := n.Fixed("V", 1000, 0, 65000)
	return int32(v), ok
}

// craft reads how the craft is changed, on top of what was read before.
func (p *part) craft(n yamldoc.Node) {
	if !n.Exists() {
		return
	}
	c := &p.c.Craft
	m := n.Map("drill-file.craft")
	number := func(field string, to *uint8, from uint8, choices ...string) {
		if w, ok := m.Opt(field).Word(choices...); ok {
			for i := range choices {
				if choices[i] == w {
					*to = from + uint8(i)
				}
			}
		}
	}
	number("arming", &c.Arming, 1, "switch", "sticks")
	if v, ok := m.Opt("second-switch").Int(1, pulse.Channels); ok {
		c.Second = uint8(v)
	}
	if w, ok := m.Opt("only-self-levelling").Word("no", "yes"); ok {
		c.SelfLevelling = w == "yes"
	}
	if v, ok := volts(m.Opt("pack-limit")); ok {
		c.PackLimit = uint16(v)
	}
	number("always", &c.FixedMode, 1+uint8(layout.Angle), pulse.ModeCodes()...)
	number("when-silent", &c.OnLoss, 1+uint8(link.FallsSilent), "falls-silent", "repeats-last", "sends-stored")
	number("when-lost", &c.Lost, 1, "cut", "sink")
	number("at-low-throttle", &c.AtLow, 1, "still", "idle")
	m.Done()
}

// cue reads what is shown and what sounds.
func (p *part) cue(n yamldoc.Node) {
	if !n.Exists() {
		return
	}
	m := n.Map("drill-file.cue")
	if s := text(m.Opt("say")); s != "" {
		p.w.Say = s
	}
	if w, ok := m.Opt("sound").Word(Sounds()...); ok {
		p.w.Sound = named(w)
	}
	if w, ok := m.Opt("picture").Word(Pictures()...); ok {
		p.w.Picture = named(w)
	}
	if n, ok := m.Field("motor"); ok {
		p.motor(n)
	}
	m.Done()
}

// motor reads {turns: front-left, way: clockwise, nose: away}.
func (p *part) motor(n yamldoc.Node) {
	m := n.Map("drill-file.motor")
	if !n.IsMap() {
		return
	}
	one := &p.w.Motor
	one.Place, _ = m.Need("turns").Word(motors()...)
	way, _ := m.Need("way").Word("clockwise", "counter-clockwise")
	one.Clockwise = way == "clockwise"
	if nose, ok := m.Opt("nose").Word(noseWords()...); ok {
		one.Nose = slices.Index(noseWords(), nose)
	}
	m.Done()
}

func named(w string) string {
	if w == "none" {
		return ""
	}
	return w
}

// choices reads the answers: a code word and a text each.
func (p *part) choices(n yamldoc.Node) {
	if !n.Exists() {
		return
	}
	m := n.Map("drill-file.choices")
	if !n.IsMap() {
		return
	}
	if l := m.Len(); l < 2 || l > drill.MostChoices {
		n.Wrong("drill-file.choice-count", atMost(l, drill.MostChoices))
	}
	for key, value := range m.Rest() {
		p.names = append(p.names, code(key))
		p.w.Choices = append(p.w.Choices, text(value))
	}
	p.w.Codes = p.names
	p.c.Choices = uint8(min(len(p.names), drill.MostChoices))
}

// before reads the steps of preparation.
func (p *part) before(n yamldoc.Node) {
	if !n.Exists() {
		return
	}
	list, _ := n.ListOf(1, drill.MostSteps)
	for i, one := range list {
		m := one.Map("drill-file.step")
		if !one.IsMap() {
			continue
		}
		var s drill.Preparation
		p.w.Before = append(p.w.Before, text(m.Need("say")))
		if b, ok := m.Field("bench"); ok {
			change := bench{}
			p.bench(b, &change)
			if s.Puts = change.said; len(s.Puts) > drill.MostPuts {
				b.Wrong("drill-file.many-puts", atMost(len(s.Puts), drill.MostPuts))
			}
		}
		s.Until, _ = p.wants(m.Need("until"), false)
		if to, ok := m.Field("flown-to"); ok {
			p.flownTo(to, &s, i == len(list)-1)
		}
		p.c.Before = append(p.c.Before, s)
		m.Done()
	}
}

// flownTo reads a height to which the craft is flown for the pupil as a step begins. It is the last step; the one before has his hands stand as
// they must, and until then the pack is out, so that nothing arms on the ground.
func (p *part) flownTo(n yamldoc.Node, s *drill.Preparation, last bool) {
	mm, ok := n.Fixed("m", 1000, 500, pulse.HighestHover)
	s.Puts = append(s.Puts, drill.Put{Kind: pulse.Air, Value: pulse.HoverAt(int32(mm))})
	asks := func(is func(w *drill.Want) bool) bool {
		b := p.c.Before
		return len(b) > 0 && slices.ContainsFunc(b[len(b)-1].Until, func(w drill.Want) bool { return is(&w) })
	}
	throttle := asks(func(w *drill.Want) bool { return w.Kind == drill.HoverThrottle })
	switch on := asks(func(w *drill.Want) bool { return w.Kind == drill.ArmSwitch && w.A == 1 }); {
	case !ok:
	case p.c.Craft.Arming != 1 || p.grounded:
		n.Wrong("drill-file.not-flown-to", words.Args{"craft": words.Quote("craft: {arming: switch}"), "bench": words.Quote("bench: {bench: air}")})
	case !last || !throttle || !on:
		n.Wrong("drill-file.flown-to-hands", words.Args{"throttle": words.Quote("{throttle: " + hovers + "}"), "arm": words.Quote("{arm-switch: on}")})
	default:
		first := &p.c.Before[0]
		first.Puts = append([]drill.Put{{Kind: pulse.Power}}, first.Puts...)
	}
}

// wait reads when the cue comes.
func (p *part) wait(n yamldoc.Node) {
	if !n.Exists() {
		return
	}
	if !n.IsMap() {
		if v, ok := millis(n, 0, mostWait); ok {
			p.c.WaitLow, p.c.WaitHigh = v, v
		}
		return
	}
	m := n.Map("drill-file.wait")
	low, okLow := millis(m.Need("from"), 0, mostWait)
	high, okHigh := millis(m.Need("to"), 0, mostWait)
	m.Done()
	if okLow && okHigh && low > high {
		n.Wrong("drill-file.wait-backwards")
		return
	}
	p.c.WaitLow, p.c.WaitHigh = low, high
}

// withCue reads bench inputs at the cue and after it.
func (p *part) withCue(n yamldoc.Node) {
	if !n.Exists() {
		return
	}
	list := []yamldoc.Node{n}
	if n.IsList() {
		list = n.List()
	}
	last := int32(0)
	for _, one := range list {
		m := one.Map("drill-file.with-cue")
		if !one.IsMap() {
			continue
		}
		after, _ := millis(m.Opt("after"), 0, mostAfter)
		if after < last {
			one.Wrong("drill-file.out-of-order")
		}
		last = after
		var b bench
		p.benchFields(m, &b)
		for _, put := range b.said {
			p.c.With = append(p.c.With, drill.Timed{After: after, Put: put})
		}
		if len(b.said) == 0 {
			one.Wrong("drill-file.nothing-put")
		}
		m.Done()
	}
	if len(p.c.With) > drill.MostPuts {
		n.Wrong("drill-file.many-inputs", atMost(len(p.c.With), drill.MostPuts))
	}
}

// follow reads what must follow.
func (p *part) follow(n yamldoc.Node) {
	if !n.Exists() {
		p.at.Wrong("drill-file.no-follow")
		return
	}
	m := n.Map("drill-file.follow")
	if w, ok := m.Opt("in-order").Word("no", "yes"); ok {
		p.c.InOrder = w == "yes"
	}
	p.c.Within, _ = millis(m.Need("within"), 100*time.Millisecond, mostWithin)
	p.answered = false
	p.c.Wants, p.w.Wants = p.wants(m.Need("all"), true)
	if len(p.names) > 0 && !p.answered {
		n.Wrong("drill-file.unanswered", words.Args{"choice": words.Quote(p.names[0])})
	}
	m.Done()
}

// never reads what must not happen.
func (p *part) never(n yamldoc.Node) {
	if !n.Exists() {
		return
	}
	p.c.Nevers, p.w.Nevers = p.wants(n, false)
	if len(p.c.Nevers) > drill.MostNevers {
		n.Wrong("drill-file.many-nevers", atMost(len(p.c.Nevers), drill.MostNevers))
	}
	for i, w := range p.c.Nevers {
		for _, x := range p.c.Wants {
			if w.Kind == x.Kind && w.A == x.A && w.B == x.B && w.Task == x.Task {
				at := n
				if l := n.List(); i < len(l) {
					at = l[i]
				}
				at.Wrong("drill-file.want-and-never")
			}
		}
	}
}

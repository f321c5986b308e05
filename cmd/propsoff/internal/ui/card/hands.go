package card

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/switches"
)

// hold is what hands do with one control, in words and large: what arms and disarms, or the modes.
type hold struct {
	// k is the control; nil for sticks.
	k            *control
	name, called string
	ways         []way
}

// way is one thing that hands do: what comes of it, and how. Of a switch first and last are the positions, counted from its low end; of sticks
// stand is where the two of them are held, each from −1 to 1.
type way struct {
	word, how   string
	tone        tone
	first, last int
	stand       [2][2]float64
}

// holds says what hands do: first what arms and disarms, then the modes.
func (s speaker) holds(c *Data, all []control) (out []hold) {
	l := &c.Config.Layout
	arm, disarm := s.say(words.T("card.to-arm")), s.say(words.T("card.to-disarm"))
	switch k := on(all, l.Arm); {
	case facts.BySticks(&c.Config):
		h := hold{}
		for _, arms := range [...]bool{true, false} {
			w := way{word: disarm, how: s.say(tell.CardHold(&c.Config, arms)), tone: disarmed, stand: cornered(c.Radio.StickMode, arms)}
			if arms {
				w.word, w.tone = arm, armed
			}
			h.ways = append(h.ways, w)
		}
		out = append(out, h)
	case k != nil:
		out = append(out, s.hold(k, func(a, b *switches.Position) bool { return (a.Arm == layout.Inside) == (b.Arm == layout.Inside) }, func(p *position) way {
			if p.does.Arm == layout.Inside {
				return way{word: arm, tone: armed}
			}
			return way{word: disarm, tone: disarmed}
		}))
	}
	if k := on(all, l.Mode); k != nil {
		alike := func(a, b *switches.Position) bool { return a.Mode == b.Mode && a.Gap == b.Gap && a.Air == b.Air }
		out = append(out, s.hold(k, alike, func(p *position) way { return way{word: s.mode(p)} }))
	}
	return out
}

// mode says which mode a position is.
func (s speaker) mode(p *position) string {
	d := &p.does
	return s.say(words.T("card.mode", words.Args{"mode": tell.Mode(d.Mode), "air": words.Flag(d.Air), "gap": words.Flag(d.Gap)}))
}

// hold says what a control does, in the order in which its positions lie as the pilot sees them, the upper one or the left one first.
func (s speaker) hold(k *control, alike func(a, b *switches.Position) bool, does func(*position) way) hold {
	h := hold{k: k, name: s.say(words.T("card.switch", words.Args{"job": tell.ControlName(named(k.Control))}))}
	if k.Called != k.Job {
		h.called = k.Called
	}
	for _, p := range join(k.positions, alike) {
		w := does(&p)
		w.first, w.last = p.first, p.last
		if k.Kind == handset.Knob {
			w.how = s.say(tell.SpanWords(zone(k.Control, &p)))
		} else {
			w.how = s.say(tell.CardStand(k.Control, p.first, p.last))
		}
		h.ways = append(h.ways, w)
	}
	if !k.Spot.Guessed && (k.Spot.Way == handset.GoesDown || k.Spot.Way == handset.GoesRight) {
		for i, j := 0, len(h.ways)-1; i < j; i, j = i+1, j-1 {
			h.ways[i], h.ways[j] = h.ways[j], h.ways[i]
		}
	}
	return h
}

// named is a control without the pilot's own name for it, which stands by itself.
func named(k *handset.Control) *handset.Control {
	c := *k
	c.Called = ""
	return &c
}

// cornered is where the two sticks stand that arm a craft, or disarm it: throttle low, yaw to its side, the rest in the middle.
func cornered(mode int, arms bool) (out [2][2]float64) {
	for i, g := range figure.Gimbals[ui.StickMode(mode)] {
		if g.Up == figure.Throttle {
			out[i][1] = -1
		}
		if g.Across == figure.Yaw {
			out[i][0] = -1
			if arms {
				out[i][0] = 1
			}
		}
	}
	return out
}

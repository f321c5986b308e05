package drillfile

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/sim/drill"
)

// quantity is the unit in which a bound is written, how many of the drill's own units that is, and from where to where it may be, in those.
type quantity struct {
	unit     string
	scale    int
	low, top int64
}

// The limits (ours): as far as a beginner's craft is still to be seen, and faster than any that is practised with here.
func metres(low int64) quantity        { return quantity{"m", 1000, low, 500_000} }
func metresASecond(low int64) quantity { return quantity{"m/s", 1000, low, 100_000} }

func degrees(low int64) quantity { return quantity{"deg", 10, low, 1800} }

// boundWord is a bound that is written as a span.
type boundWord struct {
	word string
	of   drill.Bound
	in   quantity
}

func boundWords() []boundWord {
	return []boundWord{
		{"height", drill.OfHeight, metres(0)}, {"north", drill.OfNorth, metres(-500_000)}, {"east", drill.OfEast, metres(-500_000)},
		{"distance", drill.OfDistance, metres(0)}, {"speed", drill.OfSpeed, metresASecond(0)}, {"climb", drill.OfClimb, metresASecond(-100_000)},
		{"lean", drill.OfLean, degrees(0)}, {"bank", drill.OfBank, degrees(-1800)},
	}
}

// noseWords are where a nose may point, in quarter turns to the right, as the pilot behind the start sees it.
func noseWords() []string { return []string{"away", "right", "towards-you", "left"} }

// span reads {from: 1 m, to: 2 m}; either may be left out.
func (p *part) span(n yamldoc.Node, m *yamldoc.Map, q quantity) (s drill.Span, ok bool) {
	s = drill.Span{Low: drill.NoLow, High: drill.NoHigh}
	from, fromThere := m.Field("from")
	to, toThere := m.Field("to")
	ok = fromThere || toThere
	if !ok && n.IsMap() {
		n.Wrong("drill-file.no-span", words.Args{"from": words.Quote("from"), "to": words.Quote("to")})
	}
	for _, end := range [...]struct {
		n     yamldoc.Node
		there bool
		to    *int32
	}{{from, fromThere, &s.Low}, {to, toThere, &s.High}} {
		if !end.there {
			continue
		}
		v, good := end.n.Fixed(q.unit, q.scale, q.low, q.top)
		*end.to, ok = int32(v), ok && good
	}
	if ok && s.Low >= s.High {
		n.Wrong("drill-file.span-backwards")
		ok = false
	}
	return s, ok
}

// bounds reads {height: {from: 1 m, to: 2 m}, distance: {to: 1 m, north: 6 m}, nose: {points: away, within: 30 deg}}: all of it at once.
func bounds(kind drill.WantKind) func(*part, yamldoc.Node, *drill.Want) bool {
	return func(p *part, n yamldoc.Node, w *drill.Want) bool {
		w.Kind = kind
		m := n.Map("drill-file.flown")
		if !n.IsMap() {
			return false
		}
		t, all := &w.Task, true
		for _, b := range boundWords() {
			one, there := m.Field(b.word)
			if !there {
				continue
			}
			in := one.Map("drill-file.span")
			s, ok := p.span(one, in, b.in)
			if b.of == drill.OfDistance {
				for i, side := range [...]string{"north", "east"} {
					if v, ok := in.Opt(side).Fixed("m", 1000, -500_000, 500_000); ok {
						t.Mark[i] = int32(v)
					}
				}
			}
			in.Done()
			t.Set |= 1 << b.of
			t.Spans[b.of], all = s, all && ok
		}
		if one, there := m.Field("nose"); there {
			all = p.nose(one, t) && all
		}
		m.Done()
		if m.Len() == 0 {
			var names []string
			for _, b := range boundWords() {
				names = append(names, b.word)
			}
			n.Wrong("drill-file.no-bound", words.Args{"fields": listed(append(names, "nose"))})
		}
		return all && t.Set != 0
	}
}

// nose reads {points: right, within: 30 deg}.
func (p *part) nose(n yamldoc.Node, t *drill.Task) bool {
	m := n.Map("drill-file.nose")
	word, okWord := m.Need("points").Word(noseWords()...)
	within, okWithin := m.Need("within").Fixed("deg", 10, 10, 1790)
	m.Done()
	t.Set |= 1 << drill.OfNose
	t.Spans[drill.OfNose] = drill.Span{Low: 0, High: int32(within) + 1}
	if okWord {
		t.Nose = int32(slices.Index(noseWords(), word)) * 900
	}
	return okWord && okWithin
}

// touchesDown reads {from: 1 m/s}, {to: 1 m/s} or both: how fast the craft comes down as it touches the ground.
func touchesDown(p *part, n yamldoc.Node, w *drill.Want) bool {
	m := n.Map("drill-file.span")
	s, ok := p.span(n, m, metresASecond(0))
	m.Done()
	w.Kind, w.A, w.B = drill.TouchesDown, max(s.Low, 0), s.High
	return ok && n.IsMap()
}

package drillfile

import (
	"slices"

	"propsoff.example/assets/yamldoc"
	"propsoff.example/sim/body"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/pulse"
)

// bench is what is put on the bench: said is what the file says, in its order. A case begins with newBench, and what the file says
// replaces that.
type bench struct {
	said []drill.Put
	at   int32 // on which bench the craft is, as the value of an Air reading
}

// newBench is the bench as every try finds it unless the file says otherwise: radio and pack on, cable out, craft level, menu
// closed, no fault, a pack of unknown voltage, on the desk.
func newBench() bench {
	return bench{said: []drill.Put{
		{Kind: pulse.Instructor, Value: pulse.InstructorValue(pulse.DeedLiftAll, 0)},
		{Kind: pulse.Air, Value: 0},
		{Kind: pulse.Link, Value: 1}, {Kind: pulse.Power, Value: 1}, {Kind: pulse.Cable, Value: 0}, {Kind: pulse.Tilt, Value: 0},
		{Kind: pulse.Menu, Value: pulse.MenuClosed}, {Kind: pulse.Pack, Value: 0},
	}}
}

// say puts one bench input in place of one of its kind. A fault or a nudge is not a state: each one stands.
func (b *bench) say(kind pulse.Kind, value int32) {
	if kind == pulse.Air {
		b.at = value
	}
	if kind != pulse.Nudge && kind != pulse.Instructor {
		for i := range b.said {
			if b.said[i].Kind == kind {
				b.said[i].Value = value
				return
			}
		}
	}
	b.said = append(b.said, drill.Put{Kind: kind, Value: value})
}

// puts is the whole bench of a case. For any but the desk bench the craft is carried to the desk first, so that it stands on its feet again.
func (b *bench) puts() []drill.Put {
	out := slices.Clone(b.said)
	if b.at == pulse.OnDesk {
		return out
	}
	i := slices.IndexFunc(out, func(p drill.Put) bool { return p.Kind == pulse.Air })
	out = slices.Insert(out, i, drill.Put{Kind: pulse.Air, Value: 0})
	if !slices.ContainsFunc(out, func(p drill.Put) bool { return p.Kind == pulse.Propellers }) {
		out = append(out, drill.Put{Kind: pulse.Propellers, Value: pulse.PropellersValue(body.Directions(true), true)})
	}
	return out
}

// bench reads a group of bench inputs into b.
func (p *part) bench(n yamldoc.Node, b *bench) {
	if !n.Exists() {
		return
	}
	m := n.Map("drill-file.bench")
	p.benchFields(m, b)
	m.Done()
}

// benchWord is a bench input that is a word.
type benchWord struct {
	name string
	kind pulse.Kind
	word []string // the values 0, 1, 2 …
}

func benchWords() []benchWord {
	return []benchWord{
		{"bench", pulse.Air, []string{"desk", "air", "stand", "height-held"}},
		{"link", pulse.Link, []string{"off", "on"}},
		{"power", pulse.Power, []string{"off", "on"}},
		{"cable", pulse.Cable, []string{"out", "in"}},
		{"menu", pulse.Menu, []string{"closed", "open", "camera"}},
	}
}

// benchFields reads the bench inputs of a group that may have other fields too.
func (p *part) benchFields(m *yamldoc.Map, b *bench) {
	for _, f := range benchWords() {
		if w, ok := m.Opt(f.name).Word(f.word...); ok {
			b.say(f.kind, int32(slices.Index(f.word, w)))
		}
	}
	if v, ok := m.Opt("tilt").Fixed("deg", 10, 0, 1800); ok {
		b.say(pulse.Tilt, int32(v))
	}
	if v, ok := volts(m.Opt("pack")); ok {
		b.say(pulse.Pack, v)
	}
	if n, ok := m.Field("propellers"); ok {
		if v, ok := propellers(n); ok {
			b.say(pulse.Propellers, v)
		}
	}
	if _, ok := m.Opt("nudge").Word("once"); ok {
		b.say(pulse.Nudge, 1)
	}
	if n, ok := m.Field("faults"); ok {
		for _, one := range n.List() {
			if f, ok := p.fault(one); ok {
				b.said = append(b.said, drill.Put{Kind: pulse.Instructor, Fault: f})
			}
		}
	}
}

// propellers reads {wrong: [front-left], checked: no}: the motors named have a propeller of the other hand.
func propellers(n yamldoc.Node) (int32, bool) {
	m := n.Map("drill-file.propellers")
	hands, checked := body.Directions(true), true
	if wrong, ok := m.Field("wrong"); ok {
		for _, one := range wrong.List() {
			if w, ok := one.Word(motors()...); ok {
				i := slices.Index(motors(), w)
				hands[i] = -body.Directions(true)[i]
			}
		}
	}
	if w, ok := m.Opt("checked").Word("no", "yes"); ok {
		checked = w == "yes"
	}
	m.Done()
	return pulse.PropellersValue(hands, checked), n.IsMap()
}

func motors() []string { return []string{"front-left", "front-right", "rear-left", "rear-right"} }

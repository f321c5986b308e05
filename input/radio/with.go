package radio

import (
	"slices"

	"propsoff.example/assets/words"
)

// join fills in what controls have of others that they move with; what cannot be is told.
func (p *parser) join() {
	for i := range p.file.Controls {
		c := &p.file.Controls[i]
		if c.With == "" {
			continue
		}
		wrong := func(id words.ID) {
			p.places[place{i, "moves-with"}].Wrong(id, words.Args{"job": words.Quote(c.Job), "with": words.Quote(c.With)})
			p.fail(i)
		}
		at := slices.IndexFunc(p.file.Controls, func(o Control) bool { return o.Job == c.With })
		switch {
		case at == i:
			wrong("radio.with-itself")
		case at < 0:
			wrong("radio.with-nobody")
		case p.broken[at]: // told already
			p.fail(i)
		case p.file.Controls[at].With != "":
			wrong("radio.with-another")
		case c.Turned && p.file.Controls[at].Form == Button:
			wrong("radio.button-turned")
		default:
			*c = p.file.Controls[at].joined(c)
		}
	}
}

// fail leaves a control with its job alone, so that it is not called missing as well and clashes with nothing.
func (p *parser) fail(i int) {
	if p.broken == nil {
		p.broken = map[int]bool{}
	}
	p.broken[i] = true
	p.file.Controls[i] = Control{Job: p.file.Controls[i].Job}
}

// joined is what another control is that moves with c.
func (c Control) joined(with *Control) Control {
	out := c
	out.Job, out.With, out.Turned = with.Job, with.With, with.Turned
	if !out.Turned {
		return out
	}
	switch {
	case c.Form != Axis:
		out.Buttons = slices.Clone(c.Buttons)
		slices.Reverse(out.Buttons)
	case c.Scale != nil:
		turned := c.Scale.Turned()
		out.Scale = &turned
	default:
		out.Backwards = !c.Backwards
	}
	out.Positions = slices.Clone(c.Positions)
	slices.Reverse(out.Positions)
	return out
}

package handset

import "propsoff.example/sim/pulse"

// With are the controls that move with another, as indices: those whose Same names it.
func (r *Radio) With(control int) (all []int) {
	for i := range r.Controls {
		if r.Controls[i].Same == control+1 {
			all = append(all, i)
		}
	}
	return all
}

// SameFits reports whether what a control says of Same can be: it names an earlier one that is not itself the same as another, and both have
// as many positions, or neither has any.
func (r *Radio) SameFits(control int) bool {
	c := &r.Controls[control]
	if c.Same == 0 {
		return true
	}
	if c.Same < 0 || c.Same > control {
		return false
	}
	first := &r.Controls[c.Same-1]
	return first.Same == 0 && (first.Kind == Switch) == (c.Kind == Switch) && len(first.Positions) == len(c.Positions)
}

// Carries is what another control sends that is the same piece of the radio as c, where c stands at a place, off by so much from what it
// sends there without noise: a switch by its position, a stick or knob by its share of the way from an end to where it rests.
func (c *Control) Carries(with *Control, position int, w, off pulse.Width) pulse.Width {
	if c.Kind == Switch {
		if with.Turned {
			position, off = len(with.Positions)-1-position, -off
		}
		return with.Positions[position].Width + off
	}
	low, high := min(c.Low, c.High), max(c.Low, c.High)
	first, last := min(with.Low, with.High), max(with.Low, with.High)
	rest, middle := c.Rest, with.Rest
	if c.Stays || rest <= low || rest >= high || middle <= first || middle >= last { // no place between that both know of
		rest, middle = low, first
		if with.Turned {
			middle = last
		}
	}
	if with.Turned {
		first, last = last, first
	}
	if w < rest {
		return between(w, low, rest, first, middle)
	}
	return between(w, rest, high, middle, last)
}

// between is where a width between two others lies between two more, rounded to the nearest; beyond them it goes on as between them.
func between(w, a, b, x, y pulse.Width) pulse.Width {
	n, d := int64(w-a)*int64(y-x), int64(b-a)
	if d == 0 {
		return x
	}
	if n < 0 {
		return x + pulse.Width(-((-2*n + d) / (2 * d)))
	}
	return x + pulse.Width((2*n+d)/(2*d))
}

// Together are the controls that one hand moves with another, as indices, whichever of them names which.
func (r *Radio) Together(control int) (all []int) {
	first := control
	if same := r.Controls[control].Same; same != 0 {
		first = same - 1
		all = append(all, first)
	}
	for _, i := range r.With(first) {
		if i != control {
			all = append(all, i)
		}
	}
	return all
}

// Stands has a frame be as the radio sends it once a control stands in a position, or at a width, and with it what is the same piece of the radio.
func (r *Radio) Stands(f *pulse.Frame, control, position int, w pulse.Width) {
	f[r.Controls[control].Channel] = w
	for _, n := range r.Together(control) {
		f[r.Controls[n].Channel] = r.Sends(control, n, position, w)
	}
}

// Sends is what another of these sends where one stands in a position, or at a width: a stick or knob by its share of the way between its ends.
func (r *Radio) Sends(control, other, position int, w pulse.Width) pulse.Width {
	c, o := &r.Controls[control], &r.Controls[other]
	turned := c.Turned != o.Turned
	switch {
	case c.Kind == Switch && turned:
		return o.Positions[len(o.Positions)-1-position].Width
	case c.Kind == Switch:
		return o.Positions[position].Width
	case o.Same == control+1:
		return c.Carries(o, position, w, 0)
	}
	first, last := min(o.Low, o.High), max(o.Low, o.High)
	if turned {
		first, last = last, first
	}
	return between(w, min(c.Low, c.High), max(c.Low, c.High), first, last)
}

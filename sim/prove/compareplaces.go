package prove

import (
	"cmp"
	"slices"

	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// thinShare is the least share of the travel, as one part in so many, that a hand can hold on purpose where two radios do not reach equally
// far (ours). Where they do, every eighth of a µs counts.
const thinShare = 100

// spot is one point of the way of a control, on both radios.
type spot struct {
	width    [2]pulse.Width
	position [2]int
	// kept: an end, the rest, or a position: a hand finds it, however short the stretch is.
	kept bool
}

// placesOf fills in where a control can stand, and where it stands at the beginning.
func (h *pairHands) placesOf(c *pairControl) {
	var of [2]*handset.Control
	for i, at := range c.control {
		if at >= 0 {
			of[i] = &h.l[i].Radio.Controls[at]
		}
	}
	spots, exact := spotsOf(of)
	h.group(c, spots, exact)
	h.letGo(c, of)
	c.normal = h.normalPlace(c, of)
}

// spotsOf is the whole way of a control on both radios. Switches stand in their positions, counted from the low end; where one has more than the
// other, the ends match, and what is between goes by its share of the way, halves to the lower. Sticks and knobs go by their share of the
// travel, on either side of where they rest if they spring back to it. It reports whether both reach equally far.
func spotsOf(of [2]*handset.Control) (spots []spot, exact bool) {
	a, b := of[0], of[1]
	last := func(c *handset.Control) int {
		switch {
		case c == nil:
			return 0
		case c.Kind == handset.Switch:
			return len(c.Positions) - 1
		}
		return int(max(c.High-c.Low, c.Low-c.High))
	}
	halves := a != nil && b != nil && a.Kind != handset.Switch && b.Kind != handset.Switch && !a.Stays && !b.Stays
	if !halves {
		n := max(last(a), last(b))
		for k := range n + 1 {
			s := spot{kept: k == 0 || k == n}
			for i, c := range of {
				s.put(i, c, k, n)
			}
			spots = append(spots, s)
		}
	} else {
		below := max(rest(a)-least(a), rest(b)-least(b))
		above := max(most(a)-rest(a), most(b)-rest(b))
		part := func(from, to func(*handset.Control) pulse.Width, n, begin pulse.Width) {
			for k := begin; k <= n; k++ {
				s := spot{kept: k == 0 || k == n, position: [2]int{-1, -1}}
				for i, c := range of {
					s.width[i] = partway(from(c), to(c), int(k), int(n))
				}
				spots = append(spots, s)
			}
		}
		part(least, rest, below, 0)
		part(rest, most, above, 1)
	}
	for i := range spots { // a switch is always in one of its positions, and a stick rests where it rests
		for k, c := range of {
			s := &spots[i]
			s.kept = s.kept || c != nil && (c.Kind == handset.Switch || s.width[k] == c.Rest)
		}
	}
	return spots, a == nil || b == nil || a.Kind == handset.Switch || b.Kind == handset.Switch || least(a) == least(b) && most(a) == most(b) && (rest(a) == rest(b) || !halves)
}

func least(c *handset.Control) pulse.Width { return min(c.Low, c.High) }
func most(c *handset.Control) pulse.Width  { return max(c.Low, c.High) }
func rest(c *handset.Control) pulse.Width  { return min(max(c.Rest, least(c)), most(c)) }

// partway is the width at k of n steps from one to another.
func partway(from, to pulse.Width, k, n int) pulse.Width {
	if n == 0 {
		return from
	}
	return from + pulse.Width(int(to-from)*k/n)
}

// put says where a control stands at k of n steps of its way.
func (s *spot) put(i int, c *handset.Control, k, n int) {
	s.position[i] = -1
	switch {
	case c == nil:
	case c.Kind == handset.Switch:
		at := 0
		if n > 0 { // halves to the lower
			at = (2*k*(len(c.Positions)-1) + n - 1) / (2 * n)
		}
		s.position[i], s.width[i] = at, c.Positions[at].Width
	default:
		s.width[i] = partway(least(c), most(c), k, n)
	}
}

// group makes places of the spots: those that mean the same to both crafts are one. The one that a person would name stands for it: where it rests,
// an end, a position, else the middle of its longest stretch.
func (h *pairHands) group(c *pairControl, spots []spot, exact bool) {
	type stretch struct {
		means      [2]meaning
		from, to   int
		kept, rest int // the first spot that is kept, and where a control rests; −1 for none
	}
	var all []stretch
	for k := range spots {
		s := &spots[k]
		var m [2]meaning
		for i := range m {
			m[i], _ = h.meanings(c, i, s.width[i], s.position[i])
		}
		if n := len(all); n == 0 || all[n-1].means != m {
			all = append(all, stretch{m, k, k, -1, -1})
		}
		t := &all[len(all)-1]
		t.to = k
		if s.kept && t.kept < 0 {
			t.kept = k
		}
		if t.rest < 0 && h.rests(c, s) {
			t.rest = k
		}
	}
	wide := slices.DeleteFunc(slices.Clone(all), func(t stretch) bool { return !exact && t.kept < 0 && (t.to-t.from+1)*thinShare < len(spots) })
	for i, t := range all {
		again := func(u stretch) bool { return u.means == t.means }
		if !slices.ContainsFunc(wide, again) && !slices.ContainsFunc(all[:i], again) {
			h.leftOut = append(h.leftOut, LeftOut{c.control, spots[t.from].width, spots[t.to].width})
		}
	}
	for i := range wide {
		t := &wide[i]
		if slices.ContainsFunc(c.places, func(p pairPlace) bool { return p.means == t.means }) {
			continue
		}
		same := slices.DeleteFunc(slices.Clone(wide), func(u stretch) bool { return u.means != t.means })
		at := -1
		for _, u := range same {
			if at < 0 && u.rest >= 0 {
				at = u.rest
			}
		}
		for _, u := range same {
			if at < 0 && u.kept >= 0 {
				at = u.kept
			}
		}
		if at < 0 {
			u := slices.MaxFunc(same, func(u, v stretch) int { return cmp.Compare(u.to-u.from, v.to-v.from) })
			at = u.from + (u.to-u.from)/2
		}
		s := &spots[at]
		p := pairPlace{means: t.means, width: s.width, position: s.position, letGo: -1, held: true}
		for i := range p.also {
			_, p.also[i] = h.meanings(c, i, p.width[i], p.position[i])
		}
		c.places = append(c.places, p)
	}
}

// rests reports whether a spot is where sticks and knobs stand untouched.
func (h *pairHands) rests(c *pairControl, s *spot) bool {
	for i, at := range c.control {
		if at >= 0 {
			if k := &h.l[i].Radio.Controls[at]; k.Kind == handset.Switch || s.width[i] != k.Rest {
				return false
			}
		}
	}
	return true
}

// springs reports whether there is a control and it springs back.
func springs(c *handset.Control) bool { return c != nil && c.Springs() }

// restsAt is where a control that springs back goes: a switch to one of its positions, −1 for others.
func restsAt(c *handset.Control) (w pulse.Width, position int) {
	if c.Kind == handset.Switch {
		at := c.RestPosition()
		return c.Positions[at].Width, at
	}
	return rest(c), -1
}

// letGo notes for each place where a control goes from it once it is let go. Where only one radio's springs back, or both do to places apart, that
// adds places that no hand holds.
func (h *pairHands) letGo(c *pairControl, of [2]*handset.Control) {
	if !springs(of[0]) && !springs(of[1]) {
		return
	}
	for p := 0; p < len(c.places); p++ { // places that are added rest already
		to := c.places[p]
		to.held, to.letGo = false, -1
		for i, k := range of {
			if springs(k) {
				to.width[i], to.position[i] = restsAt(k)
				to.means[i], to.also[i] = h.meanings(c, i, to.width[i], to.position[i])
			}
		}
		stays := func(q *pairPlace) bool { // what does not spring back must not move either
			for i, k := range of {
				if !springs(k) && (q.width[i] != to.width[i] || q.position[i] != to.position[i]) {
					return false
				}
			}
			return true
		}
		at := slices.IndexFunc(c.places, func(q pairPlace) bool { return q.means == to.means && stays(&q) })
		switch {
		case at < 0 && c.places[p].means == to.means:
			at = p
		case at < 0:
			at = len(c.places)
			c.places = append(c.places, to)
		}
		if at != p {
			c.places[p].letGo = at
		}
	}
}

// normalPlace is where a control stands when a person gives both crafts their packs: what arms is off if it can be, a throttle that stays is low,
// sticks rest, other switches stand at their low end, and what springs back has been let go.
func (h *pairHands) normalPlace(c *pairControl, of [2]*handset.Control) int {
	off := func(p *pairPlace) (n int) {
		for i := range of {
			l, f := &h.cfg[i].Layout, pulse.Frame{}
			if h.send(c, p, i, &f); l.Arm != layout.NoChannel && f[l.Arm].Valid() && !l.ArmSpan.Contains(f[l.Arm]) {
				n++
			}
		}
		return n
	}
	want := func(p *pairPlace) bool { // at rest
		for i, k := range of {
			if k == nil || k.Kind == handset.Switch || springs(k) && !springs(of[1-i]) {
				continue // what alone springs back is let go of afterwards
			}
			at := rest(k)
			if k.Channel == h.cfg[i].Layout.Throttle && k.Stays {
				at = least(k)
			}
			if m, _ := h.meanings(c, i, at, -1); p.means[i] != m {
				return false
			}
		}
		return true
	}
	best, score := 0, -1
	for p := range c.places {
		if n := 2*off(&c.places[p]) + int(bit(want(&c.places[p]))); n > score && c.places[p].held {
			best, score = p, n
		}
	}
	if to := c.places[best].letGo; to >= 0 {
		return to
	}
	return best
}

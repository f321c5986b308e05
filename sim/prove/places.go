package prove

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/pulse"
)

// noiseTimes is how many times its standard deviation noise takes a value from its place (ours). Of values spread by the normal distribution
// one in 3.5 million lies farther off to one side: at 50 frames a second that is one in 19 hours (tables of the normal distribution).
const noiseTimes = 5

// checkControls finds a radio that no hand could move as it is described.
func checkControls(r *handset.Radio) error {
	seen := map[int8]bool{}
	for i := range r.Controls {
		c := &r.Controls[i]
		switch {
		case c.Channel < 0 || c.Channel >= pulse.Channels:
			return words.Wrong("search.control-beyond", words.Args{"n": words.Whole(i), "channel": words.Whole(int(c.Channel) + 1)})
		case seen[c.Channel]:
			return words.Wrong("search.two-controls", words.Args{"channel": words.Whole(c.Channel + 1)})
		case c.Kind == handset.Switch && len(c.Positions) == 0:
			return words.Wrong("search.no-positions", words.Args{"channel": words.Whole(c.Channel + 1)})
		case !r.SameFits(i):
			return words.Wrong("search.not-same", words.Args{"channel": words.Whole(c.Channel + 1)})
		}
		seen[c.Channel] = true
	}
	return nil
}

// spot is one place of a control, off from where it is without noise by some eighths of a µs, and what it sends there.
func (h *hands) spot(c *handset.Control, others []int, place, off int, w pulse.Width) class {
	k := class{width: w + pulse.Width(off), position: -1, members: 1}
	if c.Kind == handset.Switch {
		k.position = place
	}
	k.edges, k.sign = []pulse.Width{k.width}, h.sign(c.Channel, k.width)
	for _, o := range others {
		with := &h.radio.Controls[o]
		s := sent{width: c.Carries(with, place, k.width, pulse.Width(off))}
		s.sign = h.sign(with.Channel, s.width)
		k.also = append(k.also, s)
	}
	return k
}

// means reports whether two places mean the same on every channel.
func (k *class) means(o *class) bool {
	return k.sign == o.sign && slices.EqualFunc(k.also, o.also, func(a, b sent) bool { return a.sign == b.sign })
}

// holds reports whether a width lies in one of a stick's stretches, or is that of one of a switch's positions.
func (k *class) holds(w pulse.Width) bool {
	if k.position >= 0 {
		return slices.Contains(k.edges, w)
	}
	for i := 0; i+1 < len(k.edges); i += 2 {
		if k.edges[i] <= w && w <= k.edges[i+1] {
			return true
		}
	}
	return false
}

// classes are those of a control and of all that moves with it, in order of their lowest width: first those in which it stands firmly, for a
// switch in the order of its positions, each split where its noise crosses an edge.
func (h *hands) classes(control int) []class {
	c, others := &h.radio.Controls[control], h.radio.With(control)
	var out []class
	add := func(k class) {
		for i := range out {
			if o := &out[i]; o.trembles == 0 && o.means(&k) && !(h.ask.all && k.position >= 0) {
				o.edges = append(o.edges, k.edges...)
				if k.position >= 0 {
					o.members++
				}
				return
			}
		}
		out = append(out, k)
	}
	if c.Kind == handset.Switch {
		for i, p := range c.Positions {
			if split := h.trembling(c, others, i, p.Width, p.Spread, i+1); len(split) > 1 {
				out = append(out, split...)
			} else {
				add(split[0])
			}
		}
		return out
	}
	low, high := min(c.Low, c.High), max(c.Low, c.High)
	for w := low; ; {
		k := h.spot(c, others, 0, 0, w)
		end := w
		for end < high {
			if h.sign(c.Channel, end+1) != k.sign {
				break
			}
			if len(others) > 0 {
				if next := h.spot(c, others, 0, 0, end+1); !next.means(&k) {
					break
				}
			}
			end++
		}
		k.edges = append(k.edges, end)
		add(k)
		if end >= high {
			break
		}
		w = end + 1
	}
	for i := range out {
		at := h.spot(c, others, 0, 0, standsFor(out[i].edges, low, c.Rest, high))
		out[i].width, out[i].also = at.width, at.also
	}
	rests := []pulse.Width{low, high}
	if !c.Stays && c.Rest > low && c.Rest < high {
		rests = append(rests, c.Rest)
	}
	for n, w := range rests {
		if split := h.trembling(c, others, 0, w, c.Noise, n+1); len(split) > 1 {
			out = append(out, split...)
		}
	}
	return out
}

// trembling are the classes among which noise takes a control that rests at a place; one where it stands firmly.
func (h *hands) trembling(c *handset.Control, others []int, place int, w, spread pulse.Width, number int) []class {
	out := []class{h.spot(c, others, place, 0, w)}
	for n := 1; n <= int(noiseTimes*spread); n++ {
		for _, off := range [...]int{n, -n} {
			k := h.spot(c, others, place, off, w)
			if !slices.ContainsFunc(out, func(o class) bool { return o.means(&k) }) {
				out = append(out, k)
			}
		}
	}
	if len(out) > 1 {
		for i := range out {
			out[i].trembles = number
		}
		out[0].calm = true
	}
	return out
}

// classesOf gives the classes of a control as they are on its own channel, also where it moves with another.
func (h *hands) classesOf(control int) []class {
	c := &h.radio.Controls[control]
	if c.Same == 0 {
		return h.classes(control)
	}
	first := c.Same - 1
	out := h.classes(first)
	at := slices.Index(h.radio.With(first), control)
	for i := range out {
		k := &out[i]
		if k.position >= 0 && c.Turned {
			k.position = len(c.Positions) - 1 - k.position
		}
		k.width, k.sign, k.edges = k.also[at].width, k.also[at].sign, []pulse.Width{k.also[at].width}
	}
	return out
}

// standsFor is the place that a person would name for a stretch of a stick: where it rests, or an end, else the middle of the stretch.
func standsFor(edges []pulse.Width, low, rest, high pulse.Width) pulse.Width {
	for _, want := range []pulse.Width{rest, low, high} {
		if k := (class{position: -1, edges: edges}); k.holds(want) {
			return want
		}
	}
	return edges[0] + (edges[1]-edges[0])/2
}

// normal is the class in which a control stands when a person gives the craft power.
func (h *hands) normal(c *handset.Control, classes []class) int {
	firm := func(k *class) bool { return k.trembles == 0 || k.calm }
	at := func(w pulse.Width) int {
		for _, is := range [...]func(k *class) bool{
			func(k *class) bool { return k.calm && k.width == w },
			func(k *class) bool { return k.trembles == 0 && k.holds(w) },
		} {
			if i := slices.IndexFunc(classes, func(k class) bool { return is(&k) }); i >= 0 {
				return i
			}
		}
		return 0
	}
	l := &h.cfg.Layout
	switch {
	case c.Kind == handset.Switch && c.Momentary:
		return restPosition(c, classes)
	case c.Channel == l.Arm: // off, if it can be
		if c.Kind != handset.Switch {
			if i := at(c.Rest); classes[i].sign.valid && !classes[i].sign.inside {
				return i
			}
		}
		for i := range classes {
			if k := &classes[i]; firm(k) && k.sign.valid && !k.sign.inside {
				return i
			}
		}
		return 0
	case c.Kind == handset.Switch:
		return 0
	case c.Channel == l.Throttle && c.Stays:
		return at(min(c.Low, c.High))
	}
	return at(min(max(c.Rest, min(c.Low, c.High)), max(c.Low, c.High)))
}

// restPosition is the class in which a switch stands once it is let go.
func restPosition(c *handset.Control, classes []class) int {
	rest, w := 0, c.Positions[c.RestPosition()].Width
	for i := range classes {
		if k := &classes[i]; (k.trembles == 0 || k.calm) && slices.Contains(k.edges, w) {
			rest = i
		}
	}
	return rest
}

func abs(w pulse.Width) pulse.Width { return max(w, -w) }

// trembles reports whether noise changes what some control means.
func (h *hands) trembles() bool {
	return slices.ContainsFunc(h.digits, func(d digit) bool {
		return slices.ContainsFunc(d.classes, func(k class) bool { return k.trembles != 0 })
	})
}

// firmHands are hands on a radio without noise. It fails where the layout cannot be searched.
func (l *Layout) firmHands() (*hands, error) {
	if err := l.check(); err != nil {
		return nil, err
	}
	quiet := l.quiet()
	return newHands(&quiet, question{})
}

// quiet is the layout with a radio without noise.
func (l *Layout) quiet() Layout {
	q := *l
	q.Radio.Controls = slices.Clone(l.Radio.Controls)
	for i := range q.Radio.Controls {
		c := &q.Radio.Controls[i]
		c.Noise, c.Positions = 0, slices.Clone(c.Positions)
		for n := range c.Positions {
			c.Positions[n].Spread = 0
		}
	}
	return q
}

package tworadios

import (
	"slices"

	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// place is one of the places of a control that mean different things: a position of a switch, −1 for what has none, and a width.
type place struct {
	position int
	width    pulse.Width
}

// lever is what one hand moves at a time: a control, by its index in both radios together, and what is one piece of the radio with it.
type lever struct {
	control int
	with    []int
	places  []place
	rest    int // the place where it begins
	springs bool
}

// leversOf are those of a radio, whose controls stand from index first on in both.
func (w *walk) leversOf(r *handset.Radio, first int, his bool) (out []lever) {
	for i := range r.Controls {
		c := &r.Controls[i]
		if c.Same != 0 {
			continue
		}
		v := lever{control: first + i, springs: c.Momentary}
		for _, k := range r.With(i) {
			v.with = append(v.with, first+k)
		}
		means := func(p place) (key uint64) {
			key = w.means(c.Channel, p.width, his)
			for _, k := range r.With(i) {
				key = key<<6 | w.means(r.Controls[k].Channel, r.Sends(i, k, p.position, p.width), his)
			}
			return key
		}
		v.places, v.rest = placesOf(c, means)
		if named := c.Channel == w.cfg.Layout.Arm || c.Channel == w.l.Pair.Switch; his && named && len(v.places) == 1 && c.Kind == handset.Switch {
			other := (v.places[0].position + 1) % len(c.Positions) // it may be moved, though that changes nothing: a person will try
			v.places = append(v.places, place{other, c.Positions[other].Width})
		}
		out = append(out, v)
	}
	return out
}

// placesOf is a place for each meaning that a control can have, and which of them it begins in.
func placesOf(c *handset.Control, means func(place) uint64) (out []place, rest int) {
	if c.Kind == handset.Switch {
		begins := means(place{c.RestPosition(), c.Positions[c.RestPosition()].Width})
		var seen []uint64
		for n := range c.Positions {
			p := place{n, c.Positions[n].Width}
			k := means(p)
			if slices.Contains(seen, k) {
				continue
			}
			if seen = append(seen, k); k == begins {
				rest, p = len(out), place{c.RestPosition(), c.Positions[c.RestPosition()].Width}
			}
			out = append(out, p)
		}
		return out, rest
	}
	low, high := min(c.Low, c.High), max(c.Low, c.High)
	var seen []uint64
	begins := means(place{-1, c.Rest})
	for at := low; at <= high; {
		k, to := means(place{-1, at}), at
		for to < high && means(place{-1, to + 1}) == k {
			to++
		}
		p := place{-1, at + (to-at)/2}
		switch {
		case at <= c.Rest && c.Rest <= to:
			p.width = c.Rest
		case at == low:
			p.width = low
		case to == high:
			p.width = high
		}
		if !slices.Contains(seen, k) {
			if seen = append(seen, k); k == begins {
				rest, p.width = len(out), c.Rest
			}
			out = append(out, p)
		}
		at = to + 1
	}
	return out, rest
}

// means is what a width on a channel means to craft and pair, in six bits: equal ones are the same to both.
func (w *walk) means(channel int8, at pulse.Width, his bool) (key uint64) {
	l, a := &w.cfg.Layout, &w.cfg.Arming
	read := slices.Contains([]int8{l.Throttle, l.Roll, l.Pitch, l.Yaw, l.Arm, l.Second, l.Mode}, channel)
	if takes := his && channel == w.l.Pair.Switch; !read && !takes || !at.Valid() {
		return 0
	} else if takes && w.takesAt(at) {
		key |= 2
	}
	zone := func(marks ...pulse.Width) (n uint64) {
		for _, m := range marks {
			if at >= m {
				n++
			}
		}
		return n
	}
	sticks := a.By == arming.BySticks
	switch {
	case channel == l.Throttle && sticks:
		key |= 4 * zone(a.LowThrottle, a.LeaveThrottle)
	case channel == l.Throttle:
		key |= 4 * zone(a.LowThrottle)
	case channel == l.Yaw && sticks:
		key |= 4 * zone(a.YawLeft+1, a.LeaveLeft+1, a.LeaveRight, a.YawRight)
	case channel == l.Arm && l.ArmSpan.Contains(at), channel == l.Second && l.SecondSpan.Contains(at),
		channel == l.Mode && a.OnlySelfLevelling && l.ModeAt(at).SelfLevelling():
		key |= 4
	}
	return key | 1
}

// takesAt reports whether the switch that takes the sticks stands so that it does.
func (w *walk) takesAt(at pulse.Width) bool {
	s := layout.Span{Low: w.l.Pair.SwitchSpan.Low, High: w.l.Pair.SwitchSpan.High}
	return s.Contains(at)
}

// frame is what one of the two radios sends, its levers standing so: those from first to end.
func (w *walk) frame(at *[mostLevers]uint8, first, end int) (f pulse.Frame) {
	all := w.both.Radio.Controls
	for n := first; n < end; n++ {
		v := &w.levers[n]
		p := v.places[at[n]]
		f[all[v.control].Channel] = p.width
		for _, k := range v.with {
			f[all[k].Channel] = w.both.Radio.Sends(v.control, k, p.position, p.width)
		}
	}
	return f
}

// carries reports whether a lever moves a channel.
func (w *walk) carries(n int, channel int8) bool {
	all := w.both.Radio.Controls
	return all[w.levers[n].control].Channel == channel ||
		slices.ContainsFunc(w.levers[n].with, func(k int) bool { return all[k].Channel == channel })
}

// corner reports whether sticks stand in the arm corner (arms), or in that which disarms.
func corner(cfg *sim.Config, f *pulse.Frame, arms bool) bool {
	l, a := &cfg.Layout, &cfg.Arming
	thr, yaw := f[l.Throttle], f[l.Yaw]
	if !thr.Valid() || !yaw.Valid() || thr >= a.LowThrottle {
		return false
	}
	return arms && yaw >= a.YawRight || !arms && yaw <= a.YawLeft
}

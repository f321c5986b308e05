package mend

import (
	"slices"

	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/switches"
)

// placesOf are the places of a control: the positions of a switch, else both ends and the middle.
func placesOf(c *handset.Control) []switches.Position {
	if c.Kind == handset.Switch {
		out := make([]switches.Position, len(c.Positions))
		for i, p := range c.Positions {
			out[i] = switches.Position{Width: p.Width, Spread: p.Spread, Noise: max(p.Spread, switches.LeastNoise)}
		}
		return out
	}
	low, high := min(c.Low, c.High), max(c.Low, c.High)
	var out []switches.Position
	for _, w := range []pulse.Width{low, low + (high-low)/2, high} {
		out = append(out, switches.Position{Width: w, Noise: max(c.Noise, switches.LeastNoise)})
	}
	return out
}

// apart reports whether an edge half way between two neighbouring places lies far enough from both: never nearer than a margin that the
// layout sheet would call out.
func apart(at []switches.Position, i int) bool {
	half, noise := int(at[i].Width-at[i-1].Width)/2, int(max(at[i].Noise, at[i-1].Noise))
	return half >= max(switches.LeastMargin, switches.LeastTimes*noise)
}

// edges reports whether what is wanted at each place has room for its edges.
func edges(at []switches.Position, want []int8) bool {
	for i := 1; i < len(at); i++ {
		if want[i] != want[i-1] && !apart(at, i) {
			return false
		}
	}
	return len(at) == len(want)
}

// onSpan is the one span that holds just the places wanted; false where they do not lie together.
func onSpan(at []switches.Position, want []int8) (layout.Span, bool) {
	on := make([]bool, len(want))
	for i, w := range want {
		on[i] = w == 1
	}
	all := switches.Touching(at, on)
	if len(all) != 1 {
		return layout.Span{}, false
	}
	return all[0], true
}

// spansFor are mode spans that put the mode wanted at each place, in the order of the modes, as a craft file has them.
func spansFor(at []switches.Position, want []int8) []layout.ModeSpan {
	modes := make([]layout.Mode, len(want))
	for i, w := range want {
		modes[i] = layout.Mode(w)
	}
	out := switches.Modes(at, modes)
	slices.SortStableFunc(out, func(a, b layout.ModeSpan) int { return int(a.Mode) - int(b.Mode) })
	return out
}

// differ counts the places at which two meanings differ.
func differ(a, b []int8) (n int) {
	for i := range a {
		if a[i] != b[i] {
			n++
		}
	}
	return n
}

// runs are all ways to be on at some places that reach one end, and off at others: the fewest on first.
func runs(n int) (out [][]int8) {
	for on := 1; on < n; on++ {
		high, low := make([]int8, n), make([]int8, n)
		for i := range on {
			low[i], high[n-1-i] = 1, 1
		}
		out = append(out, high, low)
	}
	return out
}

// fewPlaces is how many places a mode switch has at most for every order of modes to be tried on it (ours): 27 orders.
const fewPlaces = 3

// orders are the ways to put modes on a switch of n places that now means was: every one where the places are few; else those that change
// one place, those that give each mode another's places, and the modes in their order, each on as many places as the next.
func orders(n int, was []int8) (out [][]int8) {
	add := func(of func(i int) int8) {
		o := make([]int8, n)
		for i := range o {
			o[i] = of(i)
		}
		for _, other := range out {
			if differ(other, o) == 0 {
				return
			}
		}
		out = append(out, o)
	}
	if was != nil {
		add(func(i int) int8 { return was[i] })
	}
	if n <= fewPlaces {
		total := 1
		for range n {
			total *= layout.Modes
		}
		for v := range total {
			add(func(i int) int8 {
				d := v
				for range n - 1 - i {
					d /= layout.Modes
				}
				return int8(d % layout.Modes)
			})
		}
		return out
	}
	add(func(i int) int8 { return int8(i * layout.Modes / n) })
	add(func(i int) int8 { return int8(min(i*2/n, 1)) })
	add(func(int) int8 { return int8(layout.Angle) })
	if was == nil {
		return out
	}
	for at := range n {
		for m := range int8(layout.Modes) {
			add(func(i int) int8 {
				if i == at {
					return m
				}
				return was[i]
			})
		}
	}
	for _, p := range [][layout.Modes]int8{{0, 2, 1}, {1, 0, 2}, {1, 2, 0}, {2, 0, 1}, {2, 1, 0}} {
		add(func(i int) int8 { return p[was[i]] })
	}
	return out
}

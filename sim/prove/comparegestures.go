package prove

import (
	"reflect"
	"slices"

	"propsoff.example/sim"
)

// sameGestures reports whether two crafts have the same gestures and menus. Their times are kept in slots: where these are not equally long,
// two times are the same that could be written alike.
func sameGestures(a, b *sim.Config) bool {
	if a.SlotTicks != b.SlotTicks && a.Gestures != nil && b.Gestures != nil {
		c := *b
		g := *b.Gestures
		g.Patterns, g.SlotTicks = slices.Clone(g.Patterns), a.Gestures.SlotTicks
		c.Gestures = &g
		for i := range g.Patterns {
			if i < len(a.Gestures.Patterns) {
				for n := range g.Patterns[i].Parts {
					p, q := &a.Gestures.Patterns[i].Parts[n], &g.Patterns[i].Parts[n]
					q.Dwell, q.Within = alike(a, b, p.Dwell, q.Dwell), alike(a, b, p.Within, q.Within)
				}
			}
		}
		if a.Menus != nil && b.Menus != nil {
			m := *b.Menus
			m.Delay, m.Every = alike(a, b, a.Menus.Delay, m.Delay), alike(a, b, a.Menus.Every, m.Every)
			c.Menus = &m
		}
		b = &c
	}
	return reflect.DeepEqual(a.Gestures, b.Gestures) && reflect.DeepEqual(a.Menus, b.Menus)
}

// alike is the first time, in slots of the first craft, if both are some time in ms rounded up to slots; else the second.
func alike(a, b *sim.Config, first, second uint16) uint16 {
	ms := func(c *sim.Config, slots uint16) (above, most int) {
		return (int(slots) - 1) * int(c.SlotTicks), int(slots) * int(c.SlotTicks)
	}
	lowA, highA := ms(a, first)
	lowB, highB := ms(b, second)
	if max(lowA, lowB) < min(highA, highB) {
		return first
	}
	return second
}

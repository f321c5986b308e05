package phrase

import (
	"strings"

	"propsoff/gestures"
	"propsoff/gestures/menu"
	"propsoff/sim/drill"
	"propsoff/sim/drill/drillfile"
)

// DrillHands is whose hands and gestures a drill is told for: the stick mode, and whether the gestures are those that ship.
type DrillHands struct {
	StickMode uint8
	Shipped   bool
}

// DrillAbout is what a drill is for, with how its one gesture is made and its menu moved by this pupil's sticks.
func DrillAbout(d *drillfile.Drill, h DrillHands) string {
	moves := drillMoves(&d.Config.Cases[0], h)
	for i := range d.Config.Cases {
		if drillMoves(&d.Config.Cases[i], h) != moves {
			return d.About // each case has its own, and says it when the try is over
		}
	}
	return joined(d.About, moves)
}

// DrillAfter is what is told after a try of a case: with how its gesture is made, where that is all that it wants.
func DrillAfter(d *drillfile.Drill, n int, h DrillHands) string {
	if len(d.Config.Cases[n].Wants) > 1 {
		return d.Cases[n].After
	}
	return joined(d.Cases[n].After, drillMoves(&d.Config.Cases[n], h))
}

func joined(texts ...string) string {
	return strings.TrimSpace(strings.Join(texts, " "))
}

// drillMoves says how the gesture is made that is all a case wants, or how the menu is moved in which it wants something; empty for
// neither.
func drillMoves(c *drill.Case, h DrillHands) string {
	g, menus := c.Craft.Gestures, c.Craft.Menus
	for _, w := range c.Wants {
		switch {
		case w.Kind == drill.Gesture && g != nil && len(c.Wants) == 1:
			s := GestureRecipe(g, &g.Patterns[w.A], h.StickMode)
			if h.Shipped {
				s += " " + GestureYours("")
			}
			return s
		case w.Kind == drill.MenuValue && menus != nil:
			return MenuRecipe(menus.Menus[menus.MenuOf(int(w.A))].Way, h.StickMode)
		}
	}
	return ""
}

// GestureRecipe says how a gesture is made, by the sticks of a stick mode; of a later step only what moves.
func GestureRecipe(cfg *gestures.Config, p *gestures.Pattern, mode uint8) string {
	s, before := "", [gestures.Directions]gestures.Zone{}
	for i := range int(p.Count) {
		at := p.StickZones(i, mode)
		z, times := at, GestureTimes(cfg, p, i)
		if i == 0 {
			s = capital(times)
		} else {
			s += ". Then " + times
			for stick := gestures.LeftAcross; stick <= gestures.RightAcross; stick += 2 {
				if at[stick] == before[stick] && at[stick+1] == before[stick+1] {
					z[stick], z[stick+1] = gestures.Any, gestures.Any
				}
			}
			if z == [gestures.Directions]gestures.Zone{} {
				z = at // the same stand once more
			}
		}
		s += ": " + GestureStand(z)
		before = at
	}
	return s + "."
}

// MenuRecipe says how a menu is gone through by the sticks of a stick mode.
func MenuRecipe(way menu.Way, mode uint8) string {
	s := "In the menu the right stick does it all: up and down moves the mark, right goes in, left goes out; in a value, up and down changes it."
	if way == menu.TwoSticks {
		s = "In the menu the right stick's up and down moves the mark; the left stick's right goes in or raises a value, its left goes out or lowers it."
	}
	if gestures.OnSticks(mode)[gestures.RightUp] == gestures.Throttle {
		s += " The right stick carries the throttle: bring that to the middle first."
	}
	return s
}

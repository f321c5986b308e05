package tell

import (
	"propsoff/assets/words"
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
func DrillAbout(d *drillfile.Drill, h DrillHands) words.Text {
	about, moves := DrillText(d.Config.Code, d.About), movesOf(&d.Config.Cases[0])
	for i := range d.Config.Cases {
		if movesOf(&d.Config.Cases[i]) != moves {
			return about // each case has its own, and says it when the try is over
		}
	}
	return words.Row(about, moves.text(h))
}

// DrillAfter is what is told after a try of a case: with how its gesture is made, where that is all that it wants.
func DrillAfter(d *drillfile.Drill, n int, h DrillHands) words.Text {
	after := DrillText(d.Config.Code, d.Cases[n].After)
	if len(d.Config.Cases[n].Wants) > 1 {
		return after
	}
	return words.Row(after, movesOf(&d.Config.Cases[n]).text(h))
}

// drillMoves is the gesture that is all a case wants, or the menu in which it wants something; the zero value is neither.
type drillMoves struct {
	set     *gestures.Config
	gesture int32
	menu    *menu.Tree
}

func movesOf(c *drill.Case) drillMoves {
	g, menus := c.Craft.Gestures, c.Craft.Menus
	for _, w := range c.Wants {
		switch {
		case w.Kind == drill.Gesture && g != nil && len(c.Wants) == 1:
			return drillMoves{set: g, gesture: w.A}
		case w.Kind == drill.MenuValue && menus != nil:
			return drillMoves{menu: &menus.Menus[menus.MenuOf(int(w.A))]}
		}
	}
	return drillMoves{}
}

// text says how that gesture is made or that menu is moved.
func (m drillMoves) text(h DrillHands) words.Text {
	switch {
	case m.menu != nil:
		return MenuRecipe(m.menu.Way, h.StickMode)
	case m.set == nil:
		return words.Text{}
	}
	how := GestureRecipe(m.set, &m.set.Patterns[m.gesture], h.StickMode)
	if h.Shipped {
		return words.Row(how, GestureYours(words.Text{}))
	}
	return how
}

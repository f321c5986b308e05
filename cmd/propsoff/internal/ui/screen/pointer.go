package screen

import (
	"math"
	"slices"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/input/keyboard"
	"propsoff.example/sim/pulse"
)

// inTheMiddle is where a hit area counts as pressed while no pointer says it.
var inTheMiddle = ink.Point{X: 0.5, Y: 0.5}

// grip is what a pointer that is down has hold of.
type grip struct {
	id  int
	hit ink.Hit
	// key is the key of the keyboard pilot that it holds down, 0 for none.
	key keyboard.Key
	// stick: it has a stick, whose axes these are. Stays: it stands where it is let go, until it is pressed again.
	stick      bool
	across, up keyboard.Axis
	stays      bool
	// bar: it has the bar of a look back.
	bar bool
	// list is the one that it turns where onList, from where it came down; turned is by how much it has, turns that it does.
	list          ink.List
	onList, turns bool
	from          ink.Point
	turned        int
}

// Point takes what a mouse or a finger does. Levers and sticks act while they are held; everything else acts when it is let go of where it was pressed,
// so a press that was a mistake can be taken elsewhere.
func (s *Screen) Point(e ink.Pointer) {
	if e.Phase == ink.Wheel {
		s.turnWheel(&e)
		return
	}
	i := slices.IndexFunc(s.grips, func(g grip) bool { return g.id == e.ID })
	if e.Phase == ink.Down {
		s.touch = e.Finger
		if (e.On || e.OnList) && i < 0 {
			s.grasp(e)
		}
		return
	}
	if i < 0 {
		return
	}
	if e.Phase == ink.Move {
		s.drag(&s.grips[i], e.At)
		return
	}
	g := s.grips[i]
	s.grips = slices.Delete(s.grips, i, i+1)
	switch {
	case g.bar:
		s.Flight.letGo()
	case g.turns: // a drag presses nothing
	case g.stick:
		if e.Phase == ink.Up {
			s.drag(&g, e.At)
		}
		if !g.stays || e.Phase == ink.Lost {
			s.Options.Driver.LetGo(g.across)
			s.Options.Driver.LetGo(g.up)
		}
	case g.key != 0:
		s.Options.Driver.Release(g.key)
	case e.Phase == ink.Up && e.On && e.Hit.Name == g.hit.Name && !e.Second:
		box := g.hit.Box // as it stood when it was pressed: a first finger makes areas larger
		in := func(at ink.Point) ink.Point { return ink.Point{X: (at.X - box.X) / box.W, Y: (at.Y - box.Y) / box.H} }
		s.Pointed, s.PointedFrom = in(e.At), in(g.from)
		s.Click(e.Hit)
		s.Pointed, s.PointedFrom = inTheMiddle, inTheMiddle
	}
}

// grasp begins what a press begins.
func (s *Screen) grasp(e ink.Pointer) {
	g := grip{id: e.ID, hit: e.Hit, stays: e.Second, list: e.List, onList: e.OnList && !e.Hit.Held && !e.Second, from: e.At}
	if g.across, g.up, g.stick = ui.StickOf(e.Hit.Name); g.stick {
		s.grips = append(s.grips, g)
		s.drag(&g, e.At)
		return
	}
	if g.bar = e.Hit.Name == ui.ReplayBar && s.Flight.looksBack() && !e.Second; g.bar {
		s.grips = append(s.grips, g)
		s.drag(&g, e.At)
		return
	}
	for _, b := range ui.LayoutKeys { // a lever or a position of one
		if e.Hit.Held && b.Code == e.Hit.Name && !e.Second {
			g.key = b.Key
			s.Options.Driver.Press(b.Key)
		}
	}
	s.grips = append(s.grips, g)
}

// drag pulls a stick, or the bar of a look back, to where a pointer is, or turns a list by how far it has come.
func (s *Screen) drag(g *grip, at ink.Point) {
	room := &g.hit.Room
	switch {
	case g.bar:
		s.Flight.holdAt((at.X - room.X) / room.W)
	case g.onList:
		s.turnList(g, at)
	}
	if !g.stick {
		return
	}
	width := func(share float64) pulse.Width {
		return pulse.Low + pulse.Width(ui.Clamp(share, 0, 1)*float64(pulse.High-pulse.Low)+0.5)
	}
	s.Options.Driver.Hold(g.across, width((at.X-room.X)/room.W))
	s.Options.Driver.Hold(g.up, width((room.Bottom()-at.Y)/room.H))
}

// turnList turns a list by what a pointer has been drawn since it came down: as far as the pointer has come, or by one page.
func (s *Screen) turnList(g *grip, at ink.Point) {
	by := g.from.Y - at.Y
	if across := g.from.X - at.X; g.list.Leaf && math.Abs(across) > math.Abs(by) {
		by = across
	}
	to := int(math.Round(by / g.list.Step))
	if g.list.Leaf {
		to = ui.ClampInt(to, -1, 1)
	}
	g.turns = g.turns || to != 0
	s.turnBy(&g.list, to-g.turned)
	g.turned = to
}

// perNotch is by how many rows a notch of a wheel turns a list (ours); pages are turned by one.
const perNotch = 3

// turnWheel turns the list under the mouse by what its wheel was turned. What is less than a row is kept: some wheels tell of parts of a notch.
func (s *Screen) turnWheel(e *ink.Pointer) {
	if !e.OnList {
		return
	}
	rows := e.By * perNotch
	if e.List.Leaf {
		rows = e.By
	}
	if s.wheel.list != e.List.Name || rows*s.wheel.left < 0 {
		s.wheel.left = 0
	}
	whole, left := math.Modf(s.wheel.left + rows)
	s.wheel.list, s.wheel.left = e.List.Name, left
	s.turnBy(&e.List, int(whole))
}

// turnBy turns a list, or the pages of what does not fit one, by so many.
func (s *Screen) turnBy(l *ink.List, by int) {
	if !l.Leaf {
		s.view.Turn(l.Name, by)
	} else if by != 0 {
		s.Leaf = ui.ClampInt(min(s.Leaf, s.view.Leaves.Of-1)+by, 0, max(s.view.Leaves.Of-1, 0))
	}
}

// turnOn turns a list by what was shown of it, where a hit area stands for that: at its end back to its beginning.
func (s *Screen) turnOn(hit string) bool {
	name, ok := ui.RollOf(hit)
	switch {
	case !ok:
	case name == ui.LeavesRoll:
		s.Leaf = (s.view.Leaves.At + 1) % max(s.view.Leaves.Of, 1)
	default:
		s.view.TurnOn(name)
	}
	return ok
}

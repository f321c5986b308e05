package screen

import (
	"slices"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/input/keyboard"
	"propsoff/sim/pulse"
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
}

// Point takes what a mouse or a finger does. Levers and sticks act while they are held; everything else acts when it is let go of where it was pressed,
// so a press that was a mistake can be taken elsewhere.
func (s *Screen) Point(e ink.Pointer) {
	i := slices.IndexFunc(s.grips, func(g grip) bool { return g.id == e.ID })
	if e.Phase == ink.Down {
		s.touch = e.Finger
		if e.On && i < 0 {
			s.grasp(e)
		}
		return
	}
	if i < 0 {
		return
	}
	g := s.grips[i]
	if e.Phase == ink.Move {
		s.drag(&g, e.At)
		return
	}
	s.grips = slices.Delete(s.grips, i, i+1)
	switch {
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
		s.Pointed = ink.Point{X: (e.At.X - box.X) / box.W, Y: (e.At.Y - box.Y) / box.H}
		s.Click(e.Hit)
		s.Pointed = inTheMiddle
	}
}

// grasp begins what a press begins.
func (s *Screen) grasp(e ink.Pointer) {
	g := grip{id: e.ID, hit: e.Hit, stays: e.Second}
	if g.across, g.up, g.stick = ui.StickOf(e.Hit.Name); g.stick {
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

// drag pulls a stick to where a pointer is.
func (s *Screen) drag(g *grip, at ink.Point) {
	if !g.stick {
		return
	}
	room := &g.hit.Room
	width := func(share float64) pulse.Width {
		return pulse.Low + pulse.Width(ui.Clamp(share, 0, 1)*float64(pulse.High-pulse.Low)+0.5)
	}
	s.Options.Driver.Hold(g.across, width((at.X-room.X)/room.W))
	s.Options.Driver.Hold(g.up, width((room.Bottom()-at.Y)/room.H))
}

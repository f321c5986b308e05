package loop

import (
	"propsoff/gestures"
	"propsoff/gestures/menu"
	"propsoff/sim/practice"
)

// moves is what the sticks do besides flying, as it is shown.
type moves struct {
	set  []gestures.State
	menu menu.State
}

func (m *moves) see(p *practice.Practice) {
	m.set = append(m.set[:0], p.Gestures()...)
	m.menu = p.Menu()
}

// Gestures fills dst with the patterns of the craft as they stand, in their order, and gives the menu. The craft's Config says what
// they are.
func (l *Loop) Gestures(dst []gestures.State) ([]gestures.State, menu.State) {
	v := &l.public
	v.mu.Lock()
	defer v.mu.Unlock()
	return append(dst[:0], v.moves.set...), v.moves.menu
}

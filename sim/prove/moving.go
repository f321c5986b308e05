package prove

import (
	"propsoff.example/gestures"
	"propsoff.example/gestures/menu"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// moving is what the sticks do besides flying, slot by slot as a practice has it (sim/practice): the gestures as they stand, and the menu
// that one of them opened. The bench sees in the next slot that a menu is open.
type moving struct {
	cfg  *sim.Config
	mode uint8
	set  []gestures.State
	menu menu.State
	// seen is the menu that the bench knows to be open, a value of a Menu reading; by is the gesture that opened the last one, −1 for none.
	seen uint8
	by   int
}

func newMoving(cfg *sim.Config, mode int) moving {
	m := moving{cfg: cfg, mode: uint8(mode), by: -1}
	if cfg.Gestures != nil {
		m.set = make([]gestures.State, len(cfg.Gestures.Patterns))
	}
	return m
}

// sticksOf are throttle, roll, pitch and yaw of a frame.
func sticksOf(cfg *sim.Config, f *pulse.Frame) (at [gestures.Directions]pulse.Width) {
	for d, channel := range stickChannels(cfg) {
		at[d] = f[channel]
	}
	return at
}

// opens is the menu that a gesture opens, as a value of a Menu reading.
func opens(cfg *sim.Config, pattern int) uint8 { return opensBy(cfg, &cfg.Gestures.Patterns[pattern]) }

func opensBy(cfg *sim.Config, p *gestures.Pattern) uint8 {
	switch n := p.Opens; {
	case n == 0 || cfg.Menus == nil || int(n) > len(cfg.Menus.Menus):
		return pulse.MenuClosed
	case cfg.Menus.Menus[n-1].Camera:
		return pulse.MenuCamera
	}
	return pulse.MenuCraft
}

// refuses reports whether a menu that is open keeps the craft from arming.
func refuses(cfg *sim.Config, kind uint8) bool {
	return kind == pulse.MenuCraft || kind == pulse.MenuCamera && cfg.Arming.CameraMenuCounts
}

// counts reports whether gestures count after a slot, but for an open menu.
func counts(s *sim.SlotState) bool { return !s.Arming.Armed && s.Link.Phase == link.Good }

// step goes on by the slot that the bench has just run, and reports whether a menu opened in it.
func (m *moving) step(s *sim.SlotState, facts *sim.SlotFacts, tick int64, log *happening.Log) bool {
	if len(m.set) == 0 {
		return false
	}
	at := sticksOf(m.cfg, &facts.Link.Frame)
	in := gestures.Input{Sticks: at, StickMode: m.mode, Valid: facts.Link.Valid, Live: counts(s) && m.seen == pulse.MenuClosed}
	fired := gestures.Step(m.cfg.Gestures, m.set, &in, tick, log)
	if m.menu.Open != 0 {
		m.menu = menu.Step(m.cfg.Menus, m.menu, &menu.Input{Sticks: at, StickMode: m.mode, Valid: facts.Link.Valid, Live: counts(s)}, tick, log)
		if m.menu.Open == 0 {
			m.seen = pulse.MenuClosed
		}
		return false
	}
	if fired < 0 {
		return false
	}
	if m.seen = opens(m.cfg, fired); m.seen == pulse.MenuClosed {
		return false
	}
	m.menu, m.by = menu.Open(m.cfg.Menus, m.menu, int(m.cfg.Gestures.Patterns[fired].Opens)-1), fired
	return true
}

// off is what the craft's loss of power does: its menu closes.
func (m *moving) off() {
	if m.menu.Open != 0 {
		m.menu = menu.Close(m.cfg.Menus, m.menu)
	}
	m.seen = pulse.MenuClosed
}

package practice

import (
	"propsoff.example/gestures"
	"propsoff.example/gestures/menu"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// moves is what the sticks do besides flying: the gestures as they stand, and the menu that one of them opened. The bench sees
// that a menu is open at the next step.
type moves struct {
	set  []gestures.State
	menu menu.State
	told [1]pulse.Reading // room for the reading that tells the bench
	tell bool
}

func newMoves(g *gestures.Config) moves {
	if g == nil {
		return moves{}
	}
	return moves{set: make([]gestures.State, len(g.Patterns))}
}

// stepMoves runs gestures and menu in a slot. A menu that was closed from elsewhere, or whose craft lost its power, is closed here too.
func (p *Practice) stepMoves(log *happening.Log) {
	cfg, m := p.bench.Config(), &p.moves
	if cfg.Gestures == nil {
		return
	}
	in := p.bench.Sticks()
	if m.menu.Open != 0 && !m.tell && (in.Menu == pulse.MenuClosed || !in.Powered) {
		m.menu = menu.Close(cfg.Menus, m.menu)
		if in.Menu != pulse.MenuClosed {
			m.say(pulse.MenuClosed)
		}
	}
	if !p.bench.SlotRan() {
		return
	}
	tick := p.bench.Tick() - 1
	live := !in.Armed && in.Link == link.Good
	gi := gestures.Input{Sticks: in.Sticks, StickMode: in.StickMode, Valid: in.Valid, Live: live && m.menu.Open == 0 && in.Menu == pulse.MenuClosed}
	fired := gestures.Step(cfg.Gestures, m.set, &gi, tick, log)
	if m.menu.Open != 0 {
		mi := menu.Input{Sticks: in.Sticks, StickMode: in.StickMode, Valid: in.Valid, Live: live}
		m.menu = menu.Step(cfg.Menus, m.menu, &mi, tick, log)
		if m.menu.Open == 0 {
			m.say(pulse.MenuClosed)
		}
		return
	}
	if fired < 0 || cfg.Menus == nil {
		return
	}
	if opens := cfg.Gestures.Patterns[fired].Opens; opens > 0 && int(opens) <= len(cfg.Menus.Menus) {
		m.menu = menu.Open(cfg.Menus, m.menu, int(opens)-1)
		kind := int32(pulse.MenuCraft)
		if cfg.Menus.Menus[opens-1].Camera {
			kind = pulse.MenuCamera
		}
		m.say(kind)
	}
}

func (m *moves) say(kind int32) {
	m.told[0], m.tell = pulse.Reading{Kind: pulse.Menu, Value: kind}, true
}

// Gestures are the states of the craft's patterns, in their order; to be read until the next Step.
func (p *Practice) Gestures() []gestures.State { return p.moves.set }

// Menu is the state of the menu, open or closed.
func (p *Practice) Menu() menu.State { return p.moves.menu }

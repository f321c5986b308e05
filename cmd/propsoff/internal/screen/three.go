package screen

import (
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/sim"
	control "propsoff/sim/flight"
	"propsoff/sim/happening"
	"propsoff/sim/layout"
)

// threePart is the work behind the sheet of three crafts side by side: while it is open they fly with the pilot's own.
type threePart struct {
	s      *Screen
	told   events
	tracks [layout.Modes]track
	snaps  [layout.Modes]sim.Snapshot
	// horizon is what a held stick does in horizon, of the craft with the control of which it was measured.
	horizon facts.Horizon
	control control.Control
}

func (p *threePart) open() {
	p.told.since(p.s.o.Loop)
	p.tracks = [layout.Modes]track{}
	p.s.o.Loop.FlyThree(true)
}

func (p *threePart) close() { p.s.o.Loop.FlyThree(false) }

// turn leaves the sheet when the craft is back on the desk bench.
func (p *threePart) turn() {
	for _, h := range p.told.since(p.s.o.Loop) {
		if h.Code == happening.Moved {
			for i := range p.tracks {
				p.tracks[i].cut(h.Tick)
			}
		}
	}
	if p.s.tool == sheet.OnThree && !p.s.flight.live.In.Air {
		p.s.turnTo(sheet.NoAction)
	}
}

func (p *threePart) fill(v *sheet.View) {
	if c := &v.Config.Control; p.control != *c {
		p.control, p.horizon = *c, facts.HorizonOf(v.Config)
	}
	v.Three.Horizon = p.horizon
	fly := p.s.o.Loop.Three(&p.snaps)
	for i := range v.Three.Crafts {
		m := layout.Mode(i)
		c := sheet.ThreeCraft{Mode: m, Snap: v.Snap}
		if fly { // from the next turn of the loop on; until then they are where the pilot's own is
			t := &p.tracks[i]
			t.follow(p.s.o.Loop, loop.ThirdIn(m), &p.s.cfg)
			c.Snap, c.Trail = p.snaps[i], t.trail
		}
		v.Three.Crafts[i] = c
	}
}

func (p *threePart) act(sheet.Action) bool           { return false }
func (p *threePart) key(name string, down bool) bool { return false }
func (p *threePart) hit(name string) bool            { return false }

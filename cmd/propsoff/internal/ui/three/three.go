// Package three is one sheet: three crafts side by side, one in each mode.
package three

import (
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/live"
	"propsoff/cmd/propsoff/internal/threemodes"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/screen"
	"propsoff/sim"
	control "propsoff/sim/flight"
	"propsoff/sim/happening"
	"propsoff/sim/layout"
	"propsoff/sim/practice"
)

// About is what there is to know of the sheet.
func About() *ui.About {
	return &ui.About{
		Place: ui.OnThree, Key: "V", Flown: true,
		Shared: []ui.Action{ui.TurnSheet, ui.TurnFullScreen, ui.ShowHelp, ui.Leave, ui.TurnRecording, ui.PauseFlight, ui.SlowFlight, ui.StepFlight, ui.StandAgain},
		Shows:  func(v *ui.View, a ui.Action) (shows, known bool) { return v.Snap.In.Air, a == ui.OnThree.Open() },
	}
}

// View is what the sheet may know: three crafts that fly the same sticks at once, one in each mode. The sticks, armed or not, and the pace are
// those of ui.View.
type View struct {
	Crafts [layout.Modes]Craft
	// Horizon is what a held stick does in horizon.
	Horizon facts.Horizon
}

// Craft is one of them.
type Craft struct {
	// Mode is the mode that it is held in; Snap.Mode may say otherwise.
	Mode layout.Mode
	Snap sim.Snapshot
	// Trail as in ui.FlightView.
	Trail []ui.TrailPoint
}

// Of is what this sheet knows besides what all know.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// part is the work behind the sheet: while it is open they fly with the pilot's own.
type part struct {
	screen.Base
	s      *screen.Screen
	told   screen.Events
	tracks [layout.Modes]screen.Track
	snaps  [layout.Modes]sim.Snapshot
	beside *live.Beside
	// horizon is what a held stick does in horizon, of the craft with the control of which it was measured.
	horizon facts.Horizon
	control control.Control
}

// New makes the sheet.
func New(s *screen.Screen) screen.Sheet { return &part{s: s} }

func (p *part) Open() {
	p.told.Since(p.s.Options.Loop)
	p.tracks = [layout.Modes]screen.Track{}
	p.beside = p.s.Options.Loop.Begin(&threemodes.Crafts{})
}

func (p *part) Close() { p.beside.End() }

// Turn leaves the sheet when the craft is back on the desk bench.
func (p *part) Turn() {
	for _, h := range p.told.Since(p.s.Options.Loop) {
		if h.Code == happening.Moved {
			for i := range p.tracks {
				p.tracks[i].Cut(h.Tick)
			}
		}
	}
	if p.s.Tool == ui.OnThree && !p.s.Flight.Live.In.Air {
		p.s.TurnTo(ui.NoAction)
	}
}

func (p *part) Fill(v *ui.View) {
	if c := &v.Config.Control; p.control != *c {
		p.control, p.horizon = *c, facts.HorizonOf(v.Config)
	}
	Of(v).Horizon = p.horizon
	fly := p.beside.Look(func(i int, c *practice.Practice) { c.Snapshot(&p.snaps[i]) })
	for i := range Of(v).Crafts {
		m := layout.Mode(i)
		c := Craft{Mode: m, Snap: v.Snap}
		if fly { // from the next turn of the loop on; until then they are where the pilot's own is
			t := &p.tracks[i]
			t.Follow(p.beside.Craft(i), &p.s.Config)
			c.Snap, c.Trail = p.snaps[i], t.Trail
		}
		Of(v).Crafts[i] = c
	}
}

func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }

func (p *part) About() *ui.About { return About() }

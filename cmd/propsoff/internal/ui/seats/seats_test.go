package seats_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/handheld"
	"propsoff.example/cmd/propsoff/internal/ui/seats"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/pulse"
)

// control is a control of the scenes.
func control(channel int8, job string, kind handset.Kind, positions int, spot handset.Spot) handset.Control {
	c := handset.Control{Channel: channel, Job: job, Kind: kind, Spot: spot, Low: pulse.Low, High: pulse.High}
	for i := range positions {
		c.Positions = append(c.Positions, handset.Position{Width: pulse.Low + pulse.Width(i)*16})
	}
	return c
}

// placing is a radio with some of its controls placed; draw draws the sheet of it, with one of them chosen.
func placing(n, placed, chosen int, more func(s *uitest.Stage, own *seats.View)) func(t testing.TB) *uitest.Stage {
	return func(t testing.TB) *uitest.Stage {
		cfg, name := uitest.Shipped(t, "built-in")
		s := uitest.NewStage(t, cfg, name)
		s.Names = []string{"the long one on the right", "finder sound"}
		s.V.Driver, s.V.DriverName, s.V.Next, s.V.HasSeats = ui.Radio, "Moorland Desk 7", ui.Keyboard, true
		all := []handset.Control{
			control(4, "arm", handset.Switch, 2, handset.Spot{View: handset.OnShoulders, X: 90, Y: 700, Way: handset.GoesDown}),
			control(5, "mode", handset.Switch, 3, handset.Spot{View: handset.OnShoulders, X: 900, Y: 250, Way: handset.GoesUp}),
			control(6, "second", handset.Switch, 2, handset.Spot{View: handset.OnBack, X: 100, Y: 300, Way: handset.Pressed}),
			control(7, "channel 8", handset.Knob, 0, handset.Spot{View: handset.OnFace, X: 500, Y: 100, Way: handset.TurnsClockwise}),
			control(8, "channel 9", handset.Switch, 6, handset.Spot{View: handset.OnFace, X: 500, Y: 300, Way: handset.TurnsBack}),
			control(9, "channel 10", handset.Knob, 0, handset.Spot{View: handset.OnBack, X: 900, Y: 300, Way: handset.GoesRight}),
		}
		for i := range 6 {
			all = append(all, control(int8(10+i), "finder sound", handset.Switch, 2, handset.Spot{View: handset.OnShoulders, X: int16(200 + 90*i), Y: 500, Way: handset.GoesUp}))
		}
		all[1].Called = "the long one on the right"
		for i := range all {
			if i >= placed {
				all[i].Spot.Guessed = true
			}
		}
		s.V.Handset = handset.Radio{StickMode: 2, Controls: append([]handset.Control{control(0, "throttle", handset.Stick, 0, handset.Spot{})}, all[:n]...)}
		own := seats.Of(s.V)
		own.Chosen, own.Guessed = chosen, n-min(placed, n)
		if more != nil {
			more(s, own)
		}
		return s
	}
}

func draw(p *ink.Page, v *ui.View) {
	own := seats.Of(v)
	own.Drawn = figure.HandheldNow(v)
	if own.Chosen >= 0 {
		own.Drawn.Controls[own.Chosen].Mark = handheld.Chosen
	}
	seats.Draw(p, v)
}

func TestPlacingInEveryScene(t *testing.T) {
	uitest.InEveryScene(t, "seats", []uitest.Scene{
		{Name: "guessed", Make: placing(6, 0, 0, nil), Says: []string{"Where does “arm switch” sit?", "guessed", "shoulders, from above", "back, left stays left"}},
		{Name: "half", Make: placing(5, 3, 3, nil), Says: []string{"on the back, at the left", "guessed", "the long one on the right"}},
		{Name: "one", Make: placing(1, 0, 0, nil), Says: []string{"Where does “arm switch” sit?"}},
		{Name: "all", Make: placing(6, 6, 2, nil), Says: []string{"Every control has its place. Where does “second switch” sit?", "Press it"}},
		{Name: "many", Make: placing(12, 4, 11, nil), Says: []string{"finder sound"}},
		{Name: "given", Make: placing(3, 1, 1, func(s *uitest.Stage, own *seats.View) {
			own.Given = true
		}), Says: []string{"The file of --radio is not written"}},
	}, draw)
}

// Every view of the drawing can be pressed, and every row of the list.
func TestPlacesCanBePressed(t *testing.T) {
	for _, touch := range []bool{false, true} {
		s := placing(5, 2, 2, nil)(t)
		s.V.Touch = touch
		p := ink.NewPage(960, 600, 0, nil)
		draw(p, s.V)
		hits := map[string]ink.Rect{}
		for _, h := range p.Hits() {
			hits[h.Name] = h.Box
		}
		for _, name := range []string{"seat-view-1", "seat-view-2", "seat-view-3", "seat-1", "seat-5"} {
			if assert.Contains(t, hits, name) {
				assert.GreaterOrEqual(t, hits[name].H, map[bool]float64{false: 24, true: 44}[touch], name)
			}
		}
		uitest.KeysAreThere(t, ui.OnSeats, draw, s.V, seats.Keep, seats.Turn, seats.KeepAll)
	}
}

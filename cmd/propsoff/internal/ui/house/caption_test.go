package house_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff/assets"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/live/whodrives"
	"propsoff/cmd/propsoff/internal/ui"
	benchsheet "propsoff/cmd/propsoff/internal/ui/bench"
	"propsoff/cmd/propsoff/internal/ui/card"
	"propsoff/cmd/propsoff/internal/ui/check"
	"propsoff/cmd/propsoff/internal/ui/desk"
	"propsoff/cmd/propsoff/internal/ui/drills"
	"propsoff/cmd/propsoff/internal/ui/first"
	"propsoff/cmd/propsoff/internal/ui/gestures"
	"propsoff/cmd/propsoff/internal/ui/help"
	"propsoff/cmd/propsoff/internal/ui/house"
	"propsoff/cmd/propsoff/internal/ui/layout"
	"propsoff/cmd/propsoff/internal/ui/learn"
	"propsoff/cmd/propsoff/internal/ui/loss"
	"propsoff/cmd/propsoff/internal/ui/prove"
	"propsoff/cmd/propsoff/internal/ui/screen"
	"propsoff/cmd/propsoff/internal/ui/three"
	"propsoff/cmd/propsoff/internal/ui/uitest"
)

// A caption can be read on every sheet, in the window and from afar, and when it comes and goes nothing else moves.
func TestCaptionsStandInTheMarginOfEverySheet(t *testing.T) {
	draws := map[ui.Place]func(*ink.Page, *ui.View){
		ui.OnBench: benchsheet.Draw, ui.OnQuestions: learn.Draw, ui.OnWhich: learn.DrawWhich, ui.OnHelp: help.Draw, ui.OnCautions: help.DrawCautions, ui.OnCheck: check.Draw,
		ui.OnLayout: layout.Draw, ui.OnProve: prove.Draw, ui.OnCard: card.Draw, ui.OnFirst: first.Draw, ui.OnThree: three.Draw, ui.OnGestures: gestures.Draw,
		ui.OnLoss: loss.Draw, ui.OnDrills: drills.Draw, ui.OnDesk: desk.Draw,
	}
	p := ready(sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, s *screen.Options) { s.Bare = true }))
	for _, about := range house.Sheets().Sheets() {
		t.Run(string(about.Place), func(t *testing.T) {
			require.Contains(t, draws, about.Place)
			v := p.s.View()
			switch {
			case about.Place == ui.OnQuestions || about.Place == ui.OnWhich: // they are opened by a radio
				v = uitest.Asking(t, uitest.SmallRadio(), 0, nil).V
			case about.Place == ui.OnThree: // it is opened in the air only
				v = uitest.Airborne(t, 3).V
			case about.Key != "":
				p.tap(about.Key)
				require.Equal(t, about.Place, p.s.Place())
				defer p.tap(about.Key)
			}
			for _, class := range []bool{false, true} {
				if v.Class, v.Full = class, class; class && (about.Place == ui.OnCard || about.Place == ui.OnHelp || about.Place == ui.OnCautions) {
					continue // they have no class view
				}
				uitest.Captions(t, v, draws[about.Place])
			}
			v.Class, v.Full = false, false
		})
	}
	t.Run("in the air", func(t *testing.T) { uitest.Captions(t, uitest.Airborne(t, 3).V, benchsheet.Draw) })
}

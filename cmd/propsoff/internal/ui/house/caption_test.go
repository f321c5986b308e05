package house_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/house"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
)

// A caption can be read on every sheet, in the window and from afar, and when it comes and goes nothing else moves.
func TestCaptionsStandInTheMarginOfEverySheet(t *testing.T) {
	p := ready(sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, s *screen.Options) { s.Bare = true }))
	for _, about := range house.Sheets().Sheets() {
		t.Run(string(about.Place), func(t *testing.T) {
			v, draw := p.s.View(), p.s.Sheet(about.Place).Draw
			switch {
			case about.Place == ui.OnQuestions || about.Place == ui.OnWhich: // they are opened by a radio
				v = uitest.Asking(t, uitest.SmallRadio(), 0, nil).V
			case about.InAir:
				v = uitest.Airborne(t, 3).V
			case about.Key != "":
				p.tap(about.Key)
				require.Equal(t, about.Place, p.s.Place())
				defer p.tap(about.Key)
			}
			for _, class := range []bool{false, true} {
				if v.Class, v.Full = class, class; class && about.NoClass {
					continue
				}
				uitest.Captions(t, v, draw)
			}
			v.Class, v.Full = false, false
		})
	}
	t.Run("in the air", func(t *testing.T) { uitest.Captions(t, uitest.Airborne(t, 3).V, p.s.Sheet(ui.OnBench).Draw) })
}

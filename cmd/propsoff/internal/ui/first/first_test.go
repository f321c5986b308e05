package first_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/first"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim/body"
	"propsoff.example/sim/happening"
)

// puzzled is the sheet before the first flight with nothing done and the propellers mixed up.
func puzzled(t testing.TB) *uitest.Stage {
	s := uitest.Ready(t)
	d := body.Default()
	*first.Of(s.V) = first.View{Propellers: figure.Propellers{Turns: d.Turns, Hands: [4]int8{-1, 1, 0, 1}}}
	return s
}

// allSeen does everything that is asked for.
func allSeen(t testing.TB) *uitest.Stage {
	s := puzzled(t)
	f := first.Of(s.V)
	for i := range f.Needs {
		f.Needs[i] = first.Need{Done: true, Tick: int64(i) * 13_400}
	}
	f.Needs[first.NeedCheck].Tick = -1
	for i, h := range map[int]happening.Happening{first.NeedArmed: {Code: happening.Armed}, first.NeedDisarmed: {Code: happening.Disarmed, A: int32(happening.BySwitch)}, first.NeedLinkLost: {Code: happening.LinkLost, A: 240}} {
		f.Needs[i].How = tell.Happening(h, s.Cfg)
	}
	f.Hands, f.Checked, f.Selected = f.Turns, true, 3
	return s
}

var firstScenes = []uitest.Scene{
	{Name: "fresh", Make: puzzled, Says: []string{"Before the first flight", "Five things are still to do.", "motor turns clockwise", "motor turns counter-clockwise", "propeller lifts counter-clockwise", "no propeller", "seen from above", "next motor", "I checked them"}},
	{Name: "half", Make: func(t testing.TB) *uitest.Stage {
		s := allSeen(t)
		first.Of(s.V).Needs[first.NeedLinkLost] = first.Need{}
		first.Of(s.V).Checked, first.Of(s.V).Selected = false, 1
		return s
	}, Says: []string{"Two things are still to do.", "press L to switch the radio off"}},
	{Name: "solved", Make: allSeen, Says: []string{"Everything is done. Press Enter", "Done.", "the arm channel was read as off", "to air bench"}},
	{Name: "flipped", Make: func(t testing.TB) *uitest.Stage {
		s := allSeen(t)
		f := first.Of(s.V)
		f.Came, f.Tried = first.Flipped, f.Turns
		f.Tried[2] = -f.Tried[2]
		f.Hands, f.Checked = f.Tried, false
		return s
	}, Says: []string{"The last flight tipped over.", "The rear left propeller was the wrong one"}},
	{Name: "flipped by two", Make: func(t testing.TB) *uitest.Stage {
		s := allSeen(t)
		f := first.Of(s.V)
		f.Came, f.Tried = first.Flipped, f.Turns
		f.Tried[1], f.Tried[3], f.Tried[0] = -f.Tried[1], 0, -f.Tried[0]
		s.V.Notices = ui.Warnings(uitest.BluntedNotice)
		return s
	}, Says: []string{"The front left and front right propellers were the wrong ones", "There was no propeller at the rear right."}},
	{Name: "never lifted", Make: func(t testing.TB) *uitest.Stage {
		s := allSeen(t)
		f := first.Of(s.V)
		f.Came = first.NoLift
		for i := range f.Tried {
			f.Tried[i] = -f.Turns[i]
		}
		return s
	}, Says: []string{"The last flight never left the ground.", "All four propellers"}},
	{Name: "on the air bench", Make: func(t testing.TB) *uitest.Stage {
		s := uitest.Outside(t)
		*first.Of(s.V) = *first.Of(allSeen(t).V)
		return s
	}, Says: []string{"The craft is on the air bench", "to desk bench"}},
}

func TestFirstInEveryScene(t *testing.T) { uitest.InEveryScene(t, "first", firstScenes, first.Draw) }

func TestEveryActionIsOnTheSheet(t *testing.T) {
	uitest.KeysAreThere(t, ui.OnFirst, first.Draw, allSeen(t).V, first.NextMotor, first.TurnPropeller, first.PropellersChecked, first.GoOut, ui.ShowHelp, ui.Leave)
	assert.False(t, puzzled(t).V.Shows(first.GoOut, ui.OnFirst), "before everything is done the craft cannot go out")
}

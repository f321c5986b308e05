package three_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/threemodes"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/three"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/lesson"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/vec"
)

// abreast flies the same sticks with three crafts, one in each mode.
func abreast(t testing.TB, fly func(s *uitest.Stage)) *uitest.Stage {
	var out *uitest.Stage
	var crafts [threemodes.Number]three.Craft
	for i, m := range threemodes.Modes() {
		s := uitest.Airborne(t, 6).InMode(m)
		fly(s)
		crafts[i] = three.Craft{Mode: m, Snap: s.V.Snap, Trail: s.V.Flight.Trail}
		if m == layout.Angle {
			out = s
		}
	}
	three.Of(out.V).Crafts, three.Of(out.V).Horizon = crafts, facts.Horizon{Steady: 0.78, Over: 0.82}
	return out
}

// helped has the same roll stick held on three crafts on a bench.
func helped(t testing.TB, bench int32, roll int) *uitest.Stage {
	var out *uitest.Stage
	var crafts [threemodes.Number]three.Craft
	for i, m := range threemodes.Modes() {
		s := uitest.Helped(t, bench).InMode(m).Glide(1, roll, 60).Wait(240)
		crafts[i] = three.Craft{Mode: m, Snap: s.V.Snap, Trail: s.V.Flight.Trail}
		if m == layout.Angle {
			out = s
		}
	}
	three.Of(out.V).Crafts, three.Of(out.V).Horizon = crafts, facts.Horizon{Steady: 0.78, Over: 0.82}
	return out
}

// wrecked is three crafts whose sticks rolled over; that in rate broke, and it is the pilot's own.
func wrecked(t testing.TB, found bool) *uitest.Stage {
	var crafts [threemodes.Number]three.Craft
	var out *uitest.Stage
	for i, m := range threemodes.Modes() {
		s := uitest.Airborne(t, 3).InMode(m).Set(1, 2012).Wait(400).Set(1, 1500).Wait(2500)
		crafts[i] = three.Craft{Mode: m, Snap: s.V.Snap, Trail: s.V.Flight.Trail}
		if m == layout.Rate {
			require.NotZero(t, s.V.Snap.Air.Wreck)
			out = s
		}
	}
	three.Of(out.V).Crafts, three.Of(out.V).Horizon = crafts, facts.Horizon{Steady: 0.78, Over: 0.82}
	broke := out.V.Snap.Tick - 900
	out.V.Flight.Wreck = ui.Wreck{Is: true, Broke: broke, Back: 3000}
	if found {
		w := lesson.Way{Hands: lesson.Level, Gas: lesson.Full, At: broke - 420, Any: true}
		out.V.Flight.Wreck.Found = &lesson.Found{Broke: broke, From: broke - 5000, Last: w}
	}
	return out
}

var threeScenes = []uitest.Scene{
	{Name: "one broken", Make: func(t testing.TB) *uitest.Stage { return wrecked(t, true) },
		Says: []string{"rate: broken", "Your own craft, in rate, has broken.", "Until 0.42 s before it broke it could be saved: by mode angle", "goes on from 3 s before it broke"}},
	{Name: "one broken, being looked into", Make: func(t testing.TB) *uitest.Stage { return wrecked(t, false) }, Says: []string{"rate: broken", "are being flown again"}},
	{Name: "hovering", Make: func(t testing.TB) *uitest.Stage { return abreast(t, func(s *uitest.Stage) { s.Wait(10) }) }, Says: []string{"angle", "horizon", "rate", "ARMED", "running"}},
	{Name: "banked and let go", Make: func(t testing.TB) *uitest.Stage {
		return abreast(t, func(s *uitest.Stage) { s.Glide(1, 1800, 80).Wait(250).Glide(1, 1500, 60).Wait(700) })
	}, Says: []string{"levels itself when the stick is let go", "keeps what it has"}},
	{Name: "full stick", Make: func(t testing.TB) *uitest.Stage {
		s := abreast(t, func(s *uitest.Stage) { s.Set(0, 1600).Wait(400).Set(1, 2012).Wait(500) })
		s.V.Flight.Pace = ui.Pace{Slow: 10}
		return s
	}, Says: []string{"slow, 10 times"}},
	{Name: "on the ground", Make: func(t testing.TB) *uitest.Stage {
		s := uitest.Outside(t)
		for i, m := range threemodes.Modes() {
			three.Of(s.V).Crafts[i] = three.Craft{Mode: m, Snap: s.V.Snap, Trail: s.V.Flight.Trail}
		}
		s.V.Flight.Pace.Paused = true
		s.V.Driver, s.V.DriverName, s.V.Next = ui.Radio, uitest.LongName, ui.Keyboard
		return s
	}, Says: []string{"DISARMED", "It stands on the ground.", "paused"}},
	{Name: "heights held", Make: func(t testing.TB) *uitest.Stage {
		return helped(t, pulse.HeightHeld, 1900)
	}, Says: []string{"Their height is held for you: the throttle may stay down.", "its height is held for you"}},
	{Name: "on stands", Make: func(t testing.TB) *uitest.Stage {
		return helped(t, pulse.OnStand, 2012)
	}, Says: []string{"They hang on ball joints", "On the stand, armed"}},
	{Name: "two tipped over", Make: func(t testing.TB) *uitest.Stage {
		s := abreast(t, func(s *uitest.Stage) { s.Wait(10) })
		for i, height := range [threemodes.Number]float64{0, 0.09, 0.04} {
			if i == 0 {
				continue
			}
			b := &three.Of(s.V).Crafts[i].Snap.Air.Body
			b.Att, b.Pos.Z = ui.TurnBy(vec.V{X: 1.2 + float64(i)*0.9}), -height
		}
		return s
	}, Says: []string{"Tipped over"}},
	{Name: "nothing yet", Make: func(t testing.TB) *uitest.Stage {
		s := uitest.Ready(t)
		s.Tell(pulse.Air, 1).Wait(20)
		three.Of(s.V).Crafts = [threemodes.Number]three.Craft{{Snap: sim.Snapshot{}}, {Mode: 1}, {Mode: 2}}
		return s
	}, Says: []string{"DISARMED"}},
}

func TestThreeInEveryScene(t *testing.T) { uitest.InEveryScene(t, "three", threeScenes, three.Draw) }

func TestEveryActionIsOnTheSheet(t *testing.T) {
	s := abreast(t, func(s *uitest.Stage) { s.Wait(10) })
	uitest.KeysAreThere(t, ui.OnThree, three.Draw, s.V, ui.PauseFlight, ui.SlowFlight, ui.StandAgain, ui.NextBench)
}

// The drawings of the three stand at one height, however many lines what a mode does takes.
func TestTheThreeStandAtOneHeight(t *testing.T) {
	s := abreast(t, func(s *uitest.Stage) { s.Wait(10) })
	for _, z := range append([]uitest.Size{{W: 960, H: 600}}, uitest.Sizes...) {
		for _, book := range wordstest.Books() {
			s.V.Book = book
			p := ink.NewPage(z.W, z.H, 0, nil)
			three.Draw(p, s.V)
			for _, name := range []string{"above-frame", "view-from behind"} {
				all := ink.Describe(p).Named(name)
				require.Len(t, all, threemodes.Number)
				for _, it := range all[1:] {
					assert.InDelta(t, all[0].Box[1], it.Box[1], 1e-6, "%s %vx%v", name, z.W, z.H)
				}
			}
		}
	}
}

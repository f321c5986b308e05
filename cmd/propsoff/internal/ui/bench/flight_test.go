package bench_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/bench"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim/body"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/vec"
)

var flightScenes = []uitest.Scene{
	{Name: "at rest", Make: uitest.Outside, Says: []string{"DISARMED", "It stands on the ground.", "on the air bench"}},
	{Name: "armed on the ground", Make: func(t testing.TB) *uitest.Stage { return uitest.Outside(t).Set(4, 2012).Wait(400) }, Says: []string{"ARMED", "It stands on the ground, armed."}},
	{Name: "flying level", Make: func(t testing.TB) *uitest.Stage { return uitest.Airborne(t, 3) }, Says: []string{"ARMED", "It flies level", "dashed: where the sticks ask it to be", "running"}},
	{Name: "banked 40", Make: func(t testing.TB) *uitest.Stage {
		return uitest.Airborne(t, 6).Glide(1, 2012, 100).Hold(6, 1600).Glide(2, 1700, 100).Hold(6, 500)
	}, Says: []string{"ARMED", "banked 4"}},
	{Name: "banking", Make: func(t testing.TB) *uitest.Stage { return uitest.Airborne(t, 4).Glide(1, 1900, 60).Hold(4, 160) }, Says: []string{"ARMED", "banked"}},
	{Name: "upside down", Make: func(t testing.TB) *uitest.Stage {
		return uitest.Airborne(t, 12).InMode(layout.Rate).Set(0, 1750).Wait(900).Set(0, 1400).Set(1, 2012).Wait(425).Set(1, 1500).Set(0, 1100).Wait(150)
	}, Says: []string{"ARMED", "upside down", "dashed: where the sticks turn it in 0.2 s"}},
	{Name: "circling", Make: func(t testing.TB) *uitest.Stage {
		return uitest.Airborne(t, 8).Glide(2, 1750, 300).Glide(1, 1640, 200).Glide(3, 1680, 200).Hold(8, 14000)
	}, Says: []string{"ARMED", "banked"}},
	{Name: "tipped over", Make: func(t testing.TB) *uitest.Stage {
		s := uitest.Outside(t)
		hands := body.Default().Hand
		hands[2] = -hands[2]
		return s.Tell(pulse.Propellers, pulse.PropellersValue(hands, true)).Wait(20).Set(4, 2012).Wait(400).Glide(0, 1600, 300).Wait(2800).Set(0, 988).Wait(1500)
	}, Says: []string{"Broken: its motors stay off"}},
	{Name: "sinking", Make: func(t testing.TB) *uitest.Stage {
		cfg, name := uitest.Craft(t, uitest.FullCraft)
		s := uitest.NewStage(t, cfg, name).On().Wait(500)
		s.Tell(pulse.Air, 1).Tell(pulse.Propellers, pulse.PropellersValue(body.Default().Hand, true)).Wait(4000)
		return s.Set(6, 2012).Wait(100).Set(4, 2012).Wait(400).Hold(6, 4000).Tell(pulse.Link, 0).Wait(1200)
	}, Says: []string{"Sinking", "The link is lost: it sinks, level"}},
	{Name: "sinking while it climbs", Make: func(t testing.TB) *uitest.Stage {
		return uitest.HoverOf(t, uitest.Sinks).Set(0, 1950).Wait(1500).Tell(pulse.Link, 0).Wait(600)
	}, Says: []string{"Sinking", "The link is lost: it levels itself, and climbs ", " higher, and falls from there."}},
	{Name: "cut while it climbs", Make: func(t testing.TB) *uitest.Stage {
		return uitest.Airborne(t, 20).Set(0, 1800).Wait(800).Set(4, 988).Wait(100)
	},
		Says: []string{"DISARMED", "Its motors are off; it still climbs at "}},
	{Name: "cut", Make: func(t testing.TB) *uitest.Stage { return uitest.Airborne(t, 20).Tell(pulse.Link, 0).Wait(900) }, Says: []string{"DISARMED", "It falls: its motors are off."}},
	{Name: "in its own wash", Make: func(t testing.TB) *uitest.Stage {
		return uitest.Airborne(t, 20).Set(0, 1150).Wait(1200)
	}, Says: []string{"ARMED", "It falls into its own wash: what that does to a real craft is not worked out here."}},
	{Name: "seen by the pilot at rest", Make: seenFrom(ui.FromPilot, uitest.Outside), Says: []string{"DISARMED", "tail towards you", "craft to scale"}},
	{Name: "seen by the pilot", Make: seenFrom(ui.FromPilot, func(t testing.TB) *uitest.Stage {
		s := uitest.Airborne(t, 1.2).Glide(1, 1620, 100).Hold(1.2, 300).Glide(1, 1500, 100).Hold(1.2, 200)
		s.V.Snap.Air.Body.Pos.Z = -1.5
		return s
	}), Says: []string{"ARMED", "tail towards you", "craft to scale"}},
	{Name: "seen by the pilot nose in", Make: seenFrom(ui.FromPilot, func(t testing.TB) *uitest.Stage {
		s := uitest.Airborne(t, 1.5).Set(3, 2012).Hold(1.5, 680).Set(3, 1500).Hold(1.5, 300)
		s.V.Snap.Air.Body.Pos = vec.V{X: 0.6, Y: -0.8, Z: -1.2}
		return s
	}), Says: []string{"ARMED", "nose towards you", "craft to scale"}},
	{Name: "seen by the pilot far off", Make: seenFrom(ui.FromPilot, func(t testing.TB) *uitest.Stage {
		s := uitest.Airborne(t, 12.3)
		s.V.Snap.Air.Body.Pos = vec.V{X: 30, Y: 22, Z: -12.3}
		return s
	}), Says: []string{"ARMED", "12.3 m high, 43.1 m away", "craft as an icon"}},
	{Name: "seen by the pilot upside down", Make: seenFrom(ui.FromPilot, func(t testing.TB) *uitest.Stage {
		return uitest.Airborne(t, 12).InMode(layout.Rate).Set(0, 1750).Wait(900).Set(0, 1400).Set(1, 2012).Wait(425).Set(1, 1500).Set(0, 1100).Wait(150)
	}), Says: []string{"ARMED", "upside down"}},
	{Name: "seen from the craft at rest", Make: seenFrom(ui.FromCraft, uitest.Outside), Says: []string{"DISARMED"}},
	{Name: "seen from the craft", Make: seenFrom(ui.FromCraft, func(t testing.TB) *uitest.Stage {
		return uitest.Airborne(t, 6).Glide(1, 2012, 100).Hold(6, 1600).Glide(2, 1700, 100).Hold(6, 500)
	}), Says: []string{"ARMED"}},
	{Name: "seen from the craft upside down", Make: seenFrom(ui.FromCraft, func(t testing.TB) *uitest.Stage {
		return uitest.Airborne(t, 12).InMode(layout.Rate).Set(0, 1750).Wait(900).Set(0, 1400).Set(1, 2012).Wait(425).Set(1, 1500).Set(0, 1100).Wait(150)
	}), Says: []string{"ARMED", "upside down"}},
	{Name: "on the stand", Make: func(t testing.TB) *uitest.Stage {
		return uitest.Helped(t, pulse.OnStand).Glide(1, 1900, 100).Wait(600)
	}, Says: []string{"ARMED", "On the stand, armed: banked", "the throttle may stay down"}},
	{Name: "on the stand disarmed", Make: func(t testing.TB) *uitest.Stage {
		return uitest.Helped(t, pulse.OnStand).Glide(1, 2012, 100).Wait(600).Set(4, 988).Wait(60)
	}, Says: []string{"DISARMED", "It hangs on the stand and swings back to level."}},
	{Name: "on the stand seen by the pilot", Make: seenFrom(ui.FromPilot, func(t testing.TB) *uitest.Stage {
		return uitest.Helped(t, pulse.OnStand).Glide(2, 1800, 100).Wait(600)
	}), Says: []string{"ARMED", "On the stand, armed: nose"}},
	{Name: "its height held", Make: func(t testing.TB) *uitest.Stage {
		return uitest.Helped(t, pulse.HeightHeld).Glide(1, 1900, 100).Wait(600)
	}, Says: []string{"ARMED", "its height is held for you", "the throttle may stay down"}},
	{Name: "its height to be held", Make: func(t testing.TB) *uitest.Stage {
		return uitest.Helped(t, pulse.HeightHeld).Set(4, 988).Wait(2000)
	}, Says: []string{"DISARMED", "It stands on the ground. Once armed, it rises to 1 m by itself."}},
	{Name: "being taken up", Make: func(t testing.TB) *uitest.Stage {
		s := uitest.Helped(t, pulse.HeightHeld).Set(4, 988).Wait(3000).Set(4, 2012)
		for range 100 {
			if s.Wait(5); s.V.Snap.Armed {
				break
			}
		}
		return s
	}, Says: []string{"ARMED", "It rises by itself: its height is held for you."}},
	{Name: "replaying", Make: func(t testing.TB) *uitest.Stage {
		s := uitest.Airborne(t, 5).Glide(1, 1700, 100).Hold(5, 1500)
		old := s.V.Snap
		s.Hold(5, 2500)
		s.V.Snap = old
		s.V.Flight.Replay = ui.Replay{On: true, At: 12_340, Length: 14_840}
		s.V.Flight.Pace.Slow = 4
		return s
	}, Says: []string{"REPLAY", "12.3 of 14.8 s", "You are looking back", "slow, 4 times"}},
	{Name: "paused", Make: func(t testing.TB) *uitest.Stage {
		s := uitest.Airborne(t, 3)
		s.V.Flight.Pace = ui.Pace{Paused: true, Slow: 10}
		return s
	}, Says: []string{"paused; then slow, 10 times", "Time stands still."}},
	{Name: "refused outside", Make: func(t testing.TB) *uitest.Stage {
		cfg, name := uitest.Craft(t, uitest.FullCraft)
		s := uitest.NewStage(t, cfg, name).On().Wait(500)
		s.Tell(pulse.Air, 1).Wait(400).Tell(pulse.Link, 0).Wait(600).Tell(pulse.Link, 1)
		s.Frame[5] = pulse.Missing
		s.Set(4, 2012).Set(0, 1400).Set(6, 988).Wait(300)
		s.Tell(pulse.Cable, 1).Tell(pulse.Menu, pulse.MenuCraft).Tell(pulse.Pack, 13200).Wait(120)
		return s.Tell(pulse.Power, 0).Wait(20).Tell(pulse.Power, 1).Wait(200)
	}, Says: []string{"DISARMED"}},
	{Name: "two radios outside", Make: func(t testing.TB) *uitest.Stage {
		s := uitest.Airborne(t, 3)
		s.V.Driver, s.V.DriverName, s.V.Next = ui.Radio, uitest.LongName, ui.Keyboard
		s.V.CraftName, s.V.Recording = uitest.LongName, "practice of the second of November, in the afternoon.take"
		s.V.Radios, s.V.Reading, s.V.Choosing = []string{"Moorland Desk 7", uitest.LongName}, 0, true
		s.V.Notices = ui.Warnings(uitest.BluntedNotice)
		return s
	}, Says: []string{"2 radios plugged in"}},
}

// seenFrom is a scene that is seen from somewhere else.
func seenFrom(from ui.Seen, scene func(testing.TB) *uitest.Stage) func(testing.TB) *uitest.Stage {
	return func(t testing.TB) *uitest.Stage {
		s := scene(t)
		s.V.Flight.From = from
		return s
	}
}

func TestFlightInEveryScene(t *testing.T) {
	uitest.InEveryScene(t, "flight", flightScenes, bench.Draw, func(s *uitest.Stage, all string) {
		assert.Contains(t, all, uitest.Say(tell.Armed(s.V.Snap.Armed)))
	})
}

// How the craft flies is said whole, also where most is to be said of it: while it sinks.
func TestHowItFliesIsNotCutOff(t *testing.T) {
	climbing := flightScene(t, "sinking while it climbs")
	p := ink.NewPage(960, 600, 0, nil)
	for _, s := range []*uitest.Stage{climbing, flightScene(t, "sinking"), flightScene(t, "cut"), flightScene(t, "cut while it climbs")} {
		for _, z := range append([]uitest.Size{{W: 1280, H: 800}}, uitest.Sizes...) {
			p.Reset(z.W, z.H, 0, nil)
			bench.Draw(p, s.V)
			said, ok := ink.Describe(p).Text("flight-stands")
			assert.True(t, ok && !strings.HasSuffix(said, "…"), "%vx%v: %q", z.W, z.H, said)
			if strings.Contains(said, "going down") {
				assert.NotContains(t, said, "climbs", "its top is behind it")
			}
		}
	}
}

// flightScene is one of the scenes of the flight.
func flightScene(t *testing.T, name string) *uitest.Stage {
	for _, s := range flightScenes {
		if s.Name == name {
			return s.Make(t)
		}
	}
	t.Fatal(name)
	return nil
}

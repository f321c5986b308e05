package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim/body"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
)

var flightScenes = []scene{
	{"at rest", outside, []string{"DISARMED", "It stands on the ground.", "on the air bench"}},
	{"armed on the ground", func(t testing.TB) *stage { return outside(t).set(4, 2012).wait(400) }, []string{"ARMED", "It stands on the ground, armed."}},
	{"flying level", func(t testing.TB) *stage { return airborne(t, 3) }, []string{"ARMED", "It flies level", "dashed: where the sticks ask it to be", "running"}},
	{"banked 40", func(t testing.TB) *stage {
		return airborne(t, 6).glide(1, 2012, 100).hold(6, 1600).glide(2, 1700, 100).hold(6, 500)
	}, []string{"ARMED", "banked 4"}},
	{"banking", func(t testing.TB) *stage { return airborne(t, 4).glide(1, 1900, 60).hold(4, 160) }, []string{"ARMED", "banked"}},
	{"upside down", func(t testing.TB) *stage {
		return airborne(t, 12).inMode(layout.Rate).set(0, 1750).wait(900).set(0, 1400).set(1, 2012).wait(425).set(1, 1500).set(0, 1100).wait(150)
	}, []string{"ARMED", "upside down", "dashed: where the sticks turn it in 0.2 s"}},
	{"circling", func(t testing.TB) *stage {
		return airborne(t, 8).glide(2, 1750, 300).glide(1, 1640, 200).glide(3, 1680, 200).hold(8, 14000)
	}, []string{"ARMED", "banked"}},
	{"tipped over", func(t testing.TB) *stage {
		s := outside(t)
		hands := body.Default().Hand
		hands[2] = -hands[2]
		return s.tell(pulse.Propellers, pulse.PropellersValue(hands, true)).wait(20).set(4, 2012).wait(400).glide(0, 1600, 300).wait(2800).set(0, 988).wait(1500)
	}, []string{"Tipped over"}},
	{"sinking", func(t testing.TB) *stage {
		cfg, name := craft(t, fullCraft)
		s := newStage(t, cfg, name).on().wait(500)
		s.tell(pulse.Air, 1).tell(pulse.Propellers, pulse.PropellersValue(body.Default().Hand, true)).wait(4000)
		return s.set(6, 2012).wait(100).set(4, 2012).wait(400).hold(6, 4000).tell(pulse.Link, 0).wait(1200)
	}, []string{"Sinking", "The link is lost: it sinks, level"}},
	{"sinking while it climbs", func(t testing.TB) *stage {
		return hoverOf(t, sinks).set(0, 1950).wait(1500).tell(pulse.Link, 0).wait(600)
	}, []string{"Sinking", "The link is lost: it levels itself, still climbing at 2", "higher, rises on, then falls."}},
	{"cut while it climbs", func(t testing.TB) *stage { return airborne(t, 20).set(0, 1800).wait(800).set(4, 988).wait(100) },
		[]string{"DISARMED", "Its motors are off; it still climbs at "}},
	{"cut", func(t testing.TB) *stage { return airborne(t, 20).tell(pulse.Link, 0).wait(900) }, []string{"DISARMED", "It falls: its motors are off."}},
	{"replaying", func(t testing.TB) *stage {
		s := airborne(t, 5).glide(1, 1700, 100).hold(5, 1500)
		old := s.v.Snap
		s.hold(5, 2500)
		s.v.Snap = old
		s.v.Flight.Replay = Replay{On: true, At: 12_340, Length: 14_840}
		s.v.Flight.Pace.Slow = 4
		return s
	}, []string{"REPLAY", "12.3 of 14.8 s", "You are looking back", "slow, 4 times"}},
	{"paused", func(t testing.TB) *stage {
		s := airborne(t, 3)
		s.v.Flight.Pace = Pace{Paused: true, Slow: 10}
		return s
	}, []string{"paused; then slow, 10 times", "Time stands still."}},
	{"refused outside", func(t testing.TB) *stage {
		cfg, name := craft(t, fullCraft)
		s := newStage(t, cfg, name).on().wait(500)
		s.tell(pulse.Air, 1).wait(400).tell(pulse.Link, 0).wait(600).tell(pulse.Link, 1)
		s.frame[5] = pulse.Missing
		s.set(4, 2012).set(0, 1400).set(6, 988).wait(300)
		s.tell(pulse.Cable, 1).tell(pulse.Menu, pulse.MenuCraft).tell(pulse.Pack, 13200).wait(120)
		return s.tell(pulse.Power, 0).wait(20).tell(pulse.Power, 1).wait(200)
	}, []string{"DISARMED"}},
	{"two radios outside", func(t testing.TB) *stage {
		s := airborne(t, 3)
		s.v.Driver, s.v.DriverName, s.v.Next = Radio, longName, Keyboard
		s.v.CraftName, s.v.Recording = longName, "practice of the second of November, in the afternoon.take"
		s.v.Radios, s.v.Reading, s.v.Choosing = []string{"Moorland Desk 7", longName}, 0, true
		s.v.Notices = []string{bluntedNotice}
		return s
	}, []string{"2 radios plugged in"}},
}

func TestFlightInEveryScene(t *testing.T) {
	inEveryScene(t, "flight", flightScenes, Bench, func(s *stage, all string) {
		assert.Contains(t, all, phrase.Armed(s.v.Snap.Armed))
	})
}

// afar asks for the sizes of class view.
func afar(t *testing.T, what string, z size, p *ink.Page) {
	t.Helper()
	h := min(z.h, z.w*600/960)
	for _, it := range p.Items() {
		switch {
		case it.Kind == ink.KindText && it.Name == "state":
			assert.GreaterOrEqual(t, ink.CapHeight(it.Size, it.Weight), 0.12*h, what)
		case it.Kind == ink.KindText:
			assert.GreaterOrEqual(t, it.Size, 0.035*h, "%s: %s", what, it.Text)
		}
	}
}

// How the craft flies is said whole, also where most is to be said of it: while it sinks.
func TestHowItFliesIsNotCutOff(t *testing.T) {
	climbing := flightScene(t, "sinking while it climbs")
	p := ink.NewPage(960, 600, 0, nil)
	for _, s := range []*stage{climbing, flightScene(t, "sinking"), flightScene(t, "cut"), flightScene(t, "cut while it climbs")} {
		for _, z := range append([]size{{1280, 800}}, sizes...) {
			p.Reset(z.w, z.h, 0, nil)
			Bench(p, s.v)
			said, ok := ink.Describe(p).Text("flight stands")
			assert.True(t, ok && !strings.HasSuffix(said, "…"), "%vx%v: %q", z.w, z.h, said)
			if strings.Contains(said, "going down") {
				assert.NotContains(t, said, "climbs", "its top is behind it")
			}
		}
	}
}

// flightScene is one of the scenes of the flight.
func flightScene(t *testing.T, name string) *stage {
	for _, s := range flightScenes {
		if s.name == name {
			return s.make(t)
		}
	}
	t.Fatal(name)
	return nil
}

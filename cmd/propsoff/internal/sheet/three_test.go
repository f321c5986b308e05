package sheet

import (
	"testing"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
	"propsoff/sim/vec"
)

// abreast flies the same sticks with three crafts, one in each mode.
func abreast(t testing.TB, fly func(s *stage)) *stage {
	var out *stage
	var crafts [layout.Modes]ThreeCraft
	for m := range layout.Mode(layout.Modes) {
		s := airborne(t, 6).inMode(m)
		fly(s)
		crafts[m] = ThreeCraft{Mode: m, Snap: s.v.Snap, Trail: s.v.Flight.Trail}
		if m == layout.Angle {
			out = s
		}
	}
	out.v.Three.Crafts, out.v.Three.Horizon = crafts, facts.Horizon{Steady: 0.78, Over: 0.82}
	return out
}

var threeScenes = []scene{
	{"hovering", func(t testing.TB) *stage { return abreast(t, func(s *stage) { s.wait(10) }) }, []string{"angle", "horizon", "rate", "ARMED", "running"}},
	{"banked and let go", func(t testing.TB) *stage {
		return abreast(t, func(s *stage) { s.glide(1, 1800, 80).wait(250).glide(1, 1500, 60).wait(700) })
	}, []string{"levels itself when the stick is let go", "keeps what it has"}},
	{"full stick", func(t testing.TB) *stage {
		s := abreast(t, func(s *stage) { s.set(0, 1600).wait(400).set(1, 2012).wait(500) })
		s.v.Flight.Pace = Pace{Slow: 10}
		return s
	}, []string{"slow, 10 times"}},
	{"on the ground", func(t testing.TB) *stage {
		s := outside(t)
		for m := range layout.Mode(layout.Modes) {
			s.v.Three.Crafts[m] = ThreeCraft{Mode: m, Snap: s.v.Snap, Trail: s.v.Flight.Trail}
		}
		s.v.Flight.Pace.Paused = true
		s.v.Driver, s.v.DriverName, s.v.Next = Radio, longName, Keyboard
		return s
	}, []string{"DISARMED", "It stands on the ground.", "paused"}},
	{"two tipped over", func(t testing.TB) *stage {
		s := abreast(t, func(s *stage) { s.wait(10) })
		for m := 1; m < layout.Modes; m++ {
			b := &s.v.Three.Crafts[m].Snap.Air.Body
			b.Att, b.Pos.Z = turnBy(vec.V{X: 1.2 + float64(m)*0.9}), [...]float64{0, -0.09, -0.04}[m]
		}
		return s
	}, []string{"Tipped over"}},
	{"nothing yet", func(t testing.TB) *stage {
		s := ready(t)
		s.tell(pulse.Air, 1).wait(20)
		s.v.Three.Crafts = [layout.Modes]ThreeCraft{{Snap: sim.Snapshot{}}, {Mode: 1}, {Mode: 2}}
		return s
	}, []string{"DISARMED"}},
}

func TestThreeInEveryScene(t *testing.T) { inEveryScene(t, "three", threeScenes, Three) }

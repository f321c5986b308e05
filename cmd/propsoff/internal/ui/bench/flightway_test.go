package bench_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/flightlog"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/bench"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/vec"
)

// drawnBench is the bench as it is drawn in a window.
func drawnBench(s *uitest.Stage) (*ink.Page, ink.Sheet) {
	p := ink.NewPage(1280, 720, 0, nil)
	bench.Draw(p, s.V)
	return p, ink.Describe(p)
}

// midOf is the middle of all boxes of a name.
func midOf(t testing.TB, d ink.Sheet, name string, n int) (x, y float64) {
	all := d.Named(name)
	require.Len(t, all, n, name)
	for _, i := range all {
		x, y = x+i.Box[0]+i.Box[2]/2, y+i.Box[1]+i.Box[3]/2
	}
	return x / float64(n), y / float64(n)
}

// aloft is a craft in the air with an attitude of one's choice, at a height.
func aloft(t testing.TB, att vec.Q, height float64) *uitest.Stage {
	s := uitest.Airborne(t, 3)
	s.V.Snap.Air.Body.Att, s.V.Snap.Air.Body.Pos = att.Unit(), vec.V{Z: -height}
	s.V.Flight.Trail = nil
	return s
}

// The craft's lowest point stands on the ground line whenever the craft does, in every attitude, and the pointer tells its height.
func TestItStandsOnTheGroundAndRises(t *testing.T) {
	for _, roll := range []float64{0, 0.7, 1.6, 2.4, math.Pi} {
		last := math.Inf(1)
		for _, h := range []float64{0, 0.4, 1.1, 1.7} {
			s := aloft(t, ui.TurnBy(vec.V{X: roll}), 0)
			b := &s.V.Snap.Air.Body
			b.Pos.Z = -clearanceNeeded(s) - h
			_, d := drawnBench(s)
			_, ground := midOf(t, d, "behind ground", 1)
			low := 0.0
			for _, i := range d.Items {
				switch i.Name {
				case "behind foot", "behind propeller-turning", "behind propeller", "behind motor", "behind pack":
					low = max(low, i.Box[1]+i.Box[3])
				}
			}
			if h == 0 {
				assert.InDelta(t, ground, low, 4, "roll %v", roll)
			} else {
				assert.Less(t, low, ground-4)
			}
			_, y := midOf(t, d, "behind pointer", 1)
			assert.Less(t, y, last)
			last = y
		}
	}
}

// clearanceNeeded is the height of the middle at which the lowest corner touches.
func clearanceNeeded(s *uitest.Stage) float64 {
	b := s.V.Snap.Air.Body
	s.V.Snap.Air.Body.Pos.Z = -10
	h := 10 - facts.Clearance(&s.V.Snap, &s.Cfg.Body)
	s.V.Snap.Air.Body = b
	return h
}

// In angle the ghost is where the sticks ask: full stick is the bank limit, whatever the craft does. In rate it is where the asked rate
// brings the craft in 0.2 s. Nothing is asked of still motors.
func TestGhostIsWhatTheSticksAskFor(t *testing.T) {
	s := uitest.Airborne(t, 6).Glide(1, 2012, 40)
	s.Wait(60)
	q, ok := ui.Ghost(&s.V.Snap, s.Cfg)
	require.True(t, ok)
	bank, pitch, _ := flightlog.Angles(q)
	assert.InDelta(t, 40, bank, 0.01)
	assert.InDelta(t, 0, pitch, 0.01)
	s.Glide(1, 1500, 20).Glide(2, 1244, 20).Wait(60) // half back: nose up by half the limit
	q, _ = ui.Ghost(&s.V.Snap, s.Cfg)
	bank, pitch, _ = flightlog.Angles(q)
	assert.InDelta(t, 0, bank, 0.01)
	assert.InDelta(t, 20, pitch, 0.01)

	s = uitest.Airborne(t, 6).InMode(layout.Rate).Set(1, 2012).Wait(40)
	q, _ = ui.Ghost(&s.V.Snap, s.Cfg)
	turned := s.V.Snap.Air.Body.Att.Conj().Mul(q)
	assert.InDelta(t, 0.2*420, 2*math.Atan2(turned.X, turned.W)*180/math.Pi, 0.01)

	// In horizon at the centre as in angle, at full stick as in rate.
	s = uitest.Airborne(t, 6).InMode(layout.Horizon).Wait(40)
	s.V.Snap.Air.Body.Att = ui.TurnBy(vec.V{X: 0.4})
	q, _ = ui.Ghost(&s.V.Snap, s.Cfg)
	assert.InDelta(t, 0, ui.TiltOf(q), 0.01)
	s.V.Snap.Air.Body.Att = ui.TurnBy(vec.V{X: math.Pi}) // no jump and no NaN upside down
	q, _ = ui.Ghost(&s.V.Snap, s.Cfg)
	assert.InDelta(t, 1, q.Norm(), 1e-9)

	_, ok = ui.Ghost(&uitest.Outside(t).V.Snap, s.Cfg)
	assert.False(t, ok, "still motors")
	_, ok = ui.Ghost(&uitest.Ready(t).Set(4, 2012).Wait(400).Set(0, 1500).Wait(100).V.Snap, s.Cfg)
	assert.False(t, ok, "on the desk bench")
}

// The eye behind the craft turns with it, and keeps its place through a loop.
func TestTheEyeDoesNotJumpInALoop(t *testing.T) {
	s := uitest.Airborne(t, 3).Glide(3, 1700, 100).Hold(3, 800)
	last := s.V.Flight.Trail[len(s.V.Flight.Trail)-1]
	assert.InDelta(t, ui.HeadingOf(s.V.Snap.Air.Body.Att), last.Facing, 0.1)
	assert.Greater(t, math.Abs(last.Facing), 0.3)

	s = uitest.Airborne(t, 20).InMode(layout.Rate).Set(0, 1600).Wait(600).Set(2, 988)
	turned := 0.0
	for range 80 {
		s.Wait(10)
		turned = max(turned, ui.TiltOf(s.V.Snap.Air.Body.Att))
		assert.InDelta(t, 0, ui.Facing(&s.V.Snap, s.V.Flight.Trail), 0.2)
	}
	assert.Greater(t, turned, 150.0, "it does loop")
}

// A trail fades with its age by its width, stays in its picture, and ends where the craft was carried.
func TestTrail(t *testing.T) {
	s := uitest.Airborne(t, 5).Glide(2, 1800, 100).Hold(5, 9000)
	p, d := drawnBench(s)
	frame := d.Named("above-frame")[0].Box
	widths := map[float64]bool{}
	for i := range p.Items() {
		it := &p.Items()[i]
		if it.Name != "above trail" {
			continue
		}
		widths[it.Width] = true
		assert.GreaterOrEqual(t, it.Box.X, frame[0]-1)
		assert.GreaterOrEqual(t, it.Box.Y, frame[1]-1)
		assert.LessOrEqual(t, it.Box.Right(), frame[0]+frame[2]+1)
		assert.LessOrEqual(t, it.Box.Bottom(), frame[1]+frame[3]+1)
	}
	assert.GreaterOrEqual(t, len(widths), 3)

	// Carried back to the start: nothing joins the old way to the new.
	s.V.Snap.Air.Body.Pos = vec.V{Z: -3}
	_, d = drawnBench(s)
	assert.Empty(t, d.Named("above trail"))
}

// What is later than the snapshot is not drawn: a replay shows what was, not what came after.
func TestAReplayShowsNothingLater(t *testing.T) {
	s := uitest.Airborne(t, 5).Glide(1, 1700, 100).Hold(5, 1000)
	early := *s.V
	early.Flight.Trail = append([]ui.TrailPoint(nil), s.V.Flight.Trail...)
	early.Flight.Followed = append([]ui.FollowedPoint(nil), s.V.Flight.Followed...)
	early.Chart = append([]live.Point(nil), s.V.Chart...)
	early.Happenings = s.V.Happenings[:len(s.V.Happenings):len(s.V.Happenings)]
	p := ink.NewPage(1280, 720, 0, nil)
	bench.Draw(p, &early)
	want := ink.Describe(p)

	old := s.V.Snap
	refusals := *s.V.Refusals
	s.Glide(1, 1200, 100).Hold(5, 900)
	s.V.Snap, *s.V.Refusals = old, refusals
	// What a window keeps goes back far enough; the stage keeps ten seconds only.
	for _, pt := range s.V.Chart {
		if pt.Tick > old.Tick {
			early.Chart = append(early.Chart, pt)
		}
	}
	for _, pt := range s.V.Flight.Followed {
		if pt.Tick > old.Tick {
			early.Flight.Followed = append(early.Flight.Followed, pt)
		}
	}
	require.Greater(t, len(early.Chart), 100)
	s.V.Chart, s.V.Flight.Followed = early.Chart, early.Flight.Followed
	p.Reset(1280, 720, 0, nil)
	bench.Draw(p, s.V)
	assert.Equal(t, want, ink.Describe(p))
}

// The band is as wide as the error: none while asked and done are one, and wide in the moment after a stick was moved.
func TestBandIsTheError(t *testing.T) {
	width := func(s *uitest.Stage) float64 {
		p, _ := drawnBench(s)
		most := 0.0
		for i := range p.Items() {
			it := &p.Items()[i]
			if it.Kind == ink.KindBand && it.Name == "done roll" {
				a, c := p.Sides(it)
				for k := range a {
					most = max(most, math.Abs(a[k].X-c[k].X))
				}
			}
		}
		return most
	}
	s := uitest.Airborne(t, 5)
	s.Hold(5, 9000)
	assert.Less(t, width(s), 1.0)
	assert.Greater(t, width(s.Set(1, 2012).Wait(160)), 8.0)
}

func TestRoundUp(t *testing.T) {
	for v, want := range map[float64]float64{0: 2, 1.9: 2, 2: 2, 2.1: 5, 5.01: 10, 11: 20, 49: 50, 51: 100, 999: 1000, 1001: 2000} {
		assert.InDelta(t, want, figure.RoundUp(v, 2), 1e-9)
		n := figure.RoundUp(v, 2) / figure.MarkStep(figure.RoundUp(v, 2))
		assert.InDelta(t, math.Round(n), n, 1e-9)
		assert.True(t, n >= 4 && n <= 5, "%v marks up to %v", n, v)
	}
}

// What stands in the way of arming in the air can be cured there, even if it came along from the desk bench.
func TestWhatCameAlongCanBeCuredOutside(t *testing.T) {
	shows := func(s *uitest.Stage, a ui.Action) bool {
		for _, act := range uitest.AllSheets().All() {
			if act.Action == a {
				return s.V.Shows(act.Action, ui.OnBench)
			}
		}
		return false
	}
	s := uitest.Outside(t)
	for _, a := range []ui.Action{ui.TiltCraft, ui.PlugCable, ui.TurnMenu, ui.NudgeCraft} {
		assert.False(t, shows(s, a))
	}
	s.V.Snap.In.Craft.TiltTenths, s.V.Snap.In.Craft.Cable, s.V.Snap.In.Craft.Menu = 450, true, 1
	for _, a := range []ui.Action{ui.TiltCraft, ui.PlugCable, ui.TurnMenu} {
		assert.True(t, shows(s, a))
	}
}

// A picture of a flight allocates next to nothing once its buffers have grown.
func BenchmarkFlight(b *testing.B) {
	s := uitest.Airborne(b, 5).Glide(1, 1700, 100).Hold(5, 8000)
	p := ink.NewPage(1920, 1080, 0, nil)
	b.ReportAllocs()
	for b.Loop() {
		p.Reset(1920, 1080, 0, nil)
		bench.Draw(p, s.V)
	}
	b.ReportMetric(float64(len(p.Items())), "items")
}

func TestEveryActionOfTheFlightIsOnTheBench(t *testing.T) {
	paused, desk := uitest.Airborne(t, 3), uitest.Ready(t)
	paused.V.Flight.Pace.Paused = true
	uitest.KeysAreThere(t, ui.OnBench, bench.Draw, paused.V, ui.SwitchRadio, ui.PauseFlight, ui.ReplayFlight, ui.StandAgain)
	uitest.KeysAreThere(t, ui.OnBench, bench.Draw, desk.V, ui.SwitchRadio, ui.SwitchPack, ui.NextDriver, ui.OnDrills.Open(), ui.ShowHelp, ui.Leave)
	for _, a := range []ui.Action{ui.PauseFlight, ui.SlowFlight, ui.StepFlight, ui.ReplayFlight, ui.StandAgain, ui.OnThree.Open()} {
		assert.False(t, desk.V.Shows(a, ui.OnBench), "%s on the desk bench", a)
	}
}

package sheet

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/cmd/propsoff/internal/flown"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/input/keyboard"
	"propsoff/sim"
	"propsoff/sim/body"
	"propsoff/sim/layout"
	"propsoff/sim/vec"
)

// drawnBench is the bench as it is drawn in a window.
func drawnBench(s *stage) (*ink.Page, ink.Sheet) {
	p := ink.NewPage(1280, 720, 0, nil)
	Bench(p, s.v)
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
func aloft(t testing.TB, att vec.Q, height float64) *stage {
	s := airborne(t, 3)
	s.v.Snap.Air.Body.Att, s.v.Snap.Air.Body.Pos = att.Unit(), vec.V{Z: -height}
	s.v.Flight.Trail = nil
	return s
}

// Seen from behind, a bank to the right brings the right motors down; from above, north is up and a nose to the east points right;
// from the side the nose is at the right, and nose up is up.
func TestViewsShowWhatIs(t *testing.T) {
	cfg := body.Default()
	right, left := 1, 0
	for _, c := range []struct {
		att        vec.Q
		eye        func(float64) eye
		facing     float64
		name       string
		holds      func(m *model) bool
		isNotAfter vec.Q // the other way round must not hold
	}{
		{turnBy(vec.V{X: 0.5}), eyeBehind, 0, "bank", func(m *model) bool {
			return m.at(m.motorAt(right)).Y > m.at(m.motorAt(left)).Y+0.5 && m.at(m.motorAt(right)).X > m.at(m.motorAt(left)).X
		}, turnBy(vec.V{X: -0.5})},
		{turnBy(vec.V{Y: 0.5}), eyeBeside, 0, "nose up", func(m *model) bool {
			return m.at(vec.V{X: 1}).Y < m.at(vec.V{X: -1}).Y-0.5 && m.at(vec.V{X: 1}).X > m.at(vec.V{X: -1}).X
		}, turnBy(vec.V{Y: -0.5})},
		{turnBy(vec.V{Z: math.Pi / 2}), func(float64) eye { return eyeAbove() }, 0, "nose east", func(m *model) bool {
			return m.at(vec.V{X: 1}).X > 0.9
		}, turnBy(vec.V{Z: -math.Pi / 2})},
		{vec.Q{W: 1}, func(float64) eye { return eyeAbove() }, 0, "nose north", func(m *model) bool { return m.at(vec.V{X: 1}).Y < -0.9 }, turnBy(vec.V{Z: math.Pi})},
		{turnBy(vec.V{Z: 2}), eyeBehind, 2, "from behind whatever the heading", func(m *model) bool {
			return m.at(m.motorAt(right)).X > 0.9 && m.near(vec.V{X: -1}) > 0.9
		}, turnBy(vec.V{Z: 2 + math.Pi})},
	} {
		m := newModel(c.att, c.eye(c.facing), 1, &cfg)
		assert.True(t, c.holds(&m), c.name)
		m = newModel(c.isNotAfter, c.eye(c.facing), 1, &cfg)
		assert.False(t, c.holds(&m), "%s: the other way round", c.name)
	}
}

// The craft's lowest point stands on the ground line whenever the craft does, in every attitude, and the pointer tells its height.
func TestItStandsOnTheGroundAndRises(t *testing.T) {
	for _, roll := range []float64{0, 0.7, 1.6, 2.4, math.Pi} {
		last := math.Inf(1)
		for _, h := range []float64{0, 0.4, 1.1, 1.7} {
			s := aloft(t, turnBy(vec.V{X: roll}), 0)
			b := &s.v.Snap.Air.Body
			b.Pos.Z = -clearanceNeeded(s) - h
			_, d := drawnBench(s)
			_, ground := midOf(t, d, "behind ground", 1)
			low := 0.0
			for _, i := range d.Items {
				switch i.Name {
				case "behind foot", "behind propeller turning", "behind propeller", "behind motor", "behind pack":
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
func clearanceNeeded(s *stage) float64 {
	b := s.v.Snap.Air.Body
	s.v.Snap.Air.Body.Pos.Z = -10
	h := 10 - clearance(&s.v.Snap, &s.cfg.Body)
	s.v.Snap.Air.Body = b
	return h
}

// In angle the ghost is where the sticks ask: full stick is the bank limit, whatever the craft does. In rate it is where the asked rate
// brings the craft in 0.2 s. Nothing is asked of still motors.
func TestGhostIsWhatTheSticksAskFor(t *testing.T) {
	s := airborne(t, 6).glide(1, 2012, 40)
	s.wait(60)
	q, ok := ghost(&s.v.Snap, s.cfg)
	require.True(t, ok)
	bank, pitch, _ := flown.Angles(q)
	assert.InDelta(t, 40, bank, 0.01)
	assert.InDelta(t, 0, pitch, 0.01)
	s.glide(1, 1500, 20).glide(2, 1244, 20).wait(60) // half back: nose up by half the limit
	q, _ = ghost(&s.v.Snap, s.cfg)
	bank, pitch, _ = flown.Angles(q)
	assert.InDelta(t, 0, bank, 0.01)
	assert.InDelta(t, 20, pitch, 0.01)

	s = airborne(t, 6).inMode(layout.Rate).set(1, 2012).wait(40)
	q, _ = ghost(&s.v.Snap, s.cfg)
	turned := s.v.Snap.Air.Body.Att.Conj().Mul(q)
	assert.InDelta(t, 0.2*420, 2*math.Atan2(turned.X, turned.W)*180/math.Pi, 0.01)

	// In horizon at the centre as in angle, at full stick as in rate.
	s = airborne(t, 6).inMode(layout.Horizon).wait(40)
	s.v.Snap.Air.Body.Att = turnBy(vec.V{X: 0.4})
	q, _ = ghost(&s.v.Snap, s.cfg)
	assert.InDelta(t, 0, tiltOf(q), 0.01)
	s.v.Snap.Air.Body.Att = turnBy(vec.V{X: math.Pi}) // no jump and no NaN upside down
	q, _ = ghost(&s.v.Snap, s.cfg)
	assert.InDelta(t, 1, q.Norm(), 1e-9)

	_, ok = ghost(&outside(t).v.Snap, s.cfg)
	assert.False(t, ok, "still motors")
	_, ok = ghost(&ready(t).set(4, 2012).wait(400).set(0, 1500).wait(100).v.Snap, s.cfg)
	assert.False(t, ok, "on the desk bench")
}

// The eye behind the craft turns with it, and keeps its place through a loop.
func TestTheEyeDoesNotJumpInALoop(t *testing.T) {
	s := airborne(t, 3).glide(3, 1700, 100).hold(3, 800)
	last := s.v.Flight.Trail[len(s.v.Flight.Trail)-1]
	assert.InDelta(t, headingOf(s.v.Snap.Air.Body.Att), last.Facing, 0.1)
	assert.Greater(t, math.Abs(last.Facing), 0.3)

	s = airborne(t, 20).inMode(layout.Rate).set(0, 1600).wait(600).set(2, 988)
	turned := 0.0
	for range 80 {
		s.wait(10)
		turned = max(turned, tiltOf(s.v.Snap.Air.Body.Att))
		assert.InDelta(t, 0, facing(&s.v.Snap, s.v.Flight.Trail), 0.2)
	}
	assert.Greater(t, turned, 150.0, "it does loop")
}

// A trail fades with its age by its width, stays in its picture, and ends where the craft was carried.
func TestTrail(t *testing.T) {
	s := airborne(t, 5).glide(2, 1800, 100).hold(5, 9000)
	p, d := drawnBench(s)
	frame := d.Named("above frame")[0].Box
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
	s.v.Snap.Air.Body.Pos = vec.V{Z: -3}
	_, d = drawnBench(s)
	assert.Empty(t, d.Named("above trail"))
}

// What is later than the snapshot is not drawn: a replay shows what was, not what came after.
func TestAReplayShowsNothingLater(t *testing.T) {
	s := airborne(t, 5).glide(1, 1700, 100).hold(5, 1000)
	early := *s.v
	early.Flight.Trail = append([]TrailPoint(nil), s.v.Flight.Trail...)
	early.Flight.Followed = append([]FollowedPoint(nil), s.v.Flight.Followed...)
	early.Chart = append([]loop.Point(nil), s.v.Chart...)
	early.Happenings = s.v.Happenings[:len(s.v.Happenings):len(s.v.Happenings)]
	p := ink.NewPage(1280, 720, 0, nil)
	Bench(p, &early)
	want := ink.Describe(p)

	old := s.v.Snap
	refusals := *s.v.Refusals
	s.glide(1, 1200, 100).hold(5, 900)
	s.v.Snap, *s.v.Refusals = old, refusals
	// What a window keeps goes back far enough; the stage keeps ten seconds only.
	for _, pt := range s.v.Chart {
		if pt.Tick > old.Tick {
			early.Chart = append(early.Chart, pt)
		}
	}
	for _, pt := range s.v.Flight.Followed {
		if pt.Tick > old.Tick {
			early.Flight.Followed = append(early.Flight.Followed, pt)
		}
	}
	require.Greater(t, len(early.Chart), 100)
	s.v.Chart, s.v.Flight.Followed = early.Chart, early.Flight.Followed
	p.Reset(1280, 720, 0, nil)
	Bench(p, s.v)
	assert.Equal(t, want, ink.Describe(p))
}

// The band is as wide as the error: none while asked and done are one, and wide in the moment after a stick was moved.
func TestBandIsTheError(t *testing.T) {
	width := func(s *stage) float64 {
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
	s := airborne(t, 5)
	s.hold(5, 9000)
	assert.Less(t, width(s), 1.0)
	assert.Greater(t, width(s.set(1, 2012).wait(160)), 8.0)
}

func TestRoundUp(t *testing.T) {
	for v, want := range map[float64]float64{0: 2, 1.9: 2, 2: 2, 2.1: 5, 5.01: 10, 11: 20, 49: 50, 51: 100, 999: 1000, 1001: 2000} {
		assert.InDelta(t, want, roundUp(v, 2), 1e-9)
		n := roundUp(v, 2) / markStep(roundUp(v, 2))
		assert.InDelta(t, math.Round(n), n, 1e-9)
		assert.True(t, n >= 4 && n <= 5, "%v marks up to %v", n, v)
	}
}

// What can be done is on its sheet with its key, and no key has two jobs there or is one of the pilot's.
func TestEveryActionOfTheFlightIsOnItsSheet(t *testing.T) {
	taken := map[string]bool{}
	for _, k := range keyboard.Layout() {
		taken[k.Physical] = true
	}
	first, three := allSeen(t), abreast(t, func(s *stage) { s.wait(10) })
	paused := airborne(t, 3)
	paused.v.Flight.Pace.Paused = true
	for _, c := range []struct {
		place Place
		draw  func(*ink.Page, *View)
		v     *View
		some  []Action
	}{
		{OnFirst, First, first.v, []Action{NextMotor, TurnPropeller, PropellersChecked, GoOut, OpenFirst, OpenCheck}},
		{OnThree, Three, three.v, []Action{OpenThree, PauseFlight, SlowFlight, StandAgain}},
		{OnBench, Bench, paused.v, []Action{OpenFirst, OpenThree, PauseFlight, SlowFlight, StepFlight, ReplayFlight, StandAgain}},
		{OnBench, Bench, ready(t).v, []Action{OpenFirst, TiltCraft, NudgeCraft}},
	} {
		p := ink.NewPage(960, 600, 0, nil)
		c.draw(p, c.v)
		hits, keys := map[string]string{}, map[string]bool{}
		for _, h := range p.Hits() {
			hits[h.Name] = h.Key
		}
		for _, a := range Acts() {
			if a.On&c.place == 0 {
				continue
			}
			assert.False(t, keys[a.Physical] || taken[a.Physical], "%s on place %d", a.Physical, c.place)
			keys[a.Physical] = true
			if c.v.Shows(a, c.place) {
				assert.Equal(t, a.Physical, hits[a.Code], a.Code)
			} else {
				assert.NotContains(t, hits, a.Code)
			}
		}
		for _, a := range c.some {
			assert.Contains(t, hits, a.Code())
		}
	}
	for _, a := range []Action{PauseFlight, SlowFlight, StepFlight, ReplayFlight, StandAgain, OpenThree} {
		for _, act := range Acts() {
			assert.False(t, act.Action == a && ready(t).v.Shows(act, OnBench), "%s on the desk bench", act.Code)
		}
	}
	for _, act := range Acts() { // before everything is done the craft cannot go out
		assert.False(t, act.Action == GoOut && puzzled(t).v.Shows(act, OnFirst))
	}
}

// What stands in the way of arming in the air can be cured there, even if it came along from the desk bench.
func TestWhatCameAlongCanBeCuredOutside(t *testing.T) {
	shows := func(s *stage, a Action) bool {
		for _, act := range Acts() {
			if act.Action == a {
				return s.v.Shows(act, OnBench)
			}
		}
		return false
	}
	s := outside(t)
	for _, a := range []Action{TiltCraft, PlugCable, TurnMenu, NudgeCraft} {
		assert.False(t, shows(s, a))
	}
	s.v.Snap.In.Craft.TiltTenths, s.v.Snap.In.Craft.Cable, s.v.Snap.In.Craft.Menu = 450, true, 1
	for _, a := range []Action{TiltCraft, PlugCable, TurnMenu} {
		assert.True(t, shows(s, a))
	}
}

// A picture of a flight allocates next to nothing once its buffers have grown.
func BenchmarkFlight(b *testing.B) {
	s := airborne(b, 5).glide(1, 1700, 100).hold(5, 8000)
	p := ink.NewPage(1920, 1080, 0, nil)
	b.ReportAllocs()
	for b.Loop() {
		p.Reset(1920, 1080, 0, nil)
		Bench(p, s.v)
	}
	b.ReportMetric(float64(len(p.Items())), "items")
}

func TestWrongPropellersAreNamed(t *testing.T) {
	turns := body.Default().Turns
	tried := turns
	tried[3] = -tried[3]
	assert.Equal(t, "The last flight tipped over. The propeller rear right was the wrong one: its motor turns clockwise, so it pushed down instead of lifting.",
		phrase.WrongPropellers(turns, tried, true))
	tried = turns
	tried[0] = 0
	assert.Equal(t, "The last flight tipped over. There was none front left.", phrase.WrongPropellers(turns, tried, true))
	assert.Equal(t, "The last flight tipped over. The propellers were right; it was flown over.", phrase.WrongPropellers(turns, turns, true))
	assert.Equal(t, "The last flight never left the ground. The propellers were right; it needs more throttle.", phrase.WrongPropellers(turns, turns, false))
}

// The three kinds of a propeller come round, and the motors' hit areas are found again.
func TestPuzzleKeysAndClicks(t *testing.T) {
	hand, seen := int8(0), []int8{}
	for range 3 {
		hand = NextHand(hand)
		seen = append(seen, hand)
	}
	assert.Equal(t, []int8{1, -1, 0}, seen)
	p := ink.NewPage(960, 600, 0, nil)
	First(p, puzzled(t).v)
	found := 0
	for _, h := range p.Hits() {
		if i, ok := MotorOf(h.Name); ok {
			assert.Equal(t, found, i)
			found++
		}
	}
	assert.Equal(t, 4, found)
	_, ok := MotorOf("motor-5")
	assert.False(t, ok)
	assert.Equal(t, []int{4, 10, 1, 4}, []int{NextSlow(1), NextSlow(4), NextSlow(10), NextSlow(0)})
}

// The puzzle draws motors and propellers as they turn: the arrow's tip of a clockwise one is at the right of its top.
func TestArrowsTurnTheirWay(t *testing.T) {
	for _, hand := range []int8{1, -1} {
		p := ink.NewPage(960, 600, 0, nil)
		b := newBoard(p, &View{Snap: sim.Snapshot{}})
		b.turnArrow("a", ink.Point{X: 300, Y: 300}, 100, hand, 1, ink.Paint{Line: ink.Ink, Width: 2})
		tips := ink.Describe(p).Named("a tip")
		require.Len(t, tips, 2)
		top, bottom := tips[0], tips[1]
		assert.Equal(t, hand > 0, top.Box[0] > 300)
		assert.Equal(t, hand > 0, bottom.Box[0] < 300)
		assert.Less(t, top.Box[1], 300.0)
	}
}

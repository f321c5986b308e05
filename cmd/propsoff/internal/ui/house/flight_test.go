package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/threemodes"
	"propsoff.example/cmd/propsoff/internal/ui"
	firstsheet "propsoff.example/cmd/propsoff/internal/ui/first"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	threesheet "propsoff.example/cmd/propsoff/internal/ui/three"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/input/script"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// hold presses a key for ms.
func (p *person) hold(key string, ms int) {
	p.s.Key(key, true)
	p.wait(ms)
	p.s.Key(key, false)
	p.wait(16)
}

// beginner takes the bench over by keyboard and is ready to arm.
func beginner(t *testing.T, more func(*whodrives.Options, *screen.Options)) *person {
	p := sitDownAt(t, assets.BuiltIn, more)
	p.tap("Enter")
	p.tap("S")
	p.wait(2500)
	return p
}

// show does on the desk bench what the gate asks for.
func (p *person) show() {
	p.tap("Space")
	p.tap("Space")
	p.tap("L")
	p.wait(400)
	p.tap("L")
	p.wait(1500)
}

// fit puts propellers on the motors by the keys of the sheet, which is open.
func (p *person) fit(want [4]int8) {
	for range 4 {
		for firstsheet.Of(p.s.View()).Hands[firstsheet.Of(p.s.View()).Selected] != want[firstsheet.Of(p.s.View()).Selected] {
			p.tap("Up")
		}
		p.tap("Right")
	}
	require.Equal(p.t, want, firstsheet.Of(p.s.View()).Hands)
}

func (p *person) codes() (all []happening.Code) {
	hs, _ := p.loop.Happenings(nil, 0)
	for _, h := range hs {
		all = append(all, h.Code)
	}
	return all
}

func seeded(_ *whodrives.Options, s *screen.Options) { s.Seed = 7 }

// Somebody goes the whole way by keys: shows what must be shown, fits one propeller wrong, flips, puts it right, flies, stops
// the time and looks back.
func TestTheWayToTheFirstFlight(t *testing.T) {
	p := beginner(t, seeded)
	first := func() *firstsheet.View { return firstsheet.Of(p.s.View()) }
	right := sim.Default().Body.Turns

	p.tap("B")
	assert.NotEqual(t, right, first().Hands, "they are shuffled")
	assert.Equal(t, right, first().Turns)
	done := func() (d [4]bool) {
		for i := range d {
			d[i] = first().Needs[i].Done
		}
		return d
	}
	assert.Equal(t, [4]bool{true, false, false, false}, done(), "without a radio there is nothing to check")
	assert.NotEmpty(t, first().Needs[firstsheet.NeedCheck].How)
	p.tap("Period")
	assert.True(t, first().Checked)
	p.tap("Enter")
	assert.False(t, p.snap().In.Air, "not yet")
	p.tap("B")
	p.show()
	p.tap("B")
	assert.Equal(t, [4]bool{true, true, true, true}, done())
	for _, n := range first().Needs[firstsheet.NeedArmed:firstsheet.NeedPropellers] {
		assert.False(t, n.How.Empty())
		assert.True(t, n.Tick > 2500 && n.Tick < p.snap().Tick)
	}
	assert.Contains(t, uitest.Say(first().Needs[firstsheet.NeedDisarmed].How), "arm channel")

	// One propeller is wrong. Changing one takes "checked" back.
	wrong := right
	wrong[1] = -wrong[1]
	p.fit(wrong)
	assert.False(t, first().Checked)
	p.tap("Enter")
	assert.False(t, p.snap().In.Air, "they are not checked")
	p.tap("Period")
	p.tap("Enter")
	s := p.snap()
	require.True(t, s.In.Air)
	assert.Equal(t, [4]int8(wrong), s.In.Hands)
	assert.True(t, s.In.Checked)
	assert.Equal(t, firstsheet.NoOuting, outing(p.s))
	p.wait(2500)
	p.tap("Space")
	require.True(t, p.snap().Armed)
	p.hold("W", 789)
	p.wait(1500)
	assert.Contains(t, p.codes(), happening.TippedOver, "it flips, as it would")

	p.tap("B")
	assert.True(t, p.snap().In.Air && p.reads("Leave the bench?"), "it is armed still, so it is asked first")
	p.taps("PageDown Enter")
	assert.False(t, p.snap().In.Air, "the craft is back on the desk bench")
	assert.False(t, p.snap().Armed)
	assert.Equal(t, firstsheet.Flipped, first().Came)
	assert.Equal(t, [4]int8(wrong), first().Tried)
	p.fit(right)
	p.tap("Period")
	assert.Equal(t, firstsheet.Flipped, first().Came, "what was wrong can still be read")
	p.tap("Enter")
	require.True(t, p.snap().In.Air)
	p.tap("X")
	p.tap("Space") // off first
	p.wait(2500)
	p.tap("Space")
	require.True(t, p.snap().Armed)
	p.hold("W", 631)
	p.wait(1500)
	s = p.snap()
	require.True(t, s.Air.Flying)
	assert.False(t, s.Air.Tipped)
	assert.Equal(t, firstsheet.NoOuting, outing(p.s))
}

// inTheAir is a beginner whose craft climbs.
func inTheAir(t *testing.T) *person {
	p := beginner(t, func(_ *whodrives.Options, s *screen.Options) { s.Outside = true })
	p.tap("B")
	p.tap("Enter")
	require.True(t, p.snap().In.Air, "an instructor goes out at once")
	assert.Equal(t, sim.Default().Body.Turns, p.snap().In.Hands)
	p.wait(2500)
	p.tap("Space")
	p.hold("W", 631)
	p.wait(1000)
	require.True(t, p.snap().Air.Flying)
	return p
}

// One that lies on its back is set up again by what is said of it, and not before it is disarmed.
func TestATippedCraftIsSetBack(t *testing.T) {
	p := inTheAir(t)
	p.tap("3")
	p.hold("Right", 450)
	p.tap("X")
	for n := 0; !p.reads("Broken: its motors stay off"); n++ {
		require.Less(t, n, 300, "%q", texts(p))
		p.wait(16)
	}
	require.True(t, p.reads("Disarm it; then K puts it back at the start, whole."))
	p.taps("Space K")
	p.wait(100)
	assert.True(t, p.reads("It stands on the ground."))
	assert.False(t, p.reads("Broken"))
}

func TestPaceByKeys(t *testing.T) {
	p := inTheAir(t)
	v := p.s.View()
	passed := func(ms int) int64 {
		before := p.snap().Tick
		p.wait(ms)
		return p.snap().Tick - before
	}
	assert.InDelta(t, 400, passed(400), 20)
	assert.Equal(t, ui.Pace{Slow: 1}, v.Flight.Pace)
	p.tap("H")
	assert.InDelta(t, 100, passed(400), 20)
	assert.Equal(t, ui.Pace{Slow: 4}, v.Flight.Pace)
	p.tap("H")
	assert.InDelta(t, 40, passed(400), 20)
	assert.Equal(t, ui.Pace{Slow: 10}, v.Flight.Pace)
	before := p.snap().Tick
	p.tap("J")
	assert.InDelta(t, before+10, p.snap().Tick, 5, "no steps while it runs, only slow time")
	p.tap("G")
	assert.Equal(t, ui.Pace{Paused: true, Slow: 10}, v.Flight.Pace)
	assert.Zero(t, passed(5000))
	before = p.snap().Tick
	p.tap("J")
	p.tap("J")
	assert.Equal(t, before+20, p.snap().Tick)
	p.tap("H")
	p.tap("G")
	assert.Equal(t, ui.Pace{Slow: 1}, v.Flight.Pace)
	assert.InDelta(t, 400, passed(400), 20)
	assert.True(t, p.snap().Armed)
	assert.NotContains(t, p.codes(), happening.Slept)
	assert.NotContains(t, p.codes(), happening.LinkLost)

	// Time stands while the craft is carried back: it runs again, because there is no key for it on the desk bench.
	p.tap("H")
	p.tap("G")
	p.taps("B PageDown Enter") // it is armed still, so it is asked first
	assert.False(t, p.snap().In.Air)
	assert.InDelta(t, 400, passed(400), 20)
	assert.Equal(t, live.Running, p.loop.Pace())
	for _, key := range []string{"G", "H", "J", "R", "K", "End"} {
		p.tap(key)
	}
	p.tap("B")
	for _, key := range []string{"G", "H", "J", "R", "K", "End"} {
		p.tap(key)
	}
	assert.InDelta(t, 400, passed(400), 20)
	assert.False(t, p.snap().In.Air)
}

func TestTrailAndBandsFollowTheCraft(t *testing.T) {
	p := inTheAir(t)
	f := &p.s.View().Flight
	carried := int64(0)
	hs, _ := p.loop.Happenings(nil, 0)
	for _, h := range hs {
		if h.Code == happening.Moved {
			carried = h.Tick
		}
	}
	check := func(from int64) {
		now := p.s.View().Snap.Tick
		require.NotEmpty(t, f.Trail)
		for i, pt := range f.Trail {
			assert.Equal(t, (from+ui.TrailEvery-1)/ui.TrailEvery*ui.TrailEvery+int64(i)*ui.TrailEvery, pt.Tick)
		}
		assert.Less(t, now-f.Trail[len(f.Trail)-1].Tick, int64(2*ui.TrailEvery))
		last := f.Followed[len(f.Followed)-1]
		assert.Less(t, now-last.Tick, int64(2*live.PointTicks))
		assert.LessOrEqual(t, last.Tick-f.Followed[0].Tick, int64(live.ChartTicks))
		for i := range f.Followed[1:] {
			assert.Equal(t, f.Followed[i].Tick+live.PointTicks, f.Followed[i+1].Tick)
		}
	}
	check(carried)
	var s sim.Snapshot
	at := f.Trail[len(f.Trail)-1]
	require.True(t, p.loop.Moment(&s, at.Tick))
	assert.Equal(t, s.Air.Body.Pos, at.Pos)
	assert.Less(t, at.Pos.Z, -0.5, "it has climbed")
	p.tap("S")
	p.wait(33_000)
	check(p.s.View().Snap.Tick/ui.TrailEvery*ui.TrailEvery - ui.TrailTicks)

	p.tap("K")
	hs, _ = p.loop.Happenings(nil, 0)
	for _, h := range hs {
		if h.Code == happening.Moved {
			carried = h.Tick
		}
	}
	p.wait(100)
	assert.True(t, p.snap().In.Air)
	check(carried)
	assert.InDelta(t, 0, p.snap().Air.Body.Pos.X, 1e-6, "it stands where it began")
}

func TestLookingBack(t *testing.T) {
	p := inTheAir(t)
	p.hold("Right", 300)
	p.wait(300)
	v := p.s.View()
	now := p.snap()
	p.tap("R")
	require.True(t, v.Flight.Replay.On)
	assert.InDelta(t, now.Tick+50, p.snap().Tick, 40, "the bench is paused")
	live := p.snap()
	assert.Equal(t, live, p.snap())
	length := v.Flight.Replay.Length
	assert.InDelta(t, 4700, length, 500, "since it was carried out")
	assert.InDelta(t, 80, v.Flight.Replay.At, 40, "it plays from the beginning")
	assert.InDelta(t, live.Tick-length+v.Flight.Replay.At, v.Snap.Tick, 30)
	assert.False(t, v.Snap.Armed)
	assert.Nil(t, v.Refusals)
	p.wait(1000)
	assert.InDelta(t, 1080, v.Flight.Replay.At, 60)
	p.tap("Right")
	assert.InDelta(t, 2180, v.Flight.Replay.At, 80)
	p.s.Key("Left", true)
	p.s.Key("Left", false)
	p.wait(16)
	assert.InDelta(t, 1200, v.Flight.Replay.At, 80)
	p.tap("G")
	standing := v.Flight.Replay.At
	p.wait(500)
	assert.Equal(t, standing, v.Flight.Replay.At)
	assert.True(t, v.Flight.Pace.Paused)
	p.tap("J")
	assert.Equal(t, standing+10, v.Flight.Replay.At)
	p.tap("H")
	p.tap("G")
	before := v.Flight.Replay.At
	p.wait(800)
	assert.InDelta(t, before+200, v.Flight.Replay.At, 15, "a quarter of the speed")
	for range 10 {
		p.tap("Right")
	}
	assert.Equal(t, v.Flight.Replay.Length, v.Flight.Replay.At)
	assert.True(t, v.Flight.Pace.Paused, "at its end it stands")
	assert.InDelta(t, live.Tick, v.Snap.Tick, 10)
	assert.Equal(t, v.Snap.Tick, v.Chart[len(v.Chart)-1].Tick)
	for _, h := range v.Happenings {
		assert.LessOrEqual(t, h.Tick, v.Snap.Tick)
	}
	assert.LessOrEqual(t, v.Flight.Followed[len(v.Flight.Followed)-1].Tick, v.Snap.Tick)
	for range 3 {
		p.tap("Left")
	}
	var then sim.Snapshot
	require.True(t, p.loop.Moment(&then, v.Snap.Tick))
	assert.Equal(t, then, v.Snap, "everything as it was")
	assert.Equal(t, then.Tick, v.Chart[len(v.Chart)-1].Tick)
	p.tap("G")
	p.tap("Esc")
	assert.False(t, p.quit)
	assert.False(t, v.Flight.Replay.On)
	p.tap("R")
	assert.True(t, v.Flight.Replay.On)
	p.tap("R")
	assert.False(t, v.Flight.Replay.On)
	assert.True(t, v.Flight.Pace.Paused, "the bench waits for the pilot")
	assert.Equal(t, live.Tick, p.snap().Tick)
	p.tap("G")
	p.wait(100)
	assert.Greater(t, p.snap().Tick, live.Tick)
	assert.Equal(t, pulse.Centre, p.snap().In.Sent[1], "the arrow keys were the look back's")
	assert.True(t, p.snap().Air.Flying)

	// The craft is carried in the middle of a look back.
	p.tap("R")
	p.taps("B PageDown Enter") // it is asked first
	p.wait(100)
	assert.False(t, p.snap().In.Air)
	assert.False(t, v.Flight.Replay.On)
}

func TestThreeSideBySide(t *testing.T) {
	p := beginner(t, func(_ *whodrives.Options, s *screen.Options) { s.Outside = true })
	v := p.s.View()
	p.tap("End")
	var three [threemodes.Number]sim.Snapshot
	assert.False(t, beside(p.loop, three[:]), "not on the desk bench")
	p.tap("B")
	p.tap("Enter")
	p.wait(2500)
	p.tap("End")
	p.tap("Space")
	p.hold("W", 631)
	p.wait(1000)
	p.hold("Right", 250)
	p.wait(1200)
	require.True(t, beside(p.loop, three[:]))
	for m, c := range threesheet.Of(v).Crafts {
		assert.Equal(t, layout.Mode(m), c.Mode)
		assert.Equal(t, layout.Mode(m), c.Snap.Mode)
		assert.Equal(t, p.snap().Tick, c.Snap.Tick)
		assert.True(t, c.Snap.Armed && c.Snap.Air.Flying, "the pilot's keys drive")
		require.NotEmpty(t, c.Trail)
		assert.Less(t, c.Snap.Tick-c.Trail[len(c.Trail)-1].Tick, int64(2*ui.TrailEvery))
	}
	assert.NotEqual(t, threesheet.Of(v).Crafts[0].Snap.Air, threesheet.Of(v).Crafts[2].Snap.Air)
	assert.Equal(t, p.snap().Air, threesheet.Of(v).Crafts[layout.Angle].Snap.Air, "the switch stands in angle")
	p.tap("G")
	before := threesheet.Of(v).Crafts[2].Snap.Tick
	p.tap("J")
	assert.Equal(t, before+live.StepTicks, threesheet.Of(v).Crafts[2].Snap.Tick)
	p.tap("G")
	p.tap("K")
	p.wait(100)
	for _, c := range threesheet.Of(v).Crafts {
		assert.InDelta(t, 0, c.Snap.Air.Body.Vel.Norm(), 1e-3, "all stand at the start again")
		assert.Less(t, len(c.Trail), 20)
	}
	p.tap("Esc")
	assert.False(t, beside(p.loop, three[:]))
	assert.False(t, p.quit)
	p.tap("End")
	p.tap("B") // works on the bench only
	assert.True(t, beside(p.loop, three[:]))
	p.loop.Desk().Put(pulse.Air, 0)
	p.wait(100)
	assert.False(t, beside(p.loop, three[:]), "back on the desk bench the sheet is left")
	p.tap("Esc")
	assert.True(t, p.reads("What do you want to do?"))
}

// What is played is looked at at any pace, and nothing of it is changed.
func TestAPlayedFlightIsNotMeddledWith(t *testing.T) {
	text := "name: outside\ncraft: built-in\nstart: {throttle: 988, arm: off, mode: angle}\nsteps:\n  - {at: 100ms, bench: air, propellers: {front-left: clockwise, front-right: counter-clockwise, rear-left: counter-clockwise, rear-right: clockwise, checked: yes}}\n  - {at: 8s, arm: on}\nend: 20s\n"
	p := sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, s *screen.Options) {
		played, err := script.Parse("outside", []byte(text), d.Names)
		require.NoError(t, err)
		d.Script, s.Bare = played.Source(), true
	})
	p.wait(1000)
	require.True(t, p.snap().In.Air)
	p.tap("K")
	p.tap("B")
	for _, key := range []string{"Right", "Up", "Period", "Enter"} {
		hands := firstsheet.Of(p.s.View()).Hands
		p.tap(key)
		assert.Equal(t, hands, firstsheet.Of(p.s.View()).Hands)
		assert.False(t, firstsheet.Of(p.s.View()).Checked)
	}
	p.tap("B")
	p.tap("End")
	p.tap("End")
	assert.True(t, p.snap().In.Air)
	moved := 0
	for _, c := range p.codes() {
		if c == happening.Moved {
			moved++
		}
	}
	assert.Equal(t, 1, moved)
	p.tap("G")
	before := p.snap().Tick
	p.wait(20_000)
	assert.Equal(t, before, p.snap().Tick)
	p.tap("R")
	p.wait(300)
	p.tap("R")
	p.tap("G")
	p.wait(7500)
	assert.True(t, p.snap().Armed)
	hs, _ := p.loop.Happenings(nil, 0)
	for _, h := range hs {
		if h.Code == happening.Armed {
			assert.InDelta(t, 8000, h.Tick, 20, "at its time of the practice")
		}
	}
}

// Two of the stick keys go back and on in a look back, so none is said to take over from the demo pilot then.
func TestALookBackHasTheArrowKeys(t *testing.T) {
	p := sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, s *screen.Options) { s.Bare = true })
	p.wait(500)
	assert.True(t, p.reads("any stick key"))
	p.tap("I")
	p.wait(500)
	p.tap("R")
	p.tap("I")
	require.True(t, p.reads("You are looking back"))
	assert.False(t, p.reads("any stick key"))
	p.tap("Left")
	assert.Equal(t, ui.Demo, p.s.View().Driver)
	p.tap("R")
	p.tap("G")
	assert.True(t, p.reads("any stick key"))
	p.tap("Left")
	assert.Equal(t, ui.Keyboard, p.s.View().Driver)
}

// One key leads from the three drawings to where the pilot stands, into the craft, and back; on the desk bench it says where it works.
func TestTheCraftIsSeenFromThreePlaces(t *testing.T) {
	p := beginner(t, func(_ *whodrives.Options, o *screen.Options) { o.Outside = true })
	p.taps("B Enter")
	has := func(name string) bool { return len(ink.Describe(p.page).Named(name)) > 0 }
	require.True(t, p.s.View().Snap.In.Air)
	assert.True(t, has("behind pointer") && !has("seen-frame"))
	p.tap("0")
	assert.True(t, has("seen-frame") && !has("behind pointer"))
	assert.True(t, p.reads("tail towards you"))
	p.tap("0")
	assert.True(t, has("goggles-frame") && !has("seen-frame"))
	p.tap("0")
	assert.True(t, has("behind pointer") && !has("goggles-frame"))

	desk := beginner(t, nil)
	desk.tap("0")
	assert.True(t, desk.reads("That is for a craft on the air bench"))
}

package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	firstsheet "propsoff.example/cmd/propsoff/internal/ui/first"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/sim"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

func needs(p *person) (d []int) {
	for i, n := range firstsheet.Of(p.s.View()).Needs[:firstsheet.NeedPropellers] {
		if n.Done {
			d = append(d, i)
		}
	}
	return d
}

// What the demo pilot does shows nothing about this pilot, nor what taking over from it brings about.
func TestTheDemoOpensNoGate(t *testing.T) {
	p := sitDown(t, "")
	p.tap("Enter")
	p.wait(62_000)
	require.Contains(t, p.codes(), happening.Armed)
	require.Contains(t, p.codes(), happening.LinkLost)
	p.tap("B")
	assert.Empty(t, needs(p))
	p.tap("B")
	p.wait(8600 - int(p.snap().Tick%30_000)) // it has armed for the third time
	for !p.snap().Armed {
		p.wait(16)
	}
	p.tap("S")
	p.wait(500)
	require.False(t, p.snap().Armed)
	p.tap("B")
	assert.Equal(t, []int{firstsheet.NeedCheck}, needs(p), "a takeover disarms, the pilot did not")
}

func TestEachNeedIsShownByItself(t *testing.T) {
	p := beginner(t, nil)
	look := func() []int {
		p.tap("B")
		d := needs(p)
		p.tap("B")
		return d
	}
	p.tap("L")
	p.wait(400)
	assert.Equal(t, []int{firstsheet.NeedCheck}, look(), "lost, but not yet back")
	p.tap("L")
	assert.Equal(t, []int{firstsheet.NeedCheck, firstsheet.NeedLinkLost}, look())
	p.wait(2000)
	p.tap("Space")
	assert.Equal(t, []int{firstsheet.NeedCheck, firstsheet.NeedArmed, firstsheet.NeedLinkLost}, look())
	p.tap("P")
	p.tap("P")
	assert.NotContains(t, look(), firstsheet.NeedDisarmed, "pulling the pack is not disarming")
	p.tap("Space")
	p.wait(2500)
	p.tap("Space")
	require.True(t, p.snap().Armed)
	p.tap("L")
	p.wait(400)
	require.False(t, p.snap().Armed)
	assert.NotContains(t, look(), firstsheet.NeedDisarmed, "nor is a lost link")
	p.tap("L")
	p.tap("Space")
	p.wait(2000)
	p.tap("Space")
	p.tap("Space")
	assert.Equal(t, []int{firstsheet.NeedCheck, firstsheet.NeedArmed, firstsheet.NeedDisarmed, firstsheet.NeedLinkLost}, look())
}

// Who does what stands under a need, and no more, has it crossed off; so also with a receiver that lets the craft notice nothing.
func TestWhatANeedAsksForIsEnough(t *testing.T) {
	held, err := craftfile.Parse("craft.yaml", []byte(heldCraft))
	require.NoError(t, err)
	for _, p := range []*person{beginner(t, nil), sitDownTo(t, "held", held, func(_ *whodrives.Options, o *screen.Options) { o.Bare = true })} {
		p.tap("S")
		p.wait(2500)
		p.tap("B")
		assert.True(t, p.reads("On the bench (B), arm as its large sentence says."))
		assert.True(t, p.reads("On the bench, arm; then press L to switch the radio off; watch for some seconds, and press L again."))
		p.tap("B")
		require.True(t, p.reads("To arm, press Space"))
		p.tap("Space")
		p.tap("B")
		assert.Equal(t, []int{firstsheet.NeedCheck, firstsheet.NeedArmed}, needs(p))
		p.tap("B")
		p.tap("L")
		p.wait(2000)
		p.tap("L")
		p.tap("B")
		assert.Equal(t, []int{firstsheet.NeedCheck, firstsheet.NeedArmed, firstsheet.NeedLinkLost}, needs(p))
	}
}

// Whoever teaches has the craft out by one key and one answer, with the right propellers; the list is then as it was, and so are the propellers on it.
func TestFlightIsShownWithoutTheList(t *testing.T) {
	p := beginner(t, nil)
	p.tap("B")
	own := firstsheet.Of(p.s.View()).Hands
	require.NotEqual(t, p.s.Config.Body.Turns, own)
	p.tap("Slash")
	require.NotNil(t, p.s.Asked())
	p.tap("Enter") // the safe answer
	assert.False(t, p.snap().In.Air)
	p.tap("Slash")
	p.s.Answer(1)
	p.wait(100)
	assert.Equal(t, ui.OnBench, p.s.Place())
	assert.True(t, p.snap().In.Air)
	assert.Equal(t, p.s.Config.Body.Turns, p.snap().In.Hands)
	p.tap("B") // to the sheet, and the craft is back in
	p.wait(100)
	assert.False(t, p.snap().In.Air)
	assert.Equal(t, own, firstsheet.Of(p.s.View()).Hands)
	assert.Equal(t, []int{firstsheet.NeedCheck}, needs(p))
}

// A machine that slept lost the link, not the pilot.
func TestSleepShowsNoLinkLoss(t *testing.T) {
	for _, craft := range []string{assets.BuiltIn} {
		p := sitDownAt(t, craft, nil)
		p.tap("Enter")
		p.tap("S")
		p.wait(2500)
		p.clock.now += 5_000_000
		p.wait(3000)
		require.Contains(t, p.codes(), happening.Slept)
		p.tap("B")
		assert.Equal(t, []int{firstsheet.NeedCheck}, needs(p))
		p.tap("B")
		p.tap("L")
		p.wait(400)
		p.tap("L")
		p.wait(100)
		p.tap("B")
		assert.Contains(t, needs(p), firstsheet.NeedLinkLost)
	}
}

func TestPropellersAreShuffledByTheSeed(t *testing.T) {
	right := [4]int8(sim.Default().Body.Turns)
	seen := map[[4]int8]bool{}
	for seed := range uint64(40) {
		at := func() [4]int8 {
			p := sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, s *screen.Options) { s.Seed, s.Bare = seed, true })
			p.tap("B")
			return firstsheet.Of(p.s.View()).Hands
		}
		hands := at()
		require.Equal(t, hands, at(), "the same seed, the same order")
		require.NotEqual(t, right, hands)
		require.EqualValues(t, 0, hands[0]+hands[1]+hands[2]+hands[3], "two of each")
		seen[hands] = true
	}
	assert.Len(t, seen, 5, "every order but the right one comes")
}

func TestMotorsAreChosenByClicksToo(t *testing.T) {
	p := beginner(t, seeded)
	p.tap("B")
	v := firstsheet.Of(p.s.View())
	assert.Zero(t, v.Selected)
	for _, h := range p.page.Hits() {
		if m, ok := figure.MotorOf(h.Name); ok && m == 2 {
			before := v.Hands[2]
			p.s.Click(h)
			p.wait(16)
			assert.Equal(t, 2, v.Selected)
			assert.Equal(t, before, v.Hands[2], "the first click chooses it")
			p.s.Click(h)
			p.wait(16)
			assert.Equal(t, firstsheet.NextHand(before), v.Hands[2])
			return
		}
	}
	t.Fatal("no motor can be clicked")
}

// Propellers that are all wrong push the craft down: it is told once the throttle was up in vain.
func TestACraftThatNeverLifts(t *testing.T) {
	for _, fitted := range [][4]int8{{-1, 1, 1, -1}, {}} {
		p := beginner(t, seeded)
		p.show()
		p.tap("B")
		p.fit(fitted)
		p.tap("Period")
		if fitted == ([4]int8{}) {
			p.taps("PageDown Enter") // it is asked first
		}
		p.tap("Enter")
		p.wait(2500)
		p.tap("Space")
		require.True(t, p.snap().Armed)
		first := firstsheet.Of(p.s.View())
		look := func() firstsheet.Outing { p.wait(16); return outing(p.s) }
		assert.Equal(t, firstsheet.NoOuting, look(), "nothing is told before it was tried")
		p.hold("W", 947)
		p.wait(1500)
		assert.Equal(t, firstsheet.NoOuting, look())
		p.wait(1000)
		assert.Equal(t, firstsheet.NoLift, look())
		assert.False(t, p.snap().Air.Flying)
		p.taps("B PageDown Enter") // it is armed still, so it is asked first
		assert.Equal(t, firstsheet.NoLift, first.Came)
		assert.Equal(t, fitted, first.Tried)
	}
}

// With a radio the gate stays shut until its controls were checked to the end; a radio that is read otherwise since is not the
// one that was checked.
func TestARadioMustBeCheckedFirst(t *testing.T) {
	p, h := atTheRadio(t)
	h.pull(true)
	for _, d := range h.open {
		_ = d.Close()
	}
	p.pass(h, 100)
	end := h.hands(p.clock.now + 1_000_000)
	h.pull(false)
	p.pass(h, 600)
	out := func() bool {
		p.tap("B")
		require.Equal(t, ui.Radio, p.s.View().Driver)
		p.fit(firstsheet.Of(p.s.View()).Turns)
		p.tap("Period")
		p.tap("Enter")
		return p.snap().In.Air
	}
	assert.False(t, out())
	assert.Empty(t, needs(p))
	p.tap("F4")
	p.pass(h, int(end-p.clock.now)/1000+4000)
	p.tap("Esc")
	p.tap("B")
	n := firstsheet.Of(p.s.View()).Needs
	assert.True(t, n[firstsheet.NeedCheck].Done)
	assert.InDelta(t, p.snap().Tick, n[firstsheet.NeedCheck].Tick, 5000)
	assert.Equal(t, []int{firstsheet.NeedCheck}, needs(p))
	p.tap("Tab") // no key here
	p.tap("B")
	p.tap("Tab") // the keyboard drives
	p.tap("B")
	assert.EqualValues(t, -1, firstsheet.Of(p.s.View()).Needs[firstsheet.NeedCheck].Tick, "the keyboard needs none")
	assert.Equal(t, ui.Keyboard, p.s.View().Driver)
}

// A wrong propeller that an instructor put on is not named, and is not the pupil's; one that the pupil put on is.
func TestAPlantedPropellerIsNotNamed(t *testing.T) {
	for _, planted := range []bool{false, true} {
		p := beginner(t, seeded)
		p.show()
		p.tap("B")
		fit := firstsheet.Of(p.s.View()).Turns
		if !planted {
			fit[0] = -fit[0]
		}
		p.fit(fit)
		p.tap("Period")
		p.tap("Enter")
		p.wait(2500)
		if planted {
			v, ok := fault.Plant(fault.WrongPropeller, 1, 0)
			require.True(t, ok)
			p.loop.Desk().Put(pulse.Instructor, v)
		}
		p.tap("Space")
		p.hold("W", 947)
		p.wait(2500)
		require.Equal(t, firstsheet.Flipped, outing(p.s))
		p.loop.Desk().Put(pulse.Instructor, fault.Lift(fault.WrongPropeller))
		p.wait(100)
		p.taps("B PageDown Enter") // it is armed still: it is asked first
		require.True(t, p.reads("The last flight tipped over."))
		assert.Equal(t, !planted, p.reads("The front left propeller was the wrong one"), "%q", texts(p))
		assert.False(t, p.reads("The propellers were right"), "it was lifted only then")
	}
}

// outing is what the last flight came to, as the gate knows it.
func outing(s *screen.Screen) firstsheet.Outing {
	return s.Sheet(ui.OnFirst).(interface{ Came() firstsheet.Outing }).Came()
}

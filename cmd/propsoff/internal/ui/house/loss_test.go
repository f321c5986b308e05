package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/lossrun"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/loss"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/input/script"
	"propsoff.example/sim"
	"propsoff.example/sim/link"
)

func (p *person) losses() *loss.View { return loss.Of(p.s.View()) }

// An instructor who cannot fly shows it from the desk bench: a pilot flies, the radio goes off and comes back, the hands arm again,
// it is begun again with other stored values; in the end the bench is as it was.
func TestTheFailsafeShownByItsOwnPilot(t *testing.T) {
	p := beginner(t, nil)
	before := p.snap().In
	p.tap("F")
	assert.True(t, p.reads("RADIO ON"))
	assert.True(t, p.reads("Or press Enter, and a pilot flies them."))
	for i := range p.losses().Crafts {
		assert.Equal(t, link.OnLoss(i), p.losses().Crafts[i].Craft.Link.OnLoss)
		assert.Equal(t, lossrun.Waiting, p.losses().Crafts[i].Run.Phase)
	}

	p.tap("Enter")
	assert.True(t, p.losses().Flown)
	assert.True(t, p.snap().In.Air)
	for range 30 {
		if p.losses().Steady {
			break
		}
		p.wait(1000)
	}
	require.True(t, p.reads("They hover. L: the radio goes off."))
	p.tap("W") // keys of the keyboard pilot do nothing now
	p.tap("L")
	assert.False(t, p.snap().In.Transmitter)
	assert.True(t, p.reads("RADIO OFF"))
	p.wait(5000)
	c := &p.losses().Crafts
	silent, hold, stored := &c[link.FallsSilent], &c[link.RepeatsLast], &c[link.SendsStored]
	assert.Equal(t, silent.Run.Last+240, silent.Run.Stopped)
	assert.NotEqual(t, int64(lossrun.NotYet), silent.Run.Down)
	assert.True(t, hold.Snap.Armed && hold.Snap.Air.Flying)
	assert.Equal(t, stored.Run.Last+20, stored.Run.Disarmed)
	assert.InDelta(t, 8, silent.Run.Before.Height, 0.3)
	assert.NotEmpty(t, silent.Trail)
	assert.Less(t, silent.Trail[len(silent.Trail)-1].Pos.Z, -silent.Craft.Body.HalfHeight/2)
	assert.True(t, p.reads("It flies on as it was told last."))
	was := p.losses().Stored
	p.tap("Period")
	assert.Equal(t, was, p.losses().Stored, "not while the radio is silent")

	p.tap("L")
	p.wait(500)
	assert.True(t, p.reads("The link is only just there"))
	assert.True(t, p.reads("The arm switch is already on"))
	p.wait(7500)
	for i := range c {
		assert.NotEqual(t, int64(lossrun.NotYet), c[i].Run.Again, "craft %d is armed again", i)
	}

	p.tap("Period")
	assert.Equal(t, lossrun.ArmedLow, p.losses().Stored)
	p.tap("Delete")
	assert.Equal(t, lossrun.Waiting, c[0].Run.Phase)
	for range 30 {
		if p.losses().Steady {
			break
		}
		p.wait(1000)
	}
	require.True(t, p.losses().Steady)
	p.tap("L")
	p.wait(4000)
	assert.True(t, stored.Snap.Armed, "it lies on the ground, armed")
	assert.NotEqual(t, int64(lossrun.NotYet), stored.Run.Down)
	assert.True(t, p.reads("and lies right below, broken and still ARMED."))

	p.tap("Enter") // the pilot goes
	p.wait(100)
	assert.False(t, p.losses().Flown)
	after := p.snap().In
	assert.Equal(t, before.Air, after.Air)
	assert.Equal(t, before.Hands, after.Hands)
	assert.Equal(t, before.Checked, after.Checked, "the way to the first flight is not opened by it")
	assert.True(t, after.Transmitter)
	assert.True(t, p.reads("The keyboard drives"))
	p.tap("Esc")
	assert.True(t, p.reads("Nothing refuses arming") || p.reads("DISARMED"))
	assert.False(t, p.quit)
}

// On the desk bench hands do it themselves, by keyboard, on this very sheet.
func TestTheFailsafeOnTheDeskByHand(t *testing.T) {
	p := beginner(t, nil)
	p.tap("F")
	p.tap("Space")
	p.hold("W", 552)
	require.True(t, p.snap().Armed)
	c := &p.losses().Crafts
	for i := range c {
		assert.True(t, c[i].Snap.Armed && c[i].Snap.Motor == p.snap().Motor, "%d", i)
	}
	p.tap("L")
	p.wait(1000)
	assert.Equal(t, [3]bool{false, true, false}, [3]bool{c[0].Snap.Armed, c[1].Snap.Armed, c[2].Snap.Armed})
	assert.True(t, p.reads("Its motors do what they were told last."))
	p.tap("L")
	p.wait(1500)
	p.tap("X") // throttle down at once
	p.tap("Space")
	p.wait(200)
	assert.True(t, p.reads("It obeyed the radio at once, and was disarmed by it"))
	assert.Equal(t, int64(lossrun.NotYet), c[1].Run.Lost)
	p.tap("Space")
	p.wait(200)
	for i := range c {
		assert.True(t, c[i].Snap.Armed, "%d: armed again", i)
	}
	// Begun again, the three are where the pilot's own is.
	p.tap("Delete")
	for i := range c {
		assert.Equal(t, lossrun.Waiting, c[i].Run.Phase)
		assert.Equal(t, p.snap().Armed, c[i].Snap.Armed)
	}
	// Away from the sheet nobody does anything beside the pilot's own.
	p.tap("F")
	assert.Empty(t, p.loop.Companions())
	p.tap("F")
	assert.Equal(t, lossrun.Waiting, c[0].Run.Phase)
}

// Opened in the air, the three go on from where the pilot's own is, and time can be slowed and stopped; leaving the sheet while its own
// pilot flies gives the bench back.
func TestTheFailsafeFromTheAir(t *testing.T) {
	p := sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, s *screen.Options) { s.Outside = true })
	p.tap("Enter")
	p.tap("S")
	p.wait(2500)
	p.tap("B")
	p.tap("Enter")
	require.True(t, p.snap().In.Air)
	p.wait(2500)
	p.tap("Space")
	p.hold("W", 829)
	p.wait(1200)
	require.True(t, p.snap().Air.Flying)
	p.tap("F")
	c := &p.losses().Crafts
	for i := range c {
		assert.Equal(t, p.snap().Air.Body, c[i].Snap.Air.Body, "%d", i)
	}
	p.tap("G")
	assert.True(t, p.reads("Time stands still."))
	p.tap("L")
	p.wait(500)
	assert.Equal(t, lossrun.Waiting, c[0].Run.Phase, "nothing happens while time stands still")
	p.tap("G")
	p.wait(200)
	assert.Equal(t, lossrun.Off, c[0].Run.Phase)
	p.wait(6000)
	assert.False(t, c[0].Snap.Air.Flying)
	p.tap("Delete")
	p.wait(200)
	assert.True(t, p.snap().In.Air && p.snap().In.Transmitter)
	for i := range c {
		assert.InDelta(t, 0, c[i].Snap.Air.Body.Pos.Z, 0.1, "at the start again")
		assert.Empty(t, trailAbove(c[i].Trail, 0.5))
	}
	p.tap("Enter")
	p.wait(300)
	require.True(t, p.losses().Flown)
	p.tap("Esc")
	p.wait(200)
	s := p.snap()
	assert.True(t, s.In.Air, "it was on the air bench, and is there again")
	assert.Equal(t, sim.Default().Body.Turns, s.In.Hands)
	assert.True(t, p.reads("The keyboard drives"))
}

// trailAbove are the points of a trail above a height.
func trailAbove(trail []ui.TrailPoint, height float64) (out []ui.TrailPoint) {
	for _, p := range trail {
		if -p.Pos.Z > height {
			out = append(out, p)
		}
	}
	return out
}

func TestTheFailsafeBesideAScriptIsLookedAtOnly(t *testing.T) {
	p := sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, s *screen.Options) {
		played, err := script.Parse("lesson", []byte("name: a lesson\nsteps:\n  - {at: 3s, link: off}\nend: 9s\n"), d.Names)
		require.NoError(t, err)
		d.Script, s.Bare, s.Open = played.Source(), true, ui.OnLoss.Open()
	})
	p.wait(1000)
	assert.True(t, p.reads("Only what is played can work the radio's switch."))
	for _, key := range []string{"L", "Enter", "Period", "Delete"} {
		for _, h := range p.page.Hits() {
			assert.NotEqual(t, key, h.Key)
		}
		p.tap(key)
	}
	assert.True(t, p.snap().In.Transmitter)
	assert.False(t, p.losses().Flown)
	p.wait(3000)
	assert.True(t, p.reads("RADIO OFF"))
	assert.Equal(t, lossrun.Off, p.losses().Crafts[1].Run.Phase)
}

// What the sheet asks for can be done: what refuses comes before the arming, and a radio that is pulled out has no switch that brings it
// back.
func TestTheFailsafeAsksForWhatCanBeDone(t *testing.T) {
	p := beginner(t, nil)
	p.tap("U")
	p.tap("F")
	assert.True(t, p.reads("its set-up cable; pull the cable out."), "%q", texts(p))
	assert.False(t, p.reads("Arm and raise the throttle"))
	p.tap("F")
	p.tap("U")
	p.tap("P")
	p.tap("F")
	assert.True(t, p.reads("The craft has no power. Press P on the bench to connect its pack. Or press Enter, and a pilot flies them."), "%q", texts(p))
	p.tap("F")
	p.tap("P")
	p.wait(2500)
	p.tap("F")
	require.True(t, p.reads("Arm and raise the throttle, then press L: the radio goes off."))
	p.tap("Space")
	p.hold("W", 552)
	require.True(t, p.reads("All three do the same."))
	p.tap("L")
	p.wait(300)
	assert.Equal(t, lossrun.Off, p.losses().Crafts[0].Run.Phase)

	p, h := atTheRadio(t)
	p.pass(h, 3000)
	p.tap("F")
	h.pull(true)
	for _, d := range h.open {
		_ = d.Close()
	}
	p.pass(h, 500)
	assert.Equal(t, lossrun.Off, p.losses().Crafts[0].Run.Phase)
	assert.True(t, p.reads("Then plug the radio in again."), "%q", texts(p))
	assert.False(t, p.reads("brings the radio back"), "L would switch it off as well")
}

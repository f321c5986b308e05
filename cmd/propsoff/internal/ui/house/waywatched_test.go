package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	provesheet "propsoff.example/cmd/propsoff/internal/ui/prove"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/sim/craftfile"
)

// shown is what the sheet shows of a way that is played.
func (p *person) shown() provesheet.Show { return provesheet.Of(p.s.View()).Show }

// playedOut waits until a way has come to its end.
func (p *person) playedOut() {
	p.t.Helper()
	for n := 0; !p.shown().Over; n++ {
		require.Less(p.t, n, 3000, "it does not end")
		p.wait(16)
	}
}

// A way is played on the sheet, on a craft of its own: each step is shown before it is made, the state stands large, and the finding beside it at the end.
// One control put elsewhere and played again comes to something else, and where a mend is known the same hands are harmless there.
func TestAWayIsWatchedAndPlayedAgain(t *testing.T) {
	p := sitAtProve(t, heldCraft)
	p.searched()
	p.taps("Enter")
	require.True(t, p.reads("step 1 of 8"), "%q", texts(p))
	before := p.snap()
	p.tap("Comma")
	assert.True(t, p.reads("next: step 1 of 8"), "%q", texts(p))
	assert.True(t, p.reads("DISARMED"))
	p.taps("Enter Enter") // made, and gone on
	assert.True(t, p.reads("next: step 2 of 8"), "%q", texts(p))
	p.tap("PageUp")
	assert.True(t, p.reads("next: step 1 of 8"), "a step back")
	p.playedOut()
	assert.True(t, p.reads("how it ended"))
	assert.True(t, p.reads("ARMED") && p.reads("motors turning"))
	assert.True(t, p.reads("The receiver repeats the last values"))
	assert.Equal(t, before.Armed, p.snap().Armed, "the pilot's own craft has no part in it")
	assert.Equal(t, before.In.Transmitter, p.snap().In.Transmitter)

	p.tap("PageUp") // to the arm switch
	assert.False(t, p.shown().On)
	require.True(t, p.reads("Arm switch low (988 µs)"), "%q", texts(p))
	p.taps("Right Comma")
	p.playedOut()
	assert.True(t, p.reads("Here it does not happen: DISARMED, motors still"), "%q", texts(p))
	assert.False(t, p.shown().Snap.Armed)
	p.tap("Backspace")
	assert.True(t, p.reads("step 4 of 8"), "stopped, and still in the way: %q", texts(p))

	p.taps("Backspace Period")
	p.mended()
	p.taps("Backspace Enter Quote")
	assert.True(t, p.reads("The same hands in the layout of mend 1: there it cannot happen"), "%q", texts(p))
	p.tap("Comma")
	p.playedOut()
	assert.False(t, p.shown().Snap.Armed)
	p.tap("Esc")
	assert.False(t, p.shown().On)
	p.tap("Esc")
	assert.True(t, p.reads("rules, and what was found"))
}

// Places are chosen by keys, by number, by pointer and by finger.
func TestAPlaceIsChosen(t *testing.T) {
	p := sitAtProve(t, heldCraft)
	p.page = ink.NewPage(960, 600, 0, nil)
	p.searched()
	p.taps("Enter PageDown PageDown PageDown")
	at := func() int { return provesheet.Of(p.s.View()).PlaceAt }
	require.True(t, p.reads("Arm switch middle (1500 µs)"), "%q", texts(p))
	assert.Zero(t, at())
	p.tap("Left")
	assert.Equal(t, 2, at(), "round the list")
	p.tap("2")
	assert.Equal(t, 1, at())
	p.taps("Right Right")
	assert.Zero(t, at())
	for _, finger := range []bool{false, true} {
		for n, name := range []string{"place-1", "place-2", "place-3"} {
			box := p.hit(name).Box
			p.point(ink.Pointer{Finger: finger}, box, 0.5, 0.5)
			p.point(ink.Pointer{Phase: ink.Up, Finger: finger}, box, 0.5, 0.5)
			assert.Equal(t, n, at(), "%s, finger %v", name, finger)
		}
	}
	press := func(name string) {
		box := p.hit(name).Box
		p.point(ink.Pointer{}, box, 0.5, 0.5)
		p.point(ink.Pointer{Phase: ink.Up}, box, 0.5, 0.5)
	}
	press("watch-way")
	assert.True(t, p.shown().On)
	press("show-way")
	press("watch-way")
	assert.False(t, p.shown().On)
}

// armHeld is heldCraft without a mode switch, for a radio that has none.
const armHeld = `propsoff: craft 1
name: Repeats
receiver: {when-silent: repeats-last}
link: {silence-limit: 100 ms, clean-time: 100 ms}
channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5}
arming: {by: switch, on: {from: 1600, to: 2180}, still-time: 200 ms}
`

// The hands on a real radio lead the way: it waits for each of them, says what stands wrong, and ends as the search claims. Without the radio it
// goes on by itself.
func TestTheHandsLeadAWay(t *testing.T) {
	f, err := craftfile.Parse("craft.yaml", []byte(armHeld))
	require.NoError(t, err)
	const seconds = 1_000_000
	p, h := radioBefore(t, func(h *handsRadio, _ *clock) whodrives.Radios {
		h.r.Move(40*seconds, 300_000, 0, 2047) // the throttle, which is no part of the step that waits
		h.r.Move(50*seconds, 300_000, 0, 0)
		h.r.Move(60*seconds, 100_000, 4, 2047)
		h.r.Move(75*seconds, 300_000, 0, 2000)
		return h
	}, func(d *whodrives.Options, s *screen.Options) {
		s.Craft, s.CraftName, s.Names = f, f.Name, f.Names()
		s.Names.Refusals, s.Names.Happenings = codes.Refusals(), codes.Happenings()
		d.Loop.UseCraft(f.Config(), "")
	})
	p.pass(h, 3000)
	p.tap("F8")
	p.searched()
	p.taps("Enter")
	require.True(t, p.reads("my hands lead"), "%q", texts(p))
	p.taps("Semicolon Comma")
	at := func(time int64) {
		t.Helper()
		require.Less(t, p.clock.now, time)
		for p.clock.now < time {
			p.pass(h, 160)
		}
	}
	at(39 * seconds)
	step, tick := provesheet.Of(p.s.View()).Step, p.shown().Snap.Tick
	assert.True(t, p.shown().Waits)
	assert.True(t, p.reads("Arm switch to its high position") && p.reads("It waits for your hand"), "%q", texts(p))
	at(45 * seconds)
	assert.True(t, p.shown().Waits)
	assert.True(t, p.reads("Throttle stands fully up (2012 µs); this step wants it fully down (988 µs)."), "%q", texts(p))
	at(55 * seconds)
	assert.False(t, p.reads("this step wants it"), "%q", texts(p))
	assert.Equal(t, tick, p.shown().Snap.Tick, "time stands still")
	at(70 * seconds)
	assert.Greater(t, provesheet.Of(p.s.View()).Step, step)
	assert.True(t, p.shown().Waits && p.reads("Throttle fully up"), "%q", texts(p))
	assert.True(t, p.shown().Snap.Armed)
	at(100 * seconds)
	assert.True(t, p.shown().Over)
	assert.True(t, p.shown().Snap.Armed)
	assert.NotZero(t, p.shown().Snap.Motor[0])
	assert.True(t, p.reads("how it ended"))

	p.taps("Comma")
	at(120 * seconds)
	assert.True(t, p.shown().Waits, "once more, and the hands stand wrong from the beginning")
	assert.True(t, p.reads("next: step 1 of 8"))
	p.tap("Semicolon")
	p.pass(h, 30_000)
	assert.True(t, p.shown().Over, "by itself")
}

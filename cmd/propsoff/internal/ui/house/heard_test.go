package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/input/inputtest"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/pulse"
)

// atACraft sits at the keyboard, throttle down, before a shipped craft in whose file some words are others.
func atACraft(t *testing.T, name string, words ...string) *person {
	return ready(sitDownTo(t, name, changed(t, name, words...), func(d *whodrives.Options, o *screen.Options) { o.Bare, o.Names = true, d.Names }))
}

const fallsSilent, repeatsLast = "when-silent: falls-silent ", "when-silent: repeats-last "

// A craft that is about to disarm by itself is not disarmed by a hand that does not reach it, and nobody is told so.
func TestNoHandDisarmsWhatHearsNoRadio(t *testing.T) {
	t.Run("by sticks, sinking", func(t *testing.T) {
		p := atACraft(t, "teasel-by-sticks", "when-lost: cut ", "when-lost: sink ", "sink-time: 4 s ", "sink-time: 1 s ")
		p.hold("S", 20)
		p.s.Key("S", true)
		p.hold("D", 1000)
		p.s.Key("S", false)
		p.wait(200)
		require.True(t, p.snap().Armed)
		p.hold("W", 710)
		p.tap("L")
		for p.wait(16); p.snap().Armed; p.wait(16) {
			require.False(t, p.reads("To disarm, hold"), "silent for %d ms", p.snap().SilentMillis)
		}
	})
	t.Run("by switch", func(t *testing.T) {
		p := atACraft(t, "teasel")
		p.tap("Space")
		p.wait(100)
		require.True(t, p.snap().Armed && p.reads("To disarm, press Space"))
		p.s.Key("L", true)
		p.s.Key("L", false)
		for p.wait(32); p.snap().Armed; p.wait(16) {
			require.False(t, p.reads("To disarm, press"), "silent for %d ms", p.snap().SilentMillis)
		}
	})
}

// While an instructor's radio holds the arm channel off, or has the sticks, nobody is told to do what his own hand cannot.
func TestWhatTheInstructorHas(t *testing.T) {
	until := func(p *person, h *handsRadio, at int64) {
		for p.clock.now < at {
			p.pass(h, 16)
		}
	}
	const held = "The instructor's radio holds the arm switch off. Arming takes both: yours off first; then, with the instructor's on, yours on."
	t.Run("the arm switch", func(t *testing.T) {
		p, h, _ := atTwoRadios(t, func(r *inputtest.Radio) { r.Move(9_000_000, 0, 4, 0); r.Move(11_000_000, 0, 4, 2047) })
		p.tap("C")
		require.True(t, p.reads("To arm, press Space"))
		until(p, h, 9_500_000)
		require.True(t, p.reads(held))
		p.tap("Space")
		p.pass(h, 300)
		require.True(t, !p.snap().Armed && p.reads(held), "%q", texts(p))
		p.tap("Space")
		until(p, h, 11_500_000)
		require.False(t, p.reads(held))
		p.tap("Space")
		p.pass(h, 100)
		assert.True(t, p.snap().Armed, "his is on")
	})
	t.Run("the sticks", func(t *testing.T) {
		p, h, _ := atTwoRadios(t, func(r *inputtest.Radio) { r.Move(9_000_000, 0, 0, 1000); r.Move(10_000_000, 0, 5, 2047) })
		p.tap("C")
		until(p, h, 10_500_000)
		require.True(t, p.reads("The instructor has the sticks."))
		require.True(t, p.reads("arming needs below 1000"))
		assert.False(t, p.reads("bring"), "%q", texts(p))
	})
}

// A stick or switch that reaches the craft only once the radio is back is no cure.
func TestCuresThatTheRadioKeepsAway(t *testing.T) {
	p := atACraft(t, "teasel", fallsSilent, repeatsLast, "arm: 5, mode: 6}", "arm: 5, mode: 6, second: 7}", "# second-switch: ", "second-switch: ",
		"#   on: {from: 1600, to: 2180}", "  on: {from: 1600, to: 2180}", "only-self-levelling: no ", "only-self-levelling: yes ")
	p.tap("3")
	p.wait(300)
	require.True(t, p.reads("The second switch is off: channel 7 reads 988 µs; move it to 1600 µs or above.") && p.reads("; move the mode switch."))
	p.tap("L")
	p.wait(500)
	assert.True(t, p.reads("The second switch is off: channel 7 reads 988 µs, by the receiver alone; arming needs it at 1600 µs or above."), "%q", texts(p))
	assert.False(t, p.reads("; move"))

	p = atACraft(t, "teasel", fallsSilent, repeatsLast)
	p.taps("U Space U L")
	p.wait(300)
	p.tap("Space")
	p.wait(300)
	assert.True(t, p.reads("The arm switch reads as on: channel 5 reads 2012 µs, by the receiver alone; it must be seen off first."), "%q", texts(p))

	p = atACraft(t, "teasel", fallsSilent, "when-silent: sends-stored ", "# stored: {throttle: 988", "stored: {throttle: 988", "arm: 988}   #", "arm: 2012}   #")
	p.tap("L")
	p.wait(1000)
	assert.True(t, p.reads("Channel 6 (mode) carries no pulse, by the receiver alone."), "%q", texts(p))
}

// A throttle that stood too high since power-up stops nowhere: what the hand can send is known.
func TestTheThrottleThatWasNotBroughtDown(t *testing.T) {
	high := func(craft string) *person {
		p := atACraft(t, craft)
		p.hold("W", 240)
		p.wait(200)
		p.taps("P P")
		p.wait(3500)
		require.Greater(t, p.snap().Jobs.Throttle, pulse.Micros(1000))
		require.Less(t, p.snap().Jobs.Throttle, pulse.FullyLow)
		return p
	}
	p := high("teasel")
	assert.True(t, p.reads("; bring it below 1000."), "%q", texts(p))
	p.hold("S", 631)
	assert.True(t, p.reads("To arm, press Space"))
	p = high("teasel-by-sticks")
	p.hold("D", 1500)
	assert.True(t, p.reads("The sticks stop short of the corner: the lowest value seen of channel 1 (throttle) is"), "%q", texts(p))
}

// Who only waits for a link that is lost again and again waits for ever, and is not told to.
func TestALinkThatNeverStaysIsNotWaitedFor(t *testing.T) {
	p := atACraft(t, "teasel")
	p.plant(fault.Dropouts, 400, 1500) // 1.1 s of link at a time; 1.2 s are needed
	p.wait(500)                        // until it is lost
	said := 0
	for range 300 {
		p.wait(16)
		require.False(t, p.reads("only just there; wait"))
		if p.reads("The link is only just there; it must stay whole for") {
			said++
		}
	}
	assert.Positive(t, said)
}

// Nobody moved the arm switch of a craft that reads it reversed from now on.
func TestDisarmedByWhatTheCraftRead(t *testing.T) {
	p := atACraft(t, "teasel")
	p.tap("Space")
	p.wait(100)
	p.plant(fault.Reversed, 5, 0)
	p.wait(100)
	require.False(t, p.snap().Armed)
	assert.True(t, p.reads("the arm channel was read as off"), "%q", texts(p))
}

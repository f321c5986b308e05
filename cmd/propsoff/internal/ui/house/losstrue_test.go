package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// readyWith is a pupil at the keyboard of a shipped craft in whose file some words are others, who may go outside.
func readyWith(t *testing.T, name string, words ...string) *person {
	return ready(sitDownTo(t, "changed", changed(t, name, words...), func(_ *whodrives.Options, s *screen.Options) { s.Bare, s.Outside = true, true }))
}

// plant plants a fault with its numbers.
func (p *person) plant(d pulse.Deed, a, b int32) {
	v, ok := fault.Plant(d, a, b)
	require.True(p.t, ok)
	p.loop.Desk().Put(pulse.Instructor, v)
	p.wait(60)
}

// The key that brings the radio back is named only where it does.
func TestARadioThatAKeyDoesNotBringBack(t *testing.T) {
	p := readyWith(t, "teasel")
	p.tap("F")
	p.plant(fault.RadioOff, 0, 0)
	p.wait(1000)
	require.True(t, p.reads("Compare what the three do."), "%q", texts(p))
	assert.False(t, p.reads("L brings the radio back"))
	p.tap("L") // now it is off besides
	assert.True(t, p.reads("Compare what the three do."))
	assert.False(t, p.reads("L brings the radio back"))
	p.loop.Desk().Put(pulse.Instructor, fault.Lift(fault.RadioOff))
	p.wait(100)
	require.True(t, p.reads("L brings the radio back"), "%q", texts(p))
	p.tap("L")
	assert.True(t, p.snap().Receiving)
}

// What is said of an armed craft comes as it is armed: with its throttle low one that is to sink cuts.
func TestWhatIsSaidOfASilentRadioComes(t *testing.T) {
	p := readyWith(t, "teasel", "when-lost: cut ", "when-lost: sink ")
	p.tap("F")
	require.True(t, p.reads("an armed craft sinks for 4 s, then cuts; with its throttle low it cuts without sinking."), "%q", texts(p))
	p.tap("Space")
	p.wait(150)
	require.True(t, p.reads("after 0.24 s the craft cuts, because its throttle is low."), "%q", texts(p))
	p.hold("W", 552)
	require.True(t, p.reads("after 0.24 s the craft sinks for 4 s, then cuts."), "%q", texts(p))
	p.tap("X")
	p.wait(100)
	require.True(t, p.reads("the craft cuts, because its throttle is low."))
	p.tap("L")
	p.wait(400)
	assert.True(t, p.reads("It noticed, and cut 0.24 s after"), "%q", texts(p))
}

// What a receiver repeats is not called stored, and who is about to arm does not stay disarmed.
func TestSticksThatAreRepeatedArm(t *testing.T) {
	p := readyWith(t, "teasel-by-sticks")
	p.tap("F")
	p.s.Key("S", true)
	p.s.Key("D", true)
	p.wait(500)
	p.s.Key("L", true)
	p.s.Key("L", false)
	p.wait(50)
	c := &p.losses().Crafts[link.RepeatsLast]
	require.NotZero(t, c.Snap.Dwell)
	assert.True(t, p.reads("The arming corner is held: it will arm."), "%q", texts(p))
	assert.True(t, p.reads("It was not armed, and stays so."), "the one with stored values does")
	p.wait(700)
	require.True(t, c.Snap.Armed)
	assert.True(t, p.reads("The sticks that its receiver repeats ARMED it, with nobody at the radio."), "%q", texts(p))
	assert.False(t, p.reads("The stored values ARMED it"))
	p.s.View().Class = true
	p.tap("F11")
	assert.False(t, p.reads("ARMED by stored values"), "%q", texts(p))
}

// A craft that fell does not just stand there.
func TestACraftThatFellArmed(t *testing.T) {
	p := readyWith(t, "teasel")
	p.tap("F")
	p.tap("Period")
	p.tap("Enter")
	p.wait(16_000)
	require.True(t, p.reads("They hover."), "%q", texts(p))
	p.tap("L")
	p.wait(4000)
	require.Greater(t, p.losses().Crafts[link.SendsStored].Run.Speed, 8.0)
	assert.True(t, p.reads("It obeyed the stored values, came down at 10.9 m/s, and lies right below, broken and still ARMED."), "%q", texts(p))
}

// The pilot is offered where it can fly, and where it cannot arm, that is said with the reason.
func TestThePilotIsOfferedWhereItCanFly(t *testing.T) {
	const offer, promise = "a pilot flies them", "The pilot arms, climbs and hovers"
	for name, plant := range map[string]func(*person){
		"cable":    func(p *person) { p.plant(fault.CableIn, 0, 0) },
		"arm out":  func(p *person) { p.plant(fault.ChannelOut, 5, 0) },
		"throttle": func(p *person) { p.plant(fault.Reversed, 1, 0) },
	} {
		p := readyWith(t, "teasel")
		plant(p)
		p.tap("F")
		assert.False(t, p.reads(offer), "%s: %q", name, texts(p))
		p.tap("Enter")
		for range 12 {
			p.wait(500)
			require.False(t, p.snap().Armed, name)
			require.False(t, p.reads(promise), name)
			require.True(t, p.reads("The pilot cannot arm it. "), "%s: %q", name, texts(p))
		}
	}
	p := readyWith(t, "teasel")
	p.plant(fault.WrongPropeller, 1, 0)
	p.tap("F")
	assert.False(t, p.reads(offer))
	p.tap("Enter")
	p.wait(4000)
	assert.False(t, p.reads(promise), "%q", texts(p))
	// The bench is made ready first; a cable that an instructor planted stays.
	p = readyWith(t, "teasel")
	p.tap("U")
	p.tap("F")
	require.True(t, p.reads(offer))
	p.plant(fault.CableIn, 0, 0)
	require.False(t, p.reads(offer))
	p.loop.Desk().Put(pulse.Instructor, fault.Lift(fault.CableIn))
	p.wait(50)
	require.True(t, p.reads(offer))
	p.tap("Enter")
	require.True(t, p.reads(promise), "%q", texts(p))
	p.wait(16_000)
	require.True(t, p.reads("They hover."))
	p.plant(fault.Stuck, 1, 0)
	p.wait(20_000)
	require.False(t, p.reads("They hover."), "%q", texts(p))
}

// A radio that was off before the sheet was opened is not heard.
func TestARadioThatWasOffAlready(t *testing.T) {
	p := readyWith(t, "teasel")
	p.tap("L")
	p.wait(800)
	p.tap("F")
	p.wait(300)
	require.True(t, p.reads("RADIO OFF"))
	assert.True(t, p.reads("The radio was off already."))
	assert.False(t, p.reads("The radio is still heard."))
	p.tap("L")
	assert.True(t, p.reads("The radio is still heard."))
	p.tap("F")
	p.plant(fault.RadioOff, 0, 0)
	p.wait(800)
	p.tap("F")
	p.wait(300)
	assert.False(t, p.reads("The radio is still heard."), "%q", texts(p))
}

// A craft whose motors stop while it climbs does not fall yet.
func TestMotorsThatStopInTheClimb(t *testing.T) {
	p := readyWith(t, "teasel")
	p.tap("B")
	p.tap("Enter")
	p.wait(2500)
	p.tap("Space")
	p.wait(150)
	p.hold("W", 947)
	p.wait(1000)
	p.tap("Space")
	p.wait(100)
	climb := -p.snap().Air.Body.Vel.Z
	require.Greater(t, climb, 5.0)
	assert.True(t, p.reads("Its motors are off; it still climbs at "), "%q", texts(p))
	for -p.snap().Air.Body.Vel.Z > -1 {
		p.wait(16)
	}
	assert.True(t, p.reads("It falls: its motors are off."))
}

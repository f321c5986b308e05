package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
)

// atOtherGestures sits at the sheet of gestures of a shipped craft in whose file some words are others; the keyboard drives.
func atOtherGestures(t *testing.T, craft string, words ...string) *person {
	return ready(atGesturesOf(t, craft, changed(t, craft, words...), "", nil))
}

// held keeps keys down for a while.
func (p *person) held(ms int, keys ...string) {
	for _, k := range keys {
		p.s.Key(k, true)
	}
	p.wait(ms)
	for _, k := range keys {
		p.s.Key(k, false)
	}
}

// openMenu opens the craft's own menu by the sticks, and lets go.
func (p *person) openMenu() {
	p.held(800, "A")
	p.held(800, "Up")
	p.wait(300)
	require.True(p.t, p.s.View().Goggles.Open)
}

// A menu that no stick can move is not said to be moved by one, whatever the receiver goes on sending.
func TestAMenuThatTheSticksDoNotReach(t *testing.T) {
	for way, says := range map[string]string{
		"when-silent: falls-silent ": "The menu stands still: nothing of the radio's reaches the craft.",
		"when-silent: repeats-last ": "No stick moves the menu now: nothing of the radio's reaches the craft, and the receiver goes on sending.",
	} {
		p := atOtherGestures(t, assets.BuiltIn, "when-silent: falls-silent ", way)
		p.openMenu()
		mark := func() int { return p.s.View().Goggles.Mark }
		assert.False(t, p.reads(says), "the radio is on")
		was := mark()
		p.held(250, "Down")
		p.wait(300)
		require.NotEqual(t, was, mark())
		p.tap("L")
		p.wait(100)
		was = mark()
		for range 5 {
			p.held(250, "Down")
			p.wait(100)
			assert.True(t, p.reads(says), "%s %q", way, texts(p))
		}
		assert.Equal(t, was, mark())
	}
}

// A look back shows the craft as it was then, and not the menu that is open now.
func TestALookBackShowsNoMenuOfNow(t *testing.T) {
	p := atOtherGestures(t, assets.BuiltIn)
	p.openMenu()
	p.tap("Esc")
	p.tap("I")
	p.tap("C")
	require.True(t, p.s.View().Goggles.Open)
	p.tap("R")
	p.wait(100)
	require.True(t, p.s.View().Flight.Replay.On)
	assert.False(t, p.s.View().Goggles.Open)
}

// A corner is told while the craft hears the radio, and never from the last frame that it heard.
func TestNoCornerOfASilentRadio(t *testing.T) {
	p := atOtherGestures(t, "teasel-by-sticks")
	p.held(1100, "S", "D")
	p.wait(100)
	require.True(t, p.snap().Armed)
	p.s.Key("S", true)
	p.s.Key("A", true)
	for range 40 {
		if p.wait(16); p.reads("staying here also disarms") {
			break
		}
	}
	require.True(t, p.reads("This is the disarm corner"))
	p.s.Key("L", true)
	p.s.Key("L", false)
	for range 60 {
		p.wait(20)
		require.False(t, p.reads("This is the disarm corner"), "%q", texts(p))
	}
}

package house_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/pulse"
)

// caps counts the key caps that stand beside sticks and switches.
func (p *person) caps() (n int) {
	for _, it := range p.page.Items() {
		if strings.HasSuffix(it.Name, " key word") && it.Group != "keys" && !strings.HasPrefix(it.Name, "replay") && !strings.HasPrefix(it.Name, "cure") {
			n++
		}
	}
	return n
}

// A key that a planted fault keeps from doing anything says so, and says nothing of the fault.
func TestACableThatIsHeldSaysSo(t *testing.T) {
	p := sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, o *screen.Options) { o.Bare = true })
	p.taps("S X")
	p.wait(2500)
	p.plant(fault.CableIn, 0, 0)
	p.wait(300)
	require.True(t, p.snap().In.Craft.Cable)
	assert.False(t, p.reads("cable out"), "the key does nothing")
	p.tap("U")
	assert.True(t, p.reads("The cable stays in: it is not your hand that keeps it there."))
	assert.False(t, p.reads("planted"))
	p.loop.Desk().Put(pulse.Instructor, fault.Lift(fault.CableIn))
	p.wait(300)
	p.tap("U")
	p.wait(100)
	require.True(t, p.snap().In.Craft.Cable, "the key works again")
	assert.True(t, p.reads("cable out"))
}

// What an open menu refuses is offered to be ended by its key, on the bench and on the sheet of gestures; the key opens the craft's and
// the camera's menu in turn.
func TestTheKeyOfAnOpenMenuClosesIt(t *testing.T) {
	p := atGestures(t, assets.BuiltIn, "", nil)
	p.taps("O S X")
	p.wait(2500)
	for _, menu := range []uint8{pulse.MenuCraft, pulse.MenuCamera, pulse.MenuCraft} {
		p.tap("M")
		require.Equal(t, menu, p.snap().In.Craft.Menu)
		require.Equal(t, "close menu", p.does(ui.TurnMenu))
		p.tap("O")
		require.True(t, p.reads("Press M to close it.") || p.reads("or press M."), "%q", texts(p))
		p.tap("O")
		p.tap("M")
		require.Equal(t, uint8(pulse.MenuClosed), p.snap().In.Craft.Menu)
	}
}

// The desk says of a craft without a limit that a low pack makes nothing refuse.
func TestTheDeskSaysWhatALowPackComesTo(t *testing.T) {
	const none, limit = "This craft has no limit (pack-limit), so nothing refuses", "This craft refuses below"
	look := func(craft string, changes ...string) *person {
		p := atACraft(t, craft, changes...)
		p.tap("I")
		for range fault.LowPack - 1 {
			p.tap("PageDown")
		}
		require.True(t, p.reads("The pack has"))
		return p
	}
	p := look("teasel")
	require.Zero(t, p.loop.Craft().Arming.PackLimitMilliVolts)
	assert.True(t, p.reads(none), "%q", texts(p))
	p.tap("Enter")
	p.wait(300)
	assert.Zero(t, p.snap().Refusals)
	for _, it := range ink.Describe(p.page).Items {
		assert.NotContains(t, it.Text, "mV")
	}
	p = look("teasel", "pack-limit: 0 V", "pack-limit: 14 V")
	assert.False(t, p.reads(none))
	assert.False(t, p.reads(limit))
	p.tap("Enter")
	p.wait(300)
	assert.NotZero(t, p.snap().Refusals)
	p = look("teasel", "pack-limit: 0 V", "pack-limit: 12 V")
	assert.True(t, p.reads(limit), "%q", texts(p))
	p.tap("Enter")
	p.wait(300)
	assert.Zero(t, p.snap().Refusals)
}

// Key caps stand beside sticks and switches only where they move them: not on the check, and not while one looks back.
func TestKeyCapsStandWhereTheyWork(t *testing.T) {
	p := inTheAir(t)
	require.Positive(t, p.caps())
	require.True(t, p.reads("each key stands beside what it moves"))
	p.tap("R")
	p.wait(100)
	require.True(t, p.s.View().Flight.Replay.On)
	assert.Zero(t, p.caps())
	assert.False(t, p.reads("each key stands beside what it moves"))
	p.tap("I") // on the desk too the keys of the bar work
	p.tap("G")
	at := p.s.View().Flight.Replay.At
	p.tap("Left")
	p.wait(100)
	assert.Less(t, p.s.View().Flight.Replay.At, at)
	assert.Zero(t, p.caps())
	p.tap("I")
	p.tap("R")
	p.tap("G")
	p.wait(100)
	assert.Positive(t, p.caps())
	p.tap("F4")
	p.wait(100)
	assert.Zero(t, p.caps(), "%q", texts(p))
}

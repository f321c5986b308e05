package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/input/script"
	"propsoff.example/input/usb"
)

// twoRadios are plugged in from the beginning.
type twoRadios struct{ noRadios }

func (twoRadios) Found() []usb.Found {
	return []usb.Found{{Path: "/dev/input/a", Name: "Moorland Desk"}, {Path: "/dev/input/b", Name: "Moorland Pocket"}}
}

func TestWhatIsPlayedIsNotMeddledWith(t *testing.T) {
	p := sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, s *screen.Options) {
		played, err := script.Parse("lesson", []byte("name: first lesson\nsteps:\n  - {at: 1s, link: off}\nend: 6s\n"), d.Names)
		require.NoError(t, err)
		d.Script, d.Radios, s.Bare = played.Source(), twoRadios{}, true
	})
	p.wait(2000)
	assert.True(t, p.reads("Playing: first lesson."))
	assert.True(t, p.reads("The radio is off."))
	assert.False(t, p.reads("Press "), "no key does anything about it")
	before := p.snap().In
	require.False(t, before.Transmitter)
	for _, key := range []string{"L", "P", "U", "T", "N", "M", "W", "Space", "Tab", "F7"} {
		for _, h := range p.page.Hits() {
			assert.NotEqual(t, key, h.Key, "it is not offered")
		}
		p.tap(key)
	}
	after := p.snap().In
	assert.Equal(t, before.Craft, after.Craft)
	assert.Equal(t, before.Sent, after.Sent)
	assert.Equal(t, before.Powered, after.Powered)
	assert.False(t, after.Transmitter)
	assert.False(t, p.reads("press a number"))
	p.tap("F1")
	assert.True(t, p.reads("once what is played has ended"))
	p.tap("F1")

	p.wait(5000)
	assert.True(t, p.reads("Played to its end: first lesson. Tab: the keyboard drives."))
	assert.True(t, p.reads("What was played has ended. Press Tab to go on by keyboard."))
	p.tap("Tab")
	assert.True(t, p.reads("The keyboard drives"))
	p.tap("L")
	assert.True(t, p.snap().In.Transmitter)
	p.wait(4000)
	p.tap("Space")
	assert.True(t, p.snap().Armed)
}

// Where the demo pilot does not fit the craft the keyboard drives from the start, and that no radio is there is said all
// the same, for a while.
func TestACraftWithoutADemoSaysThatNoRadioIsThere(t *testing.T) {
	p := sitDownAt(t, "teasel-by-sticks", nil)
	p.wait(30_000) // reads the cautions slowly
	p.tap("Enter")
	p.wait(100)
	assert.True(t, p.reads("The keyboard drives"))
	assert.True(t, p.reads("No radio is plugged in"))
	assert.False(t, p.reads("Space"), "this craft has no arm switch")
	p.wait(19_000)
	assert.True(t, p.reads("No radio is plugged in"))
	p.wait(1500)
	assert.False(t, p.reads("No radio is plugged in"))
	p.tap("F1")
	for range 3 {
		if !p.reads("this craft has no arm switch") {
			p.tap("PageDown")
		}
	}
	assert.True(t, p.reads("this craft has no arm switch"))
}

func TestTheKeyboardsUnnamedChannelIsListedOnceItIsMoved(t *testing.T) {
	for _, c := range []struct{ craft, channel string }{{assets.BuiltIn, "7"}, {"teasel-by-sticks", "5"}} {
		p := sitDownAt(t, c.craft, nil)
		p.tap("Enter")
		p.tap("S")
		p.wait(200)
		listed := func() bool {
			for _, it := range p.page.Items() {
				if it.Name == "channel-number" && it.Text == c.channel {
					return true
				}
			}
			return false
		}
		assert.False(t, listed(), c.craft)
		p.tap("Q")
		assert.True(t, listed(), c.craft)
	}
}

func TestARadioAskedForByNameIsWaitedFor(t *testing.T) {
	p := sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, s *screen.Options) { d.Device, s.Bare = "Curlew", true })
	p.wait(100)
	assert.True(t, p.reads(`No radio called “Curlew” is plugged in; waiting for it.`))
	assert.False(t, p.reads("choose joystick if it asks"), "the general sentence")
}

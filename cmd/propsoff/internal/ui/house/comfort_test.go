package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/comfort"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/remembered"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim/pulse"
)

// The sheet is as the system says, also when that changes, until a person chooses one; then that one stays.
func TestTheSheetIsAsTheSystemSaysUntilOneIsChosen(t *testing.T) {
	var wish comfort.Wishes
	kept := new(remembered.File)
	p := sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, o *screen.Options) {
		o.System, o.Remembered = func() comfort.Wishes { return wish }, kept
	})
	p.tap("Enter")
	theme := func() string { p.wait(20); return ink.Describe(p.page).Theme }
	assert.Equal(t, "light", theme())
	wish.Dark = true
	assert.Equal(t, "dark", theme())
	wish.MoreContrast = true
	assert.Equal(t, "white-on-black", theme())
	wish.Dark = false
	assert.Equal(t, "black-on-white", theme())
	assert.Empty(t, kept.Sheet, "nobody has chosen")
	for _, next := range []string{"white-on-black", "light", "dark", "black-on-white"} {
		p.tap("F5")
		assert.Equal(t, next, theme())
		assert.Equal(t, next, kept.Sheet)
	}
	p.tap("F5") // behind the one that the system says there is the way back to the system
	assert.Equal(t, "black-on-white", theme())
	assert.Empty(t, kept.Sheet)
	assert.True(t, p.reads("The sheet is as the system says again; now that is black on white."))
	p.tap("F5")
	wish = comfort.Wishes{}
	assert.Equal(t, "white-on-black", theme(), "what was chosen wins")

	p.taps("F5 F5")
	assert.Equal(t, "light", theme())
	assert.Empty(t, kept.Sheet, "nobody has chosen any more")
	assert.True(t, p.reads("The sheet is as the system says again; now that is light."))
	wish.Dark = true
	assert.Equal(t, "dark", theme())
	p.tap("F5")
	assert.Equal(t, "black-on-white", theme(), "the first that is chosen looks otherwise")
	assert.False(t, p.reads("as the system says"))

	first := sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, o *screen.Options) {
		o.System = func() comfort.Wishes { return comfort.Wishes{} }
	})
	require.Equal(t, ui.OnCautions, first.s.Place())
	first.taps("F5 F5 F5 F5")
	first.wait(20)
	assert.False(t, first.reads("as the system says"))
	first.tap("F5")
	first.wait(20)
	assert.True(t, first.reads("The sheet is as the system says again; now that is light."), "before the cautions are read, too: %q", texts(first))

	chosen := sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, o *screen.Options) {
		o.System, o.Theme = func() comfort.Wishes { return comfort.Wishes{Dark: true, MoreContrast: true} }, ink.Light()
	})
	assert.Equal(t, "light", ink.Describe(chosen.page).Theme)
}

// Text is as large as the system says, as far as the window has room, until a person chooses a size.
func TestTextIsAsLargeAsTheSystemSaysUntilASizeIsChosen(t *testing.T) {
	wish, kept := comfort.Wishes{}, new(remembered.File)
	p := atStart(t, func(_ *whodrives.Options, o *screen.Options) {
		o.System, o.Remembered = func() comfort.Wishes { return wish }, kept
	})
	scale := func() float64 { p.wait(20); return p.page.Scale }
	usual := scale()
	wish.Text = 110
	assert.InDelta(t, 1.1, scale()/usual, 0.001)
	wish.Text = 300
	most := scale()
	assert.Greater(t, most, usual)
	assert.LessOrEqual(t, ink.LeastWidth*most, 1280+1e-6, "no larger than there is room")
	assert.Zero(t, kept.TextSize, "nobody has chosen")
	p.tap("Equal")
	small := scale()
	assert.Less(t, small, usual, "after the largest comes the smallest")
	assert.Equal(t, 85, kept.TextSize)
	wish.Text = 0
	assert.Equal(t, small, scale(), "what was chosen wins")
}

// turned is how far round the mark of an armed craft has turned.
func turned(t *testing.T, p *ink.Page) float64 {
	t.Helper()
	for _, it := range p.Items() {
		if it.Name == "turning" {
			return it.From
		}
	}
	require.Fail(t, "nothing says that it is armed")
	return 0
}

// Where less motion is wished, the mark of an armed craft stands still and a cleared refusal is crossed off at once; what the craft and the hands do still
// moves.
func TestNothingMovesForItsOwnSakeWhereLessMotionIsWished(t *testing.T) {
	wish := comfort.Wishes{}
	p := ready(sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, o *screen.Options) {
		o.Bare, o.System = true, func() comfort.Wishes { return wish }
	}))
	p.tap("Space")
	p.wait(300)
	require.True(t, p.snap().Armed)
	first := turned(t, p.page)
	p.wait(200)
	assert.NotEqual(t, first, turned(t, p.page), "it turns")
	wish.LessMotion = true
	p.wait(20)
	first = turned(t, p.page)
	for range 20 {
		p.wait(70)
		assert.Equal(t, first, turned(t, p.page))
	}
	sent := p.sent()
	p.s.Key("W", true)
	p.wait(300)
	assert.NotEqual(t, sent, p.sent())
	assert.True(t, p.reads("Armed."), "the chart goes on")

	s := uitest.Ready(t).Tell(pulse.Tilt, 450).Wait(300).Tell(pulse.Tilt, 0).Wait(150)
	crossed := func() float64 {
		for _, r := range s.V.RefusalRows() {
			if !r.Stands {
				return r.Crossed
			}
		}
		require.Fail(t, "none is being crossed off")
		return 0
	}
	assert.Less(t, crossed(), 0.9)
	s.V.Still = true
	assert.Equal(t, 1.0, crossed())
}

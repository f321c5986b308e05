package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/input/usb"
)

func inPage(_ *whodrives.Options, o *screen.Options) { o.InPage = true }

// In a page nothing leaves the program: Esc leads to the four doors and no further, and no key says that it would.
func TestInAPageNothingLeavesTheProgram(t *testing.T) {
	p := sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, o *screen.Options) { inPage(d, o); o.Start = true })
	stays := func(on ui.Place) {
		t.Helper()
		p.tap("Esc")
		p.wait(50)
		require.Equal(t, on, p.s.Place())
		require.False(t, p.quit)
		for _, h := range p.page.Hits() {
			require.NotEqual(t, ui.Leave.Code(), h.Name, "on %s", on)
		}
	}
	stays(ui.OnCautions)
	p.tap("Enter")
	p.wait(50)
	stays(ui.OnStart)
	p.clicks("start-row-2", "leave")
	stays(ui.OnStart)
	for _, about := range p.s.House.Sheets() {
		if about.Key == "" || about.Place == ui.OnStart || about.InAir {
			continue
		}
		p.tap(about.Key)
		for range 4 { // out of what is open in it, then off it
			p.tap("Esc")
		}
		p.wait(50)
		require.Equal(t, ui.OnStart, p.s.Place(), "back from %s", about.Place)
	}
	stays(ui.OnStart)
}

// A page that nobody sees: time stands, whatever the browser lets run meanwhile, and no link is lost by it; keys that were down are let go.
func TestNothingHappensWhileNobodySeesIt(t *testing.T) {
	p := ready(sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, o *screen.Options) { inPage(d, o); o.Bare = true }))
	p.taps("Space")
	p.wait(200)
	require.True(t, p.reads("ARMED"))
	p.s.Key("W", true)
	p.wait(100)
	p.s.Unsee(true)
	p.loop.Turn()
	before := p.s.View().Snap.Tick
	for range 3 {
		p.clock.now += 60_000_000
		p.wait(1)
	}
	require.LessOrEqual(t, p.s.Flight.Live.Tick, before+1)
	p.s.Unsee(false)
	p.wait(200)
	assert.True(t, p.reads("This page was hidden, so the bench stood still."))
	assert.True(t, p.s.Flight.Live.Armed, "it is as it was left")
	throttle := p.s.Flight.Live.In.Sent
	p.wait(500)
	assert.Equal(t, throttle, p.s.Flight.Live.In.Sent, "no key is held any more")
	p.wait(8000)
	assert.False(t, p.reads("This page was hidden"))
}

// A drill that measures something ends where nobody can see it, and says why; nothing is judged.
func TestADrillEndsWhenNobodySeesIt(t *testing.T) {
	p, book := atDrills(t)
	p.goTo("Find the throttle")
	p.tap("Enter")
	for n := 0; !p.reads("Now"); n++ {
		require.Less(t, n, 800)
		p.wait(16)
	}
	p.s.Unsee(true)
	p.clock.now += 30_000_000
	p.loop.Turn()
	p.s.Unsee(false)
	p.wait(100)
	require.True(t, p.reads("This page was hidden, so nothing could be measured: the drill was ended."), "%q", texts(p))
	require.Empty(t, book.runs, "nothing was tried, so nothing counts")
}

// What a browser needs to show a radio is said where a person looks for it; so is why none can be read.
func TestWhatABrowserNeedsToShowARadio(t *testing.T) {
	p := sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, o *screen.Options) { inPage(d, o); o.Start, o.Bare = true, true })
	require.True(t, p.reads("press a button on your radio"))
	p.clicks("start-row-1")
	require.True(t, p.reads("a browser shows a radio only then"))
	p = sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, o *screen.Options) {
		inPage(d, o)
		o.Start, o.Bare = true, true
		o.NoRadios = words.T("notice.radios-not-read", words.Args{"why": words.Error(words.Wrong("usb.none-insecure").Because(usb.ErrNone))})
	})
	p.clicks("start-row-1")
	require.True(t, p.reads("this browser shows radios only on a secure address"))
	for _, size := range [][2]float64{{960, 600}, {1170, 2532}, {2532, 1170}} {
		p.s.Page(p.page, size[0], size[1])
		for _, q := range ink.Check(p.page) {
			assert.Equal(t, ink.DeadSpace, q.Fault, "%v: %s", size, q) // two rows leave much of it empty, in a window too
		}
	}
}

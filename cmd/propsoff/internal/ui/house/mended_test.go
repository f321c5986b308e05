package house_test

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/first"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
)

// A radio that drives and is pulled out is not said to drive: neither on the bench nor on the first sheet. It drives again when it is back.
func TestARadioThatIsPulledOutIsNotSaidToDrive(t *testing.T) {
	p, h := atTheRadio(t)
	p.pass(h, 500)
	require.True(t, p.reads("Moorland Desk 7 drives."))
	h.pull(true)
	for _, d := range h.open {
		_ = d.Close()
	}
	p.pass(h, 300)
	assert.True(t, p.reads("Moorland Desk 7 is unplugged. It drives again when it is plugged in."), texts(p))
	assert.False(t, p.reads("Moorland Desk 7 drives."))
	assert.False(t, p.reads("reading goes on"), "the same is not said twice")
	p.tap("Esc")
	assert.False(t, p.reads("plugged in and drives"), texts(p))
	assert.False(t, p.reads("Moorland Desk 7 drives."))
	p.tap("Esc")
	h.pull(false)
	p.pass(h, 1000)
	assert.True(t, p.reads("Moorland Desk 7 drives."), texts(p))
}

// While a radio is learned, or it is asked which one it is, what the bench comes to meanwhile is neither heard nor written.
func TestTheBenchIsSilentWhileARadioIsLearned(t *testing.T) {
	p, h := atTheRadio(t)
	p.pass(h, 3000)
	p.tap("F2")
	for range 60 {
		p.pass(h, 100)
		require.Empty(t, p.s.View().Say(p.s.View().Sound.Caption))
	}
	require.True(t, p.reads("lean the craft forward"), texts(p))
}

// What is kept is good news, and no warning stands before it.
func TestGoodNewsBearsNoWarning(t *testing.T) {
	p := atRecording(t, t.TempDir())
	marks := func(name string) (n int) {
		for _, it := range p.page.Items() {
			if it.Name == name {
				n++
			}
		}
		return n
	}
	warnings := marks("notice-mark")
	p.tap("F12")
	p.eventually("The take holds this practice")
	assert.Equal(t, [2]int{warnings, 1}, [2]int{marks("notice-mark"), marks("notice-dot")})
	p.tap("F12")
	p.eventually("The recording is kept in")
	assert.Equal(t, [2]int{warnings, 1}, [2]int{marks("notice-mark"), marks("notice-dot")})
}

// pressed clicks what lies under the middle of a text of the page.
func (p *person) pressed(item string) {
	p.t.Helper()
	for _, it := range p.page.Items() {
		if it.Name != item {
			continue
		}
		c := it.Box.Centre()
		h, ok := p.page.HitAt(c.X, c.Y)
		require.True(p.t, ok, "%s is dead: %s", item, texts(p))
		p.s.Click(h)
		p.wait(50)
		return
	}
	p.t.Fatalf("nothing is called %s: %s", item, texts(p))
}

// A key whose cap is drawn beside a sentence, or that a large sentence asks for, is pressed there as well.
func TestCapsBesideSentencesArePressed(t *testing.T) {
	p := ready(sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, s *screen.Options) { s.Bare = true }))
	p.tap("L")
	p.wait(1500)
	p.pressed("cure-key word")
	assert.True(t, p.snap().In.Transmitter, "by the cap")
	p.tap("L")
	p.wait(1500)
	p.pressed("how")
	assert.True(t, p.snap().In.Transmitter, "by the sentence")
	p.tap("P")
	p.wait(500)
	p.pressed("how")
	assert.True(t, p.snap().In.Powered)
}

// Time that stands goes on by the sentence that says so, and by one step by what is printed below.
func TestTimeGoesOnByAPress(t *testing.T) {
	p := inTheAir(t)
	p.tap("G")
	p.wait(50)
	at := p.snap().Tick
	p.click(ui.StepFlight.Code())
	assert.Equal(t, at+10, p.snap().Tick)
	p.pressed("how")
	assert.Greater(t, p.snap().Tick, at+20)
}

// Each thing that is still to be done before the first flight opens what it is done by.
func TestWhatIsStillToDoOpensWhereItIsDone(t *testing.T) {
	p, h := atTheRadio(t)
	p.pass(h, 500)
	for i, want := range []ui.Place{ui.OnCheck, ui.OnBench, ui.OnBench, ui.OnBench, ui.OnFirst} {
		p.tap("B")
		require.Equal(t, ui.OnFirst, p.s.Place())
		p.click("need-" + strconv.Itoa(i+1))
		assert.Equal(t, want, p.s.Place(), i)
		if want == ui.OnCheck {
			p.tap("Esc")
			assert.Equal(t, ui.OnFirst, p.s.Place(), "back to the list")
			p.tap("B")
		}
		if want == ui.OnFirst {
			assert.True(t, first.Of(p.s.View()).Checked)
		}
	}
}

// On the bench it is said beside the drawn craft that it is none of the pilot's own.
func TestTheCraftIsSaidToBeDrawn(t *testing.T) {
	p := ready(sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, s *screen.Options) { s.Bare = true }))
	for _, keys := range []string{"", "P"} {
		if p.taps(keys); keys != "" {
			require.False(t, p.snap().In.Powered)
		}
		p.wait(300)
		assert.True(t, p.reads("Craft, pack and cable are drawn: no key here touches a real one."), texts(p))
	}
}

// A press on the bar of a look back goes to that time, and time follows a hand that is drawn along it, which runs on from where it is let go.
func TestTheBarOfALookBackFollowsTheHand(t *testing.T) {
	for _, finger := range []bool{false, true} {
		p := inTheAir(t)
		p.tap("R")
		share := func() float64 {
			re := p.s.View().Flight.Replay
			require.True(t, re.On)
			return float64(re.At) / float64(re.Length)
		}
		bar := p.hit(ui.ReplayBar).Room
		p.point(ink.Pointer{Finger: finger}, bar, 0.5, 0.5)
		assert.InDelta(t, 0.5, share(), 0.01)
		p.wait(500)
		assert.InDelta(t, 0.5, share(), 0.01, "under the hand it stands")
		for _, to := range []float64{0.75, 0.3, 2, -1, 0.25} {
			p.point(ink.Pointer{Finger: finger, Phase: ink.Move}, bar, to, 9)
			assert.InDelta(t, ui.Clamp(to, 0, 1), share(), 0.01)
		}
		p.point(ink.Pointer{Finger: finger, Phase: ink.Up}, bar, 0.25, 9)
		p.wait(500)
		assert.Greater(t, share(), 0.27, "and runs on")
		p.tap("G")
		at := share()
		p.wait(500)
		assert.Equal(t, at, share())
		bar = p.hit(ui.ReplayBar).Room
		p.point(ink.Pointer{Finger: finger}, bar, 0.6, 0.5)
		p.point(ink.Pointer{Finger: finger, Phase: ink.Lost}, bar, 0.6, 0.5)
		p.wait(500)
		assert.InDelta(t, 0.6, share(), 0.01, "what stood stands")
	}
}

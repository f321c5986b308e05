package house_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/prove"
)

// heldCraft has a receiver that repeats the last values; its limits are short, so that the search is.
const heldCraft = `propsoff: craft 1
name: Repeats
receiver: {when-silent: repeats-last}
link: {silence-limit: 100 ms, clean-time: 100 ms}
channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5, mode: 6}
arming: {by: switch, on: {from: 1600, to: 2180}, still-time: 200 ms}
`

// sitAtProve sits before a craft and turns to prove.
func sitAtProve(t *testing.T, text string) *person {
	f, err := craftfile.Parse("craft.yaml", []byte(text))
	require.NoError(t, err)
	p := sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, s *screen.Options) {
		s.Bare, s.Craft, s.CraftName, s.Names = true, f, f.Name, f.Names()
		s.Names.Refusals, s.Names.Happenings = codes.Refusals(), codes.Happenings()
		d.Loop.UseCraft(f.Config(), "")
	})
	p.tap("S")
	p.tap("F8")
	return p
}

// searched waits for the end of the search: it runs in a goroutine of its own, by the real clock.
func (p *person) searched() {
	p.t.Helper()
	p.until("the search does not end", func() bool { return p.reads("Every situation was searched") || p.reads("partial") })
}

// until lets time pass until something is so that is made beside the window, at its own pace: on a busy machine, with the race detector, that may be
// a hundred times slower than usual.
func (p *person) until(why string, so func() bool) {
	p.t.Helper()
	for end := time.Now().Add(5 * time.Minute); time.Now().Before(end); time.Sleep(10 * time.Millisecond) {
		if p.wait(16); so() {
			return
		}
	}
	p.t.Fatal(why)
}

func TestProveFindsShowsAndComesBack(t *testing.T) {
	p := sitAtProve(t, heldCraft)
	assert.True(t, p.reads("with an ideal radio, because no radio drives"))
	p.searched()
	assert.True(t, p.reads("BROKEN"))
	assert.True(t, p.reads("repeats the last values"))
	assert.True(t, p.reads("the shortest way there with turning motors: 4 movements, 0.32 s"), "the throttle up too, so that the motors turn")
	p.tap("PageDown")
	assert.True(t, p.reads("the shortest way there: 4 movements, 0.2 s"), "the other broken rule")
	p.tap("PageUp")

	p.taps("Enter Enter")
	assert.False(t, p.reads("the shortest way there"), "it is shown on the bench")
	assert.True(t, p.reads("Playing: the way to a broken rule: a silent radio does not disarm."))
	p.wait(2000)
	s := p.snap()
	assert.True(t, s.Armed, "as the search claims")
	assert.False(t, s.In.Transmitter)
	assert.NotZero(t, s.Motor[0], "motors that stand still would show nothing")
	p.wait(3000)
	assert.True(t, p.reads("Played to its end: the way to a broken rule: a silent radio does not disarm."))
	p.tap("Tab")
	assert.True(t, p.reads("The keyboard drives"))
	assert.True(t, p.snap().In.Transmitter)

	p.tap("F8")
	assert.True(t, p.reads("BROKEN"), "what was found is still there")
	p.tap("Esc")
	assert.False(t, p.reads("BROKEN"))
}

// The sheet says in both places who drives after Tab, and so it is.
func TestTheDemoPilotGoesOnAfterAWayIsShown(t *testing.T) {
	f, err := craftfile.Parse("craft.yaml", []byte(heldCraft))
	require.NoError(t, err)
	p := sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, s *screen.Options) {
		s.Bare, s.Craft, s.CraftName, s.Names = true, f, f.Name, f.Names()
		s.Names.Refusals, s.Names.Happenings = codes.Refusals(), codes.Happenings()
		d.Loop.UseCraft(f.Config(), "")
	})
	p.tap("F8")
	p.searched()
	p.taps("Enter Enter")
	p.wait(5000)
	assert.True(t, p.reads("Press Tab to go back to the demo pilot."))
	assert.True(t, p.reads("Tab: the demo pilot drives."))
	p.tap("Tab")
	assert.True(t, p.reads("The demo pilot drives"))
}

// slowCraft has millions of situations.
const slowCraft = `propsoff: craft 1
name: Slow
link: {when-lost: sink, sink-time: 20 s}
channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, mode: 6}
arming: {by: sticks}
`

func TestProveIsStopped(t *testing.T) {
	p := sitAtProve(t, slowCraft)
	assert.True(t, p.reads("Searching: "))
	assert.True(t, p.reads("to be searched"))
	assert.True(t, p.reads("stop searching"))
	p.tap("Slash")
	p.searched()
	assert.True(t, p.reads("Stopped before the end, so this answer is partial"))
	assert.True(t, p.reads("undecided"))
	assert.False(t, p.reads("Every situation was searched"))
}

// Once it is known how many situations there will be, the sheet tells how long the search will go on, by the clock of the practice.
func TestProveTellsTheTimeLeft(t *testing.T) {
	p := sitAtProve(t, strings.Replace(slowCraft, "20 s", "4 s", 1))
	p.until("the time left is never told", func() bool { return p.reads("About ") })
	assert.True(t, p.reads("Searching: "), "it goes on")
	assert.True(t, p.reads("About "))
	p.tap("Slash")
	p.searched()
	assert.False(t, p.reads("About "))
}

func TestProveIsBegunAgainAndLookedThrough(t *testing.T) {
	p := sitAtProve(t, heldCraft)
	p.searched()
	p.tap("Slash")
	p.searched()
	assert.False(t, p.reads("to be searched"))
	for range int(prove.RuleCount) { // once round
		p.tap("PageDown")
	}
	assert.True(t, p.reads("the shortest way there with turning motors: 4 movements, 0.32 s"))
	clicked := false // the first one that holds: three are broken
	for _, h := range p.page.Hits() {
		if h.Name == "rule-4" {
			p.s.Click(h)
			clicked = true
		}
	}
	assert.True(t, clicked)
	p.wait(16)
	assert.True(t, p.reads("Held against"))
	assert.True(t, p.reads("what the search moves"))
}

// A way is gone into and out of by keys, by pointer and by finger, in the least window too, and each of its steps can be looked at.
func TestAWayIsLookedAtStepByStep(t *testing.T) {
	p := sitAtProve(t, heldCraft)
	p.page = ink.NewPage(960, 600, 0, nil)
	p.searched()
	assert.False(t, p.reads("step 1 of"))
	p.taps("Enter PageDown PageDown")
	assert.True(t, p.reads("step 3 of"))
	p.taps("Up Up Up")
	assert.True(t, p.reads("step 1 of"), "it stops at the beginning")
	p.taps("Down Down Down Down")
	assert.True(t, p.reads("step 5 of"))
	assert.False(t, p.s.View().Playing())
	p.tap("Backspace")
	assert.False(t, p.reads("step 5 of"))
	assert.True(t, p.reads("rules, and what was found"))
	p.taps("Enter Esc")
	assert.True(t, p.reads("rules, and what was found"), "one step back, not away")
	for _, finger := range []bool{false, true} {
		press := func(name string) {
			box := p.hit(name).Box
			p.point(ink.Pointer{Finger: finger}, box, 0.5, 0.5)
			p.point(ink.Pointer{Phase: ink.Up, Finger: finger}, box, 0.5, 0.5)
		}
		press("rule-1")
		assert.True(t, p.reads("step 1 of"), "finger %v", finger)
		press("way-step-2")
		assert.True(t, p.reads("step 2 of"), "finger %v", finger)
		press("all-rules")
		assert.True(t, p.reads("rules, and what was found"), "finger %v", finger)
	}
}

// A craft that has changed since makes what was found old news, and the sheet says so.
func TestProveOfAnotherCraftIsStale(t *testing.T) {
	p := sitAtProve(t, heldCraft)
	p.searched()
	other, err := craftfile.Parse("craft.yaml", []byte(heldCraft+"modes: {angle: {from: 860, to: 2180}}\n"))
	require.NoError(t, err)
	p.s.Options.Craft = other // as the layout sheet does when it saves a span that was moved
	p.wait(16)
	assert.True(t, p.reads("have changed since this search"))
	p.tap("Enter")
	assert.True(t, p.reads("have changed since this search"), "nothing old is shown")
	p.tap("Slash")
	p.searched()
	assert.False(t, p.reads("have changed since this search"))
}

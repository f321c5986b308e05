package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/ui/seats"
	"propsoff.example/input/radio"
	"propsoff.example/sim/handset"
)

// seated sits down before a radio that is known, with an arm switch and a mode button, none of them placed. It gives the radio's file as it is
// kept, and throws the arm switch.
func seated(t *testing.T) (p *person, kept func(job string) radio.Spot, throw func()) {
	o := &oneRadio{radio: curlew("Z9"), clock: &clock{}}
	store := radio.Store{Dir: t.TempDir()}
	f := radio.File{Device: radio.DeviceOf(o.radio.Info()), StickMode: 2}
	for k, job := range radio.Needed() {
		f.Controls = append(f.Controls, radio.Control{Job: job, Form: radio.Axis, Axis: k})
	}
	f.Controls = append(f.Controls, radio.Control{Job: "arm", Form: radio.Button, Buttons: []int{0}}, radio.Control{Job: "mode", Form: radio.Button, Buttons: []int{1}})
	path, err := store.Save(f)
	require.NoError(t, err)
	o.radio.Rest(0, 0)
	moved := int64(0)
	p = sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, s *screen.Options) {
		o.clock = d.Clock.(*clock)
		moved = o.clock.now + 5_000_000
		o.radio.Press(moved, 0, true)
		o.radio.Until(moved + 5_000_000)
		d.Radios, d.Store, s.Bare = o, store, true
	})
	pass := func(until int64) {
		for p.clock.now < until {
			if o.device != nil {
				o.device.Pass(p.clock.now)
			}
			p.wait(16)
		}
	}
	pass(p.clock.now + 200_000)
	require.Equal(t, ui.Radio, p.s.View().Driver)
	kept = func(job string) radio.Spot {
		f, err := radio.Load(path, radio.Known{})
		require.NoError(t, err)
		c, ok := f.Control(job)
		require.True(t, ok)
		return c.Spot
	}
	return p, kept, func() { pass(moved + 2_000_000) }
}

// By the radio and a pointer alone: the switch that is moved is the one that is asked for, and it sits where the drawing is pressed.
func TestControlsArePlacedByAPointer(t *testing.T) {
	p, kept, throw := seated(t)
	p.tap("F6")
	p.press("seats")
	require.Equal(t, ui.OnSeats, p.s.Place())
	require.True(t, p.reads("Where does “arm switch” sit?"))
	p.press("seat-2")
	require.True(t, p.reads("Where does “mode switch” sit?"), "a row of the list chooses")
	require.Zero(t, kept("arm"))
	seen := &seats.Of(p.s.View()).Seen // "arm" is pressed where it is drawn: it is chosen, and "mode" stays where it is
	box, at := p.hit("seat-view-2").Box, seen.Boxes[0].Centre()
	p.point(ink.Pointer{}, box, (at.X-box.X)/box.W, (at.Y-box.Y)/box.H)
	p.point(ink.Pointer{Phase: ink.Up}, box, (at.X-box.X)/box.W, (at.Y-box.Y)/box.H)
	require.True(t, p.reads("Where does “arm switch” sit?"))
	require.Zero(t, kept("mode"))
	p.press("seat-2")
	throw()
	require.True(t, p.reads("Where does “arm switch” sit?"), "it was moved")
	box = p.hit("seat-view-2").Box
	p.point(ink.Pointer{Finger: true}, box, 0.25, 0.75)
	p.point(ink.Pointer{Phase: ink.Up, Finger: true}, box, 0.25, 0.75)
	assert.Equal(t, radio.Spot{View: radio.Shoulders, X: 250, Y: 750, Way: radio.GoesUp}, kept("arm"))
	p.press("seat-turn")
	assert.Equal(t, radio.Spot{View: radio.Shoulders, X: 250, Y: 750, Way: radio.GoesDown}, kept("arm"))
	assert.Zero(t, kept("mode"))
	p.press("seat-keep")
	require.True(t, p.reads("Where does “mode switch” sit?"))
	p.press("seat-keep")
	assert.NotZero(t, kept("mode"), "where it was guessed is where it sits")
	assert.Equal(t, ui.OnLayout, p.s.Place(), "all are placed")
	p.press("seats")
	p.press("seat-2")
	seen = &seats.Of(p.s.View()).Seen // "arm", which is not the chosen one, is drawn along: it goes, and "mode" stays
	box, at = p.hit("seat-view-2").Box, seen.Boxes[0].Centre()
	was := kept("mode")
	p.point(ink.Pointer{ID: 1, Finger: true}, box, (at.X-box.X)/box.W, (at.Y-box.Y)/box.H)
	p.point(ink.Pointer{ID: 1, Finger: true, Phase: ink.Move}, box, 0.6, 0.5)
	p.point(ink.Pointer{ID: 1, Finger: true, Phase: ink.Up}, box, 0.6, 0.5)
	assert.Equal(t, radio.Spot{View: radio.Shoulders, X: 600, Y: 500, Way: radio.GoesDown}, kept("arm"))
	assert.Equal(t, was, kept("mode"))
	p.press("leave")
	assert.Equal(t, ui.OnLayout, p.s.Place())
	assert.False(t, p.quit)
}

// By keys alone: arrow keys take a control over the edges of the views, and nothing of what a presenter's remote sends does any harm.
func TestControlsArePlacedByKeys(t *testing.T) {
	p, kept, _ := seated(t)
	p.tap("F6")
	p.tap("Backquote")
	require.True(t, p.reads("Where does “arm switch” sit?"))
	p.tap("PageDown")
	require.True(t, p.reads("Where does “mode switch” sit?"))
	p.tap("PageUp")
	require.True(t, p.reads("Where does “arm switch” sit?"))
	for _, key := range []string{"F5", "F5", "B"} {
		p.tap(key)
	}
	require.Equal(t, ui.OnSeats, p.s.Place())
	require.Zero(t, kept("arm"))
	was := seats.Of(p.s.View()).Drawn.Controls[0].Spot
	p.tap("Right")
	assert.Equal(t, int16(was.X+50), kept("arm").X)
	for range 3 {
		p.tap("Down")
	}
	assert.Equal(t, radio.Face, kept("arm").View, "over the edge of the shoulders onto the face")
	p.tap("Up")
	p.tap("Up")
	assert.Equal(t, radio.Shoulders, kept("arm").View)
	for range 25 {
		p.tap("Right")
	}
	assert.Equal(t, radio.Back, kept("arm").View)
	for range 7 {
		p.tap("Left")
	}
	assert.Equal(t, radio.Shoulders == kept("arm").View, false)
	for range 40 {
		p.tap("Left")
	}
	assert.Equal(t, radio.Spot{View: radio.Face, X: 0, Y: kept("arm").Y, Way: radio.GoesUp}, kept("arm"))
	for range 9 {
		p.tap("Slash")
	}
	assert.Equal(t, radio.GoesRight, kept("arm").Way, "seven ways, and two more")
	p.tap("Enter")
	p.tap("Esc")
	assert.Equal(t, ui.OnLayout, p.s.Place())
	assert.Zero(t, kept("mode"), "it was left for later")
	p.tap("Backquote")
	p.tap("Backquote")
	assert.Equal(t, ui.OnLayout, p.s.Place())
}

// All as they are drawn, by one key; without a radio there is nothing to place.
func TestAllAreKeptAtOnce(t *testing.T) {
	p, kept, _ := seated(t)
	p.tap("F6")
	p.tap("Backquote")
	drawn := seats.Of(p.s.View()).Drawn
	require.True(t, drawn.Controls[0].Spot.Guessed)
	p.tap("Semicolon")
	assert.Equal(t, ui.OnLayout, p.s.Place())
	assert.Equal(t, radio.Shoulders, kept("arm").View)
	assert.Equal(t, radio.Shoulders, kept("mode").View)
	p.tap("Backquote")
	assert.True(t, p.reads("Every control has its place."))
	assert.Equal(t, handset.OnShoulders, seats.Of(p.s.View()).Drawn.Controls[0].Spot.View)
	p.tap("Enter")
	assert.Equal(t, ui.OnLayout, p.s.Place(), "nothing is left to be asked")

	p = sitDown(t, "")
	p.tap("Enter")
	p.tap("F6")
	p.tap("Backquote")
	assert.Equal(t, ui.OnLayout, p.s.Place())
}

// The card says of a radio whose switches nobody has placed how they are, and who follows it gets there.
func TestTheCardLeadsToTheSeats(t *testing.T) {
	p, _, _ := seated(t)
	p.tap("F9")
	require.True(t, p.reads("While the radio drives it can be told: F4, then “`”."))
	p.tap("F4")
	p.tap("Backquote")
	require.Equal(t, ui.OnSeats, p.s.Place())
}

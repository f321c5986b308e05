package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/sim/pulse"
)

// hit is an area of the page that stands drawn.
func (p *person) hit(name string) ink.Hit {
	p.t.Helper()
	for _, h := range p.page.Hits() {
		if h.Name == name {
			return h
		}
	}
	require.Fail(p.t, "nothing to press", name)
	return ink.Hit{}
}

// point does one thing with a pointer at shares of a box, from its upper left corner.
func (p *person) point(e ink.Pointer, box ink.Rect, across, down float64) {
	e.At = ink.Point{X: box.X + box.W*across, Y: box.Y + box.H*down}
	e.Hit, e.On = p.page.HitAt(e.At.X, e.At.Y)
	e.List, e.OnList = p.page.ListAt(e.At)
	p.s.Point(e)
	p.wait(120)
}

// press presses what is called so, and lets it go.
func (p *person) press(name string) {
	p.t.Helper()
	box := p.hit(name).Box
	p.point(ink.Pointer{}, box, 0.5, 0.5)
	p.point(ink.Pointer{Phase: ink.Up}, box, 0.5, 0.5)
}

// stick is the area of the stick of stick mode 2 that carries the throttle, or the other.
func stick(throttle bool) string {
	g := figure.Gimbals[2][1]
	if throttle {
		g = figure.Gimbals[2][0]
	}
	return ui.StickHit(figure.JobFacts[g.Across].Axis, figure.JobFacts[g.Up].Axis)
}

func (p *person) sent() pulse.Frame { return p.snap().In.Sent }

func TestFlownByAPointerAlone(t *testing.T) {
	p := sitDown(t, "")
	p.press("understood")
	left := p.hit(stick(true))
	p.point(ink.Pointer{}, left.Room, 0.5, 1)
	p.point(ink.Pointer{Phase: ink.Up}, left.Room, 0.5, 1)
	assert.Equal(t, ui.Keyboard, p.s.View().Driver, "a stick that is taken takes over from the demo pilot")
	p.wait(2500)
	assert.Equal(t, pulse.Low, p.sent()[0])
	p.press("arm-switch")
	require.True(t, p.snap().Armed)
	left = p.hit(stick(true)) // where it is by now

	p.point(ink.Pointer{}, left.Room, 0.5, 0.5)
	p.point(ink.Pointer{Phase: ink.Move}, left.Room, 1, 0.25)
	assert.Equal(t, pulse.High, p.sent()[3], "yaw to the right")
	assert.InDelta(t, int(pulse.Micros(1756)), int(p.sent()[0]), 16, "three quarters up")
	p.point(ink.Pointer{Phase: ink.Up}, left.Room, 1, 0.25)
	p.wait(200)
	assert.Equal(t, pulse.Centre, p.sent()[3], "yaw springs back")
	assert.InDelta(t, int(pulse.Micros(1756)), int(p.sent()[0]), 16, "the throttle stays")

	// Two fingers at once, and one that leaves the window.
	left = p.hit(stick(true))
	p.point(ink.Pointer{ID: 1, Finger: true}, left.Room, 0, 0.5)
	right := p.hit(stick(false))
	p.point(ink.Pointer{ID: 2, Finger: true}, right.Room, 1, 0)
	assert.Equal(t, [3]pulse.Width{pulse.Low, pulse.High, pulse.High}, [3]pulse.Width{p.sent()[3], p.sent()[1], p.sent()[2]})
	p.point(ink.Pointer{ID: 1, Phase: ink.Lost, Finger: true}, left.Room, 0, 0.5)
	p.point(ink.Pointer{ID: 2, Phase: ink.Move, Finger: true}, right.Room, 3, -2)
	assert.Equal(t, [3]pulse.Width{pulse.Centre, pulse.High, pulse.High}, [3]pulse.Width{p.sent()[3], p.sent()[1], p.sent()[2]}, "beyond the edge it is at its end")
	p.point(ink.Pointer{ID: 2, Phase: ink.Up, Finger: true}, right.Room, 1, 0)
	p.wait(50) // only now is the sheet made for fingers: what they hold stays where it is
	right = p.hit(stick(false))

	// The mouse's second button leaves a stick where it is, for whoever has one pointer and must hold two sticks.
	p.point(ink.Pointer{Second: true}, right.Room, 0, 1)
	p.point(ink.Pointer{Second: true, Phase: ink.Up}, right.Room, 0, 1)
	p.wait(300)
	assert.Equal(t, pulse.Low, p.sent()[1])
	p.point(ink.Pointer{}, right.Room, 0.5, 0.5)
	p.point(ink.Pointer{Phase: ink.Up}, right.Room, 0.5, 0.5)
	assert.Equal(t, pulse.Centre, p.sent()[1])

	p.press("mode-high")
	assert.Equal(t, pulse.High, p.sent()[5])
	p.press("arm-switch")
	assert.False(t, p.snap().Armed)
}

func TestAPressThatIsTakenElsewhereDoesNothing(t *testing.T) {
	p := sitDown(t, "")
	p.press("understood")
	p.tap("S")
	pack, radio := p.hit("pack").Box, p.hit("radio-switch").Box
	p.point(ink.Pointer{}, pack, 0.5, 0.5)
	p.point(ink.Pointer{Phase: ink.Up}, radio, 0.5, 0.5)
	p.point(ink.Pointer{}, pack, 0.5, 0.5)
	p.point(ink.Pointer{Phase: ink.Lost}, pack, 0.5, 0.5)
	p.point(ink.Pointer{Second: true}, pack, 0.5, 0.5)
	p.point(ink.Pointer{Second: true, Phase: ink.Up}, pack, 0.5, 0.5)
	assert.True(t, p.snap().In.Powered && p.snap().In.Transmitter)
	p.press("pack")
	assert.False(t, p.snap().In.Powered)
}

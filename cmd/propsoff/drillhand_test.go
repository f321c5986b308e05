//go:build unix

package main

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"propsoff.example/input"
)

// A drill in the terminal begins when a radio drives and not before: it says what it waits for, and notes nothing.
func TestADrillRunWaitsForTheHand(t *testing.T) {
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	b := newBus()
	text := strings.Replace(radioText, "controls:", "stick-mode: 1\ncontrols:", 1)
	r := startCommand(t, b, nil, "drill", "run", "gesture-craft-menu", "--json", "--radio", radioFile(t, text))
	r.until(t, "A drill needs your own hand: plug in a radio that has been learned. It begins by itself then.")
	time.Sleep(300 * time.Millisecond)
	assert.NotContains(t, r.out.String(), `"code":"drill"`)
	assert.NotContains(t, r.out.String(), `"code":"try"`)
	assert.Equal(t, 1, strings.Count(r.out.String(), "needs your own hand"), "said once")

	desk := found("Moorland Desk 7", "/dev/input/event5", "A")
	b.last[desk.Path] = input.Raw{Axes: [input.MaxAxes]int32{0, 1024, 1024, 1024, 0, 0}}
	b.plug(desk)
	r.until(t, `"code":"try"`)
	assert.Contains(t, r.out.String(), `"case":0,"say":"From the call on you have `, "the time limit is told before the call")
	// How the gesture is made is told for the stick mode of this radio: in mode 1 the left stick carries yaw and pitch.
	assert.Contains(t, r.out.String(), "Hold for 0.3 s: left stick to the left, at mid height; right stick straight down. Then within 0.5 s, hold for 0.3 s: left stick straight up. Yours will differ: record your own from your craft's manual.")
	r.stop(t)
}

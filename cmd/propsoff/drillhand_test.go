//go:build unix

package main

import (
	"io"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
)

// A drill in the terminal begins when a radio drives and not before: it says what it waits for, and notes nothing.
func TestADrillRunWaitsForTheHand(t *testing.T) {
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	b := newBus()
	text := strings.Replace(radioText, "controls:", "stick-mode: 1\ncontrols:", 1)
	in, typed := io.Pipe() // somebody may type
	defer typed.Close()
	r := startCommand(t, b, func(w *world.World) { w.In = in }, "drill", "run", "gesture-craft-menu", "--json", "--radio", radioFile(t, text))
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

// Without a radio, and with an input that has ended, nobody is there to wait for: a drill says what is missing and ends, in every form and language.
// What watches waits, and says for what, and how it is left; with a time of its own it ends by itself.
func TestADrillRunWaitsForNobody(t *testing.T) {
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	ended := func(w *world.World) { w.In = strings.NewReader("") }
	for _, book := range wordstest.Books() {
		for _, form := range []string{"--plain", "--plain=false", "--json"} {
			r := startCommand(t, newBus(), ended, "drill", "run", "find-throttle", form, "--language", book.Code())
			select {
			case code := <-r.code:
				assert.Equal(t, exit.CodeTrouble, code, form)
				assert.Contains(t, r.err.String(), book.Say(words.T("drill.none-and-nobody")), form)
				assert.NotContains(t, r.out.String(), book.Say(words.T("drill.waits")), form)
			case <-time.After(time.Minute):
				t.Fatal("it waits")
			}
		}
		for _, form := range []string{"--plain", "--raw", "--json"} {
			r := startCommand(t, newBus(), ended, "watch", form, "--language", book.Code())
			if form == "--json" { // which is the same in every language
				book = words.English()
			}
			r.until(t, book.Say(words.T("notice.waits")))
			assert.Equal(t, exit.CodeDone, r.stop(t))
		}
	}
	r := startCommand(t, newBus(), ended, "watch", "--for", "300ms")
	assert.Equal(t, exit.CodeDone, <-r.code)
	assert.NotContains(t, r.out.String(), "Ctrl-C")
}

//go:build unix

package main

import (
	"context"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
)

// Where nothing can be drawn in place, or plain sentences are asked for, each change is one line, and nothing is drawn over and over.
func TestPlainSentences(t *testing.T) {
	terminal := func(w *world.World) { w.Screen = func() (int, int, bool) { return 80, 30, true } }
	dumb := func(w *world.World) {
		terminal(w)
		w.Getenv = func(name string) string { return map[string]string{"TERM": "dumb"}[name] }
	}
	for name, c := range map[string]struct {
		world func(*world.World)
		args  []string
	}{
		"a terminal that says it is dumb": {dumb, nil},
		"no terminal":                     {nil, nil},
		"asked for":                       {terminal, []string{"--plain"}},
	} {
		t.Run(name, func(t *testing.T) {
			b := newBus()
			desk := found("Moorland Desk 7", "/dev/input/event5", "A")
			b.last[desk.Path] = input.Raw{Axes: [input.MaxAxes]int32{0, 1024, 1024, 1024, 0, 0}}
			b.plug(desk)
			r := startWatch(t, b, c.world, append(c.args, "--radio", radioFile(t, radioText))...)
			r.until(t, "Nothing refuses arming.\n")
			at := len(r.out.String())
			time.Sleep(300 * time.Millisecond)
			assert.Len(t, r.out.String(), at, "nothing changes, so nothing is said")
			b.send(t, desk.Path, nil, 1)
			r.until(t, "Armed.\n")
			b.unplug(desk.Path)
			r.until(t, "Disarmed: ")
			r.until(t, "was unplugged")
			assert.Equal(t, exit.CodeDone, r.stop(t))
			assert.NotContains(t, r.out.String(), "\x1b")
			for l := range strings.Lines(r.out.String()) {
				assert.Regexp(t, `^[A-Z].*\.\n$`, l, "a sentence, without time and code")
			}
		})
	}
	t.Run("columns all the same", func(t *testing.T) {
		r := startWatch(t, newBus(), nil, "--plain=false")
		r.until(t, "Pack connected")
		assert.Equal(t, exit.CodeDone, r.stop(t))
		assert.Regexp(t, `(?m)^ +0\.000 s  power +Pack connected`, r.out.String())
	})
}

// A script that is played in plain sentences says what happened and how it ended; without --live there is nothing that goes on.
func TestPlainRun(t *testing.T) {
	path := filepath.Join(t.TempDir(), "short.yaml")
	script := "start: {throttle: low, roll: middle, pitch: middle, yaw: middle, arm: off, mode: angle}\nsteps:\n  - {at: 2.7s, arm: on}\n  - {at: 2.8s, expect: armed}\n  - {at: 2.9s, expect: disarmed}\nend: 3.3s\n"
	require.NoError(t, os.WriteFile(path, []byte(script), 0o666))
	w, out, _ := testWorld(t)
	assert.Equal(t, exit.CodeFailed, execute(context.Background(), []string{"run", path, "--live", "--plain"}, w))
	assert.Regexp(t, regexp.MustCompile(`Nothing refuses arming\.\n(.*\n)?Armed\.\n`), out.String())
	assert.Contains(t, out.String(), "expected disarmed", "what the script expected is told too")
	assert.NotContains(t, out.String(), "armed          Armed")
	code, _, errs := command(t, "run", path, "--plain")
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs, "add --live")
}

// Drills that take eyes are left out and named; asked for by name one is refused.
func TestPlainDrills(t *testing.T) {
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	code, _, errs := command(t, "drill", "run", "follow-yaw")
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs, "“follow-yaw” needs eyes")
	w, out, errOut := testWorld(t)
	w.Radios = newBus()
	assert.Equal(t, exit.CodeTrouble, execute(context.Background(), []string{"drill", "run"}, w), "%s", out)
	assert.Contains(t, errOut.String(), "A drill needs your own hand: no radio is plugged in, and nobody is waited for")
	assert.Contains(t, errOut.String(), "18 drills are left out here, since they need eyes: ")
	assert.Contains(t, errOut.String(), "Follow a mark: yaw")
	assert.Contains(t, errOut.String(), "Hold a height")
}

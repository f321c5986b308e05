//go:build unix

package main

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/input"
	"propsoff.example/input/usb"
	"propsoff.example/sim/drill"
)

// stuck is an output that takes nothing until it is let go, and tells of the first write.
type stuck struct {
	output
	began chan struct{}
	let   chan struct{}
}

func newStuck() *stuck { return &stuck{began: make(chan struct{}, 1), let: make(chan struct{})} }

func (s *stuck) Write(p []byte) (int, error) {
	select {
	case s.began <- struct{}{}:
	default:
	}
	<-s.let
	return s.output.Write(p)
}

// An output that takes nothing does not stop the reading of the radio: one that is pulled out and put back is opened again. In each manner of each
// command that reads a radio.
func TestAStuckOutputStopsNoReading(t *testing.T) {
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	file := radioFile(t, radioText)
	for _, args := range [][]string{{"watch", "--radio", file}, {"watch", "--raw"}, {"learn"}, {"check", "--radio", file}, {"drill", "run", "find-throttle", "--radio", file}} {
		for _, manner := range []string{"text", "--json", "screen"} {
			name := args[0] + " " + manner
			t.Run(name, func(t *testing.T) {
				b := newBus()
				desk := found("Moorland Desk 7", "/dev/input/event5", "A")
				b.last[desk.Path] = input.Raw{Axes: [input.MaxAxes]int32{0, 1024, 1024, 1024, 0, 0}}
				b.plug(desk)
				w, _, errs := testWorld(t)
				out := newStuck()
				w.Out, w.Radios, w.Now = out, b, usb.Now
				args := args
				switch manner {
				case "--json":
					args = append(args[:len(args):len(args)], manner)
				case "screen":
					w.Screen = func() (int, int, bool) { return 100, 40, true }
				}
				ctx, stop := context.WithCancel(context.Background())
				done := make(chan int, 1)
				go func() { done <- execute(ctx, args, w) }()
				event := func(what string, so func() bool) {
					t.Helper()
					require.Eventually(t, so, time.Minute, time.Millisecond, "%s; %s", what, errs)
				}
				opened := func() bool { b.mu.Lock(); defer b.mu.Unlock(); return b.writers[desk.Path] != nil }
				select {
				case <-out.began:
				case <-time.After(time.Minute):
					t.Fatal("nothing is written")
				}
				for range 2 {
					event("the radio is opened", opened)
					b.unplug(desk.Path)
					b.plug(desk)
				}
				event("and again", opened)
				stop()
				close(out.let)
				<-done
				assert.NotEmpty(t, out.String())
			})
		}
	}
}

// Nor does it stop the practice and its take, in a drill as little as in a script that is played live.
func TestAStuckOutputStopsNoTake(t *testing.T) {
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	for _, args := range [][]string{{"drill", "run", "find-throttle"}, {"run", demoName, "--live"}, {"watch"}} {
		path := filepath.Join(t.TempDir(), "a.take")
		w, _, _ := testWorld(t)
		in, typed := io.Pipe() // somebody may type, so a drill waits for a radio
		defer typed.Close()
		out := newStuck()
		w.In, w.Out = in, out
		ctx, stop := context.WithCancel(context.Background())
		done := make(chan int, 1)
		go func() { done <- execute(ctx, append(args, "--record", path), w) }()
		<-out.began
		var sizes []int
		require.Eventually(t, func() bool { // a digest a second
			if n := len(fileText(t, path)); len(sizes) == 0 || n > sizes[len(sizes)-1] {
				sizes = append(sizes, n)
			}
			return len(sizes) > 3
		}, time.Minute, 5*time.Millisecond, "%q", args)
		stop()
		require.Eventually(t, func() bool { _, errs := runTake(t, path); return !strings.Contains(errs, "not ended cleanly") }, time.Minute, 50*time.Millisecond, "%q: the take has its end", args)
		assert.Empty(t, done, "the command waits for its output")
		close(out.let)
		<-done
	}
}

func fileText(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil { // not there yet
		return ""
	}
	return string(text)
}

func runTake(t *testing.T, path string) (code int, said string) {
	t.Helper()
	code, out, errs := command(t, "run", path)
	return code, out + errs
}

// A signal in the middle of a drill ends it as "leave" does: the tries so far are said and kept.
func TestAStoppedDrillIsKept(t *testing.T) {
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	r := startCommand(t, deskBus(), nil, "drill", "run", "find-throttle", "find-yaw", "--json", "--pupil", "Ann", "--radio", radioFile(t, radioText))
	r.until(t, `"code":"verdict"`)
	assert.Equal(t, exit.CodeFailed, r.stop(t))
	assert.Equal(t, 1, strings.Count(r.out.String(), `"code":"drill-ended"`), r.out.String())
	assert.Equal(t, 1, strings.Count(r.out.String(), `"code":"drill"`), "the next one does not begin")
	dir, err := logbook.Folder()
	require.NoError(t, err)
	var runs []drill.Run
	_, err = (logbook.Store{Dir: dir}).Read("Ann", func(_ *logbook.Contents, e *logbook.Entry) error {
		if e.Kind == logbook.KindDrill {
			runs = append(runs, e.Run())
		}
		return nil
	})
	require.NoError(t, err)
	require.Len(t, runs, 1)
	assert.True(t, runs[0].BrokenOff)
	assert.NotEmpty(t, runs[0].Tries)
}

package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/playback"
	"propsoff.example/cmd/propsoff/internal/world"
)

// happenings are the lines of a run or a watch that are happenings.
func happenings(out string) string {
	var keep []string
	for _, l := range strings.Split(out, "\n") {
		skip := l == ""
		for _, code := range []string{"values", "notice", "finished", "difference", "model-changed", "expectation-failed"} {
			skip = skip || strings.Contains(l, `"code":"`+code+`"`)
		}
		if !skip && strings.Contains(l, `"code":`) {
			keep = append(keep, l)
		}
	}
	return strings.Join(keep, "\n")
}

// A run recorded and replayed gives the same bytes.
func TestRecordedRunReplays(t *testing.T) {
	for _, script := range []string{"refusals", "sticks", "sink", "switch"} {
		t.Run(script, func(t *testing.T) {
			take := filepath.Join(t.TempDir(), "a.take")
			code, first, errs := command(t, "run", "testdata/runs/"+script+".yaml", "--json", "--record", take)
			require.Equal(t, exit.CodeDone, code, errs)
			code, again, errs := command(t, "run", take, "--json")
			require.Equal(t, exit.CodeDone, code, errs)
			assert.NotEmpty(t, happenings(first))
			assert.Equal(t, happenings(first), happenings(again))
			assert.Contains(t, again, `"same":true`)
			digest := func(s string) string { return s[strings.Index(s, `"digest"`):] }
			assert.Equal(t, digest(first), digest(again))

			// A take of a take is the same again.
			second := filepath.Join(t.TempDir(), "b.take")
			code, _, errs = command(t, "run", take, "--record", second)
			require.Equal(t, exit.CodeDone, code, errs)
			_, third, _ := command(t, "run", second, "--json")
			assert.Equal(t, again, third)
		})
	}
}

func TestTakeOnAnotherCraft(t *testing.T) {
	take := filepath.Join(t.TempDir(), "a.take")
	code, _, errs := command(t, "run", "testdata/runs/switch.yaml", "--record", take)
	require.Equal(t, exit.CodeDone, code, errs)
	code, out, _ := command(t, "run", take, "--craft", "teasel-by-sticks")
	assert.Equal(t, exit.CodeDone, code)
	assert.NotContains(t, out, "armed ")
	assert.Contains(t, out, "nothing was compared")
}

// A take whose readings were changed does not replay to the same, and the first difference is named by time.
func TestTakeThatDiffers(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.take")
	code, _, errs := command(t, "run", "testdata/runs/switch.yaml", "--record", path)
	require.Equal(t, exit.CodeDone, code, errs)
	code, _, errs = command(t, "run", path)
	require.Equal(t, exit.CodeDone, code, errs)

	// The same hands on a craft that differs in one number only, put into a take of its own.
	changed := filepath.Join(t.TempDir(), "craft.yaml")
	text, err := os.ReadFile("../../assets/crafts/teasel.yaml")
	require.NoError(t, err)
	text = bytes.Replace(text, []byte("still-time: 2 s"), []byte("still-time: 3 s"), 1)
	require.NoError(t, os.WriteFile(changed, text, 0o666))
	w, out, _ := testWorld(t)
	p, err := playback.New(bareWorld(), &world.Named{}, path)
	require.NoError(t, err)
	defer p.Close()
	p.Craft, err = bareWorld().LoadCraft(changed, "")
	require.NoError(t, err)
	p.Start.Craft = p.Craft.Config()
	r := playback.NewReport(p, true, func(f func([]byte) []byte) { _, _ = w.Out.Write(f(nil)) })
	code, _ = exit.Code(playback.Fast(context.Background(), p, r, nil))
	assert.Equal(t, exit.CodeFailed, code)
	assert.Contains(t, out.String(), `{"t_ms":2000,"code":"difference"`)
	assert.Contains(t, out.String(), `at 2.000 s`)
	assert.Contains(t, out.String(), `"same":false`)
}

func TestTornTakeIsRunUpToItsEnd(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.take")
	code, _, errs := command(t, "run", "testdata/runs/switch.yaml", "--record", path)
	require.Equal(t, exit.CodeDone, code, errs)
	whole, err := os.ReadFile(path)
	require.NoError(t, err)
	torn := filepath.Join(t.TempDir(), "torn.take")
	require.NoError(t, os.WriteFile(torn, whole[:len(whole)-20], 0o666))
	code, out, errs := command(t, "run", torn)
	assert.Equal(t, exit.CodeDone, code, errs)
	assert.Contains(t, out, "breaks off")

	whole[len(whole)/2] ^= 0x55
	require.NoError(t, os.WriteFile(torn, whole, 0o666))
	code, _, errs = command(t, "run", torn)
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs, "damaged")

	whole[len(whole)/2] ^= 0x55
	whole[len(whole)-20] ^= 0x55 // just before the end
	require.NoError(t, os.WriteFile(torn, whole, 0o666))
	code, _, errs = command(t, "run", torn)
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs, ": propsoff repair "+torn)
	code, out, errs = command(t, "repair", torn)
	assert.Equal(t, exit.CodeDone, code, errs)
	assert.Contains(t, out, "holds the whole part")
}

// Playing in real time does tick for tick what running does.
func TestLiveRunIsTheSameRun(t *testing.T) {
	if testing.Short() {
		t.Skip("takes some seconds")
	}
	path := filepath.Join(t.TempDir(), "short.yaml")
	script := "start: {throttle: low, roll: middle, pitch: middle, yaw: middle, arm: off, mode: angle}\nsteps:\n" +
		"  - {at: 2.1s, arm: on}\n  - {at: 2.2s, expect: armed}\n  - {at: 2.3s, throttle: 1400, over: 100ms, yaw: high}\n  - {at: 2.5s, arm: off}\nend: 2.7s\n"
	require.NoError(t, os.WriteFile(path, []byte(script), 0o666))
	_, fast, _ := command(t, "run", path, "--json")
	take := filepath.Join(t.TempDir(), "live.take")
	code, live, errs := command(t, "run", path, "--json", "--live", "--record", take)
	require.Equal(t, exit.CodeDone, code, errs)
	assert.Equal(t, fast, live)
	code, replay, errs := command(t, "run", take, "--json")
	require.Equal(t, exit.CodeDone, code, errs)
	assert.Equal(t, happenings(fast), happenings(replay))

	w, out, _ := testWorld(t)
	w.Screen = func() (int, int, bool) { return 100, 40, true }
	assert.Equal(t, exit.CodeDone, execute(context.Background(), []string{"run", path, "--live"}, w))
	assert.Contains(t, out.String(), "\x1b[H")
	assert.Contains(t, out.String(), "propsoff run · short.yaml · ")
	assert.NotContains(t, out.String(), "propsoff watch")
	assert.Contains(t, out.String(), "ARMED; mode angle; link: good")
	assert.Contains(t, out.String(), "1 of 1 expectation met")
}

// A wreck teaches the same in real time, as soon as that is found out, and where the run has ended before: the same lines, if not in the same order; on the live screen it stands too.
func TestALiveRunTeachesToo(t *testing.T) {
	if testing.Short() {
		t.Skip("takes some seconds")
	}
	path := filepath.Join(t.TempDir(), "wreck.yaml")
	script := "propsoff: script 1\nstart:\n  bench: air\n  propellers: {front-left: clockwise, front-right: counter-clockwise, rear-left: counter-clockwise, rear-right: clockwise, checked: yes}\n" +
		"  throttle: 988\n  arm: off\n  mode: angle\nsteps:\n  - {at: 2.1s, arm: on}\n  - {at: 2.2s, throttle: 1500}\n  - {at: 3.2s, arm: off}\nend: 5s\n" // sooner after the wreck than anything can be found out
	require.NoError(t, os.WriteFile(path, []byte(script), 0o666))
	code, fast, errs := command(t, "run", path, "--json")
	require.Equal(t, exit.CodeDone, code, errs)
	require.Equal(t, 1, strings.Count(fast, `"could-be-saved"`))
	code, live, errs := command(t, "run", path, "--json", "--live")
	require.Equal(t, exit.CodeDone, code, errs)
	assert.ElementsMatch(t, strings.Split(fast, "\n"), strings.Split(live, "\n"))

	w, out, _ := testWorld(t)
	w.Screen = func() (int, int, bool) { return 100, 40, true }
	assert.Equal(t, exit.CodeDone, execute(context.Background(), []string{"run", path, "--live"}, w))
	assert.GreaterOrEqual(t, strings.Count(out.String(), "before it broke it could be saved"), 2, "on the screen, and among the lines at the end")
}

func TestInterruptedRun(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	w, _, errs := testWorld(t)
	assert.Equal(t, exit.CodeTrouble, execute(ctx, []string{"run", demoName}, w))
	assert.Equal(t, exit.CodeTrouble, execute(ctx, []string{"run", demoName, "--live"}, w))
	assert.Contains(t, errs.String(), "stopped")
}

//go:build linux && cgo && window

package main

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/world"
)

// built builds both programs as scripts/run does, beside each other.
func built(t *testing.T) (dir string) {
	dir = t.TempDir()
	for _, args := range [][]string{
		{"build", "-o", filepath.Join(dir, "propsoff"), "."},
		{"build", "-tags", "window", "-o", filepath.Join(dir, "propsoff-window"), "."},
	} {
		cmd := exec.Command("go", args...)
		if len(args) == 4 {
			cmd.Env = append(os.Environ(), "CGO_ENABLED=0")
		}
		out, err := cmd.CombinedOutput()
		require.NoError(t, err, "%s", out)
	}
	return dir
}

// started runs a program with one display, or with none where display is empty.
func started(t *testing.T, program, display string, args ...string) (code int, out, errs string) {
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	cmd := exec.CommandContext(ctx, program, args...)
	for _, e := range os.Environ() {
		if !strings.HasPrefix(e, "DISPLAY=") && !strings.HasPrefix(e, "WAYLAND_DISPLAY=") && !strings.HasPrefix(e, "XDG_CONFIG_HOME=") {
			cmd.Env = append(cmd.Env, e)
		}
	}
	if display != "" {
		cmd.Env = append(cmd.Env, "DISPLAY="+display)
	}
	cmd.Env = append(cmd.Env, "XDG_CONFIG_HOME="+t.TempDir())
	var o, e bytes.Buffer
	cmd.Stdout, cmd.Stderr = &o, &e
	_ = cmd.Run()
	return cmd.ProcessState.ExitCode(), o.String(), e.String()
}

// The engine opens the display before the program begins. Where there is none, the build that has the window hands over to the
// plain one beside it, which does all that needs no display, and says so where the window is asked for.
func TestWindowProgramWithoutADisplay(t *testing.T) {
	dir := built(t)
	window, plain := filepath.Join(dir, "propsoff-window"), filepath.Join(dir, "propsoff")
	script := filepath.Join(dir, "script.yaml")
	require.NoError(t, os.WriteFile(script, []byte("propsoff: script 1\nsteps:\n  - {at: 1s, arm: on}\n  - {at: 1.1s, expect: armed}\n"), 0o600))
	for name, args := range map[string][]string{
		"version": {"version"}, "help": {"--help"}, "prove": {"prove", "teasel", "--json"}, "gestures": {"gestures"}, "run": {"run", "demo"},
		"card": {"card", "-o", filepath.Join(dir, "card.pdf"), "--over"}, "an unmet expectation": {"run", script}, "no such command": {"proof"},
		"a bad flag": {"--size", "3x3"}, "link-loss": {"link-loss"},
	} {
		code, out, errs := started(t, window, "", args...)
		wantCode, wantOut, wantErrs := started(t, plain, "", args...)
		assert.Equal(t, []any{wantCode, wantOut, wantErrs}, []any{code, out, errs}, name)
		assert.NotContains(t, errs, "panic", name)
		assert.NotContains(t, errs, "glfw", name)
	}
	code, out, _ := started(t, window, "", "version")
	assert.Equal(t, exit.CodeDone, code)
	assert.True(t, strings.HasPrefix(out, "propsoff "+world.Version), out)

	// The window, without a display, and with one that nobody serves; from both programs.
	for _, program := range []string{window, plain} {
		for _, display := range []string{"", ":7654"} {
			code, out, errs := started(t, program, display)
			assert.Equal(t, exit.CodeTrouble, code, "%s at %q", program, display)
			assert.Equal(t, words.English().Say(words.T("notice.no-display"))+"\n", errs, "%s at %q", program, display)
			assert.Empty(t, out)
		}
		code, _, errs := started(t, program, ":7654", "version")
		assert.Equal(t, exit.CodeDone, code, errs)
	}

	// Alone it says what is missing.
	require.NoError(t, os.Remove(plain))
	code, _, errs := started(t, window, "", "version")
	assert.Equal(t, exit.CodeTrouble, code)
	assert.Contains(t, errs, "the program propsoff is not beside this one")

	// With a display it does all by itself.
	if display := os.Getenv("DISPLAY"); assert.NotEmpty(t, display, "this test runs under xvfb-run") {
		code, out, errs = started(t, window, display, "version")
		assert.Equal(t, exit.CodeDone, code, errs)
		assert.True(t, strings.HasPrefix(out, "propsoff "+world.Version), out)
	}

	// A window program under the plain one's name hands over to itself once at most.
	text, err := os.ReadFile(window)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(plain, text, 0o700))
	code, _, errs = started(t, plain, "", "version")
	assert.Equal(t, exit.CodeTrouble, code)
	assert.Contains(t, errs, "There is no display to open a window on.")
}

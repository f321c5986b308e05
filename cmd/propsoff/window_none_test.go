//go:build linux && (!cgo || !window)

package main

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/world"
)

// The window program takes the launcher's own place: the same process, its arguments, and its exit status. So nothing is
// left running when the launcher is killed.
func TestLauncherBecomesTheWindow(t *testing.T) {
	if os.Getenv("PROPSOFF_LAUNCH") != "" {
		err := openWindow(context.Background(), windowOptions{})
		t.Fatalf("came back: %v", err)
	}
	dir := t.TempDir()
	self, err := os.Executable()
	require.NoError(t, err)
	program, err := os.ReadFile(self)
	require.NoError(t, err)
	launcher := filepath.Join(dir, "propsoff")
	require.NoError(t, os.WriteFile(launcher, program, 0o700))
	window := filepath.Join(dir, windowProgram)
	require.NoError(t, os.WriteFile(window, []byte("#!/bin/sh\n[ \"$1\" = version ] && exit 0\necho \"$$ $*\"\nexit 7\n"), 0o700))

	launch := func(display string) (pid int, out string, code int) {
		ctx, cancel := context.WithTimeout(context.Background(), 2*time.Minute)
		defer cancel()
		cmd := exec.CommandContext(ctx, launcher, "-test.run=^TestLauncherBecomesTheWindow$")
		cmd.Env = append(os.Environ(), "PROPSOFF_LAUNCH=1", "DISPLAY="+display)
		b, _ := cmd.CombinedOutput()
		return cmd.Process.Pid, string(b), cmd.ProcessState.ExitCode()
	}
	pid, out, code := launch(":7")
	assert.Equal(t, 7, code, out)
	assert.Equal(t, strconv.Itoa(pid)+" -test.run=^TestLauncherBecomesTheWindow$", strings.TrimSpace(out))

	_, out, _ = launch("")
	assert.Contains(t, out, "came back: There is no display")
	require.NoError(t, os.Remove(window))
	_, out, _ = launch(":7")
	assert.Contains(t, out, "came back: This build of propsoff has no window")
}

// What the page can have of what was asked for goes into its address; what it cannot have opens no page.
func TestThePageInTheWindowsPlace(t *testing.T) {
	o := windowOptions{windowFlags: &windowFlags{theme: "dark"}, Named: new(world.Named), world: &world.World{Book: words.In("de")}}
	given := map[string]bool{}
	o.asked = func(flag string) bool { return given[flag] }
	assert.True(t, o.plain())
	assert.Empty(t, o.asks(), "what nobody asked for is the page's own to choose")
	given["sheet"], given["language"] = true, true
	assert.Equal(t, "?language=de&sheet=dark", o.asks())
	o.size = "1280x800"
	assert.False(t, o.plain())
}

// Where a page is built in, a window that cannot be had for what was asked names the way to it; where none is, it does not.
func TestARefusedWindowNamesThePage(t *testing.T) {
	why := words.Wrong("notice.no-display")
	assert.Equal(t, error(why), orServe(why, nil))
	for _, book := range wordstest.Books() {
		said := book.Error(orServe(why, fstest.MapFS{}))
		assert.Contains(t, said, book.Error(why))
		assert.Contains(t, said, "propsoff serve")
		assert.Empty(t, wordstest.English(t, book, said))
	}
}

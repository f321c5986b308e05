package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/exit"
)

// The shipped gestures are listed for every stick mode, as text and as JSON lines.
func TestGesturesAreListed(t *testing.T) {
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	for _, mode := range []string{"1", "2", "3", "4"} {
		code, out, errs := command(t, "gestures", "--stick-mode", mode)
		assert.Equal(t, exit.CodeDone, code, errs)
		assert.Contains(t, out, "stick mode "+mode)
		assert.Contains(t, out, "Yours will differ: record your own from your craft's manual.")
		for _, gesture := range []string{"\ncraft-menu: ", "\ncamera-set-up: ", "\ncamera-display: "} {
			assert.Contains(t, out, gesture)
		}
		assert.Contains(t, out, "throttle low, roll in the middle, pitch in the middle, yaw left")
		assert.Contains(t, out, "\n  Staying in step 1 also disarms a craft that is armed by sticks (throttle low, yaw fully left).\n")
		assert.Equal(t, 2*6, strings.Count(out, "┌"), "two sticks for each of six stands")
	}
	code, out, _ := command(t, "gestures", "--json", "--stick-mode", "1")
	assert.Equal(t, exit.CodeDone, code)
	lines := strings.Split(strings.TrimSpace(out), "\n")
	require.Len(t, lines, 3)
	assert.JSONEq(t, `{"gesture":"craft-menu","name":"the craft's own menu","by":"job","stick_mode":1,"opens":"craft-menu","arm_corner":"apart","disarm_corner":"inside","parts":[
		{"left_across":"low","left_up":"middle","right_across":"middle","right_up":"low","throttle":"low","roll":"middle","pitch":"middle","yaw":"low","hold_ms":300},
		{"left_across":"middle","left_up":"high","right_across":"middle","right_up":"low","throttle":"low","roll":"middle","pitch":"high","yaw":"middle","hold_ms":300,"within_ms":500}
	]}`, lines[0], "mode 1: yaw and pitch, roll and throttle")
}

func TestGesturesOfAFile(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("XDG_CONFIG_HOME", dir)
	file := filepath.Join(dir, "mine.yaml")
	require.NoError(t, os.WriteFile(file, []byte("propsoff: gestures 1\ngestures:\n  mine: {name: my own, stand: {left: up left}}\n"), 0o600))
	code, out, errs := command(t, "gestures", "--gestures", file)
	assert.Equal(t, exit.CodeDone, code, errs)
	assert.Contains(t, out, "mine: my own")
	assert.NotContains(t, out, "craft-menu")
	assert.NotContains(t, out, "will differ", "they are one's own")

	require.NoError(t, os.WriteFile(file, []byte("propsoff: gestures 1\n"), 0o600))
	code, out, _ = command(t, "gestures", "--gestures", file)
	assert.Equal(t, exit.CodeDone, code)
	assert.Equal(t, "This file has no gestures.\n", out)

	for _, row := range [][2]string{{"5", "--stick-mode 5: write 1, 2, 3 or 4"}, {"x", "--stick-mode x: write 1, 2, 3 or 4"}} {
		code, _, errs = command(t, "gestures", "--stick-mode", row[0])
		assert.Equal(t, exit.CodeBadInput, code)
		assert.Contains(t, errs, row[1])
	}
	code, _, errs = command(t, "gestures", "--gestures", filepath.Join(dir, "none.yaml"))
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs, "none.yaml")
}

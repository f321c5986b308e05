package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// modelOne are the takes that the last program of model 1 wrote. They stay as they are, and must load and be told for ever;
// beside each stands what that program told of it (of killed.take, which is switch.take without its end, nothing).
const modelOne = "testdata/takes/model-1"

func oldTakes(t *testing.T) []string {
	t.Helper()
	all, err := filepath.Glob(modelOne + "/*.take")
	require.NoError(t, err)
	require.Len(t, all, 14)
	return all
}

// Whatever today's model makes of its readings, what happened is told as it was recorded.
func TestTakesOfModelOneAreToldAsRecorded(t *testing.T) {
	for _, path := range oldTakes(t) {
		t.Run(filepath.Base(path), func(t *testing.T) {
			code, out, errs := command(t, "run", path, "--json")
			require.Equal(t, exitDone, code, "%s%s", out, errs)
			told, err := os.ReadFile(strings.TrimSuffix(path, ".take") + ".jsonl")
			if os.IsNotExist(err) {
				require.Contains(t, path, "killed")
				return
			}
			require.NoError(t, err)
			assert.Equal(t, strings.TrimSpace(string(told)), happenings(out))
		})
	}
}

// The takes are worth keeping: together they hold every happening of model 1, every cause of disarming, every near miss and
// every refusal that an arming can meet (no link is none: without one nobody hears the arm switch).
func TestTakesOfModelOneHoldAllThereWas(t *testing.T) {
	type line struct {
		Code, Cause, Near, Did string
		Why                    []string
		Kept                   *bool
	}
	seen := map[string]bool{}
	files, err := filepath.Glob(modelOne + "/*.jsonl")
	require.NoError(t, err)
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		for row := range strings.Lines(string(text)) {
			var l line
			require.NoError(t, json.Unmarshal([]byte(row), &l))
			for _, word := range slices.Concat([]string{l.Code, l.Cause, l.Near, l.Did}, l.Why) {
				seen[word] = true
			}
			if l.Kept != nil {
				seen[map[bool]string{true: "kept", false: "put-back"}[*l.Kept]] = true
			}
		}
	}
	for _, word := range strings.Fields(`
		armed disarmed refused link-lost link-back link-clean sinking control-back mode air-mode settled power cable transmitter plug tilt nudged
		menu pack-volts travel-short readings-lost slept bench propellers took-off touched-down tipped-over stick-mode gesture gesture-missed
		menu-mark menu-value menu-left instructor
		by-switch by-sticks cut-on-loss sunk power-lost
		early corner overshot late kept put-back
		radio-off dropouts receiver reversed swapped short-travel stuck noisy off-centre channel-out mode-gap low-pack wrong-propeller cable-in
		throttle-up off-first second-switch-off not-self-levelling link-too-fresh channel-missing not-yet-still tilted on-cable menu-open
		pack-low propellers-unchecked`) {
		assert.True(t, seen[word], word)
	}
}

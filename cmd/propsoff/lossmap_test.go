package main

import (
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/exit"
)

// The map as text has its slice, its worst, and what it takes for granted; as JSON and as a table it has every point.
func TestLossMap(t *testing.T) {
	dir := t.TempDir()
	table, plot := filepath.Join(dir, "map.csv"), filepath.Join(dir, "map.svg")
	code, out, errs := command(t, "link-loss", "--map", "--wind", "6", "--table", table, "--plot", plot)
	require.Equal(t, exit.CodeDone, code, errs)
	for _, want := range []string{
		"Where a lost link leads: Teasel\n", "after 0.24 s the craft cuts.", "it is level and over one place", "10,000 points: 25 heights × 16 climbs × 5 throttles × 5 winds",
		"Throttle as in a hover, 13", "Wind 6 m/s, steady.", "Worst here: 50 m up, climbing 9 m/s", "Worst of all: 50 m up, climbing 9 m/s, throttle full, wind 12 m/s: on the ground after",
		"Its motors stop after 0.24 s.",
	} {
		assert.Contains(t, out, want)
	}
	f, err := os.Open(table)
	require.NoError(t, err)
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	require.NoError(t, f.Close())
	require.Len(t, rows, 10_001)
	svg, err := os.ReadFile(plot)
	require.NoError(t, err)
	assert.Contains(t, string(svg), "Where a lost link leads: Teasel")

	code, out, errs = command(t, "link-loss", "--map", "--json")
	require.Equal(t, exit.CodeDone, code, errs)
	lines := strings.Split(strings.TrimSpace(out), "\n")
	require.Len(t, lines, 10_001)
	for i, line := range []string{lines[0], lines[1], lines[7777]} {
		var m map[string]any
		require.NoError(t, json.Unmarshal([]byte(line), &m))
		assert.Equal(t, []string{"loss-map", "point", "point"}[i], m["code"])
		if i == 2 { // the same point in the table
			assert.Equal(t, rows[0][5], "ground_s")
			assert.Contains(t, line, `"ground_s":`+rows[7777][5]+",")
			assert.EqualValues(t, 0.24, m["motors_stop_s"])
		}
	}
}

// A receiver that repeats the last frame leaves a craft whose motors nobody stops: that is said, and found in every point.
func TestLossMapOfAReceiverThatRepeats(t *testing.T) {
	code, out, errs := command(t, "link-loss", "--map", "--receiver", "repeats-last", "--throttle", "under-hover")
	require.Equal(t, exit.CodeDone, code, errs)
	assert.Contains(t, out, "The craft cannot know that the link is gone.")
	assert.Regexp(t, `how long its motors turn, s\n(At none of these points do they stop by themselves\.\n| {2,}[−\d](.*\n)*?– never by themselves\n)`, out, "a dash has its key, and nothing but dashes is no table")
	code, out, errs = command(t, "link-loss", "--map", "--receiver", "repeats-last")
	require.Equal(t, exit.CodeDone, code, errs)
	assert.Contains(t, out, "Its motors go on turning, armed, until its pack is empty.")
	assert.Contains(t, out, "At none of these points do they stop by themselves.\n")
	assert.NotContains(t, out, "–")
}

func TestLossMapRefusesWhatItCannotShow(t *testing.T) {
	leans := filepath.Join(t.TempDir(), "leans.yaml")
	require.NoError(t, os.WriteFile(leans, []byte(`propsoff: craft 1
name: Leans
receiver: {when-silent: sends-stored, stored: {throttle: 1300, roll: 1600, pitch: 1500, yaw: 1500, arm: 2000, mode: 1000}}
channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5, mode: 6}
`), 0o600))
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"--throttle", "full"}, "--throttle: give it together with --map"},
		{[]string{"--map", "--height", "3"}, "--height: leave it out with --map"},
		{[]string{"--map", "--wind", "4"}, "--wind 4: write one of 0, 3, 6, 9, 12"},
		{[]string{"--map", "--throttle", "up"}, "--throttle up: write one of down, under-hover, hover, over-hover, full"},
		{[]string{"--map", "--receiver", "off"}, "--receiver off: write one of falls-silent, repeats-last, sends-stored"},
		{[]string{"--map", "--stored", "file"}, "the receiver of Teasel sends no stored values"},
		{[]string{"--map", "--plot", "a.txt"}, "--plot a.txt: end the name with one of"},
		{[]string{"--map", "--craft", leans}, "Leans: The values that this receiver stores hold a stick off its centre"},
	} {
		code, out, errs := command(t, append([]string{"link-loss"}, c.args...)...)
		assert.Equal(t, exit.CodeBadInput, code, c.args)
		assert.Empty(t, out, c.args)
		assert.Contains(t, errs, c.says)
	}
}

package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/exit"
)

// The handout of an instructor: one table, three receivers, and the sentences under it.
func TestLinkLossAsATable(t *testing.T) {
	code, out, errs := command(t, "link-loss", "--height", "6")
	require.Equal(t, exit.CodeDone, code, errs)
	for _, want := range []string{
		"Craft Teasel hovered at 6.", "The radio went off for 10 s.", "arm off, throttle low, sticks centred. An example: the craft file has none.",
		"falls silent", "(no pulses)", "repeats the last", "(hold)", "sends stored values", "(preset)",
		"never noticed", "never: still ARMED", "they turn", "in the air", "right below",
		"falls silent: It noticed, and cut 0.24 s after the radio's last frame.", "It cannot know that the radio is off. Nothing cuts.", "The stored values say arm off: disarmed at once.",
		"- The link is only just there; it must stay whole for 1.2 s more.", "- The arm switch is already on: channel 5 reads 1806 µs; it must be seen off first.",
		"It obeys the radio again at once, armed as ever: for it there was no loss.",
	} {
		assert.Contains(t, out, want)
	}
	var column int
	for i, line := range strings.Split(out, "\n") {
		if i == 3 {
			column = strings.Index(line, "falls silent")
		}
		assert.Equal(t, strings.TrimRight(line, " "), line)
		if cells := []rune(line); strings.HasPrefix(line, "motors stop") {
			assert.Equal(t, "0.2", string(cells[column:column+3]))
		}
	}
	assert.Positive(t, column)
	for _, row := range []string{"may be armed", "armed again"} { // one that stayed armed: what the hands switch later is not told as if it came of the loss
		_, cells, ok := strings.Cut(out, "\n"+row)
		require.True(t, ok, row)
		cells, _, _ = strings.Cut(cells, "\n")
		assert.Regexp(t, `^ +\d+\.\d+ s +– +\d+\.\d+ s$`, cells, row)
	}
}

const sendsStored = `propsoff: craft 1
name: Own
receiver: {when-silent: sends-stored, stored: {throttle: 990, roll: 1500, pitch: 1500, yaw: 1500, arm: 1000, mode: 1000, channel 9: 1234}}
channels: {throttle: 3, roll: 1, pitch: 2, yaw: 4, arm: 5, mode: 6}
`

// The figures have one zero, and the silence limit says how long it is, since it begins earlier, with the last frame; stored values of one's own are told one by one.
func TestLinkLossSaysItsZeroAndWhatIsStored(t *testing.T) {
	_, out, _ := command(t, "link-loss", "--height", "6", "--off", "3s")
	assert.Regexp(t, `(?m)^since the radio went off`, out)
	assert.Regexp(t, `(?m)^silence limit, 0\.24 s long, reached +0\.2\d s`, out)
	own := filepath.Join(t.TempDir(), "own.yaml")
	require.NoError(t, os.WriteFile(own, []byte(sendsStored), 0o600))
	code, out, errs := command(t, "link-loss", "--craft", own, "--height", "6", "--off", "3s")
	require.Equal(t, exit.CodeDone, code, errs)
	for _, want := range []string{"The third receiver has stored, by the craft file: ", "channel 3 (throttle) 990 µs", "channel 5 (arm) 1000 µs", "channel 9 1234 µs"} {
		assert.Contains(t, out, want)
	}
}

func TestLinkLossAsJSON(t *testing.T) {
	code, out, errs := command(t, "link-loss", "--json", "--off", "4s", "--stored", "armed-low")
	require.Equal(t, exit.CodeDone, code, errs)
	lines := strings.Split(strings.TrimSpace(out), "\n")
	require.Len(t, lines, 4)
	var all []map[string]any
	for _, line := range lines {
		var m map[string]any
		require.NoError(t, json.Unmarshal([]byte(line), &m))
		all = append(all, m)
	}
	assert.Equal(t, "link-loss", all[0]["code"])
	assert.Equal(t, "armed-low", all[0]["stored"])
	assert.EqualValues(t, 4000, all[0]["off_ms"])
	assert.InDelta(t, 10, all[0]["height_m"], 0.3)
	silent, hold, stored := all[1], all[2], all[3]
	assert.Equal(t, []any{"falls-silent", "repeats-last", "sends-stored"}, []any{silent["receiver"], hold["receiver"], stored["receiver"]})
	assert.Equal(t, silent["silence_limit_ms"], silent["motors_stopped_ms"])
	assert.Equal(t, 240.0, silent["link_lost_ms"].(float64)-silent["last_frame_ms"].(float64), "the silence limit")
	assert.Equal(t, "cut-on-loss", silent["cause"])
	assert.Equal(t, []any{"throttle-up", "off-first", "link-too-fresh"}, silent["refusals"])
	for _, never := range []string{"link_lost_ms", "disarmed_ms", "motors_stopped_ms", "ground_ms"} {
		assert.NotContains(t, hold, never)
	}
	assert.Equal(t, []any{true, true}, []any{hold["still_armed"], stored["still_armed"]})
	assert.NotContains(t, stored, "disarmed_ms")
	for _, again := range []string{"may_arm_ms", "armed_again_ms"} {
		assert.Contains(t, silent, again)
		assert.NotContains(t, hold, again)
		assert.NotContains(t, stored, again)
	}
	assert.Greater(t, stored["ground_m_per_s"], 10.0, "its motors stood still, and it fell")
	assert.Regexp(t, `^It obeyed the stored values, came down at 1\d\.\d m/s, and lies right below, broken and still ARMED\. `, stored["says"])
}

func TestLinkLossOfOtherCrafts(t *testing.T) {
	file := filepath.Join(t.TempDir(), "own.yaml")
	require.NoError(t, os.WriteFile(file, []byte(`propsoff: craft 1
name: Own values
receiver: {when-silent: sends-stored, stored: {throttle: 1300, roll: 1500, pitch: 1500, yaw: 1500, arm: 2000, mode: 1000}}
link: {when-lost: sink, sink-time: 3 s}
channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5, mode: 6}
`), 0o600))
	code, out, errs := command(t, "link-loss", "--craft", file)
	require.Equal(t, exit.CodeDone, code, errs)
	assert.Contains(t, out, "The third receiver has stored, by the craft file: ")
	assert.Contains(t, out, "It noticed, sank, and cut 3.2")
	code, out, errs = command(t, "link-loss", "--craft", "teasel-by-sticks")
	require.Equal(t, exit.CodeDone, code, errs)
	assert.Contains(t, out, "The stored values stand in the disarming corner: disarmed 0.4")
	assert.Contains(t, out, "the hands lowered the throttle, then disarmed, armed and disarmed by the sticks):")
	assert.NotContains(t, out, "then switched off", "there is no switch")
}

func TestLinkLossRefusesWhatItCannotShow(t *testing.T) {
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"--height", "0"}, "--height 0: write 1 to 100 metres"},
		{[]string{"--height", "NaN"}, "write 1 to 100 metres"},
		{[]string{"--off", "10ms"}, "--off 10ms: write 1s to 2m0s"},
		{[]string{"--stored", "low"}, "--stored low: write one of file, disarming, armed-low, armed-throttle"},
		{[]string{"--stored", "file"}, "the receiver of Teasel sends no stored values; write one of disarming"},
		{[]string{"--craft", "nowhere.yaml"}, "nowhere.yaml"},
		{[]string{"--craft", "testdata/layouts/rate-refused.craft.yaml"}, "testdata/layouts/rate-refused.craft.yaml: Rate refused: this craft did not come to hover"},
		{[]string{"hop"}, "takes no arguments"},
	} {
		code, out, errs := command(t, append([]string{"link-loss"}, c.args...)...)
		assert.Equal(t, exit.CodeBadInput, code, c.args)
		assert.Empty(t, out, c.args)
		assert.Contains(t, errs, c.says)
	}
}

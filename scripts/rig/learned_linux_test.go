package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/input/radio"
	"propsoff.example/scripts/rig/fakeradio"
)

// compared reads a file's text and holds it against a radio with all its controls.
func compared(t *testing.T, m *fakeradio.Made, text string) []string {
	f, err := readLearned([]byte(text))
	require.NoError(t, err, text)
	return compare(&f, m, jobsOf(m)).wrong
}

// A perfect learning of every made radio passes, and is a radio file.
func TestCompare_APerfectLearningPasses(t *testing.T) {
	for _, m := range fakeradio.Fleet() {
		text := madeFile(&m, jobsOf(&m))
		assert.Empty(t, compared(t, &m, text), m.Name)
		_, err := radio.Parse("made", []byte(text), radio.Known{})
		assert.NoError(t, err, text)
	}
}

// The comparison must be able to fail: each slip in the file is named.
func TestCompare_NamesWhatIsWrong(t *testing.T) {
	for _, c := range []struct {
		name           string
		made           fakeradio.Made
		was, is, wrong string
	}{
		{"axis", fakeradio.Whole(), "axis: 3", "axis: 4", "throttle is axis 4"},
		{"a scale that was stretched to the reach", fakeradio.Short(), "throttle: {axis: 3, scale: {988: 0,", "throttle: {axis: 3, scale: {988: 48,", "throttle: the scale"},
		{"direction", fakeradio.Turned(), "scale: {988: 32767, 1500: -0.5, 2012: -32768}", "scale: {988: -32768, 1500: -0.5, 2012: 32767}", "the scale"},
		{"low end", fakeradio.Short(), "low: 48", "low: 39", "throttle: reach low is 39, made 48: 4.50 µs"},
		{"rest", fakeradio.Leaning(), "rest: 2167", "rest: 2048", "roll: reach rest"},
		{"high end", fakeradio.Keyed(), "high: 255", "high: 253", "reach high"},
		{"noise", fakeradio.Restless(), "noise: 7.", "noise: 17.", "noise 17."},
		{"a level", fakeradio.Whole(), "{at: 819,", "{at: 840,", "channel 7: position 3"},
		{"the number of levels", fakeradio.Whole(), "{at: 1024, spread: 1.0}, ", "", "mode has 2 positions"},
		{"spread", fakeradio.Whole(), "{at: 819, spread: 1.0", "{at: 819, spread: 9.0", "spread of position 3"},
		{"spring", fakeradio.Whole(), ", stays: yes", "", "stays is false"},
		{"key", fakeradio.Whole(), "momentary: yes", "momentary: no", "channel 9: momentary is false"},
		{"the order of a row", fakeradio.Keyed(), "[7, 8, 9]", "[7, 9, 8]", "mode is axis 0, buttons [7 9 8]"},
		{"the middle of a row", fakeradio.Leaning(), "[5, none, 6]", "[5, 6]", "buttons [5 6]"},
		{"button", fakeradio.Keyed(), "button: 18", "button: 17", "arm is axis 0, buttons [none 17]"},
		{"a control that is missing", fakeradio.Short(), "\n  mode:", "\n  channel 9:", "mode was not learned"},
		{"one too many", fakeradio.Short(), "\n  mode:", "\n  channel 9:", "channel 9 was learned"},
		{"another radio", fakeradio.Short(), "TS-0604", "TS-0605", "the device is"},
		{"hat", fakeradio.Leaning(), "axis: 8", "axis: 7", "channel 7 is axis 7"},
		{"no reach", fakeradio.Short(), "reach: {low: 48", "x: {low: 48", "throttle has no reach"},
	} {
		text := madeFile(&c.made, jobsOf(&c.made))
		require.Contains(t, text, c.was, c.name)
		wrong := compared(t, &c.made, strings.Replace(text, c.was, c.is, 1))
		assert.Contains(t, strings.Join(wrong, "\n"), c.wrong, c.name)
	}
	_, err := readLearned([]byte("propsoff: craft 1\n"))
	assert.Error(t, err)
}

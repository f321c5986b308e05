package main

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/scripts/rig/fakeradio"
	"propsoff.example/scripts/rig/hand"
)

// What a person says of an axis is what a hand does with a control of the radio.
func TestAxisMove(t *testing.T) {
	made := fakeradio.Attended()
	require.NoError(t, made.Check())
	for text, want := range map[string]hand.Move{
		"1 0 300":   {Job: "roll", To: 500, Over: 300 * time.Millisecond},
		" 3 -1 0":   {Job: "throttle"},
		"4 1 1500 ": {Job: "yaw", To: hand.High, Over: 1500 * time.Millisecond},
		"5 1 200":   {Job: "lever of two", To: 1, Over: 200 * time.Millisecond},
		"6 0.1 0":   {Job: "lever of three", To: 1},
		"6 -1 0":    {Job: "lever of three"},
		"7 -0.5 10": {Job: "knob", To: 250, Over: 10 * time.Millisecond},
	} {
		got, err := axisMove(&made, text)
		require.NoError(t, err, text)
		assert.Equal(t, want, got, text)
		_, err = hand.New(&made, 1).Begin(0, got)
		assert.NoError(t, err, text)
	}
	for _, text := range []string{"", "1 0", "8 0 10", "0 0 10", "1 1.5 10", "roll 1 10", "1 0 -5"} {
		_, err := axisMove(&made, text)
		assert.Error(t, err, "%q", text)
	}
}

// Keys are found where the server says that they are.
func TestKeycode(t *testing.T) {
	h := &xhand{screen: &xscreen{keycodes: [2]byte{8, 255}}, columns: 4, letters: []uint32{
		0, 0, 0, 0, 'a', 'A', 'a', 'A', '-', '_', 0, 'x', 0xff1b, 0, 0, 0, 0xffbf, 0, 0, 0,
	}}
	for name, want := range map[string]byte{"A": 9, "a": 9, "Minus": 10, "-": 10, "Esc": 11, "F2": 12} {
		code, shift, err := h.keycode(keysym(name))
		require.NoError(t, err, name)
		assert.Equal(t, want, code, name)
		assert.False(t, shift, name)
	}
	for r, want := range map[rune]bool{'a': false, 'A': true, '-': false, '_': true} {
		_, shift, err := h.keycode(uint32(r))
		require.NoError(t, err)
		assert.Equal(t, want, shift, "%c", r)
	}
	for _, name := range []string{"F3", "F13", "x", "Nowhere", ""} { // x stands in a column that no hand here reaches
		_, _, err := h.keycode(keysym(name))
		assert.Error(t, err, name)
	}
}

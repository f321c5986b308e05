package usb

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestChoose(t *testing.T) {
	found := []Found{
		{Path: "/dev/input/event3", Event: "/dev/input/event3", Classic: "/dev/input/js0", Name: "Curlew Field 2", Serial: "A1", Port: "p1"},
		{Path: "/dev/input/event7", Event: "/dev/input/event7", Name: "Curlew Field 2", Serial: "A2", Port: "p2"},
		{Path: "joystick 4", Name: "Lapwing 16"},
	}
	for want, at := range map[string]int{
		"": 0, "1": 0, "2": 1, " 3 ": 2, "lapWING": 2, "16": 2, "joystick 4": 2,
		"/dev/input/event7": 1, "/dev/input/js0": 0,
	} {
		f, err := Choose(found, want)
		require.NoError(t, err, want)
		assert.Equal(t, found[at], f, want)
	}
	_, err := Choose(found, "curlew")
	assert.EqualError(t, err, `2 radios are called “curlew”; choose one of these by number:
  1  Curlew Field 2 (/dev/input/event3, serial number A1, at p1)
  2  Curlew Field 2 (/dev/input/event7, serial number A2, at p2)`)
	_, err = Choose(found, "4")
	assert.EqualError(t, err, `no radio is called “4”; choose one of these by number or name:
  1  Curlew Field 2 (/dev/input/event3, serial number A1, at p1)
  2  Curlew Field 2 (/dev/input/event7, serial number A2, at p2)
  3  Lapwing 16 (joystick 4)`)
	_, err = Choose(nil, "")
	assert.ErrorContains(t, err, "no radio is plugged in")
}

package codes_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/input/usb"
)

// JSON Lines keep the words that they had before ways of reading had codes, which are also those that a person reads in English.
func TestWaysOfReadingInJSON(t *testing.T) {
	for code, was := range map[string]string{
		usb.WayEvent: "event interface", usb.WayClassic: "classic interface", usb.WayPortable: "portable joystick interface", usb.WayBrowser: "browser's gamepad interface",
		usb.WayPortable + usb.WithEngine: "portable joystick interface, the axes beyond those by the window's engine", "": "",
	} {
		assert.Equal(t, was, codes.Way(code))
		assert.Equal(t, was, words.English().Say(tell.Way(code)))
	}
}

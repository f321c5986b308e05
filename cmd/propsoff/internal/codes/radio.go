package codes

import (
	"strings"

	"propsoff.example/input/usb"
)

// Way is a way of reading a radio, by package usb's word for it, as JSON Lines have had it from the beginning.
func Way(way string) string {
	own, engine := strings.CutSuffix(way, usb.WithEngine)
	if long := ways[own]; long != "" {
		own = long
	}
	if engine {
		own += ", the axes beyond those by the window's engine"
	}
	return own
}

var ways = map[string]string{
	usb.WayEvent: "event interface", usb.WayClassic: "classic interface", usb.WayPortable: "portable joystick interface", usb.WayBrowser: "browser's gamepad interface",
}

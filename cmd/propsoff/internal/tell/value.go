// Package tell says facts: for a code of package facts, with its values, it names the message that fits.
//
// It knows which sentence is true when, and no language: words.Book writes out what it gives. Sentences that one sheet alone has are told
// in that sheet's room.
package tell

import (
	"propsoff/assets/words"
	"propsoff/sim/flight"
	"propsoff/sim/pulse"
)

// Micros is a width in whole µs without its unit, rounded down: a shown 999 is always below 1000.
func Micros(w pulse.Width) words.Whole { return words.Whole(w.Whole()) }

// Exact is a width in µs without its unit, with as many decimals as it needs, at most three: 1012, 1064.75.
func Exact(w pulse.Width) words.Fixed { return words.Fixed{N: int64(w) * 125, Places: 3} }

// Seconds is a time in ms as it is told in a sentence, in seconds: exact, without needless zeros ("0.24 s", "2 s").
func Seconds(ms int64) words.Text { return unit("seconds", words.Fixed{N: ms, Places: 3}) }

// left is a time in ms that is still to wait, in tenths of a second rounded up: never 0 while there is something left.
func left(ms int) words.Text {
	return unit("seconds", words.Fixed{N: int64((ms + 99) / 100), Places: 1, Least: 1})
}

// Clock is a tick in seconds with three places: "4.200 s".
func Clock(tick int64) words.Text {
	return unit("seconds", words.Fixed{N: tick, Places: 3, Least: 3})
}

// Stamp is a device's time in µs in seconds with six places: "1.234567 s".
func Stamp(us int64) words.Text {
	return unit("seconds", words.Fixed{N: us, Places: 6, Least: 6})
}

// Degrees are tenths of a degree: "45°", "30.1°".
func Degrees(tenths int) words.Text { return unit("degrees", words.Fixed{N: int64(tenths), Places: 1}) }

// Volts are millivolts: "14.8 V".
func Volts(millivolts int) words.Text {
	return unit("volts", words.Fixed{N: int64(millivolts), Places: 3})
}

// Percent is a whole share of a hundred.
func Percent(n int) words.Text { return unit("percent", words.Whole(n)) }

// Tenths is a share of a hundred that is known in tenths: "45 %", "12.5 %".
func Tenths(n int64) words.Text { return unit("percent", words.Fixed{N: n, Places: 1}) }

// Motor is what a motor does: still, idle, or its speed in whole percent, rounded down. idle is the craft's idle speed.
func Motor(speed, idle uint16) words.Text {
	switch {
	case speed == 0:
		return words.T("motor.still")
	case speed == idle:
		return words.T("motor.idle")
	}
	return Percent(int(speed) * 100 / flight.FullSpeed)
}

func unit(name string, n words.Value) words.Text {
	return words.Of("unit", name, words.Args{"n": n})
}

// Plain is a value by itself, without a unit.
func Plain(v words.Value) words.Text { return unit("plain", v) }

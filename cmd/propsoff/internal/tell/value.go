// Package tell says facts: for a code of package facts, with its values, it names the message that fits.
//
// It knows which sentence is true when, and no language: words.Book writes out what it gives. Sentences that one sheet alone has are told
// in that sheet's room.
package tell

import (
	"math"
	"strconv"
	"strings"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/pulse"
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

// ifAny is a number, nothing for none.
func ifAny(n int) words.Value {
	if n == 0 {
		return words.Text{}
	}
	return words.Whole(n)
}

// rounded is a measured number as it is shown, with so many decimals.
func rounded(v float64, places int) words.Fixed {
	n, err := strconv.ParseInt(strings.Replace(strconv.FormatFloat(v, 'f', places, 64), ".", "", 1), 10, 64)
	if err != nil {
		n = 0 // what is no number, or none that anything here can come to
	}
	return words.Fixed{N: n, Places: places, Least: places}
}

// signed is a measured number with one decimal: what rounds to nothing has no sign, and the minus sign is a long one.
func signed(v float64) words.Value {
	n := rounded(v, 1)
	if n.N < 0 {
		n.N = -n.N
		return words.T("unit.minus", words.Args{"n": n})
	}
	return n
}

// Metres is a length in m with one decimal.
func Metres(v float64) words.Text { return unit("metres", signed(v)) }

// Speed is a speed in m/s with one decimal.
func Speed(v float64) words.Text { return unit("speed", signed(v)) }

// PackVolts is a voltage in V with one decimal.
func PackVolts(v float64) words.Text { return unit("volts", signed(v)) }

// Bank is an angle to a side in whole degrees, to the right above 0.
func Bank(v float64) words.Text {
	return sided(v, words.T("flight.bank", words.Args{"left": words.Flag(v < 0), "by": wholeDegrees(v)}))
}

// Pitch is an angle up or down in whole degrees, nose up above 0.
func Pitch(v float64) words.Text {
	return sided(v, words.T("flight.pitch", words.Args{"down": words.Flag(v < 0), "by": wholeDegrees(v)}))
}

// Heading is in whole degrees from north clockwise, 0 to 359.
func Heading(v float64) words.Text {
	return unit("degrees", words.Whole((int64(math.Round(v))%360+360)%360))
}

func sided(v float64, t words.Text) words.Text {
	if math.Round(v) == 0 {
		return words.T("flight.number-level")
	}
	return t
}

// wholeDegrees are degrees without their sign.
func wholeDegrees(v float64) words.Text { return unit("degrees", words.Whole(math.Abs(math.Round(v)))) }

// Length is a round length in m, with as many decimals as it has.
func Length(m float64) words.Text {
	n := rounded(m, 3)
	n.Least = 0
	return unit("metres", n)
}

// wholeMicros is a width in µs with its unit.
func wholeMicros(n int) words.Text { return unit("micros", words.Whole(n)) }

// Day is a calendar day in full: "5 April 2031".
func Day(t time.Time) words.Text {
	return words.T("date.day", words.Args{"day": words.Whole(t.Day()), "month": monthOf(t), "year": words.Whole(t.Year())})
}

// Days is from one day to another.
func Days(from, to time.Time) words.Text {
	if from.Equal(to) {
		return Day(from)
	}
	first := Day(from)
	if from.Year() == to.Year() {
		first = words.T("date.day-month", words.Args{"day": words.Whole(from.Day()), "month": monthOf(from)})
	}
	return words.T("date.span", words.Args{"from": first, "to": Day(to)})
}

func monthOf(t time.Time) words.Text { return words.Of("month", strings.ToLower(t.Month().String())) }

// lasting is a time in hours and minutes.
func lasting(d time.Duration) words.Text {
	m := int64(d.Round(time.Minute) / time.Minute)
	switch {
	case m < 1:
		return words.T("date.minute-less")
	case m < 60:
		return words.T("date.minutes", words.Args{"min": words.Whole(m)})
	}
	return words.T("date.hours", words.Args{"h": words.Whole(m / 60), "min": words.Whole(m % 60)})
}

// Signed writes a number with a real minus, without needless zeros, to a millionth.
func Signed(v float64) words.Value {
	n := words.Fixed{N: int64(math.Round(math.Abs(v) * 1e6)), Places: 6}
	if v < 0 && n.N != 0 {
		return words.T("unit.minus", words.Args{"n": n})
	}
	return n
}

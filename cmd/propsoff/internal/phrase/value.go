package phrase

import (
	"strconv"
	"strings"

	"propsoff/sim/flight"
	"propsoff/sim/pulse"
)

// Micros is a width in whole microseconds without its unit, rounded down: a shown 999 is always below 1000.
func Micros(w pulse.Width) string { return strconv.Itoa(w.Whole()) }

// Exact is a width in µs with as many decimals as it needs, at most three: "1012", "1064.75", "987.5". JSON Lines use it.
func Exact(w pulse.Width) string { return fixed(int64(w)*125, 3) }

// fixed writes n/10^places without needless zeros.
func fixed(n int64, places int) string {
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	digits := strconv.FormatInt(n, 10)
	if len(digits) <= places {
		digits = strings.Repeat("0", places+1-len(digits)) + digits
	}
	whole, part := digits[:len(digits)-places], strings.TrimRight(digits[len(digits)-places:], "0")
	if part == "" {
		return sign + whole
	}
	return sign + whole + "." + part
}

// Seconds writes a time in ms as it is told in a sentence: exact, without needless zeros ("0.24 s", "2 s").
func Seconds(ms int64) string { return fixed(ms, 3) + " s" }

// left writes a time in ms that is still to wait, in tenths of a second rounded up: never 0 while there is something left.
func left(ms int) string {
	tenths := (ms + 99) / 100
	return strconv.Itoa(tenths/10) + "." + strconv.Itoa(tenths%10) + " s"
}

// Clock writes a tick as seconds with three places: "4.200 s".
func Clock(tick int64) string {
	sign := ""
	if tick < 0 {
		sign, tick = "-", -tick
	}
	part := strconv.FormatInt(tick%1000, 10)
	return sign + strconv.FormatInt(tick/1000, 10) + "." + strings.Repeat("0", 3-len(part)) + part + " s"
}

// Degrees writes tenths of a degree: "45°", "30.1°".
func Degrees(tenths int) string { return fixed(int64(tenths), 1) + "°" }

// Volts writes millivolts: "14.8 V".
func Volts(millivolts int) string { return fixed(int64(millivolts), 3) + " V" }

// Motor is what a motor does: still, idle, or its speed in whole percent, rounded down. idle is the craft's idle speed.
func Motor(speed, idle uint16) string {
	switch {
	case speed == 0:
		return "still"
	case speed == idle:
		return "idle"
	}
	return strconv.Itoa(int(speed)*100/flight.FullSpeed) + " %"
}

// count writes a number with its noun: "1 reading", "3 readings".
func count(n int, noun string) string {
	s := strconv.Itoa(n) + " " + noun
	if n != 1 {
		s += "s"
	}
	return s
}

// list joins with commas and a last word: "a, b and c".
func list(items []string, last string) string {
	switch n := len(items); n {
	case 0:
		return ""
	case 1:
		return items[0]
	default:
		return strings.Join(items[:n-1], ", ") + " " + last + " " + items[n-1]
	}
}

// capital writes the first letter of a sentence large. Sentences begin with ASCII letters.
func capital(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}

// Thousandths writes n/1000 as a number without a unit, as JSON Lines have it: "14.8", "45".
func Thousandths(n int64) string { return fixed(n, 3) }

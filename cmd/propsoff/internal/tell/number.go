package tell

import (
	"math"
	"strconv"
	"strings"

	"propsoff/assets/words"
)

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

// Metres, Speed and PackVolts are numbers with one decimal and their unit, Bank and Pitch degrees with a side, Heading whole degrees from
// north clockwise.
func Metres(v float64) words.Text    { return unit("metres", signed(v)) }
func Speed(v float64) words.Text     { return unit("speed", signed(v)) }
func PackVolts(v float64) words.Text { return unit("volts", signed(v)) }
func Bank(v float64) words.Text {
	return sided(v, words.T("flight.bank", words.Args{"left": words.Flag(v < 0), "by": wholeDegrees(v)}))
}
func Pitch(v float64) words.Text {
	return sided(v, words.T("flight.pitch", words.Args{"down": words.Flag(v < 0), "by": wholeDegrees(v)}))
}
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

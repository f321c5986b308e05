package phrase

import (
	"math"
	"strconv"
	"strings"
)

// NothingFlown says on a plot that there is nothing to draw.
func NothingFlown() string { return "There is nothing to draw: the flight is shorter than two rows." }

// ModeAndArmed names the strip of a plot that shows mode and arming.
func ModeAndArmed() string { return "mode, armed" }

// Signed writes a number with a real minus, without needless zeros.
func Signed(v float64) string {
	s := strconv.FormatFloat(math.Abs(math.Round(v*1e6)/1e6), 'f', -1, 64)
	if v < 0 && s != "0" {
		return "−" + s
	}
	return s
}

// FlownTitle heads the plot of a flight.
func FlownTitle(name, craft string) string { return strings.TrimSpace(name) + ", flown by " + craft }

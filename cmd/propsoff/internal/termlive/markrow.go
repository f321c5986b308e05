package termlive

import (
	"math"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/mark"
)

// rowHalf is how many characters a row has to each side of its middle.
const rowHalf = 30

// markRow draws how far off the mark the craft is as one row of a strip that runs down: the mark in the middle, the craft where it is off it, as far to
// a side as the stick must bring it back from.
func markRow(mrad int, m *mark.Config) words.Text {
	row := []byte(strings.Repeat(" ", 2*rowHalf+1))
	row[rowHalf] = '|'
	at := -int(math.Round(float64(mrad) / 1000 / (float64(m.Tenths) / 10 * flight.Degree) * rowHalf))
	row[rowHalf+min(max(at, -rowHalf), rowHalf)] = 'o'
	return words.AsIs(string(row))
}

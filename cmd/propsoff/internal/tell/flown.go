package tell

import (
	"math"
	"strings"

	"propsoff/assets/words"
)

// Signed writes a number with a real minus, without needless zeros, to a millionth.
func Signed(v float64) words.Value {
	n := words.Fixed{N: int64(math.Round(math.Abs(v) * 1e6)), Places: 6}
	if v < 0 && n.N != 0 {
		return words.T("unit.minus", words.Args{"n": n})
	}
	return n
}

// FlownTitle heads the plot of a flight.
func FlownTitle(name, craft string) words.Text {
	return words.T("flown.title", words.Args{"name": words.Quote(strings.TrimSpace(name)), "craft": words.Quote(craft)})
}

package serve

import (
	"strings"

	"rsc.io/qr"
)

// margin is the quiet zone that a reader needs round a code, in modules (ISO/IEC 18004, from memory).
const margin = 4

// Code draws a text as a QR code for a terminal, two rows of modules a line: light is drawn and dark left out, for a terminal that is dark. It is empty where
// the text is too long for one.
func Code(text string) string {
	code, err := qr.Encode(text, qr.M)
	if err != nil {
		return ""
	}
	light := func(x, y int) int {
		if code.Black(x, y) { // false outside
			return 0
		}
		return 1
	}
	var b strings.Builder
	for y := -margin; y < code.Size+margin; y += 2 {
		for x := -margin; x < code.Size+margin; x++ {
			upper, lower := light(x, y), light(x, y+1)
			if y+1 == code.Size+margin { // the last line has an upper half only
				lower = 0
			}
			b.WriteRune([...]rune{' ', '▄', '▀', '█'}[2*upper+lower])
		}
		b.WriteByte('\n')
	}
	return b.String()
}

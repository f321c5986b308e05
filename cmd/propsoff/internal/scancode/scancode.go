// Package scancode draws a text as a code that a phone reads.
package scancode

import (
	"fmt"
	"strings"

	"rsc.io/qr"
)

// margin is the quiet zone that a reader needs round a code, in modules (ISO/IEC 18004, from memory).
const margin = 4

// Terminal draws a text as a QR code for a terminal, two rows of modules a line: light is drawn and dark left out, for a terminal that is dark. It is empty where
// the text is too long for one.
func Terminal(text string) string {
	code, err := encode(text)
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

// encode makes a code that stands some damage, and where the text is too long for that, one that stands less.
func encode(text string) (code *qr.Code, err error) {
	for _, level := range [...]qr.Level{qr.M, qr.L} {
		if code, err = qr.Encode(text, level); err == nil {
			break
		}
	}
	return code, err
}

// Path draws a text as the dark modules of a QR code, for the d of a path in an SVG (W3C SVG 1.1, 8.3), one unit a module; side is how many there are with
// the quiet zone. Both are empty where the text is too long for one.
func Path(text string) (d string, side int) {
	code, err := encode(text)
	if err != nil {
		return "", 0
	}
	var b strings.Builder
	for y := range code.Size {
		for x := 0; x < code.Size; x++ {
			from := x
			for code.Black(x, y) {
				x++
			}
			if x > from {
				fmt.Fprintf(&b, "M%d %dh%dv1h-%dz", from+margin, y+margin, x-from, x-from)
			}
		}
	}
	return b.String(), code.Size + 2*margin
}

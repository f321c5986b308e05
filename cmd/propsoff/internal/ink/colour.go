package ink

import (
	"fmt"
	"image/color"
	"math"
)

// Colour is one opaque sRGB colour, 8 bits a channel. Pages know no translucency: what a text stands on is
// always one colour, so its contrast is one number.
type Colour struct{ R, G, B uint8 }

// RGBA makes a Colour usable wherever the standard library asks for a color.Color.
func (c Colour) RGBA() (r, g, b, a uint32) {
	return color.RGBA{R: c.R, G: c.G, B: c.B, A: 255}.RGBA()
}

// String gives the colour as #RRGGBB.
func (c Colour) String() string { return fmt.Sprintf("#%02X%02X%02X", c.R, c.G, c.B) }

// Luminance is the relative luminance 0 (black) … 1 (white) of WCAG 2:
// L = 0.2126 R + 0.7152 G + 0.0722 B of the linearised channels.
func (c Colour) Luminance() float64 {
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}

// linear undoes the sRGB transfer curve: an 8-bit channel to 0 … 1.
// The threshold is the one in force since May 2021 (no 8-bit value tells the older one apart).
func linear(v uint8) float64 {
	c := float64(v) / 255
	if c <= 0.04045 {
		return c / 12.92
	}
	return math.Pow((c+0.055)/1.055, 2.4)
}

// Contrast is the contrast ratio of WCAG 2, 1 (equal) … 21 (black on white); the order does not matter.
// It is not rounded: 4.499 does not reach 4.5.
func Contrast(a, b Colour) float64 {
	la, lb := a.Luminance(), b.Luminance()
	if la < lb {
		la, lb = lb, la
	}
	return (la + 0.05) / (lb + 0.05)
}

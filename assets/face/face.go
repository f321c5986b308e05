// Package face is the text face that propsoff ships: the Go fonts, regular and bold.
//
// The fonts were made by the Bigelow & Holmes foundry and come with golang.org/x/image under a BSD licence
// (LICENSE-fonts.txt beside this file). They cover the 652 characters of WGL4: Latin, Greek, Cyrillic, µ, °,
// ±, arrows, fractions and box drawing. They have no kerning and no ligatures, so the width of a text is the
// sum of the widths of its characters.
package face

import (
	_ "embed"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
)

// Licence is the licence of the two fonts, to be shown or copied wherever the program is.
//
//go:embed LICENSE-fonts.txt
var Licence string

// Regular returns the TrueType bytes of the upright weight, for sentences and values. Read only: do not write
// into the slice.
func Regular() []byte { return goregular.TTF }

// Bold returns the TrueType bytes of the bold weight, for state words and headings. Read only.
func Bold() []byte { return gobold.TTF }

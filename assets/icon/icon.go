//go:build !js

// Package icon is the picture that stands for the program, drawn once and kept in the sizes that systems ask for.
//
// The sizes are made from icon.svg by scripts/icons. In the browser the page shows icon.svg itself.
package icon

import (
	"bytes"
	_ "embed"
	"image"
	"image/png"
)

//go:embed 16.png
var smallest []byte

//go:embed 32.png
var small []byte

//go:embed 48.png
var middle []byte

//go:embed 64.png
var large []byte

// Pictures are the sizes that a window shows in bars and lists, the least one first.
func Pictures() (all []image.Image) {
	for _, data := range [][]byte{smallest, small, middle, large} {
		if m, err := png.Decode(bytes.NewReader(data)); err == nil { // a test reads each
			all = append(all, m)
		}
	}
	return all
}

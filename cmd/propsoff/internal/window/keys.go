//go:build cgo || windows || js

package window

import (
	"slices"
	"strings"

	"github.com/hajimehoshi/ebiten/v2"
)

// special are the keys whose name here is not the engine's own.
var special = map[ebiten.Key]string{
	ebiten.KeyArrowUp: "Up", ebiten.KeyArrowDown: "Down", ebiten.KeyArrowLeft: "Left", ebiten.KeyArrowRight: "Right",
	ebiten.KeyShiftLeft: "Shift", ebiten.KeyShiftRight: "Shift",
	ebiten.KeyControlLeft: "Control", ebiten.KeyControlRight: "Control",
	ebiten.KeyAltLeft: "Alt", ebiten.KeyAltRight: "Alt",
	ebiten.KeyEnter: "Enter", ebiten.KeyNumpadEnter: "Enter", ebiten.KeyEscape: "Esc",
	// Keys that the engine reports a second time under a common name.
	ebiten.KeyShift: "", ebiten.KeyControl: "", ebiten.KeyAlt: "", ebiten.KeyMeta: "",
}

// keyName is the name of a key by its place: letters and digits as on a US keyboard; "" for keys of no use here.
func keyName(k ebiten.Key) string {
	if name, ok := special[k]; ok {
		return name
	}
	name := k.String()
	if d, ok := strings.CutPrefix(name, "Digit"); ok {
		return d
	}
	return name
}

// names appends the names of keys by their places, each once; keys of no use here are left out.
func names(dst []string, keys []ebiten.Key) []string {
	for _, k := range keys {
		if name := keyName(k); name != "" && !slices.Contains(dst, name) {
			dst = append(dst, name)
		}
	}
	return dst
}

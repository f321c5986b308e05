package window

import (
	"reflect"
	"syscall/js"

	"github.com/hajimehoshi/ebiten/v2"
)

// keepSharp has the picture drawn as dense as the screen is, also after the page was zoomed or went to another screen: the engine asks for the density once
// and keeps it, and not every browser tells of a change.
func keepSharp() {
	browser := js.Global()
	if now := browser.Get("devicePixelRatio").Float(); now > 0 && now != ebiten.Monitor().DeviceScaleFactor() && forgetDensity() {
		browser.Call("dispatchEvent", browser.Get("Event").New("resize"))
	}
}

// forgetDensity has the engine ask anew. It has no way to be told so but the place where it keeps the answer; one that keeps none there is left alone.
func forgetDensity() bool {
	kept := reflect.ValueOf(ebiten.Monitor()).Elem().FieldByName("deviceScaleFactor")
	if kept.Kind() != reflect.Float64 {
		return false
	}
	*(*float64)(kept.Addr().UnsafePointer()) = 0
	return true
}

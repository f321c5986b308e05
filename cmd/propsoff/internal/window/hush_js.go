package window

import "syscall/js"

// hush has the sound library use the browser's older way, which needs no script of its own: for the newer one it makes a script out of a text, and a page
// that lets nothing run but its own files (its content policy) would have no sound.
func hush() {
	if base := js.Global().Get("BaseAudioContext"); base.Truthy() {
		js.Global().Get("Object").Call("defineProperty", base.Get("prototype"), "audioWorklet", map[string]any{"value": nil})
	}
}

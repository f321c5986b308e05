//go:build !js && (cgo || windows || darwin)

package window

// keepSharp does nothing here: the engine follows a window to another screen.
func keepSharp() {}

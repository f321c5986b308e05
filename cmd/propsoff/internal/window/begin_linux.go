//go:build cgo

package window

// What stands in begin_linux.c runs before Go itself begins, and so before the engine: that opens the display in its packages' own
// initialisation and ends the program where there is none, whatever the program was asked to do. No Go code of ours can be sure to
// come before that.

// #cgo LDFLAGS: -lX11
import "C"

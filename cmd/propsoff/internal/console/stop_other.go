//go:build !unix

package console

import "os"

// StopKey is the signal of the terminal's stop key, nil where there is none.
func StopKey() os.Signal { return nil }

// PressStop does nothing where no key stops a program.
func PressStop() {}

func canGoOn() bool { return false }

func stop() {}

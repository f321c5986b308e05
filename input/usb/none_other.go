//go:build !linux && !windows && !js

package usb

import (
	"fmt"
	"runtime"

	"propsoff/input"
)

func scan(Places) ([]Found, error) {
	return nil, fmt.Errorf("%w (%s); use the keyboard or a pilot script", ErrNone, runtime.GOOS)
}

func open(string, Options) (input.Device, error) {
	return nil, fmt.Errorf("%w (%s); use the keyboard or a pilot script", ErrNone, runtime.GOOS)
}

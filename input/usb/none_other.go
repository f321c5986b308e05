//go:build !linux && !windows && !js

package usb

import (
	"runtime"

	"propsoff.example/assets/words"
	"propsoff.example/input"
)

func scan(Places) ([]Found, error) {
	return nil, words.Wrong("usb.none-system", words.Args{"system": words.Quote(runtime.GOOS)}).Because(ErrNone)
}

func open(string, Options) (input.Device, error) {
	return nil, words.Wrong("usb.none-system", words.Args{"system": words.Quote(runtime.GOOS)}).Because(ErrNone)
}

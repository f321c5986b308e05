//go:build !(darwin || dragonfly || freebsd || linux || netbsd || openbsd)

package door

import (
	"errors"
	"os"
)

const (
	atOnce = 0
	noLink = 0
)

// handed: this system has no names for the files that a program was started with.
func handed(string) (fd int, ok bool) { return 0, false }

func openHanded(int, string) (*os.File, error) { return nil, errors.ErrUnsupported }

//go:build !(darwin || dragonfly || freebsd || linux || netbsd || openbsd)

package door

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"os"
	"path/filepath"
)

const (
	atOnce    = 0
	noLink    = 0
	movesOpen = false
)

// openLock opens what is locked for a folder: a file in the folder for passing files, since a folder cannot be locked here.
func openLock(dir string) (*os.File, error) {
	whole, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	name := fmt.Sprintf("propsoff-%x.lock", sha256.Sum256([]byte(whole)))
	return os.OpenFile(filepath.Join(os.TempDir(), name), os.O_RDWR|os.O_CREATE, 0o600)
}

// handed: this system has no names for the files that a program was started with.
func handed(string) (fd int, ok bool) { return 0, false }

func openHanded(int, string) (*os.File, error) { return nil, errors.ErrUnsupported }

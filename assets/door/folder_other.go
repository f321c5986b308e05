//go:build !(darwin || dragonfly || freebsd || js || linux || netbsd || openbsd)

package door

import (
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
)

const movesOpen = false

// openLock opens what is locked for a folder: a file in the folder for passing files, since a folder cannot be locked here.
func openLock(dir string) (*os.File, error) {
	whole, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	name := fmt.Sprintf("propsoff-%x.lock", sha256.Sum256([]byte(whole)))
	return os.OpenFile(filepath.Join(os.TempDir(), name), os.O_RDWR|os.O_CREATE, 0o600)
}

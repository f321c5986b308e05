//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package door

import (
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
)

const (
	// atOnce lets the opening of a pipe that nobody writes to come back (open(2), O_NONBLOCK); ordinary files know no such thing.
	atOnce = syscall.O_NONBLOCK
	// noLink has the opening of a link fail (open(2), O_NOFOLLOW).
	noLink = syscall.O_NOFOLLOW
	// movesOpen: a file may be renamed while it is open (rename(2)).
	movesOpen = true
)

// openLock opens what is locked for a folder: the folder itself.
func openLock(dir string) (*os.File, error) { return os.Open(dir) }

// handed is the number of a file that a program was started with, where a path is the system's name for one (fd(4), proc(5)).
func handed(path string) (fd int, ok bool) {
	clean := filepath.Clean(path)
	switch clean {
	case "/dev/stdin":
		return 0, true
	case "/dev/stdout":
		return 1, true
	case "/dev/stderr":
		return 2, true
	}
	for _, dir := range []string{"/dev/fd/", "/proc/self/fd/"} {
		if n, found := strings.CutPrefix(clean, dir); found {
			fd, err := strconv.Atoi(n)
			return fd, err == nil && fd >= 0
		}
	}
	return 0, false
}

// openHanded gives the file itself. Opening its name anew would wait for another writer of a pipe, and write over an ordinary file from its
// beginning.
func openHanded(fd int, path string) (*os.File, error) {
	n, err := syscall.Dup(fd)
	if err != nil {
		return nil, &fs.PathError{Op: "open", Path: path, Err: err}
	}
	syscall.CloseOnExec(n)
	return os.NewFile(uintptr(n), path), nil
}

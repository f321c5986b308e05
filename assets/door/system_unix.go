//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package door

import (
	"os"
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

// handed are the places at which a system gives the files that a program was started with (fd(4), proc(5)).
func handed(clean string) bool {
	switch clean {
	case "/dev/stdin", "/dev/stdout", "/dev/stderr":
		return true
	}
	for _, dir := range []string{"/dev/fd/", "/proc/self/fd/"} {
		if len(clean) > len(dir) && clean[:len(dir)] == dir {
			return true
		}
	}
	return false
}

//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package door

import (
	"errors"
	"os"
	"syscall"
)

// tryLock asks for the lock of the open file (flock(2)): advisory, gone with the process. had is false while another has it. Places
// that know no locks give known false.
func tryLock(f *os.File) (had, known bool, err error) {
	for {
		switch err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); {
		case err == nil:
			return true, true, nil
		case errors.Is(err, syscall.EINTR):
		case errors.Is(err, syscall.EWOULDBLOCK):
			return false, true, nil
		case errors.Is(err, syscall.ENOLCK), errors.Is(err, syscall.ENOTSUP), errors.Is(err, syscall.ENOSYS), errors.Is(err, syscall.EINVAL):
			return false, false, nil
		default:
			return false, true, err
		}
	}
}

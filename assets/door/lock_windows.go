package door

import (
	"errors"
	"os"
	"syscall"
	"unsafe"
)

var lockFileEx = syscall.NewLazyDLL("kernel32.dll").NewProc("LockFileEx")

// tryLock locks one byte far beyond the end (LockFileEx): locks there keep others from reading what they lock, and nothing is
// kept there. It is gone with the handle.
func tryLock(f *os.File) (had, known bool, err error) {
	const exclusive, atOnce = 2, 1
	at := syscall.Overlapped{OffsetHigh: 1 << 30}
	ok, _, err := lockFileEx.Call(f.Fd(), exclusive|atOnce, 0, 1, 0, uintptr(unsafe.Pointer(&at)))
	const violation, pending = syscall.Errno(33), syscall.Errno(997)
	switch {
	case ok != 0:
		return true, true, nil
	case errors.Is(err, violation), errors.Is(err, pending):
		return false, true, nil
	}
	return false, false, nil // a place that knows no locks
}

//go:build unix

package yamldoc

import (
	"syscall"
	"testing"
	"time"
)

// spent is the time that this process has had the processor.
func spent(t *testing.T) time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		t.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

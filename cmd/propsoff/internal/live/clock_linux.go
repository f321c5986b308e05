package live

import (
	"time"

	"golang.org/x/sys/unix"
)

// passed is CLOCK_BOOTTIME: it counts sleep and no setting of the date disturbs it (clock_gettime(2)).
func passed() int64 {
	var t unix.Timespec
	if err := unix.ClockGettime(unix.CLOCK_BOOTTIME, &t); err != nil {
		return time.Now().UnixMicro()
	}
	return t.Nano() / 1000
}

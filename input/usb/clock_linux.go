package usb

import (
	"golang.org/x/sys/unix"
)

// Now is the clock of all states' times, in µs: CLOCK_MONOTONIC, on which the kernel stamps the events too. It never runs
// back, its zero is any, and it stands still while the machine sleeps.
func Now() int64 {
	var t unix.Timespec
	if err := unix.ClockGettime(unix.CLOCK_MONOTONIC, &t); err != nil {
		panic("usb: CLOCK_MONOTONIC cannot be read: " + err.Error()) // no Linux is without it
	}
	return t.Nano() / 1000
}

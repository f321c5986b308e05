//go:build !linux

package usb

import "time"

// started is any fixed moment; it is never set again.
var started = time.Now()

// Now is the clock of all states' times, in µs since the program's start. It never runs back.
func Now() int64 { return time.Since(started).Microseconds() }

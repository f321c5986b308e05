package live

// Clock is the time as the loop sees it, in µs.
type Clock interface {
	// Now is the clock that the devices' stamps are on. It never runs back, and may stand still while the machine sleeps.
	Now() int64
	// Passed also runs on while the machine sleeps; only differences count.
	Passed() int64
}

// RealClock is the machine's clock. now is that of the devices' stamps.
func RealClock(now func() int64) Clock { return realClock{now} }

type realClock struct{ now func() int64 }

// Now is the devices' clock.
func (c realClock) Now() int64 { return c.now() }

// Passed is the system's own time, which counts sleep.
func (c realClock) Passed() int64 { return passed() }

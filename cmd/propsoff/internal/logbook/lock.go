package logbook

import (
	"os"
	"runtime"
	"time"
)

const goos = runtime.GOOS

// patience is how long a writer waits for another one: each holds the file for one write only.
const patience = 2 * time.Second

// lock waits for the file's lock, which goes with its closing. held is false where the place knows no locks: then appending in
// one write has to do. ErrBusy after the time.
func lock(f *os.File, wait time.Duration) (held bool, err error) {
	for pause, waited := 200*time.Microsecond, time.Duration(0); ; {
		had, known, err := tryLock(f)
		switch {
		case err != nil:
			return false, err
		case had:
			return true, nil
		case !known:
			return false, nil
		case waited >= wait:
			return false, ErrBusy
		}
		time.Sleep(pause)
		waited += pause
		pause = min(2*pause, 10*time.Millisecond)
	}
}

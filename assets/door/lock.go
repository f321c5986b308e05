package door

import (
	"os"
	"time"
)

// Patience is how long Lock and LockFolder wait for another program: each holds a lock for one short piece of work only.
const Patience = 10 * time.Second

// Lock waits for the lock of an open file, which goes with its closing. held is false where the place knows no locks: then nobody is kept
// out. ErrBusy where it was not had within wait.
func Lock(f *os.File, wait time.Duration) (held bool, err error) {
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

// LockFolder keeps every other program that asks out of a folder until unlock is called, for looking and then writing as one piece of work.
// Where the place knows no locks nobody is kept out.
func LockFolder(dir string) (unlock func(), err error) {
	f, err := openLock(dir)
	if err != nil {
		return nil, err
	}
	if _, err := Lock(f, Patience); err != nil {
		_ = f.Close()
		return nil, of(dir, "door.folder-wanted", err)
	}
	return func() { _ = f.Close() }, nil
}

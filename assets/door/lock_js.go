package door

import (
	"errors"
	"os"
	"syscall/js"
)

// tryLock asks the page's file layer for the lock of the open file, which other pages ask as well; it goes with the file's closing, and with the page.
// A host of another kind knows no locks.
func tryLock(f *os.File) (had, known bool, err error) {
	fs := js.Global().Get("fs")
	if fs.Get("flock").Type() != js.TypeFunction {
		return false, false, nil
	}
	type told struct {
		had bool
		err error
	}
	answer := make(chan told, 1)
	back := js.FuncOf(func(_ js.Value, args []js.Value) any {
		if args[0].Truthy() {
			answer <- told{err: errors.New(args[0].Get("message").String())}
		} else {
			answer <- told{had: args[1].Bool()}
		}
		return nil
	})
	defer back.Release()
	fs.Call("flock", int(f.Fd()), back)
	t := <-answer
	return t.had, true, t.err
}

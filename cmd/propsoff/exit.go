package main

import (
	"errors"
	"fmt"

	"propsoff/assets/door"
	"propsoff/sim/prove"
)

// Exit statuses of every command.
const (
	// exitDone: all went as asked; a run was run whole.
	exitDone = 0
	// exitFailed: an expectation of a script did not come true, a take did not replay to the same, or a rule of a layout is broken.
	exitFailed = 1
	// exitBadInput: a file, a flag or an argument is not what it must be.
	exitBadInput = 2
	// exitTrouble: the machine did not let us: no window, a full disk, devices that cannot be listed.
	exitTrouble = 3
	// exitUnfinished: a search found nothing broken, and was stopped or ran out of memory before its end.
	exitUnfinished = 4
	// exitAtOnce and the number of a signal, as shells count: a second signal ended the program before its end was written. 130 is Ctrl-C.
	exitAtOnce = 128
)

// exitOf is the status of a search; nil where every rule was searched to its end and holds.
func exitOf(v prove.Verdict) error {
	switch v {
	case prove.SomeBroken:
		return &exitError{code: exitFailed}
	case prove.Unfinished:
		return &exitError{code: exitUnfinished}
	}
	return nil
}

// exitError is an error with the status to exit with. A nil err prints nothing: what was wrong has been said.
type exitError struct {
	code int
	err  error
}

func (e *exitError) Error() string {
	if e.err == nil {
		return fmt.Sprintf("exit status %d", e.code)
	}
	return e.err.Error()
}

func (e *exitError) Unwrap() error { return e.err }

func badInput(err error) error { return &exitError{exitBadInput, err} }

func trouble(err error) error { return &exitError{exitTrouble, err} }

// exitCode gives the status for what a command returned, and the text to print.
func exitCode(err error) (code int, text string) {
	var e *exitError
	switch {
	case err == nil:
		return exitDone, ""
	case errors.Is(err, door.ErrStopped): // a signal, wherever it came
		if both := (interface{ Unwrap() []error })(nil); errors.As(err, &both) { // and something else went wrong
			return exitTrouble, err.Error()
		}
		return exitTrouble, door.ErrStopped.Error()
	case errors.As(err, &e) && e.err == nil:
		return e.code, ""
	case errors.As(err, &e):
		return e.code, e.err.Error()
	}
	return exitBadInput, err.Error() // cobra's own: a command or flag that there is not
}

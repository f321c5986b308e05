// Package exit says with which status a command ends, and why. It writes nothing: world.World.Error says the error in the reader's language.
package exit

import (
	"errors"
	"strconv"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/sim/prove"
)

// Exit statuses of every command.
const (
	// CodeDone: all went as asked; a run was run whole.
	CodeDone = 0
	// CodeFailed: an expectation of a script did not come true, a take did not replay to the same, or a rule of a layout is broken.
	CodeFailed = 1
	// CodeBadInput: a file, a flag or an argument is not what it must be.
	CodeBadInput = 2
	// CodeTrouble: the machine did not let us: no window, a full disk, devices that cannot be listed. Or a signal ended it before its end, or a
	// person who left what was being learned: at some terminals Ctrl-C is a key, and the two cannot be told apart.
	CodeTrouble = 3
	// CodeUnfinished: a search found nothing broken, and was stopped or ran out of memory before its end.
	CodeUnfinished = 4
	// CodeAtOnce and the number of a signal, as shells count: a second signal ended the program before its end was written. 130 is Ctrl-C.
	CodeAtOnce = 128
)

// ErrStopped is given where a signal ends a command.
var ErrStopped = door.ErrStopped

// Error is an error with the status to exit with. A nil Err says nothing: what was wrong has been said.
type Error struct {
	Code int
	Err  error
}

// Error is what Err says in English, and the bare status where Err is nil.
func (e *Error) Error() string {
	if e.Err == nil {
		return strconv.Itoa(e.Code)
	}
	return e.Err.Error()
}

// Problem has a Book say Err in its language.
func (e *Error) Problem() *words.Problem { return &words.Problem{Text: words.Error(e.Err)} }

// Unwrap gives the error that the status was given to.
func (e *Error) Unwrap() error { return e.Err }

// With ends a command with a status about which everything has been said.
func With(code int) error { return &Error{Code: code} }

// BadInput gives an error the status of a file, flag or argument that is not what it must be; nil where there is none. An error that no package
// gave a status has this one.
func BadInput(err error) error { return as(CodeBadInput, err) }

// Trouble gives an error the status of a machine that did not let us; nil where there is none.
func Trouble(err error) error { return as(CodeTrouble, err) }

func as(code int, err error) error {
	if err == nil {
		return nil
	}
	return &Error{code, err}
}

// Shut gives a door's error its status: bad input where another argument would help, else trouble; nil where there is none.
func Shut(err error) error {
	var e *door.Error
	var had *Error
	switch {
	case err == nil:
		return nil
	case errors.As(err, &had): // of what is written, not of its place
		return had
	case errors.As(err, &e) && e.Asked():
		return BadInput(err)
	}
	return Trouble(err)
}

// Of is the error of a search; nil where every rule was searched to its end and holds.
func Of(v prove.Verdict) error {
	switch v {
	case prove.SomeBroken:
		return With(CodeFailed)
	case prove.Unfinished:
		return With(CodeUnfinished)
	}
	return nil
}

// Code gives the status for what a command returned, and the error to be said, nil where nothing is. Errors of no status of their own are
// bad input, as those of the command library are: a command or flag that there is not.
func Code(err error) (code int, said error) {
	var e *Error
	switch {
	case err == nil:
		return CodeDone, nil
	case errors.Is(err, ErrStopped): // a signal, wherever it came
		if both := (interface{ Unwrap() []error })(nil); errors.As(err, &both) { // and something else went wrong
			return CodeTrouble, err
		}
		return CodeTrouble, ErrStopped
	case errors.As(err, &e):
		return e.Code, e.Err
	}
	return CodeBadInput, err
}

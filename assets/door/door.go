// Package door is the one way in and out for files: what is read is an ordinary file, or a pipe where that was asked for, and is bounded;
// what is written takes its place as a whole, over nothing that was not to be written over, whenever the program is killed, and lasts
// (rename(2), link(2), fsync(2), flock(2)).
package door

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
)

// Errors to be told apart with errors.Is, as are fs.ErrNotExist, fs.ErrExist and fs.ErrPermission.
var (
	// ErrChanged: the file is no longer what it was when it was read.
	ErrChanged = errors.New("the file was changed by someone else since it was read")
	// ErrBusy: another program held the lock all the time.
	ErrBusy = errors.New("another program is at work here; try again in a moment")
	// ErrStopped: what was waited for is not waited for any more.
	ErrStopped = errors.New("stopped before the end")
	// ErrTooLong: there is more to read than such a file may have.
	ErrTooLong = errors.New("longer than such a file may be")
)

// Why is why a door stays shut.
type Why uint8

const (
	// Machine: the machine does not let it; Err tells.
	Machine Why = iota
	// Missing: there is no such file. NoFolder: there is no folder to write into.
	Missing
	NoFolder
	// NotAllowed: the rights of the file or its folder do not let it.
	NotAllowed
	// Folder, Pipe, Device, Socket and Link stand where an ordinary file should.
	Folder
	Pipe
	Device
	Socket
	Link
	// There: a file is there already, and is not to be written over.
	There
	// OwnInput: the file is one that this run reads. Twice: this run writes another thing to the same place, or reads standard input twice.
	OwnInput
	Twice
	// NoInput: standard input is not to be read, or has another use.
	NoInput
	// OnlyRead: the disk can only be read. Full: it has no room.
	OnlyRead
	Full
	// Unsure: it is written, and the machine does not say whether that lasts.
	Unsure
	// TooLong: no file can have this name.
	TooLong
)

// Error says why a file cannot be read or written.
type Error struct {
	// Path as given; What it was to be, such as "craft file", empty for a place that nobody chose.
	Path, What string
	Writing    bool
	Why        Why
	// Offer: it may be written over if that is asked for.
	Offer bool
	Err   error
}

// Asked reports whether what was asked for is at fault, rather than the machine.
func (e *Error) Asked() bool {
	switch e.Why {
	case Machine, OnlyRead, Full, Unsure:
		return false
	case NotAllowed, Missing:
		return !e.Writing
	}
	return true
}

func (e *Error) Unwrap() error { return e.Err }

func (e *Error) Error() string {
	if errors.Is(e.Err, ErrChanged) || errors.Is(e.Err, ErrBusy) {
		return e.Path + ": " + e.Err.Error()
	}
	if e.Writing {
		return e.writing()
	}
	what := e.What
	if what == "" {
		if k, special := kinds[e.Why]; special {
			return e.Path + ": this is " + k + ", not an ordinary file; move it out of the way"
		}
		what = "file"
	}
	switch e.Why {
	case Missing, NoFolder:
		return e.Path + ": there is no such " + what + "; check the path"
	case NotAllowed:
		return e.Path + ": this " + what + " may not be read; change its permissions, or choose another"
	case Folder:
		return e.Path + ": this is a folder; give the path of a " + what
	case Pipe, Device, Socket, Link:
		return e.Path + ": this is " + kinds[e.Why] + ", not an ordinary file; give the path of a " + what
	case NoInput:
		return "-: standard input is not read here; give the path of a " + what
	case Twice:
		return "-: standard input can be read only once, and is already the " + what + "; give the path of a file"
	}
	return e.Path + ": cannot be read: " + Bare(e.Err).Error()
}

func (e *Error) writing() string {
	switch e.Why {
	case Folder:
		return e.Path + ": this is a folder; give the name of a file in it"
	case NoFolder:
		return e.Path + ": there is no such folder to write into; make it first, or choose another"
	case Pipe, Device, Socket:
		return e.Path + ": this is " + kinds[e.Why] + ", not an ordinary file; choose another name"
	case Link:
		return e.Path + ": this is a link, and links are not followed; give the name of the file itself"
	case There:
		if e.Offer {
			return e.Path + ": this file is there already; choose another name, or write --over to put the new one in its place"
		}
		return e.Path + ": this file is there already; choose another name"
	case Unsure:
		return e.Path + ": it is written, but it is not certain that the disk has it: " + Bare(e.Err).Error()
	case OwnInput:
		return e.Path + ": this file is being read, and would be lost; choose another name"
	case Twice:
		return e.Path + ": two outputs would go to this one file; choose another name for one of them"
	}
	return e.Path + ": cannot be written: " + e.reason() + "; choose another place"
}

func (e *Error) reason() string {
	switch e.Why {
	case NotAllowed:
		if st, err := os.Stat(e.Path); err == nil && st.Mode().IsRegular() {
			return "this file may not be changed"
		}
		return "nothing may be written there"
	case Missing:
		return "no file can be made in this folder"
	case OnlyRead:
		return "this disk can only be read"
	case Full:
		return "the disk is full"
	}
	return Bare(e.Err).Error()
}

var kinds = map[Why]string{Pipe: "a pipe", Device: "a device", Socket: "a socket", Link: "a link", Folder: "a folder"}

// of finds why from what the system says; nil for no error.
func of(path, what string, err error) error { return why(path, what, false, err) }

func ofWriting(path string, err error) error { return why(path, "", true, err) }

func why(path, what string, writing bool, err error) error {
	if err == nil {
		return nil
	}
	var had *Error
	if errors.As(err, &had) {
		return err
	}
	e := &Error{Path: path, What: what, Writing: writing, Err: err}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		e.Why = Missing
	case errors.Is(err, fs.ErrPermission):
		e.Why = NotAllowed
	case writing && errors.Is(err, fs.ErrExist):
		e.Why = There
	case errors.Is(err, syscall.EROFS):
		e.Why = OnlyRead
	case errors.Is(err, syscall.ENAMETOOLONG), errors.Is(err, syscall.ELOOP):
		e.Why = TooLong
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT), errors.Is(err, syscall.EFBIG):
		e.Why = Full
	}
	return e
}

// Bare gives the system's reason without the call and the paths that it repeats: the work may go through a passing file of another name.
func Bare(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	var l *os.LinkError
	if errors.As(err, &l) {
		return l.Err
	}
	return err
}

// kindOf is what stands in an ordinary file's place; ok for an ordinary file.
func kindOf(m fs.FileMode) (k Why, ok bool) {
	switch {
	case m.IsRegular():
		return 0, true
	case m.IsDir():
		return Folder, false
	case m&fs.ModeSymlink != 0:
		return Link, false
	case m&fs.ModeNamedPipe != 0:
		return Pipe, false
	case m&fs.ModeSocket != 0:
		return Socket, false
	}
	return Device, false
}

// samePlace reports whether two paths lead to one name in one folder.
func samePlace(a, b string) bool { return placeOf(a) == placeOf(b) }

// placeOf is a path with its folder's links followed, and its last name as it is.
func placeOf(path string) string {
	whole, err := filepath.Abs(path)
	if err != nil {
		return path
	}
	dir, err := filepath.EvalSymlinks(filepath.Dir(whole))
	if err != nil {
		return whole
	}
	return filepath.Join(dir, filepath.Base(whole))
}

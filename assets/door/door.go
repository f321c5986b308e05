// Package door is the one way in and out for files: what is read is an ordinary file, or a pipe where that was asked for, and is bounded;
// what is written takes its place as a whole, over nothing that was not to be written over, whenever the program is killed, and lasts
// (rename(2), link(2), fsync(2), flock(2)).
package door

import (
	"cmp"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"

	"propsoff.example/assets/words"
)

// Errors to be told apart with errors.Is, as are fs.ErrNotExist, fs.ErrExist and fs.ErrPermission.
var (
	// ErrChanged: the file is no longer what it was when it was read.
	ErrChanged error = words.Wrong("door.changed")
	// ErrBusy: another program held the lock all the time.
	ErrBusy error = words.Wrong("door.busy")
	// ErrStopped: the program ended before what was waited for had come.
	ErrStopped error = words.Wrong("door.stopped")
	// ErrTooLong: there is more to read than such a file may have.
	ErrTooLong error = words.Wrong("door.longer")
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
	// Path is as given, empty for standard output.
	Path string
	// What is the message that says what it was to be ("craft-file.craft"), empty for a place that nobody chose.
	What    words.ID
	Writing bool
	Why     Why
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

// Unwrap is what the system says, nil where it was not asked.
func (e *Error) Unwrap() error { return e.Err }

// Error says it in English.
func (e *Error) Error() string { return e.Problem().Error() }

// Problem says what is wrong with the file and what to do, with its path before it.
func (e *Error) Problem() *words.Problem {
	p := &words.Problem{File: e.Path, Cause: e.Err}
	switch {
	case errors.Is(e.Err, ErrChanged), errors.Is(e.Err, ErrBusy):
		p.Text = words.Error(e.Err)
	case e.Writing:
		p.Text = e.writing()
	default:
		p.Text = e.reading()
	}
	return p
}

func (e *Error) reading() words.Text {
	kind := words.T(kinds[e.Why])
	if _, special := kinds[e.Why]; special && e.What == "" {
		return words.T("door.special-unchosen", words.Args{"kind": kind})
	}
	what := words.T(cmp.Or(e.What, "door.file"))
	switch e.Why {
	case Missing, NoFolder:
		return words.T("door.missing", words.Args{"what": what})
	case NotAllowed:
		return words.T("door.not-readable", words.Args{"what": what})
	case Folder:
		return words.T("door.folder", words.Args{"what": what})
	case Pipe, Device, Socket, Link:
		return words.T("door.special", words.Args{"kind": kind, "what": what})
	case NoInput:
		return words.T("door.no-input", words.Args{"what": what})
	case Twice:
		return words.T("door.input-twice", words.Args{"what": what})
	}
	return words.T("door.unreadable", words.Args{"why": words.Error(Bare(e.Err))})
}

func (e *Error) writing() words.Text {
	switch e.Why {
	case Folder:
		return words.T("door.into-folder")
	case NoFolder:
		return words.T("door.no-folder")
	case Pipe, Device, Socket:
		return words.T("door.over-special", words.Args{"kind": words.T(kinds[e.Why])})
	case Link:
		return words.T("door.over-link")
	case There:
		return words.T("door.there", words.Args{"over": words.Flag(e.Offer)})
	case Unsure:
		return words.T("door.unsure", words.Args{"why": words.Error(Bare(e.Err))})
	case OwnInput:
		return words.T("door.own-input")
	case Twice:
		return words.T("door.output-twice")
	}
	return words.T("door.unwritten", words.Args{"output": words.Flag(e.Path == ""), "why": e.reason()})
}

func (e *Error) reason() words.Text {
	switch e.Why {
	case NotAllowed:
		if st, err := os.Stat(e.Path); err == nil && st.Mode().IsRegular() {
			return words.T("door.not-changeable")
		}
		return words.T("door.folder-closed")
	case Missing:
		return words.T("door.folder-makes-none")
	case OnlyRead:
		return words.T("door.disk-read-only")
	case Full:
		return words.T("door.disk-full")
	}
	return words.Error(Bare(e.Err))
}

var kinds = map[Why]words.ID{Pipe: "door.a-pipe", Device: "door.a-device", Socket: "door.a-socket", Link: "door.a-link", Folder: "door.a-folder"}

// of finds why from what the system says; nil for no error.
func of(path string, what words.ID, err error) error { return why(path, what, false, err) }

func ofWriting(path string, err error) error { return why(path, "", true, err) }

func why(path string, what words.ID, writing bool, err error) error {
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

// Kind says what stands in an ordinary file's place: a folder, a link, a pipe, a socket or a device.
func Kind(m fs.FileMode) words.Text {
	k, _ := kindOf(m)
	return words.T(kinds[k])
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

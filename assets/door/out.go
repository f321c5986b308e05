package door

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"syscall"
)

// Out is how a file is to be written.
type Out struct {
	// Over: what is there may be written over. Without it the error is of Why There, also where something comes between looking and writing.
	Over bool
	// Private: for its owner alone (0600); else as the user's umask says, and over an old file with the old one's rights.
	Private bool
}

// step is how far publish has come; a test may stop it after each.
type step uint8

const (
	written step = 1 + iota
	synced
	renamed
)

// Publish puts what write gives at path, as a whole: a reader sees what was there before or the new file, never a mixture, whenever the
// program is killed, and it lasts once Publish has returned. No link is followed. A file that the program was started with (/dev/fd/3)
// and the null device take what is written as it comes. The error is an *Error.
func Publish(path string, o Out, write func(io.Writer) error) error {
	return publish(path, o, write, func(step) error { return nil })
}

// PublishBytes publishes data.
func PublishBytes(path string, o Out, data []byte) error {
	return Publish(path, o, Bytes(data))
}

// Bytes makes of data what Publish takes.
func Bytes(data []byte) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	}
}

func publish(path string, o Out, write func(io.Writer) error, after func(step) error) error {
	if stream(path) {
		f, err := openStream(path)
		if err != nil {
			return ofWriting(path, err)
		}
		return ofWriting(path, errors.Join(write(f), f.Close()))
	}
	old, err := o.look(path)
	if err != nil {
		return err
	}
	mode := fs.FileMode(0o666)
	if o.Private {
		mode = 0o600
	}
	p, err := newPart(path, mode)
	if err != nil {
		return ofWriting(path, err)
	}
	defer p.drop()
	if err = write(p.f); err == nil {
		err = after(written)
	}
	if err == nil && old != nil && !o.Private {
		_ = p.f.Chmod(old.Mode().Perm()) // some systems have no such rights; the data is what counts
	}
	if err == nil {
		err = p.f.Sync()
	}
	if err == nil {
		err = after(synced)
	}
	if err != nil {
		return ofWriting(path, err)
	}
	put := p.moveNew
	if o.Over {
		put = p.moveOver
	}
	if err := put(path); err != nil {
		return ofWriting(path, err)
	}
	if err := after(renamed); err != nil {
		return ofWriting(path, err)
	}
	if err := SyncFolder(filepath.Dir(path)); err != nil {
		return &Error{Path: path, Writing: true, Why: Unsure, Err: err}
	}
	return nil
}

// stream reports whether what is written to path goes on as it comes.
func stream(path string) bool {
	if path == os.DevNull {
		return true
	}
	if _, ok := handed(path); !ok {
		return false
	}
	st, err := os.Stat(path)
	return err == nil && !st.IsDir()
}

func openStream(path string) (*os.File, error) {
	if fd, ok := handed(path); ok {
		return openHanded(fd, path)
	}
	return os.OpenFile(path, os.O_WRONLY, 0)
}

// IsStdout reports whether a path stands for standard output: "-", or the system's name for it.
func IsStdout(path string) bool {
	fd, ok := handed(path)
	return path == Dash || ok && fd == 1
}

// look finds what is in the way at path; old is the file that will be written over, nil for none.
func (o Out) look(path string) (old fs.FileInfo, err error) {
	dir, err := os.Stat(filepath.Dir(path))
	switch {
	case err == nil && !dir.IsDir(), errors.Is(err, fs.ErrNotExist), errors.Is(err, syscall.ENOTDIR):
		if err == nil {
			err = syscall.ENOTDIR
		}
		return nil, &Error{Path: path, Writing: true, Why: NoFolder, Err: err}
	case err != nil:
		return nil, ofWriting(path, err)
	}
	st, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil
	case err != nil:
		return nil, ofWriting(path, err)
	}
	if k, ok := kindOf(st.Mode()); !ok {
		return nil, &Error{Path: path, Writing: true, Why: k}
	}
	if !o.Over {
		return nil, &Error{Path: path, Writing: true, Why: There, Err: fs.ErrExist}
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_APPEND|noLink, 0) // a file that was made read-only is not put away by way of its folder
	if err != nil {
		return nil, ofWriting(path, err)
	}
	return st, f.Close()
}

// Try makes sure, before long work begins, that Publish could write to path now, and leaves everything as it was.
func Try(path string, o Out) error {
	if stream(path) {
		return nil
	}
	if _, err := o.look(path); err != nil {
		return err
	}
	p, err := newPart(path, 0o600)
	if err != nil {
		return ofWriting(path, err)
	}
	p.drop()
	return nil
}

// Edit puts data in the place of the file at path, which held was when it was read; was is nil where there was no file. Where it holds
// anything else by now, nothing is written and the error is ErrChanged: of several editors that began with the same file one succeeds. A
// link is followed, since the file was read by it; the rights stay those of the old file, and a new one is private.
func Edit(path string, was, data []byte) error {
	real, err := filepath.EvalSymlinks(path)
	if err != nil {
		real = path
	}
	if _, err := (Out{Over: true}).look(real); err != nil {
		return err
	}
	unlock, err := LockFolder(filepath.Dir(real))
	if err != nil {
		return err
	}
	defer unlock()
	now, err := os.ReadFile(real)
	missing := errors.Is(err, fs.ErrNotExist)
	if err != nil && !missing {
		return of(path, "door.file", err)
	}
	if missing != (was == nil) || !bytes.Equal(now, was) {
		return &Error{Path: path, Writing: true, Err: ErrChanged}
	}
	return PublishBytes(real, Out{Over: !missing, Private: missing}, data)
}

// Create makes a file that is written a little at a time and must last through a kill as far as it has come, such as a recording. It
// must not be there yet.
func Create(path string) (*os.File, error) {
	if _, err := (Out{}).look(path); err != nil {
		return nil, err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	return f, ofWriting(path, err)
}

// Modify opens an ordinary file to be read, written and cut. No link is followed.
func Modify(path string) (*os.File, error) { return ordinary(path, os.O_RDWR) }

// Append opens an ordinary file to be read and appended to, and makes a private one where anew says so. No link is followed.
func Append(path string, anew bool) (*os.File, error) {
	if anew {
		return ordinary(path, os.O_RDWR|os.O_APPEND|os.O_CREATE)
	}
	return ordinary(path, os.O_RDWR|os.O_APPEND)
}

func ordinary(path string, flag int) (*os.File, error) {
	if st, err := os.Lstat(path); err == nil {
		if k, ok := kindOf(st.Mode()); !ok {
			return nil, &Error{Path: path, Writing: true, Why: k}
		}
	}
	f, err := os.OpenFile(path, flag|noLink|atOnce, 0o600)
	return f, ofWriting(path, err)
}

// SyncFolder makes it last that a file came into a folder or left it. Windows and some file systems cannot flush a folder and need not.
func SyncFolder(dir string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	err = d.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, errors.ErrUnsupported) { // fsync(2): what does not support synchronization
		err = nil
	}
	return errors.Join(err, d.Close())
}

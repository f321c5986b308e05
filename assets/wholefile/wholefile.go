// Package wholefile writes files as a whole: whoever reads one sees what was there before or the new one, never a mixture, whenever
// the program is killed, and what is written lasts (rename(2), link(2), fsync(2)).
package wholefile

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"syscall"
)

// step is how far replace has come; a test may stop it after each.
type step uint8

const (
	written step = 1 + iota
	synced
	renamed
)

// Replace puts data at path, with these rights. A link that stands there is replaced, not followed; Rewrite keeps it. Errors are
// those of package os and may name the file that the work goes through.
func Replace(path string, data []byte, mode fs.FileMode) error {
	return ReplaceBy(path, whole(data), mode)
}

// ReplaceBy and NewBy are Replace and New for what is written piece by piece by fill, whose error is given as it is.
func ReplaceBy(path string, fill func(io.Writer) error, mode fs.FileMode) error {
	return replace(path, fill, mode, func(step) error { return nil })
}

func whole(data []byte) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	}
}

// Rewrite is Replace for a file that may be reached by a link: the link stays, and what it leads to gets the data.
func Rewrite(path string, data []byte, mode fs.FileMode) error {
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	return Replace(path, data, mode)
}

func replace(path string, fill func(io.Writer) error, mode fs.FileMode, after func(step) error) error {
	part, err := writePart(filepath.Dir(path), fill, mode, after)
	if err != nil {
		return err
	}
	if err := os.Rename(part, path); err != nil {
		_ = os.Remove(part)
		return err
	}
	if err := after(renamed); err != nil {
		return err
	}
	return SyncFolder(filepath.Dir(path))
}

// New puts data at path where nothing is yet; else the error is fs.ErrExist and nothing is changed, also where something comes in
// between looking and writing.
func New(path string, data []byte, mode fs.FileMode) error { return NewBy(path, whole(data), mode) }

func NewBy(path string, fill func(io.Writer) error, mode fs.FileMode) error {
	part, err := writePart(filepath.Dir(path), fill, mode, func(step) error { return nil })
	if err != nil {
		return err
	}
	defer os.Remove(part)
	// A second name for the file fails where that name is taken, so nothing can be lost.
	switch err := os.Link(part, path); {
	case err == nil:
		return SyncFolder(filepath.Dir(path))
	case errors.Is(err, fs.ErrExist):
		return err
	}
	// A file system without second names: take the name, then put the file in its place.
	taken, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY, mode)
	if err != nil {
		return err
	}
	if err := errors.Join(taken.Close(), os.Rename(part, path)); err != nil {
		_ = os.Remove(path)
		return err
	}
	return SyncFolder(filepath.Dir(path))
}

// writePart fills a new file of a folder and flushes it; it gives its path. Where it fails nothing is left lying about.
func writePart(dir string, fill func(io.Writer) error, mode fs.FileMode, after func(step) error) (string, error) {
	part, err := os.CreateTemp(dir, ".propsoff-*.part")
	if err != nil {
		return "", err
	}
	err = fill(part)
	if err == nil {
		err = after(written)
	}
	if err == nil {
		_ = part.Chmod(mode) // some systems have no such rights; the data is what counts
		err = part.Sync()
	}
	if err = errors.Join(err, part.Close()); err == nil {
		err = after(synced)
	}
	if err != nil {
		_ = os.Remove(part.Name())
		return "", err
	}
	return part.Name(), nil
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

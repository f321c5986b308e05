package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"

	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/records"
	"propsoff/input"
	"propsoff/input/radio"
)

// writable makes sure, before anything is flown or a window opens, that a file can be written at path, and leaves things there
// as they were. A folder in its place, or none to write into, is bad input; whatever else the machine does not let is trouble.
func writable(path string) error {
	st, err := os.Lstat(path)
	if err == nil && st.Mode()&fs.ModeSymlink != 0 {
		if st, err = os.Stat(path); err != nil {
			return nil // it leads to nothing yet, and what a trial made there would be left behind
		}
	}
	switch {
	case err == nil && st.IsDir():
		return badInput(fmt.Errorf("%s: this is a folder; give the name of a file in it", path))
	case err == nil && !st.Mode().IsRegular():
		return nil // opening a device or a pipe for a trial may do something, or wait
	case err == nil:
		f, err := os.OpenFile(path, os.O_WRONLY|os.O_APPEND, 0)
		if err != nil {
			return cannotWrite(path, err)
		}
		return f.Close()
	}
	if err := folderOf(path); err != nil {
		return err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return cannotWrite(path, err)
	}
	if err := errors.Join(f.Close(), os.Remove(path)); err != nil {
		return cannotWrite(path, err)
	}
	return nil
}

// replaceable makes sure that a file can be put at path by way of another one beside it, as radio files are written.
func replaceable(path string) error {
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	if err := folderOf(path); err != nil {
		return err
	}
	if st, err := os.Stat(path); err == nil && !st.Mode().IsRegular() {
		return badInput(fmt.Errorf("%s: this is no ordinary file; give the path of a radio file", path))
	}
	f, err := os.CreateTemp(filepath.Dir(path), ".propsoff-*")
	if err != nil {
		return cannotWrite(path, err)
	}
	if err := errors.Join(f.Close(), os.Remove(f.Name())); err != nil {
		return cannotWrite(path, err)
	}
	return nil
}

// folderOf makes sure that there is a folder for path.
func folderOf(path string) error {
	st, err := os.Stat(filepath.Dir(path))
	switch {
	case err == nil && st.IsDir():
		return nil
	case err == nil, errors.Is(err, fs.ErrNotExist), errors.Is(err, syscall.ENOTDIR):
		return badInput(fmt.Errorf("%s: there is no such folder to write into; make it first, or choose another", path))
	}
	return cannotWrite(path, err)
}

// cannotWrite says in plain words why the machine does not let path be written.
func cannotWrite(path string, err error) error {
	why := err.Error()
	var p *fs.PathError
	if errors.As(err, &p) {
		why = p.Err.Error()
	}
	switch {
	case errors.Is(err, fs.ErrPermission):
		why = "nothing may be written there"
		if st, err := os.Stat(path); err == nil && st.Mode().IsRegular() {
			why = "this file may not be changed"
		}
	case errors.Is(err, fs.ErrNotExist):
		why = "no file can be made in this folder"
	case errors.Is(err, syscall.EROFS):
		why = "this disk can only be read"
	case errors.Is(err, syscall.ENOSPC):
		why = "the disk is full"
	}
	return trouble(errors.New(phrase.CannotWrite(path, why)))
}

// beginTake begins the take of --record, once it is sure that the machine lets it be written; nil where none is asked for.
func beginTake(path string, papers records.Papers, start *loop.Start) (*records.Recorder, error) {
	if path == "" {
		return nil, nil
	}
	if _, err := os.Lstat(path); err != nil { // there is no file yet: a take is never written over another file
		if err := writable(path); err != nil {
			return nil, err
		}
	}
	rec := records.NewRecorder(papers)
	rec.Most = -1 // nothing is recorded later
	if err := rec.Part(start); err != nil {
		return nil, badInput(fmt.Errorf("%s: %w", path, err))
	}
	if err := rec.Record(path); err != nil {
		return nil, badInput(err)
	}
	return rec, nil
}

// noteRadio tells a take which radio file is read, as soon as that is known; nil where none is recorded.
func noteRadio(rec *records.Recorder, papers records.Papers) func(*radio.File, *input.Info) {
	if rec == nil {
		return nil
	}
	return func(f *radio.File, info *input.Info) { rec.Use(papers.WithRadio(f, info)) }
}

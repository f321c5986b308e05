package logbook

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"time"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
)

// mostWaiting is how many bytes of entries wait at most where they cannot be written.
const mostWaiting = 4 << 20

// Book is one pupil's logbook, open for appending. No file stays open in between. Not for several goroutines at once; several
// books, of several programs too, may be open on the same pupil.
type Book struct {
	pupil, path string
	// first is how the file began when it was opened, by which it is told from one begun since.
	first []byte
	// waiting are whole lines that are not written yet, held of them how many.
	waiting []byte
	held    int
	gone    bool
	written bool // something that the disk may not have yet

	// Sync makes Append wait until the disk has it, against power cuts; Close does so anyway.
	Sync bool
}

// Open opens a pupil's logbook, whichever way the name is typed, or begins one; now is written into its first line. The folder is made if need be, for the user alone
// (0700), as is the file (0600).
func (s Store) Open(pupil string, now time.Time) (*Book, error) {
	path, name, err := s.path(pupil)
	if err != nil {
		return nil, err
	}
	what := words.T("logbook-file.unwritten")
	if err := os.MkdirAll(s.Dir, 0o700); err != nil {
		return nil, failed(s.Dir, words.T("logbook-file.folder-not-made"), err)
	}
	called, files, err := s.find(name)
	if err != nil {
		return nil, err
	}
	if len(files) > 0 {
		name, path = called, files[0]
	}
	if _, err := ordinary(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, failed(path, what, err)
	}
	f, err := door.Append(path, true)
	if err != nil {
		return nil, failed(path, what, err)
	}
	defer f.Close()
	b := &Book{pupil: name, path: path}
	if err := b.begin(f, now); err != nil {
		return nil, failed(path, what, err)
	}
	return b, nil
}

// Pupil is the name, as it was typed first.
func (b *Book) Pupil() string { return b.pupil }

// Path is the file.
func (b *Book) Path() string { return b.path }

// Waiting is how many entries could not be written yet.
func (b *Book) Waiting() int { return b.held }

// begin writes the first line where there is none, and notes how the file begins.
func (b *Book) begin(f *os.File, now time.Time) error {
	held, err := door.Lock(f, patience)
	if err != nil {
		return err
	}
	have := make([]byte, 1<<12)
	n, err := f.ReadAt(have, 0)
	if err != nil && err != io.EOF {
		return err
	}
	have = have[:n]
	end := bytes.IndexByte(have, '\n')
	switch {
	case end >= 0:
		b.first = have[:end+1]
		if h, _, err := parse(bytes.TrimPrefix(have[:end], byteOrderMark)); err == nil && h != nil {
			if v, _ := h.version(); v > Version {
				return ErrLater
			}
		}
		return nil
	case n == cap(have): // no first line of ours; what is there stays, and the file's name says whose it is
		b.first = have
		return nil
	}
	head, err := appendHeader(nil, b.pupil, now)
	if err != nil {
		return err
	}
	if n > 0 { // torn while it was written: the next stands on a line of its own
		head = append([]byte{'\n'}, head...)
	}
	if wrote, err := f.Write(head); err != nil {
		if held && wrote > 0 {
			_ = cut(f, int64(n))
		}
		return err
	}
	b.first = append(bytes.Clone(have), head...)
	if err := f.Sync(); err != nil && !errors.Is(err, errNothingToSync) {
		return err
	}
	return door.SyncFolder(filepath.Dir(b.path))
}

// Append writes entries, all in one write. Where that fails (a full disk, another program that holds the file) they wait in the book and
// go out with the next Append or Close, and the error says so. An entry that is no entry is refused alone: nothing is written then.
func (b *Book) Append(entries ...Entry) error {
	if b.gone {
		return ofPupil(b.pupil, ErrForgotten)
	}
	add := b.waiting
	for i := range entries {
		var err error
		if add, err = appendEntry(add, &entries[i]); err != nil {
			return words.Wrong("logbook-file.entry-unwritten", words.Args{"why": words.Error(err)}).In(b.path).Because(err)
		}
	}
	if len(b.waiting) > 0 && len(add) > mostWaiting {
		return words.Wrong("logbook-file.too-many-wait", words.Args{"n": words.Count(b.held)}).In(b.path)
	}
	b.waiting = add
	b.held += len(entries)
	return b.flush()
}

// Close writes what waits and waits until the disk has everything. The book may be used again afterwards.
func (b *Book) Close() error {
	if b.gone {
		return nil
	}
	if err := b.flush(); err != nil || !b.written || b.Sync {
		return err
	}
	f, err := door.Append(b.path, false)
	if errors.Is(err, fs.ErrNotExist) {
		return nil // deleted since: nothing to keep
	}
	if err == nil {
		if err = f.Sync(); errors.Is(err, errNothingToSync) {
			err = nil
		}
		err = errors.Join(err, f.Close())
	}
	if err != nil {
		return failed(b.path, words.T("logbook-file.unsure"), err)
	}
	b.written = false
	return nil
}

// flush writes what waits.
func (b *Book) flush() error {
	if b.held == 0 {
		return nil
	}
	err := b.write()
	switch {
	case err == nil:
		return nil
	case errors.Is(err, ErrForgotten):
		b.gone, b.waiting, b.held = true, nil, 0
		return ofPupil(b.pupil, ErrForgotten)
	}
	return failed(b.path, words.T("logbook-file.held", words.Args{"n": words.Count(b.held)}), err)
}

func (b *Book) write() (err error) {
	if _, err := ordinary(b.path); err != nil {
		return b.missing(err)
	}
	f, err := door.Append(b.path, false)
	if err != nil {
		return b.missing(err)
	}
	defer func() {
		if bad := f.Close(); bad != nil && err == nil {
			err = bad
		}
	}()
	held, err := door.Lock(f, patience)
	if err != nil {
		return err
	}
	// Deleted while the lock was waited for, or deleted and begun anew: the file is another.
	have := make([]byte, len(b.first))
	if _, err := f.ReadAt(have, 0); err != nil && err != io.EOF {
		return err
	} else if !bytes.Equal(have, b.first) {
		return ErrForgotten
	}
	st, err := f.Stat()
	if err != nil {
		return err
	}
	text := b.waiting
	last := make([]byte, 1)
	if _, err := f.ReadAt(last, st.Size()-1); err != nil {
		return err
	}
	if last[0] != '\n' { // a torn line; it is kept on a line of its own
		text = append([]byte{'\n'}, text...)
	}
	n, err := f.Write(text)
	if err == nil {
		b.waiting, b.held, b.written = b.waiting[:0], 0, true
		if b.Sync {
			if err := f.Sync(); err != nil && !errors.Is(err, errNothingToSync) {
				return words.Wrong("logbook-file.entry-unsure", words.Args{"why": words.Error(err)}).Because(err)
			}
		}
		return nil
	}
	if n > 0 && (!held || cut(f, st.Size()) != nil) {
		b.passed(n - (len(text) - len(b.waiting)))
	}
	return err
}

// passed notes that the first n bytes of what waits went through and cannot be taken back: entries that are whole in them are not written again.
func (b *Book) passed(n int) {
	n = max(0, n)
	whole := bytes.LastIndexByte(b.waiting[:n], '\n') + 1
	if n < len(b.waiting) && n > whole && b.waiting[n] == '\n' { // all of a line but its end: it is read as whole
		whole = n + 1
	}
	b.held -= bytes.Count(b.waiting[:whole], []byte{'\n'})
	b.waiting = append(b.waiting[:0], b.waiting[whole:]...)
}

// missing tells a logbook that was deleted from a folder that is out of reach.
func (b *Book) missing(err error) error {
	if !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if _, gone := os.Stat(filepath.Dir(b.path)); gone != nil {
		return err
	}
	return ErrForgotten
}

// cut takes off what a write that failed has left. A file opened for appending cannot be cut by its handle everywhere.
func cut(f *os.File, size int64) error {
	if f.Truncate(size) == nil {
		return nil
	}
	return os.Truncate(f.Name(), size)
}

// errNothingToSync is what places give that have nothing to wait for (fsync(2)).
const errNothingToSync = syscall.EINVAL

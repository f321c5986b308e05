package logbook

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
)

// ErrTaken: there is another pupil of the name already; the two can be merged.
var ErrTaken error = words.Wrong("logbook-file.taken")

// mostMoved is how large a logbook may be that is moved into another, in bytes (ours): both are held in memory.
const mostMoved = 256 << 20

// Rename gives a pupil another name: a logbook is begun under it as when the old one was, and everything moves there. Killed at any moment it
// loses nothing, and the same call goes on with it. A name that differs in its capitals alone is another one, too.
func (s Store) Rename(pupil, name string, now time.Time) error {
	called, files, err := s.find(pupil)
	if err != nil {
		return err
	}
	if len(files) == 0 {
		return ofPupil(called, ErrNoPupil)
	}
	path, name, err := s.path(name)
	if err != nil || name == called && len(files) == 1 {
		return err
	}
	was := headerOf(files[0])
	if Key(name) != Key(called) {
		_, taken, err := s.find(name)
		if err != nil {
			return err
		}
		if len(taken) > 0 && !half(taken, files) {
			return ofPupil(name, ErrTaken)
		}
	}
	begun := was.begun()
	if begun.IsZero() {
		begun = now
	}
	if err := beginAt(path, name, begun); err != nil {
		return err
	}
	_, err = moveAll(files, path)
	return err
}

// half tells whether a logbook is what a rename that was killed has left: begun when the old one was, with nothing that stands not there too.
func half(renamed, old []string) bool {
	if is, was := headerOf(renamed[0]).Begun, headerOf(old[0]).Begun; is != was || is == "" {
		return false
	}
	lines := map[string]bool{}
	for _, path := range old {
		text, err := door.Read(path, "door.logbook", mostMoved)
		if err != nil {
			return false
		}
		for line := range bytes.Lines(text) {
			lines[string(bytes.TrimRight(line, "\r\n"))] = true
		}
	}
	for _, path := range renamed {
		text, err := door.Read(path, "door.logbook", mostMoved)
		if err != nil {
			return false
		}
		for line := range bytes.Lines(text) {
			line = bytes.TrimRight(line, "\r\n")
			if h, _, err := parse(line); !lines[string(line)] && (err != nil || h == nil) {
				return false
			}
		}
	}
	return true
}

// beginAt begins a logbook at a path, where there is none.
func beginAt(path, name string, begun time.Time) (err error) {
	if _, bad := ordinary(path); bad != nil && !errors.Is(bad, fs.ErrNotExist) {
		return failed(path, words.T("logbook-file.unwritten"), bad)
	}
	f, err := door.Append(path, true)
	if err == nil {
		b := &Book{pupil: name, path: path}
		err = errors.Join(b.begin(f, begun), f.Close())
	}
	if err != nil {
		return failed(path, words.T("logbook-file.unwritten"), err)
	}
	return nil
}

// Merge moves everything that one pupil has into the logbook of another, and gives how many lines came there. Lines that stand there already,
// letter by letter, are not written again: so one that was killed half way is simply done again.
func (s Store) Merge(from, into string) (lines int, err error) {
	left, files, err := s.find(from)
	if err != nil {
		return 0, err
	}
	name, to, err := s.find(into)
	switch {
	case err != nil:
		return 0, err
	case len(files) == 0:
		return 0, ofPupil(left, ErrNoPupil)
	case len(to) == 0:
		return 0, ofPupil(name, ErrNoPupil)
	}
	if err := Two(left, name); err != nil {
		return 0, err
	}
	return moveAll(files, to[0])
}

// Two refuses names of one and the same pupil, of whom there is nothing to merge.
func Two(from, into string) error {
	if Key(from) == Key(into) {
		return words.Wrong("logbook-file.same-pupil", words.Args{"name": words.Quote(into)})
	}
	return nil
}

// moveAll moves what stands in some files into another.
func moveAll(files []string, into string) (lines int, err error) {
	for _, path := range files {
		if path == into {
			continue
		}
		n, err := moveLines(path, into)
		if lines += n; err != nil {
			return lines, failed(path, words.T("logbook-file.not-moved"), err)
		}
	}
	return lines, nil
}

// moveLines appends the lines of one file to another and waits until the disk has them; then the first is emptied and taken away. Both are
// locked all the while, so nothing is written to the one that goes meanwhile, and whoever has it open finds it gone.
func moveLines(from, into string) (lines int, err error) {
	st, err := ordinary(from)
	if err != nil {
		return 0, err
	}
	f, err := door.Modify(from)
	if err != nil {
		return 0, err
	}
	open := true
	defer func() {
		if open {
			err = errors.Join(err, f.Close())
		}
	}()
	if _, err := door.Lock(f, patience); err != nil {
		return 0, err
	}
	if now, err := f.Stat(); err != nil || !os.SameFile(st, now) {
		return 0, errors.Join(words.Wrong("logbook-file.another-came"), err)
	}
	text, err := door.ReadAll(f, mostMoved)
	if err != nil {
		return 0, err
	}
	if lines, err = appendLines(into, text); err != nil {
		return lines, err
	}
	if err := f.Truncate(0); err != nil {
		return lines, err
	}
	_ = f.Sync() // some places have nothing to wait for
	err = os.Remove(from)
	open = false
	if closed := f.Close(); err != nil && closed == nil {
		err = os.Remove(from) // some systems delete no file that is open
	}
	return lines, errors.Join(err, door.SyncFolder(filepath.Dir(from)))
}

// appendLines appends to a logbook what it does not have of some text: each line as it is, damaged or not, but first lines, which say whose the
// text was.
func appendLines(path string, text []byte) (n int, err error) {
	if _, err := ordinary(path); err != nil {
		return 0, err
	}
	f, err := door.Append(path, false)
	if err != nil {
		return 0, err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	held, err := door.Lock(f, patience)
	if err != nil {
		return 0, err
	}
	st, err := f.Stat()
	if err != nil {
		return 0, err
	}
	have, err := door.ReadAll(io.NewSectionReader(f, 0, st.Size()), mostMoved)
	if err != nil {
		return 0, err
	}
	if h, _, err := parse(firstLine(have)); err == nil && h != nil {
		if v, _ := h.version(); v > Version {
			return 0, ErrLater
		}
	}
	there := map[string]bool{}
	for line := range bytes.Lines(have) {
		there[string(bytes.TrimRight(line, "\r\n"))] = true
	}
	var add []byte
	if len(have) > 0 && have[len(have)-1] != '\n' { // a torn line; it is kept on a line of its own
		add = append(add, '\n')
	}
	for line := range bytes.Lines(bytes.TrimPrefix(text, byteOrderMark)) {
		line = bytes.TrimRight(line, "\r\n")
		if len(line) == 0 || there[string(line)] {
			continue
		}
		if h, _, err := parse(line); err == nil && h != nil {
			if v, _ := h.version(); v > Version {
				return 0, ErrLater
			}
			continue
		}
		add = append(append(add, line...), '\n')
		n++
	}
	if n == 0 {
		return 0, nil
	}
	if wrote, err := f.Write(add); err != nil {
		if held && wrote > 0 {
			_ = cut(f, st.Size())
		}
		return 0, err
	}
	if err := f.Sync(); err != nil && !errors.Is(err, errNothingToSync) {
		return n, err
	}
	return n, nil
}

// firstLine is the first line of a text, without the mark of its encoding.
func firstLine(text []byte) []byte {
	line, _, _ := bytes.Cut(bytes.TrimPrefix(text, byteOrderMark), []byte{'\n'})
	return bytes.TrimRight(line, "\r")
}

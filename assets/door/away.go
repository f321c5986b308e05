package door

import (
	"os"
	"strings"

	"propsoff.example/assets/words"
)

// TakeAway removes an ordinary file, and nothing that a link leads to, if its text begins as given: by that whoever wrote it knows it again. A file that
// is not there, or begins otherwise, stays as it is.
func TakeAway(path string, what words.ID, begins string, most int) (gone bool, err error) {
	if m, err := os.Lstat(path); err != nil || !m.Mode().IsRegular() {
		return false, nil // what is not there need not be taken away
	}
	text, err := Read(path, what, most)
	if err != nil || !strings.HasPrefix(string(text), begins) {
		return false, nil // what cannot be read is not known again
	}
	if err := os.Remove(path); err != nil {
		return false, ofWriting(path, err)
	}
	return true, nil
}

// Delete removes an ordinary file, and nothing that a link leads to; what is what errors call it.
func Delete(path string, what words.ID) error {
	if err := plain(path, what); err != nil {
		return err
	}
	return ofWriting(path, os.Remove(path))
}

// Move gives an ordinary file another name in its folder, which nothing has yet: what is there is never lost.
func Move(path, to string, what words.ID) error {
	if err := plain(path, what); err != nil {
		return err
	}
	if _, err := (Out{}).look(to); err != nil {
		return err
	}
	moved, err := nameAnew(path, to)
	if err != nil || moved {
		return ofWriting(to, err)
	}
	return ofWriting(path, os.Remove(path))
}

// plain refuses what is no ordinary file.
func plain(path string, what words.ID) error {
	st, err := os.Lstat(path)
	if err != nil {
		return of(path, what, err)
	}
	if k, ok := kindOf(st.Mode()); !ok {
		return &Error{Path: path, What: what, Why: k}
	}
	return nil
}

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

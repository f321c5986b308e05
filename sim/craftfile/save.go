package craftfile

import (
	"os"
	"strings"

	"propsoff.example/assets/door"
)

// ErrChanged is Save's error where the file on disk is no longer the one that was read.
var ErrChanged = door.ErrChanged

// Save writes f to path, which held was when it was read or last saved. Where it now holds anything else, nothing is
// written and the error is ErrChanged, even where another program saves at the same moment. The new file takes the old one's place as a
// whole or not at all, keeps its permissions, and is safe on the disk once Save has returned; a link is followed.
func (f *File) Save(path string, was []byte) error {
	if was == nil {
		was = []byte{} // a file was read, even if it was empty
	}
	return door.Edit(path, was, f.Text)
}

// SaveNew writes f into a folder, which is made where it is missing, as a file named after base (such as "teasel"). No
// file that is already there is written over: the next one is base-2. It gives the path.
func (f *File) SaveNew(dir, base string) (string, error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return "", err
	}
	base = fileName(base)
	return door.PublishFree(dir, base, ".yaml", 10_000, door.Out{}, door.Bytes(f.Text))
}

// fileName makes a name that every file system takes.
func fileName(s string) string {
	s = strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9', r == '-':
			return r
		case r >= 'A' && r <= 'Z':
			return r - 'A' + 'a'
		}
		return '-'
	}, s)
	if s = strings.Trim(s, "-"); s == "" {
		return "craft"
	}
	return s[:min(len(s), 60)]
}

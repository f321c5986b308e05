package serve

import (
	"io/fs"
	"os"
	"path/filepath"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
)

// Bounds of a folder (ours): the page has some twenty files.
const (
	mostFiles = 1000
	mostBytes = 256 << 20
)

// ErrTooMuch: a folder holds far more than a page.
var ErrTooMuch error = words.Wrong("serve.too-much")

// Disk is a folder of this machine, of which ordinary files alone are read: to open a pipe might wait for ever. The error is that it is none.
func Disk(folder string) (fs.FS, error) {
	st, err := os.Stat(folder)
	switch {
	case os.IsNotExist(err):
		return nil, &door.Error{Path: folder, What: "door.folder-wanted", Why: door.Missing, Err: err}
	case os.IsPermission(err):
		return nil, &door.Error{Path: folder, What: "door.folder-wanted", Why: door.NotAllowed, Err: err}
	case err != nil:
		return nil, &door.Error{Path: folder, Err: err}
	case !st.IsDir():
		return nil, words.Wrong("serve.no-folder").In(folder)
	}
	return disk(folder), nil
}

// disk opens by package door what is no folder.
type disk string

func (d disk) Open(name string) (fs.File, error) {
	if !fs.ValidPath(name) {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrInvalid}
	}
	path := filepath.Join(string(d), filepath.FromSlash(name))
	if st, err := os.Stat(path); err == nil && st.IsDir() {
		f, err := os.DirFS(string(d)).Open(name)
		if os.IsPermission(err) {
			return nil, &door.Error{Path: path, What: "door.folder-wanted", Why: door.NotAllowed, Err: err}
		}
		return f, err
	}
	return door.Open(path, "")
}

// ordinary tells whether what stands in a folder is an ordinary file, or leads to one.
func ordinary(folder fs.FS, name string, d fs.DirEntry) bool {
	if d.Type()&fs.ModeSymlink != 0 {
		st, err := fs.Stat(folder, name)
		return err == nil && st.Mode().IsRegular()
	}
	return d.Type().IsRegular()
}

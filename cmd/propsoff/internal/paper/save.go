package paper

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"

	"propsoff/assets/wholefile"
)

// ErrThere is a file that is there already and is not to be written over.
var ErrThere = errors.New("this file is there already")

// ErrEnding is a file name whose ending is none of Extensions.
var ErrEnding = errors.New("the ending of the file name is not one that can be written")

// Save writes the page into a file in the format of its ending. Without over a file that is there stays as it is, and the
// error is ErrThere. The file is written as a whole: whoever reads it sees the old one or the new one.
func (d *Print) Save(path string, over bool) error {
	f, ok := FormatOf(path)
	if !ok {
		return ErrEnding
	}
	if st, err := os.Lstat(path); err == nil {
		switch {
		case st.IsDir():
			return fmt.Errorf("%s: this is a folder; give the name of a file in it", path)
		case !over:
			return ErrThere
		}
	}
	var b bytes.Buffer
	if err := d.Write(&b, f); err != nil {
		return err
	}
	write := wholefile.New
	if over {
		write = wholefile.Replace
	}
	switch err := write(path, b.Bytes(), 0o644); { // a card is to be shown
	case errors.Is(err, fs.ErrExist): // something has come between
		return ErrThere
	case err != nil:
		return plain(path, err)
	}
	return nil
}

// plain says in plain words why something cannot be written.
func plain(path string, err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%s: there is no such folder to write into; make it first, or choose another", filepath.Dir(path))
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s: it may not be written here; choose another folder", filepath.Dir(path))
	}
	return fmt.Errorf("%s: it cannot be written (%w)", path, err)
}

// SaveFree is Save under the first name that is free: name.pdf, name-2.pdf … It gives the path.
func (d *Print) SaveFree(folder, name, ending string) (string, error) {
	for n := 1; n <= 1000; n++ {
		path := filepath.Join(folder, name+ending)
		if n > 1 {
			path = filepath.Join(folder, name+"-"+strconv.Itoa(n)+ending)
		}
		if err := d.Save(path, false); !errors.Is(err, ErrThere) {
			return path, err
		}
	}
	return "", fmt.Errorf("%s: there are a thousand files named %s; delete what is not needed", folder, name)
}

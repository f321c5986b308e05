package paper

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"strconv"

	"propsoff/assets/door"
)

// ErrEnding is a file name whose ending is none of Extensions.
var ErrEnding = errors.New("the ending of the file name is not one that can be written")

// SaveFree writes the page into a file in the format of its ending, under the first name that is free: name.pdf, name-2.pdf … It gives the
// path. The errors are those of door.Publish, and ErrEnding.
func (d *Print) SaveFree(folder, name, ending string) (string, error) {
	f, ok := FormatOf(name + ending)
	if !ok {
		return "", ErrEnding
	}
	for n := 1; n <= 1000; n++ {
		path := filepath.Join(folder, name+ending)
		if n > 1 {
			path = filepath.Join(folder, name+"-"+strconv.Itoa(n)+ending)
		}
		if err := door.Try(path, door.Out{}); isTaken(err) {
			continue // before the page is drawn for nothing
		}
		err := door.Publish(path, door.Out{}, func(w io.Writer) error { return d.Write(w, f) })
		if !isTaken(err) {
			return path, err
		}
	}
	return "", fmt.Errorf("%s: there are a thousand files named %s; delete what is not needed", folder, name)
}

// isTaken reports whether something has the name, be it a folder or a link.
func isTaken(err error) bool {
	var e *door.Error
	return errors.Is(err, fs.ErrExist) || errors.As(err, &e) && e.Why >= door.Folder && e.Why <= door.Link
}

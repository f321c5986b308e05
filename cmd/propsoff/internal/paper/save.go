package paper

import (
	"errors"
	"fmt"
	"io"

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
	path, err := door.PublishFree(folder, name, ending, 1000, door.Out{}, func(w io.Writer) error { return d.Write(w, f) })
	if errors.Is(err, door.ErrNoName) {
		err = fmt.Errorf("%s: there are a thousand files named %s; delete what is not needed", folder, name)
	}
	return path, err
}

package paper

import (
	"io"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
)

// ErrEnding is a file name whose ending is none of Extensions, or a format that there is not.
var ErrEnding error = words.Wrong("paper.ending")

// SaveFree writes the page into a file in the format of its ending, under the first name that is free: name.pdf, name-2.pdf … It gives the
// path. The errors are those of door.Publish, and ErrEnding.
func (d *Print) SaveFree(folder, name, ending string) (string, error) {
	f, ok := FormatOf(name + ending)
	if !ok {
		return "", ErrEnding
	}
	return door.PublishFree(folder, name, ending, 1000, door.Out{}, func(w io.Writer) error { return d.Write(w, f) })
}

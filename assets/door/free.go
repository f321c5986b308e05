package door

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"

	"propsoff.example/assets/words"
)

// errNoName is the cause of the error that no name is free.
var errNoName = errors.New("no-name-free")

// PublishFree is Publish under the first name in a folder that nothing has, be it a link that leads nowhere: base+ending, base-2+ending … up
// to most names. It gives the path. The error is that of Publish, or says that every name is taken.
func PublishFree(dir, base, ending string, most int, o Out, write func(io.Writer) error) (string, error) {
	o.Over = false
	for n := 1; n <= most; n++ {
		path := filepath.Join(dir, base+ending)
		if n > 1 {
			path = filepath.Join(dir, fmt.Sprintf("%s-%d%s", base, n, ending))
		}
		err := Publish(path, o, write)
		if e := (*Error)(nil); errors.As(err, &e) && (e.Why == There || e.Why >= Folder && e.Why <= Link) {
			continue
		}
		return path, err
	}
	return "", words.Wrong("door.names-taken", words.Args{"name": words.Quote(base)}).In(dir).Because(errNoName)
}

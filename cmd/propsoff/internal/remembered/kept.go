package remembered

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
)

// kept is a file that is read at the start and written anew with each change. Without a path nothing is kept.
type kept struct {
	path string
	// Trouble says what could not be read or kept; it says nothing where all is well.
	Trouble words.Text
	// shut: what stands there could not be put aside, so nothing is written over it.
	shut bool
}

// read has the file parsed, where there is one. One that cannot be used is put aside beside it under a name that is free, and Trouble says so by
// the message damaged.
func (k *kept) read(longest int, aside string, damaged words.ID, parse func(data []byte) error) {
	if k.path == "" {
		return
	}
	data, err := door.Read(k.path, "", longest)
	if errors.Is(err, fs.ErrNotExist) {
		return
	}
	if err == nil {
		err = parse(data)
	}
	if err == nil {
		return
	}
	put, bad := "", err
	if data != nil {
		put, bad = door.PublishFree(filepath.Dir(k.path), aside, ".yaml", 99, door.Out{Private: true}, door.Bytes(data))
	}
	k.shut = bad != nil
	k.Trouble = words.T(damaged, words.Args{"why": words.Error(err), "aside": words.Quote(put), "shut": words.Flag(k.shut)})
}

// write keeps the file as it is to be now; where that cannot be done, Trouble says so.
func (k *kept) write(data []byte) {
	if k.path == "" || k.shut {
		return
	}
	err := os.MkdirAll(filepath.Dir(k.path), 0o700)
	if err == nil {
		err = door.PublishBytes(k.path, door.Out{Over: true, Private: true}, data)
	}
	if k.Trouble = (words.Text{}); err != nil {
		k.Trouble = words.T("remembered.not-kept", words.Args{"why": words.Error(err)})
	}
}

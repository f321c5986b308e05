package world

import (
	"errors"
	"io/fs"
	"path/filepath"
	"strings"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
)

// Crafts are the names of the crafts that ship.
func Crafts() []string { return append([]string{assets.BuiltIn}, assets.Crafts()...) }

// Meant adds to the error of a file that is not there which of the shipped names was probably meant: people mistype a name, or write that of
// its file.
func Meant(err error, name string, shipped []string) error {
	near, ok := yamldoc.Near(strings.TrimSuffix(filepath.Base(name), ".yaml"), shipped)
	if !ok || !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return words.Wrong("named-file.near", words.Args{"why": words.Error(err), "near": words.Quote(near)}).Because(err)
}

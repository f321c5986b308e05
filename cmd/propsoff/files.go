package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"propsoff/assets"
	"propsoff/assets/yamldoc"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/records"
	"propsoff/input"
	"propsoff/input/radio"
	"propsoff/sim/craftfile"
)

// craft is a craft file with the words that it gives to files.
type craft struct {
	*craftfile.File
	// path as written, "built-in" for the shipped default.
	path  string
	names input.Names
	// gestures are those that the craft was given, nil for none.
	gestures *gestureFile
}

func newCraft(path string, f *craftfile.File) *craft {
	c := &craft{File: f, path: path, names: f.Names()}
	c.names.Refusals, c.names.OldRefusals, c.names.Happenings = phrase.Refusals(), phrase.OldRefusals(), phrase.Happenings()
	return c
}

// loadCraft reads the craft file of a flag or a script: a shipped craft by its name, or a path, from dir where it is not
// absolute. Nothing written means the built-in craft.
func loadCraft(path, dir string) (*craft, error) {
	if path == "" {
		path = assets.BuiltIn
	}
	if name, text, ok := assets.Craft(path); ok {
		f, err := craftfile.Parse(name, text)
		if err != nil {
			return nil, badInput(err)
		}
		return newCraft(path, f), nil
	}
	file := path
	if dir != "" && !filepath.IsAbs(file) {
		file = filepath.Join(dir, file)
	}
	text, err := readFile(file, "craft file")
	if err != nil {
		return nil, badInput(err)
	}
	f, err := craftfile.Parse(file, text)
	if err != nil {
		if other := otherKind(file, text); other != "" {
			err = fmt.Errorf("%s: this is a %s, not a craft file; give a craft file or a shipped craft in its place", file, other)
		}
		return nil, badInput(err)
	}
	return newCraft(path, f), nil
}

// otherKind says what a file that is no craft file is, by its first line or, where it has no such line, by its fields; empty
// where nothing tells.
func otherKind(name string, text []byte) string {
	if bytes.HasPrefix(text, []byte(takeMark)) {
		return "take"
	}
	doc, err := yamldoc.Parse(name, text)
	if err != nil || !doc.Root().IsMap() {
		return ""
	}
	m := doc.Root().Map("file")
	if kind := m.Opt("propsoff"); kind.Exists() {
		word, _ := kind.Text()
		first, _, _ := strings.Cut(word, " ")
		return map[string]string{"script": "script", "radio": "radio file", "gestures": "gesture file", "drill": "drill file", "course": "course file"}[first]
	}
	switch {
	case m.Opt("steps").Exists():
		return "script"
	case m.Opt("controls").Exists():
		return "radio file"
	}
	return ""
}

// loadRadio reads the radio file of a flag or a script; nil where none is written.
func loadRadio(path, dir string, c *craft) (*radio.File, error) {
	if path == "" {
		return nil, nil
	}
	if dir != "" && !filepath.IsAbs(path) {
		path = filepath.Join(dir, path)
	}
	f, err := radio.Load(path, radio.Known{Names: &c.names})
	if err != nil {
		return nil, badInput(plainOpenError(path, "radio file", err))
	}
	return &f, nil
}

// openFile opens an ordinary file for reading and says in plain words why it cannot.
func openFile(path, what string) (*os.File, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, plainOpenError(path, what, err)
	}
	if st, err := f.Stat(); err == nil && st.IsDir() {
		f.Close()
		return nil, fmt.Errorf("%s: this is a folder; give the path of a %s", path, what)
	}
	return f, nil
}

func plainOpenError(path, what string, err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%s: there is no such %s; look for a slip in the path", path, what)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s: this %s may not be read; change its rights or choose another", path, what)
	}
	return err
}

// textMost is the longest file that is read as a text, in bytes; what is longer is not a text that a person wrote, and the
// reader of the format says so.
const textMost = 1<<20 + 1

// readText reads a text file whole, but not more than textMost bytes.
func readText(r io.Reader, name string) ([]byte, error) {
	b, err := io.ReadAll(io.LimitReader(r, textMost))
	if err != nil {
		return nil, fmt.Errorf("%s: cannot be read: %w", name, err)
	}
	return b, nil
}

// readFile is readText for a file by its path, which an error calls what it is to be.
func readFile(path, what string) ([]byte, error) {
	r, err := openFile(path, what)
	if err != nil {
		return nil, err
	}
	defer r.Close()
	return readText(r, path)
}

// papersOf are what a take keeps of a craft and its gestures.
func papersOf(c *craft) records.Papers {
	p := records.Papers{Program: version, CraftName: c.Name, CraftText: string(c.Text)}
	if g := c.gestures; g != nil {
		p.GesturesName, p.GesturesText = g.name, string(g.Text)
	}
	return p
}

package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"propsoff/assets"
	"propsoff/assets/door"
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
func (w *world) loadCraft(path, dir string) (*craft, error) {
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
	text, err := w.readFile(file, "craft file")
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
func (w *world) loadRadio(path, dir string, c *craft) (*radio.File, error) {
	if path == "" {
		return nil, nil
	}
	if dir != "" && !filepath.IsAbs(path) {
		path = filepath.Join(dir, path)
	}
	text, err := w.readFile(path, "radio file")
	if err != nil {
		return nil, badInput(err)
	}
	f, err := radio.Parse(path, text, radio.Known{Names: &c.names})
	if err != nil {
		return nil, badInput(err)
	}
	return &f, nil
}

// readFile reads a text file whole: one that a person named, or standard input for "-". what is what it is to be.
func (w *world) readFile(path, what string) ([]byte, error) {
	r, err := w.door.Open(path, what)
	if err != nil {
		return nil, err
	}
	defer r.Close()
	return readText(r, path)
}

// readText reads a text whole. What is too long for one the reader of its format says.
func readText(r io.Reader, name string) ([]byte, error) {
	b, err := door.ReadAll(r, yamldoc.Most+1)
	if err != nil && !errors.Is(err, door.ErrTooLong) {
		return nil, fmt.Errorf("%s: cannot be read: %w", name, err)
	}
	return b, nil
}

// papersOf are what a take keeps of a craft and its gestures.
func papersOf(c *craft) records.Papers {
	p := records.Papers{Program: version, CraftName: c.Name, CraftText: string(c.Text)}
	if g := c.gestures; g != nil {
		p.GesturesName, p.GesturesText = g.name, string(g.Text)
	}
	return p
}

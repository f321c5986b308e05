package world

import (
	"bytes"
	"errors"
	"io"
	"path/filepath"

	"propsoff.example/assets"
	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/takes"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/sim/craftfile"
)

// TakeMark begins every take.
const TakeMark = "propsoff take "

// Named are the files that a person named for a practice, each empty where none was: what is to be flown, and where it is recorded.
type Named struct {
	Radio, Craft, Gestures, Record string
}

// Craft is a craft file with the words that it gives to files.
type Craft struct {
	*craftfile.File
	// Path as written, "built-in" for the shipped default.
	Path  string
	Words input.Names
	// Gestures are those that the craft was given, nil for none.
	Gestures *GestureFile
}

// NewCraft is a craft file as it was read from path.
func NewCraft(path string, f *craftfile.File) *Craft {
	c := &Craft{File: f, Path: path, Words: f.Names()}
	c.Words.Refusals, c.Words.OldRefusals, c.Words.Happenings = codes.Refusals(), codes.OldRefusals(), codes.Happenings()
	return c
}

// LoadCraft reads the craft file of a flag or a script: a shipped craft by its name, or a path, from dir where it is not
// absolute; one that a person named, and not a script, goes by its bare name where it is kept, too. Nothing written means the built-in craft.
func (w *World) LoadCraft(path, dir string) (*Craft, error) {
	if path == "" {
		path = assets.BuiltIn
	}
	name, text, shipped := assets.Craft(path)
	if !shipped {
		var err error
		if name = from(dir, path); dir == "" {
			name = w.keptCraft(name)
		}
		if text, err = w.ReadFile(name, "craft-file.craft"); err != nil {
			return nil, exit.BadInput(Meant(err, path, Crafts()))
		}
	}
	if bytes.HasPrefix(text, []byte(TakeMark)) {
		return nil, exit.BadInput(yamldoc.OtherKind("door.take", "craft-file.craft").In(name))
	}
	f, err := craftfile.Parse(name, text)
	if err != nil {
		return nil, exit.BadInput(err)
	}
	if dir == "" && !shipped { // where it is saved again
		path = name
	}
	return NewCraft(path, f), nil
}

// from is a path as it is meant in a folder, which is empty for the one that the program runs in.
func from(dir, path string) string {
	if dir == "" || filepath.IsAbs(path) {
		return path
	}
	return filepath.Join(dir, path)
}

// LoadRadio reads the radio file of a flag or a script; nil where none is written.
func (w *World) LoadRadio(path, dir string, c *Craft) (*radio.File, error) {
	if path == "" {
		return nil, nil
	}
	if path = from(dir, path); dir == "" {
		path = w.keptRadio(path)
	}
	text, err := w.ReadFile(path, "radio.file")
	if err != nil {
		return nil, exit.BadInput(err)
	}
	f, err := radio.Parse(path, text, radio.Known{Names: &c.Words})
	if err != nil {
		return nil, exit.BadInput(err)
	}
	return &f, nil
}

// KindOf is the word for what a file is that a person named (yamldoc.KindOf), "craft" for a shipped craft; empty where nothing tells, or where it cannot
// be read, which is said once it is wanted. Its text is kept for whoever reads it next: a pipe gives it only once.
func (w *World) KindOf(path string, what words.ID) string {
	if _, _, shipped := assets.Craft(path); shipped {
		return "craft"
	}
	if _, was := w.peeked[path]; was && path == door.Dash {
		return "" // it is the other file
	}
	if path = w.keptCraft(path); what == "radio.file" {
		path = w.keptRadio(path)
	}
	text, err := w.ReadFile(path, what)
	if err != nil {
		return ""
	}
	if w.peeked == nil {
		w.peeked = map[string][]byte{}
	}
	w.peeked[path] = text
	return yamldoc.KindOf(path, text)
}

// ReadFile reads a text file whole: one that a person named, or standard input for "-". What is what errors call it.
func (w *World) ReadFile(path string, what words.ID) ([]byte, error) {
	if text, ok := w.peeked[path]; ok {
		if path == door.Dash { // it is one file's, and once
			delete(w.peeked, path)
		}
		return text, nil
	}
	r, err := w.Door.Open(path, what)
	if err != nil {
		return nil, err
	}
	defer r.Close()
	return ReadText(r, path)
}

// ReadText reads a text whole. What is too long for one the reader of its format says.
func ReadText(r io.Reader, name string) ([]byte, error) {
	b, err := door.ReadAll(r, yamldoc.Most+1)
	if err != nil && !errors.Is(err, door.ErrTooLong) {
		return nil, Unreadable(name, err)
	}
	return b, nil
}

// Unreadable is the error of a file that could be opened and not be read; name is what it is called.
func Unreadable(name string, err error) error {
	return words.Wrong("door.unreadable", words.Args{"why": words.Error(door.Bare(err))}).In(name).Because(err)
}

// Papers are what a take keeps of the craft and its gestures.
func (c *Craft) Papers() takes.Papers {
	p := takes.Papers{Program: Version, CraftName: c.Name, CraftText: string(c.Text)}
	if g := c.Gestures; g != nil {
		p.GesturesName, p.GesturesText = g.Name, string(g.Text)
	}
	return p
}

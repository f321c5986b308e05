package world

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/gestures/patternfile"
	"propsoff.example/input/radio"
)

// GestureFile is a gesture file as it was read.
type GestureFile struct {
	*patternfile.File
	// Name is its path as written, or that of the shipped one.
	Name string
	// Shipped: it is the one that ships with the program.
	Shipped bool
}

// ShippedGestures is the name of the shipped gesture file.
const ShippedGestures = "examples"

// OwnGestures is the path of the pilot's own gesture file, which stands beside the folder of radio files; empty where there is no
// folder for it.
func OwnGestures() string {
	dir, err := radio.Folder()
	if err != nil {
		return ""
	}
	return filepath.Join(filepath.Dir(dir), "gestures.yaml")
}

// LoadGestures reads the gesture file of a flag or a script: a shipped one by its name, or a path, from dir where it is not
// absolute. Where nothing is written it is the pilot's own, if own asks for it and there is one, else the shipped one. Times in
// it are rounded up to slots of slotTicks ms.
func (w *World) LoadGestures(path, dir string, own bool, slotTicks uint16) (*GestureFile, error) {
	if path == "" && own {
		mine := OwnGestures()
		if _, err := os.Stat(mine); mine != "" && !errors.Is(err, fs.ErrNotExist) {
			return w.readGestures(mine, "", slotTicks) // a place that nobody chose
		}
	}
	if path == "" || path == assets.BuiltIn {
		path = ShippedGestures
	}
	if name, text, ok := assets.Gestures(path); ok {
		f, err := patternfile.Parse(name, text, slotTicks)
		return &GestureFile{File: f, Name: path, Shipped: true}, exit.BadInput(err)
	}
	return w.readGestures(from(dir, path), "gesture-file.file", slotTicks)
}

func (w *World) readGestures(file string, what words.ID, slotTicks uint16) (*GestureFile, error) {
	text, err := w.ReadFile(file, what)
	if err != nil {
		return nil, exit.BadInput(Meant(err, file, []string{ShippedGestures, assets.BuiltIn}))
	}
	f, err := patternfile.Parse(file, text, slotTicks)
	return &GestureFile{File: f, Name: file}, exit.BadInput(err)
}

// TakeUp gives the craft these gestures, nil for none.
func (c *Craft) TakeUp(g *GestureFile) {
	c.Gestures = g
	if g == nil {
		c.Learn(nil, nil)
		c.Words.Gestures = nil
		return
	}
	c.Learn(&g.Gestures, &g.Menus)
	c.Words.Gestures = g.Gestures.Codes()
}

// LoadFlown reads a craft file, the gesture file that goes with it and the radio file, nil where none is named, for a practice that a person
// flies.
func (w *World) LoadFlown(named *Named) (*Craft, *radio.File, error) {
	c, err := w.LoadCraft(named.Craft, "")
	if err != nil {
		return nil, nil, err
	}
	cfg := c.Config()
	g, err := w.LoadGestures(named.Gestures, "", true, cfg.SlotTicks)
	if err != nil {
		return nil, nil, err
	}
	c.TakeUp(g)
	f, err := w.LoadRadio(named.Radio, "", c)
	return c, f, err
}

package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"propsoff/assets"
	"propsoff/gestures/patternfile"
	"propsoff/input/radio"
)

// gestureFile is a gesture file as it was read.
type gestureFile struct {
	*patternfile.File
	// name is its path as written, or that of the shipped one.
	name    string
	shipped bool
}

// shippedGestures is the name of the shipped gesture file.
const shippedGestures = "examples"

// ownGestures is the path of the pilot's own gesture file, which stands beside the folder of radio files; empty where there is no
// folder for it.
func ownGestures() string {
	dir, err := radio.Folder()
	if err != nil {
		return ""
	}
	return filepath.Join(filepath.Dir(dir), "gestures.yaml")
}

// loadGestures reads the gesture file of a flag or a script: a shipped one by its name, or a path, from dir where it is not
// absolute. Where nothing is written it is the pilot's own, if own asks for it and there is one, else the shipped one. Times in
// it are rounded up to slots of slotTicks ms.
func (w *world) loadGestures(path, dir string, own bool, slotTicks uint16) (*gestureFile, error) {
	if path == "" && own {
		mine := ownGestures()
		if _, err := os.Stat(mine); mine != "" && !errors.Is(err, fs.ErrNotExist) {
			return w.readGestures(mine, "", slotTicks) // a place that nobody chose
		}
	}
	if path == "" || path == assets.BuiltIn {
		path = shippedGestures
	}
	if name, text, ok := assets.Gestures(path); ok {
		g, err := parseGestures(name, path, text, slotTicks)
		if err == nil {
			g.shipped = true
		}
		return g, err
	}
	if dir != "" && !filepath.IsAbs(path) {
		path = filepath.Join(dir, path)
	}
	return w.readGestures(path, "gesture file", slotTicks)
}

func (w *world) readGestures(file, what string, slotTicks uint16) (*gestureFile, error) {
	text, err := w.readFile(file, what)
	if err != nil {
		return nil, badInput(err)
	}
	return parseGestures(file, file, text, slotTicks)
}

// parseGestures reads a text; what errors call it is name.
func parseGestures(name, path string, text []byte, slotTicks uint16) (*gestureFile, error) {
	f, err := patternfile.Parse(name, text, slotTicks)
	if err != nil {
		return nil, badInput(err)
	}
	return &gestureFile{File: f, name: path}, nil
}

// learn gives the craft these gestures, nil for none.
func (c *craft) learn(g *gestureFile) {
	c.gestures = g
	if g == nil {
		c.Learn(nil, nil)
		c.names.Gestures = nil
		return
	}
	c.Learn(&g.Gestures, &g.Menus)
	c.names.Gestures = g.Gestures.Codes()
}

// loadFlown reads a craft file and the gesture file that goes with it, for a practice that a person flies.
func (w *world) loadFlown(flags *shared) (*craft, error) {
	c, err := w.loadCraft(flags.craft, "")
	if err != nil {
		return nil, err
	}
	cfg := c.Config()
	g, err := w.loadGestures(flags.gestures, "", true, cfg.SlotTicks)
	if err != nil {
		return nil, err
	}
	c.learn(g)
	return c, nil
}

package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"

	"propsoff/assets"
	"propsoff/assets/door"
	"propsoff/assets/yamldoc"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/ways"
	"propsoff/sim/prove"
)

// checkWays makes the folder, before the long search begins.
func checkWays(dir string, c *craft) error {
	switch {
	case dir == "":
		return nil
	case dir == door.Dash:
		return badInput(errors.New("--write -: the scripts are several files; give the name of a folder"))
	case c.path == door.Dash:
		return badInput(errors.New("--write: a script names its craft file, and standard input has no name; give the path of a craft file"))
	}
	err := os.MkdirAll(dir, 0o777)
	if err == nil {
		return nil
	}
	told := fmt.Errorf("--write %s: this folder cannot be made; choose another (%w)", dir, door.Bare(err))
	if errors.Is(err, syscall.ENOTDIR) {
		return badInput(told)
	}
	return trouble(told)
}

// writeWays writes every way that a search found as a pilot script into a folder, which is there. It
// gives the path of each, by result. A file that was not written here before is never overwritten.
func (w *world) writeWays(dir string, c *craft, l *prove.Layout, r *prove.Report) ([]string, error) {
	written := make([]string, len(r.Results))
	craftPath, err := craftFrom(dir, c.path)
	if err != nil {
		return written, err
	}
	gestures := ""
	if g := c.gestures; g != nil && g.name != shippedGestures {
		if gestures, err = craftFrom(dir, g.name); err != nil {
			return written, err
		}
	}
	for i := range r.Results {
		one := &r.Results[i]
		if one.Way == nil || len(one.Way.Readings) == 0 {
			continue
		}
		text, err := ways.Script(l, one, craftPath, gestures, c.names)
		if err != nil {
			return written, err
		}
		path := filepath.Join(dir, one.Rule.Code()+".yaml")
		if err := w.replaceOwn(path, text); err != nil {
			return written, err
		}
		written[i] = path
	}
	return written, nil
}

// craftFrom is how a script in dir names the craft: a shipped one by its name, a file by its path from there.
func craftFrom(dir, path string) (string, error) {
	if _, _, shipped := assets.Craft(path); shipped {
		return path, nil
	}
	from, err := filepath.Abs(dir)
	if err != nil {
		return "", err
	}
	to, err := filepath.Abs(path)
	if err != nil {
		return "", err
	}
	rel, err := filepath.Rel(from, to)
	if err != nil { // on another drive
		return to, nil
	}
	rel = filepath.ToSlash(rel)
	if _, _, shipped := assets.Craft(rel); shipped || !strings.Contains(rel, "/") {
		rel = "./" + rel // a file, not a shipped craft of that name
	}
	return rel, nil
}

// replaceOwn writes a file, over none or over one that was written here before.
func (w *world) replaceOwn(path string, text []byte) error {
	mine := false
	switch old, err := door.Read(path, "script", yamldoc.Most); {
	case err == nil && !bytes.HasPrefix(old, []byte("# "+phrase.WayMark())), errors.Is(err, door.ErrTooLong):
		return badInput(fmt.Errorf("--write: %s: there is another file of that name, which is never overwritten; move it, or choose another folder", path))
	case err == nil:
		mine = true
	case !errors.Is(err, fs.ErrNotExist):
		return badInput(fmt.Errorf("--write: %w", err))
	}
	return w.publish(path, door.Out{Over: mine}, door.Bytes(text))
}

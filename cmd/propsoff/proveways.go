package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"propsoff/assets"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/ways"
	"propsoff/sim/prove"
)

// writeWays writes every way that a search found as a pilot script into a folder, which is made where it is not there. It
// gives the path of each, by result. A file that was not written here before is never overwritten.
func writeWays(dir string, c *craft, l *prove.Layout, r *prove.Report) ([]string, error) {
	written := make([]string, len(r.Results))
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return nil, fmt.Errorf("--write %s: this folder cannot be made; choose another (%w)", dir, plainPath(err))
	}
	craftPath, err := craftFrom(dir, c.path)
	if err != nil {
		return nil, err
	}
	gestures := ""
	if g := c.gestures; g != nil && g.name != shippedGestures {
		if gestures, err = craftFrom(dir, g.name); err != nil {
			return nil, err
		}
	}
	for i := range r.Results {
		one := &r.Results[i]
		if one.Way == nil || len(one.Way.Readings) == 0 {
			continue
		}
		text, err := ways.Script(l, one, craftPath, gestures, c.names)
		if err != nil {
			return nil, err
		}
		path := filepath.Join(dir, one.Rule.Code()+".yaml")
		if err := replaceOwn(path, text); err != nil {
			return nil, err
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
func replaceOwn(path string, text []byte) error {
	switch old, err := os.ReadFile(path); {
	case err == nil && !bytes.HasPrefix(old, []byte("# "+phrase.WayMark())):
		return fmt.Errorf("--write: %s: there is another file of that name, which is never overwritten; move it, or choose another folder", path)
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("--write: %s: cannot be read: %w", path, plainPath(err))
	}
	if err := os.WriteFile(path, text, 0o666); err != nil {
		return fmt.Errorf("--write: %s: cannot be written: %w", path, plainPath(err))
	}
	return nil
}

// plainPath takes the system's call and the path off an error: the path was said.
func plainPath(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

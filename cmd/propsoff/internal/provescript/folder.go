package provescript

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"

	"propsoff.example/assets"
	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/sim/prove"
)

// MakeFolder makes the folder that the scripts of a craft's broken rules go into, before the long search begins. The error has its status (exit).
func MakeFolder(dir string, c *world.Craft) error {
	switch {
	case dir == door.Dash:
		return exit.BadInput(words.Wrong("refused.write-dash"))
	case c.Path == door.Dash:
		return exit.BadInput(words.Wrong("refused.write-no-name"))
	}
	err := os.MkdirAll(dir, 0o777)
	if err == nil {
		return nil
	}
	told := words.Wrong("refused.write-folder", words.Args{"path": words.Quote(dir), "why": words.Error(door.Bare(err))})
	if errors.Is(err, syscall.ENOTDIR) {
		return exit.BadInput(told)
	}
	return exit.Trouble(told)
}

// WriteAll writes every way that a search found as a pilot script into a folder, which is there. It
// gives the path of each, by result. A file that was not written here before is never overwritten.
func WriteAll(w *world.World, dir string, c *world.Craft, l *prove.Layout, r *prove.Report) ([]string, error) {
	written := make([]string, len(r.Results))
	craftPath, err := craftFrom(dir, c.Path)
	if err != nil {
		return written, err
	}
	gestures, err := gesturesFrom(dir, c)
	if err != nil {
		return written, err
	}
	for i := range r.Results {
		one := &r.Results[i]
		if one.Way == nil || len(one.Way.Readings) == 0 {
			continue
		}
		text, err := Script(w.Language(), l, one, craftPath, gestures, c.Words)
		if err != nil {
			return written, err
		}
		path := filepath.Join(dir, one.Rule.Code()+".yaml")
		if err := replaceOwn(w, path, text); err != nil {
			return written, err
		}
		written[i] = path
	}
	return written, nil
}

// ClearStale takes the scripts away that an earlier run wrote into a folder of rules for which this one has no way any more, and gives their names. A
// rule that was not decided, or that only an instructor's radio would have asked, says nothing against an earlier way.
func ClearStale(dir string, r *prove.Report) (gone []string, err error) {
	for i := range r.Results {
		one := &r.Results[i]
		if one.Way != nil || one.Outcome == prove.Undecided || one.Outcome == prove.NotAsked && one.Rule.OfTwoRadios() {
			continue
		}
		name := one.Rule.Code() + ".yaml"
		was, err := takeAway(dir, name)
		if err != nil {
			return gone, err
		}
		if was {
			gone = append(gone, name)
		}
	}
	return gone, nil
}

// takeAway takes a script away that was written here before, and tells whether there was one. The error has its status (exit).
func takeAway(dir, name string) (was bool, err error) {
	was, err = door.TakeAway(filepath.Join(dir, name), "door.script", "# "+codes.WayMark, yamldoc.Most)
	return was, exit.Trouble(err)
}

// gesturesFrom is how a script in dir names the gestures that a craft was given; empty for the shipped ones and for none.
func gesturesFrom(dir string, c *world.Craft) (string, error) {
	if g := c.Gestures; g != nil && g.Name != world.ShippedGestures {
		return craftFrom(dir, g.Name)
	}
	return "", nil
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
func replaceOwn(w *world.World, path string, text []byte) error {
	mine := false
	switch old, err := door.Read(path, "door.script", yamldoc.Most); {
	case err == nil && !bytes.HasPrefix(old, []byte("# "+codes.WayMark)), errors.Is(err, door.ErrTooLong):
		return exit.BadInput(words.Wrong("refused.write-there", words.Args{"path": words.Quote(path)}))
	case err == nil:
		mine = true
	case !errors.Is(err, fs.ErrNotExist):
		return exit.BadInput(words.Within("--write", err))
	}
	return w.Publish(path, door.Out{Over: mine}, door.Bytes(text))
}

// Package belongings puts a file that a person gives where it belongs, renames and deletes what is kept, and packs all of it.
package belongings

import (
	"bytes"
	"cmp"
	"errors"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"time"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/gestures/patternfile"
	"propsoff.example/input/radio"
	"propsoff.example/sim/craftfile"
)

// Places are the folders in which the program keeps what is its own.
type Places struct {
	Radios  radio.Store
	Logbook logbook.Store
	// Config is where settings and gestures stand, Crafts and Takes beside or below it.
	Config, Crafts, Takes string
	// InPage: they are a browser's, where nobody can type a command or move a file.
	InPage bool
}

// Known are the places of this machine; an error where it has none.
func Known() (p Places, err error) {
	if p.Radios.Dir, err = radio.Folder(); err != nil {
		return p, err
	}
	if p.Logbook.Dir, err = logbook.Folder(); err != nil {
		return p, err
	}
	p.Config, p.Takes = filepath.Dir(p.Radios.Dir), world.TakesFolder()
	p.Crafts, p.InPage = filepath.Join(p.Config, "crafts"), runtime.GOOS == "js"
	return p, nil
}

// mostTake is the longest take that is taken in, in bytes (ours): some ten hours.
const mostTake = 128 << 20

// slotTicks is a slot in which gestures are read where no craft says another, in ms.
const slotTicks = 1

// Keep puts a file where it belongs, by what stands in it, and says what became of it. Nothing that is there is written over.
func (p Places) Keep(name string, data []byte) (words.Text, error) {
	text, err := p.keep(baseOf(name), data)
	var of *words.Problem
	if err != nil && !(errors.As(err, &of) && of.File == name) { // else it names the file already
		err = words.Within(name, err)
	}
	return text, err
}

// baseOf is the last part of a name from whatever system.
func baseOf(name string) string { return path.Base(strings.ReplaceAll(name, `\`, "/")) }

func (p Places) keep(name string, data []byte) (words.Text, error) {
	switch {
	case isArchive(data):
		return p.unpack(data)
	case bytes.HasPrefix(data, []byte(world.TakeMark)):
		return p.take(name, data)
	case logbook.IsLogbook(data):
		return p.logbook(data)
	}
	if len(data) > yamldoc.Most {
		return words.Text{}, words.Wrong("belongings.nothing")
	}
	switch yamldoc.KindOf(name, data) {
	case "radio":
		return p.radio(name, data)
	case "craft":
		return p.craft(name, data)
	case "gestures":
		return p.gestures(name, data)
	case "script":
		return words.Text{}, words.Wrong("belongings.script", words.Args{"page": words.Flag(p.InPage)})
	}
	return words.Text{}, words.Wrong("belongings.nothing")
}

func (p Places) radio(name string, data []byte) (words.Text, error) {
	f, err := radio.Parse(name, data, radio.Known{})
	if err != nil {
		return words.Text{}, err
	}
	path, kept, err := p.Radios.Take(f, false)
	e := (*words.Problem)(nil)
	switch {
	case p.InPage && errors.Is(err, radio.ErrOfNobody):
		return words.Text{}, words.Wrong("belongings.of-nobody")
	case p.InPage && errors.As(err, &e) && e.Text.ID() == "radio.there-already":
		return words.Text{}, words.Wrong("belongings.radio-there")
	case err != nil:
		return words.Text{}, err
	}
	return tell.RadioTaken(&f, string(p.shown(path)), kept), nil
}

func (p Places) craft(name string, data []byte) (words.Text, error) {
	f, err := craftfile.Parse(name, data)
	if err != nil {
		return words.Text{}, err
	}
	if path := same(p.Crafts, ".yaml", data); path != "" {
		return words.T("belongings.there", words.Args{"path": p.shown(path)}), nil
	}
	path, err := f.SaveNew(p.Crafts, strings.TrimSuffix(strings.TrimSuffix(name, ".yaml"), ".yml"))
	return words.T("belongings.craft", words.Args{"path": p.shown(path), "craft": words.Quote(filepath.Base(path)), "page": words.Flag(p.InPage)}), err
}

func (p Places) gestures(name string, data []byte) (words.Text, error) {
	if _, err := patternfile.Parse(name, data, slotTicks); err != nil {
		return words.Text{}, err
	}
	return p.only("gestures.yaml", data)
}

// only keeps a file of which there is one.
func (p Places) only(name string, data []byte) (words.Text, error) {
	path := filepath.Join(p.Config, name)
	if holds(path, data) {
		return words.T("belongings.there", words.Args{"path": p.shown(path)}), nil
	}
	if err := os.MkdirAll(p.Config, 0o700); err != nil {
		return words.Text{}, err
	}
	err := door.PublishBytes(path, door.Out{Private: true}, data)
	if errors.Is(err, fs.ErrExist) {
		return words.Text{}, words.Wrong("belongings.other-there", words.Args{"path": p.shown(path), "page": words.Flag(p.InPage)})
	}
	return words.T("belongings.kept", words.Args{"path": p.shown(path)}), err
}

func (p Places) take(name string, data []byte) (words.Text, error) {
	switch {
	case p.Takes == "":
		return words.Text{}, words.Wrong("belongings.nowhere")
	case len(data) > mostTake:
		return words.Text{}, words.Wrong("belongings.long-take")
	}
	ending := cmp.Or(filepath.Ext(name), ".take")
	if path := same(p.Takes, ending, data); path != "" {
		return words.T("belongings.there", words.Args{"path": p.shown(path)}), nil
	}
	if err := os.MkdirAll(p.Takes, 0o700); err != nil {
		return words.Text{}, err
	}
	path, err := door.PublishFree(p.Takes, strings.TrimSuffix(name, filepath.Ext(name)), ending, 10_000, door.Out{Private: true}, door.Bytes(data))
	return words.T("belongings.kept", words.Args{"path": p.shown(path)}), err
}

func (p Places) logbook(data []byte) (words.Text, error) {
	pupil, lines, err := p.Logbook.Bring(data)
	return words.T("belongings.logbook", words.Args{"name": words.Quote(pupil), "n": words.Count(lines), "some": words.Flag(lines > 0)}), err
}

// shown is a path as a sentence names it: in a browser there are no folders that a person could look into.
func (p Places) shown(path string) words.Quote {
	if p.InPage {
		path = filepath.Base(path)
	}
	return words.Quote(path)
}

// holds tells whether a file holds just this.
func holds(path string, data []byte) bool {
	is, err := door.Read(path, "", len(data))
	return err == nil && bytes.Equal(is, data)
}

// same finds a file of a folder that holds just this.
func same(dir, ending string, data []byte) string {
	entries, _ := os.ReadDir(dir)
	for _, e := range entries {
		st, err := e.Info()
		if err != nil || filepath.Ext(e.Name()) != ending || !st.Mode().IsRegular() || st.Size() != int64(len(data)) {
			continue
		}
		path := filepath.Join(dir, e.Name())
		if holds(path, data) {
			return path
		}
	}
	return ""
}

// Kept is a file that the program keeps.
type Kept struct {
	// Kind is what a person calls it, Name its path in the archive, with /.
	Kind words.ID
	Name string
	Path string
	Size int64
	At   time.Time
	// Short: it may be given away as a link. Plays, Flies: the window can play it, or have it flown. Goes: it may be deleted; Renames: it may have another
	// name, which for the others is that of a radio or a person, or the only one.
	Short, Plays, Flies, Goes, Renames bool
}

// settings are the files of which there is one, beside the gestures.
var settings = []string{"remembered.yaml", "searched.yaml", "sounds.yaml"}

// Files are all that is kept, kind by kind and by name.
func (p Places) Files() (all []Kept) {
	add := func(dir, folder string, kind words.ID, fits func(name string) bool) {
		entries, _ := os.ReadDir(dir)
		for _, e := range entries {
			if st, err := e.Info(); err == nil && st.Mode().IsRegular() && fits(e.Name()) {
				all = append(all, Kept{Kind: kind, Name: folder + e.Name(), Path: filepath.Join(dir, e.Name()), Size: st.Size(), At: st.ModTime(),
					Short: kind == "radio.file" || kind == "craft-file.craft",
					Plays: kind == "door.take", Flies: kind == "craft-file.craft", Goes: kind != "belongings.settings", Renames: kind == "craft-file.craft" || kind == "door.take"})
			}
		}
	}
	ends := func(ending string) func(string) bool {
		return func(name string) bool { return strings.HasSuffix(name, ending) && !strings.HasPrefix(name, ".") }
	}
	one := func(name string) func(string) bool { return func(is string) bool { return is == name } }
	add(p.Radios.Dir, radiosIn, "radio.file", ends(".yaml"))
	add(p.Crafts, craftsIn, "craft-file.craft", ends(".yaml"))
	add(p.Config, "", "gesture-file.file", one("gestures.yaml"))
	add(p.Logbook.Dir, logbookIn, "door.logbook", ends(".jsonl"))
	if p.Takes != "" {
		add(p.Takes, takesIn, "door.take", ends(""))
	}
	add(p.Config, "", "belongings.settings", func(name string) bool { return slices.Contains(settings, name) })
	return all
}

package main

import (
	"os"
	"path/filepath"
	"strings"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/sim/craftfile"
)

// practised is what a pupil practised with last, as the logbook has it: names, since neither a craft file nor a radio file is kept there.
type practised struct {
	pupil, craft, radio string
	stickMode           int
}

// practisedLast reads a pupil's logbook.
func practisedLast(w *world.World, pupil string) (*practised, error) {
	dir, err := logbook.Folder()
	if err != nil {
		return nil, exit.Trouble(err)
	}
	last := &practised{pupil: pupil}
	_, err = readLogbook(w, logbook.Store{Dir: dir}, pupil, func(_ *logbook.Contents, e *logbook.Entry) error {
		if e.Kind != logbook.KindBegan && e.Kind != logbook.KindChanged {
			return nil
		}
		if e.Practice.Craft.Name != "" {
			last.craft, last.stickMode = e.Practice.Craft.Name, e.Practice.Craft.StickMode
		}
		if name := e.Practice.Radio; name != "" && name != "keyboard" {
			last.radio = name
		}
		return nil
	})
	return last, err
}

// craftFile is the craft file that has the name: one that ships, by its own word, or one among those that were changed here, by its path. A pupil
// of whom no craft is known has the built-in one.
func (l *practised) craftFile(w *world.World) (string, error) {
	if l.craft == "" {
		return "", nil
	}
	for _, code := range world.Crafts() {
		if _, text, ok := assets.Craft(code); ok && craftNamed(code, text, l.craft) {
			return code, nil
		}
	}
	folder := filepath.Join(filepath.Dir(w.Store.Dir), "crafts")
	entries, _ := os.ReadDir(folder) // one that is not there has none
	for _, e := range entries {
		path := filepath.Join(folder, e.Name())
		if !e.Type().IsRegular() || !strings.HasSuffix(e.Name(), ".yaml") {
			continue
		}
		if text, err := w.ReadFile(path, "craft-file.craft"); err == nil && craftNamed(path, text, l.craft) {
			return path, nil
		}
	}
	return "", exit.BadInput(words.Wrong("card.pupil-no-craft", words.Args{"pupil": words.Quote(l.pupil), "craft": words.Quote(l.craft)}))
}

// craftNamed tells whether a craft file has a name.
func craftNamed(path string, text []byte, name string) bool {
	f, err := craftfile.Parse(path, text)
	return err == nil && f.Name == name
}

// radioFile is the radio file that was kept of the pupil's radio. Where there is none it says so, and an ideal one is drawn.
func (l *practised) radioFile(w *world.World) (*radio.File, error) {
	named := words.Args{"pupil": words.Quote(l.pupil), "radio": words.Quote(l.radio)}
	if l.radio == "" {
		w.Tell(words.T("card.pupil-any-radio", words.Args{"pupil": words.Quote(l.pupil)}))
		return nil, nil
	}
	found, _, err := w.Store.FindAll(input.Info{Name: l.radio})
	switch {
	case err != nil:
		return nil, exit.Trouble(err)
	case len(found) == 0:
		w.Tell(words.T("card.pupil-no-radio", named))
		return nil, nil
	case len(found) > 1:
		return nil, exit.BadInput(words.Wrong("card.pupil-radios", named))
	}
	return &found[0].File, nil
}

package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"propsoff/assets/door"
	"propsoff/cmd/propsoff/internal/logbook"
	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/cmd/propsoff/internal/paper"
	"propsoff/cmd/propsoff/internal/records"
	"propsoff/input"
	"propsoff/input/radio"
)

// shut gives a door's error its exit status: bad input where another argument would help, else trouble.
func shut(err error) error {
	var e *door.Error
	var had *exitError
	switch {
	case err == nil:
		return nil
	case errors.As(err, &had): // of what is written, not of its place
		return had
	case errors.As(err, &e) && e.Asked():
		return badInput(err)
	}
	return trouble(err)
}

// try makes sure, before anything is flown or a window opens, that each of these places can be written; empty ones are none.
func (w *world) try(o door.Out, paths ...string) error {
	for _, path := range paths {
		if path == "" {
			continue
		}
		if err := w.door.Try(path, o); err != nil {
			return shut(err)
		}
	}
	return nil
}

// publish writes a file as a whole, or to standard output.
func (w *world) publish(path string, o door.Out, write func(io.Writer) error) error {
	return shut(w.door.Publish(path, o, write))
}

// format is that of a page to be written to path: by its ending, and for standard output PDF, which no terminal can show.
func (w *world) format(path string) (f paper.Format, ok bool, err error) {
	if !door.IsStdout(path) {
		f, ok = paper.FormatOf(path)
		return f, ok, nil
	}
	if w.console != nil {
		if _, _, shown := w.console.Size(); shown {
			return f, false, badInput(errors.New("-: a terminal cannot show a page; name a file, or pipe it to another program"))
		}
	}
	return paper.PDF, true, nil
}

// beginTake begins the take of --record, once it is sure that the machine lets it be written; nil where none is asked for.
func (w *world) beginTake(path string, papers records.Papers, start *loop.Start) (*records.Recorder, error) {
	switch {
	case path == "":
		return nil, nil
	case path == door.Dash:
		return nil, badInput(errors.New("--record -: a recording must last through a kill, so it is written to a file; give the name of one"))
	}
	_, free := os.Lstat(path)
	if free != nil { // of what is there the recorder says more
		if err := w.try(door.Out{}, path); err != nil {
			return nil, err
		}
	}
	rec := records.NewRecorder(papers)
	rec.Most = -1 // nothing is recorded later
	if err := rec.Part(start); err != nil {
		return nil, badInput(fmt.Errorf("%s: %w", path, err))
	}
	if err := rec.Record(path); err != nil {
		if free == nil && !errors.As(err, new(*door.Error)) {
			return nil, badInput(err)
		}
		return nil, shut(err)
	}
	return rec, nil
}

// noteRadio tells a take which radio file is read, as soon as that is known; nil where none is recorded.
func noteRadio(rec *records.Recorder, papers records.Papers) func(*radio.File, *input.Info) {
	if rec == nil {
		return nil
	}
	return func(f *radio.File, info *input.Info) { rec.Use(papers.WithRadio(f, info)) }
}

// ownFolders are those in which the program keeps what is its own.
func ownFolders() (dirs []string) {
	if dir, err := radio.Folder(); err == nil {
		config := filepath.Dir(dir)
		dirs = append(dirs, dir, config, filepath.Join(config, "crafts"))
	}
	if dir, err := logbook.Folder(); err == nil {
		dirs = append(dirs, dir)
	}
	return dirs
}

// tidy takes away what an earlier run that was killed has left in the program's own folders. In any other folder that is done when something
// is written there.
func tidy() {
	for _, dir := range ownFolders() {
		door.Sweep(dir)
	}
}

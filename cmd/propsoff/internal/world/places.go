package world

import (
	"errors"
	"io"
	"os"
	"path/filepath"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/paper"
	"propsoff.example/cmd/propsoff/internal/takes"
	"propsoff.example/input"
	"propsoff.example/input/radio"
)

// Try makes sure, before anything is flown or a window opens, that each of these places can be written; empty ones are none.
func (w *World) Try(o door.Out, paths ...string) error {
	for _, path := range paths {
		if path == "" {
			continue
		}
		if err := w.Door.Try(path, o); err != nil {
			return exit.Shut(err)
		}
	}
	return nil
}

// Publish writes a file as a whole, or to standard output.
func (w *World) Publish(path string, o door.Out, write func(io.Writer) error) error {
	return exit.Shut(w.Door.Publish(path, o, write))
}

// Format is that of a page to be written to path: by its ending, and for standard output PDF, which no terminal can show.
func (w *World) Format(path string) (f paper.Format, ok bool, err error) {
	if !door.IsStdout(path) {
		f, ok = paper.FormatOf(path)
		return f, ok, nil
	}
	if w.Console != nil {
		if _, _, shown := w.Console.Size(); shown {
			return f, false, exit.BadInput(words.Wrong("named-file.no-page").In(door.Dash))
		}
	}
	return paper.PDF, true, nil
}

// BeginTake begins the take of --record, once it is sure that the machine lets it be written; nil where none is asked for.
func (w *World) BeginTake(path string, papers takes.Papers, start *live.Start) (*takes.Recorder, error) {
	switch {
	case path == "":
		return nil, nil
	case path == door.Dash:
		return nil, exit.BadInput(words.Wrong("named-file.no-recording"))
	}
	_, free := os.Lstat(path)
	if free != nil { // of what is there the recorder says more
		if err := w.Try(door.Out{}, path); err != nil {
			return nil, err
		}
	}
	rec := takes.NewRecorder(papers)
	rec.Most = -1 // nothing is recorded later
	if err := rec.Part(start); err != nil {
		return nil, exit.BadInput(words.Within(path, err))
	}
	if err := rec.Record(path); err != nil {
		if free == nil && !errors.As(err, new(*door.Error)) {
			return nil, exit.BadInput(err)
		}
		return nil, exit.Shut(err)
	}
	return rec, nil
}

// NoteRadio tells a take which radio file is read, as soon as that is known; nil where none is recorded.
func NoteRadio(rec *takes.Recorder, papers takes.Papers) func(*radio.File, *input.Info) {
	if rec == nil {
		return nil
	}
	return func(f *radio.File, info *input.Info) { rec.Use(papers.WithRadio(f, info)) }
}

// OwnFolders are those in which the program keeps what is its own.
func OwnFolders() (dirs []string) {
	if dir, err := radio.Folder(); err == nil {
		config := filepath.Dir(dir)
		dirs = append(dirs, dir, config, filepath.Join(config, "crafts"))
	}
	if dir, err := logbook.Folder(); err == nil {
		dirs = append(dirs, dir)
	}
	return dirs
}

// Tidy takes away what an earlier run that was killed has left in the program's own folders. In any other folder that is done when something
// is written there.
func Tidy() {
	for _, dir := range OwnFolders() {
		door.Sweep(dir)
	}
}

// TakesFolder is where takes go that are begun by a key: beside the logbooks. Empty where there is no such place.
func TakesFolder() string {
	dir, err := logbook.Folder()
	if err != nil {
		return ""
	}
	return filepath.Join(filepath.Dir(dir), "takes")
}

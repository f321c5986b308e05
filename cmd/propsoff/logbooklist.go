package main

import (
	"bufio"
	"errors"
	"unicode/utf8"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/cmd/propsoff/internal/world"
)

// printPupils lists the pupils with what they did, in the order of their names.
func printPupils(w *world.World, asJSON bool, names []string, read func(string, logbook.Taker) (*logbook.Contents, error)) error {
	wide := 0
	for _, name := range names {
		wide = max(wide, utf8.RuneCountInString(name))
	}
	out, form := bufio.NewWriter(w.Out), terminal.Form{JSON: asJSON, Book: w.Language()}
	for _, name := range names {
		p := terminal.NewPupil()
		c, err := read(name, p.Take)
		if err != nil {
			return err
		}
		if c != nil {
			_, _ = out.Write(form.Pupil(out.AvailableBuffer(), c, p, wide)) // its error sticks, and is Flush's
		}
	}
	return exit.Trouble(out.Flush())
}

func put(w *world.World, text []byte) error {
	_, err := w.Out.Write(text)
	return exit.Trouble(err)
}

// printEntries lists entries, those of several pupils by time. As JSON, lines of kinds that a later version knows are printed too where
// nothing is filtered, each behind what it stands behind. Where there are none, it says so of pupil, who is empty for all; damaged tells whether what was
// read had lines that are left out.
func printEntries(w *world.World, asJSON, named bool, f logbook.Filter, pupil string, damaged *bool, all func(logbook.Taker) error) error {
	x := logbook.Index{Filter: f, Later: asJSON}
	if err := all(x.Take); err != nil {
		return err
	}
	switch {
	case x.Len() > 0:
	case f.All():
		w.Tell(words.T("logbook.nothing-yet", words.Args{"pupil": words.Typed(pupil), "damaged": words.Flag(*damaged)}))
		return nil
	default:
		w.Tell(words.T("logbook.nothing"))
		return nil
	}
	out, form := bufio.NewWriter(w.Out), terminal.Form{JSON: asJSON, Book: w.Language()}
	err := x.Each(func(c *logbook.Contents, e *logbook.Entry) error {
		_, err := out.Write(form.Entry(out.AvailableBuffer(), c, e, named))
		return err
	})
	return exit.Trouble(errors.Join(err, out.Flush()))
}

package main

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/world"
)

// newLogbookRename gives a pupil another name.
func newLogbookRename(w *world.World, lf *logbookFlags, now func() time.Time) *cobra.Command {
	cmd := newCommand(w, "rename OLD NEW", words.T("command.logbook-rename"), words.T("command.logbook-rename-about"))
	cmd.Args = twoNames
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		s, err := lf.store()
		if err != nil {
			return err
		}
		if err := s.Rename(args[0], args[1], now()); err != nil {
			return notMoved(s, args[0], err)
		}
		w.Tell(words.T("logbook.renamed", words.Args{"from": words.Typed(args[0]), "to": words.Typed(args[1])}))
		return nil
	}
	return cmd
}

// newLogbookMerge moves what one pupil has done into the logbook of another.
func newLogbookMerge(w *world.World, lf *logbookFlags) *cobra.Command {
	cmd := newCommand(w, "merge FROM INTO", words.T("command.logbook-merge"), words.T("command.logbook-merge-about"))
	cmd.Args = twoNames
	cmd.RunE = func(cmd *cobra.Command, args []string) error { return merge(cmd.Context(), w, lf, args[0], args[1]) }
	cmd.Flags().BoolVar(&lf.yes, "yes", false, w.Say(words.T("flag.yes")))
	return cmd
}

// twoNames asks for two names after a command.
func twoNames(cmd *cobra.Command, args []string) error {
	if len(args) != 2 {
		return words.Wrong("refused.two-names", words.Args{"command": words.Quote(cmd.CommandPath()), "n": words.Count(len(args))})
	}
	return nil
}

// notMoved says why nothing, or not everything, was moved.
func notMoved(s logbook.Store, name string, err error) error {
	switch {
	case errors.Is(err, logbook.ErrNoPupil) && len(s.Files(name)) == 0:
		return noLogbook(s, name)
	case errors.Is(err, logbook.ErrTaken), errors.Is(err, logbook.ErrNoPupil):
		return exit.BadInput(err)
	}
	return exit.Trouble(err)
}

func merge(ctx context.Context, w *world.World, lf *logbookFlags, from, into string) error {
	s, err := lf.store()
	if err != nil {
		return err
	}
	for _, name := range []string{from, into} {
		if len(s.Files(name)) == 0 {
			return noLogbook(s, name)
		}
	}
	if err := logbook.Two(from, into); err != nil { // before anybody is asked
		return exit.BadInput(err)
	}
	if !lf.yes {
		entries := 0
		c, err := s.Read(from, func(*logbook.Contents, *logbook.Entry) error { entries++; return nil })
		if err != nil {
			return exit.Trouble(err)
		}
		w.Tell(words.T("logbook.merge-does", words.Args{"n": words.Count(entries), "damaged": words.Flag(c.Damaged > 0), "from": words.Typed(from), "into": words.Typed(into)}))
		if !w.Asks {
			return exit.BadInput(words.Wrong("logbook.nobody-answers-merge"))
		}
		fmt.Fprint(w.Err, w.Say(words.T("logbook.ask-merge", words.Args{"yes": words.T("logbook.yes")})))
		yes, answered := answer(ctx, w)
		switch {
		case ctx.Err() != nil:
			return exit.Trouble(exit.ErrStopped)
		case !answered:
			fmt.Fprintln(w.Err)
			return exit.BadInput(words.Wrong("logbook.nobody-answers-merge"))
		case !yes:
			w.Tell(words.T("logbook.not-merged"))
			return exit.With(exit.CodeFailed)
		}
	}
	n, err := s.Merge(from, into)
	if err != nil {
		return notMoved(s, from, err)
	}
	w.Tell(words.T("logbook.merged", words.Args{"n": words.Count(n), "from": words.Typed(from), "into": words.Typed(into)}))
	return nil
}

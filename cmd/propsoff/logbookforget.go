package main

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"propsoff/assets/mouth"
	"propsoff/cmd/propsoff/internal/console"
	"propsoff/cmd/propsoff/internal/logbook"
	"propsoff/cmd/propsoff/internal/phrase"
)

func newLogbookForget(w *world, lf *logbookFlags) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "forget",
		Short: "Delete everything that is kept of one pupil",
		Long: "Deletes the logbook of one pupil wholly, and what else is the pupil's in the folder of logbooks and the folders under it: copies, half-written\n" +
			"files, logbooks under the same name typed another way. It asks first, and says what it would delete, what it has deleted, and of which files it cannot tell whose they are: those stay. Links are not followed.\n\n" +
			"Exit status: 0 deleted; 1 the answer was not yes, and nothing was deleted; 2 bad input, no such pupil, nobody to ask; 3 something could\n" +
			"not be deleted.",
		Args: noPupil,
		RunE: func(cmd *cobra.Command, _ []string) error { return forget(cmd.Context(), w, lf) },
	}
	cmd.Flags().BoolVar(&lf.yes, "yes", false, "do not ask")
	return cmd
}

func forget(ctx context.Context, w *world, lf *logbookFlags) error {
	s, err := lf.store()
	if err != nil {
		return err
	}
	if lf.pupil == "" {
		names, _, _ := s.Pupils()
		return badInput(errors.New(mouth.Printable(phrase.LogbookWhose("logbook forget", names))))
	}
	say := func(text string) { fmt.Fprintln(w.err, mouth.Printable(text)) }
	found, err := s.Traces(lf.pupil)
	if found != nil {
		for _, n := range found.Unjudged {
			say(phrase.LogbookUnjudged(n.Path, n.Text))
		}
	}
	switch {
	case errors.Is(err, logbook.ErrNoPupil):
		return noLogbook(s, lf.pupil)
	case err != nil:
		return trouble(err)
	}
	if !lf.yes {
		var files []phrase.LogbookFile
		for _, f := range found.Files {
			files = append(files, phrase.LogbookFile{Path: f.Path, Entries: f.Entries, Damaged: f.Damaged, Copy: f.Copy, Unread: f.Unread != nil, Says: f.Says})
		}
		for _, line := range phrase.LogbookAskWhat(found.Pupil, files) {
			say(line)
		}
		if !w.asks {
			return badInput(errors.New(phrase.LogbookNobodyAnswers()))
		}
		fmt.Fprint(w.err, phrase.LogbookAskYes())
		yes, answered := answer(ctx, w)
		if ctx.Err() != nil {
			return trouble(errStopped)
		}
		if !answered {
			fmt.Fprintln(w.err)
			return badInput(errors.New(phrase.LogbookNobodyAnswers()))
		}
		if !yes {
			say(phrase.LogbookKept())
			return &exitError{code: exitFailed}
		}
	}
	deleted, failed := found.Delete()
	for _, d := range deleted {
		fmt.Fprintln(w.out, mouth.Printable(phrase.LogbookDeleted(d.Path, d.Bytes)))
	}
	for _, err := range failed {
		say(err.Error())
	}
	if len(failed) > 0 {
		return trouble(errors.New(phrase.LogbookHalf(len(deleted), len(found.Files))))
	}
	say(phrase.LogbookElsewhere())
	return nil
}

// answer reads one line; answered is false where there is nobody to give one, or the program is being stopped.
func answer(ctx context.Context, w *world) (yes, answered bool) {
	if w.in == nil {
		return false, false
	}
	line := make(chan string, 1)
	go func() {
		defer close(line)
		if text, err := console.Lines(w.in)(); err == nil || errors.Is(err, console.ErrLongLine) {
			line <- text
		}
	}()
	select {
	case text, ok := <-line:
		return strings.TrimSpace(text) == "yes", ok
	case <-ctx.Done():
		return false, false
	}
}

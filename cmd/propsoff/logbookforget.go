package main

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"propsoff.example/assets/mouth"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/console"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/world"
)

func newLogbookForget(w *world.World, lf *logbookFlags) *cobra.Command {
	cmd := newCommand(w, "forget", words.T("command.logbook-forget"), words.T("command.logbook-forget-about"))
	cmd.Args = noPupil
	cmd.RunE = func(cmd *cobra.Command, _ []string) error { return forget(cmd.Context(), w, lf) }
	cmd.Flags().BoolVar(&lf.yes, "yes", false, w.Say(words.T("flag.yes")))
	return cmd
}

func forget(ctx context.Context, w *world.World, lf *logbookFlags) error {
	s, err := lf.store()
	if err != nil {
		return err
	}
	if lf.pupil == "" {
		names, _, _ := s.Pupils()
		return exit.BadInput(tell.LogbookWhose("logbook forget", printable(names)).Problem())
	}
	found, err := s.Traces(lf.pupil)
	if found != nil {
		for _, n := range found.Unjudged {
			w.Tell(words.T("logbook.unjudged", words.Args{"path": words.Quote(n.Path), "why": n.Text}))
		}
	}
	switch {
	case errors.Is(err, logbook.ErrNoPupil):
		return noLogbook(s, lf.pupil)
	case err != nil:
		return exit.Trouble(err)
	}
	if !lf.yes {
		var files []tell.LogbookFile
		for _, f := range found.Files {
			files = append(files, tell.LogbookFile{Path: f.Path, Entries: f.Entries, Damaged: f.Damaged, Copy: f.Copy, Unread: f.Unread != nil, Says: f.Says})
		}
		for _, line := range tell.LogbookAskWhat(found.Pupil, files) {
			w.Tell(line)
		}
		if !w.Asks {
			return exit.BadInput(words.Wrong("logbook.nobody-answers"))
		}
		fmt.Fprint(w.Err, w.Say(words.T("logbook.ask-yes", words.Args{"yes": words.T("logbook.yes")})))
		yes, answered := answer(ctx, w)
		if ctx.Err() != nil {
			return exit.Trouble(exit.ErrStopped)
		}
		if !answered {
			fmt.Fprintln(w.Err)
			return exit.BadInput(words.Wrong("logbook.nobody-answers"))
		}
		if !yes {
			w.Tell(words.T("logbook.kept"))
			return exit.With(exit.CodeFailed)
		}
	}
	deleted, failed := found.Delete()
	for _, d := range deleted {
		fmt.Fprintln(w.Out, mouth.Printable(w.Say(words.T("logbook.deleted", words.Args{"path": words.Quote(d.Path), "n": words.Count(d.Bytes)}))))
	}
	for _, err := range failed {
		w.Tell(words.Error(err))
	}
	if len(failed) > 0 {
		return exit.Trouble(&words.Problem{Text: tell.LogbookHalf(len(deleted), len(found.Files))})
	}
	w.Tell(words.T("logbook.elsewhere"))
	return nil
}

// answer reads one line; answered is false where there is nobody to give one, or the program is being stopped.
func answer(ctx context.Context, w *world.World) (yes, answered bool) {
	if w.In == nil {
		return false, false
	}
	line := make(chan string, 1)
	go func() {
		defer close(line)
		if text, err := console.Lines(w.In)(); err == nil || errors.Is(err, console.ErrLongLine) {
			line <- text
		}
	}()
	select {
	case text, ok := <-line:
		yes := words.T("logbook.yes")
		return slices.Contains([]string{w.Say(yes), words.English().Say(yes)}, strings.TrimSpace(text)), ok
	case <-ctx.Done():
		return false, false
	}
}

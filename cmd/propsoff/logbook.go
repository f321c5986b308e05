package main

import (
	"errors"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"propsoff.example/assets/mouth"
	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/world"
)

// logbookFlags are those of "propsoff logbook" and of the commands under it.
type logbookFlags struct {
	folder, pupil        string
	drill, verdict       string
	since, until         string
	csv                  string
	json, all, over, yes bool
	out, paper, date     string
}

func newLogbook(w *world.World, now func() time.Time) *cobra.Command {
	lf := new(logbookFlags)
	cmd := newCommand(w, "logbook", words.T("command.logbook"), words.T("command.logbook-about"))
	cmd.Args = commandsOnly
	cmd.RunE = func(*cobra.Command, []string) error { return listLogbooks(w, lf) }
	cmd.PersistentFlags().StringVar(&lf.folder, "folder", "", w.Say(words.T("flag.folder")))
	p := cmd.Flags()
	p.BoolVar(&lf.all, "all", false, w.Say(words.T("flag.all")))
	p.StringVar(&lf.drill, "drill", "", w.Say(words.T("flag.drill")))
	p.StringVar(&lf.verdict, "verdict", "", w.Say(words.T("flag.verdict", words.Args{"verdicts": withCommas(codes.Verdicts())})))
	p.StringVar(&lf.since, "since", "", w.Say(words.T("flag.since")))
	p.StringVar(&lf.until, "until", "", w.Say(words.T("flag.until")))
	p.BoolVar(&lf.json, "json", false, w.Say(words.T("flag.json-logbook")))
	p.StringVar(&lf.csv, "csv", "", w.Say(words.T("flag.csv")))
	p.BoolVar(&lf.over, "over", false, w.Say(words.T("flag.over")))
	report, forget := newLogbookReport(w, lf, now), newLogbookForget(w, lf)
	names := pupilsOf(lf)
	for _, c := range []*cobra.Command{cmd, report, forget} { // not those that take two names
		pupilFlag(c.Flags(), &lf.pupil, w.Say(words.T("flag.pupil")))
		_ = c.RegisterFlagCompletionFunc("pupil", names)
	}
	_ = cmd.RegisterFlagCompletionFunc("verdict", cobra.FixedCompletions(codes.Verdicts(), cobra.ShellCompDirectiveNoFileComp))
	rename, merge := newLogbookRename(w, lf, now), newLogbookMerge(w, lf)
	rename.ValidArgsFunction = func(c *cobra.Command, given []string, typed string) ([]string, cobra.ShellCompDirective) {
		if len(given) > 0 { // the new name is nobody's yet
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return names(c, given, typed)
	}
	merge.ValidArgsFunction = func(c *cobra.Command, given []string, typed string) ([]string, cobra.ShellCompDirective) {
		if len(given) > 1 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		all, how := names(c, given, typed)
		return slices.DeleteFunc(all, func(name string) bool { return slices.Contains(given, name) }), how
	}
	cmd.AddCommand(report, rename, merge, forget)
	return cmd
}

// noPupil refuses words after a command that acts on one pupil: they are most likely the name.
func noPupil(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	return words.Wrong("refused.takes-none-pupil", ofCommand(cmd, args[0]))
}

// store is the folder that was named, or that of the system.
func (lf *logbookFlags) store() (logbook.Store, error) {
	if lf.folder != "" {
		return logbook.Store{Dir: lf.folder}, nil
	}
	dir, err := logbook.Folder()
	if err != nil {
		return logbook.Store{}, exit.Trouble(err)
	}
	return logbook.Store{Dir: dir}, nil
}

// filter reads the flags that choose entries.
func (lf *logbookFlags) filter() (f logbook.Filter, err error) {
	f.Drill, f.Verdict = lf.drill, lf.verdict
	if lf.verdict != "" {
		if _, ok := codes.VerdictOf(lf.verdict); !ok {
			near, _ := yamldoc.Near(lf.verdict, codes.Verdicts())
			return f, exit.BadInput(tell.LogbookNoVerdict(lf.verdict, codes.Verdicts(), near).Problem())
		}
	}
	for _, d := range []struct {
		flag, text string
		to         **int32
	}{{"since", lf.since, &f.Since}, {"until", lf.until, &f.Until}} {
		if d.text == "" {
			continue
		}
		t, err := time.Parse(time.DateOnly, d.text)
		if err != nil {
			return f, exit.BadInput(words.Wrong("logbook.no-day", words.Args{"flag": words.Quote(d.flag), "text": words.Quote(d.text)}))
		}
		day := logbook.Day(t)
		*d.to = &day
	}
	return f, nil
}

// notice says what could not be used.
func notice(w *world.World, notices []logbook.Notice) {
	for _, n := range notices {
		w.Tell(words.Error(n.Problem()))
	}
}

// whose are the names of the logbooks to read: the one that was named, else all.
func (lf *logbookFlags) whose(w *world.World, s logbook.Store) ([]string, error) {
	if lf.pupil != "" {
		return []string{lf.pupil}, nil
	}
	names, notices, err := s.Pupils()
	if err != nil {
		return nil, exit.Trouble(err)
	}
	notice(w, notices)
	return names, nil
}

// readLogbook reads one logbook and tells of what is damaged in it.
func readLogbook(w *world.World, s logbook.Store, name string, take logbook.Taker) (*logbook.Contents, error) {
	c, err := s.Read(name, take)
	switch {
	case errors.Is(err, logbook.ErrNoPupil):
		return nil, noLogbook(s, name)
	case err != nil:
		return nil, exit.Trouble(err)
	}
	notice(w, c.Notices)
	return c, nil
}

// noLogbook says that there is no logbook of a name, and which may have been meant.
func noLogbook(s logbook.Store, name string) error {
	names, _, _ := s.Pupils()
	near, _ := yamldoc.Near(name, names)
	return exit.BadInput(tell.LogbookNoPupil(name, mouth.Printable(s.Dir), near).Problem())
}

// printable are names as they may be printed.
func printable(names []string) (out []string) {
	for _, name := range names {
		out = append(out, mouth.Printable(name))
	}
	return out
}

// noteLogbook keeps a logbook that is read from being written over.
func noteLogbook(w *world.World, s logbook.Store, name string) {
	for _, path := range s.Files(name) {
		w.Door.Note(path)
	}
}

func listLogbooks(w *world.World, lf *logbookFlags) (err error) {
	f, err := lf.filter()
	if err != nil {
		return err
	}
	s, err := lf.store()
	if err != nil {
		return err
	}
	names, err := lf.whose(w, s)
	if err != nil {
		return err
	}
	switch {
	case len(names) == 0 && lf.csv != "":
		return exit.BadInput(tell.LogbookNobody(mouth.Printable(s.Dir)).Problem())
	case len(names) == 0:
		w.Tell(tell.LogbookNobody(s.Dir))
		return nil
	}
	unread, damaged := false, false // one that cannot be read does not hide the others
	read := func(name string, take logbook.Taker) (*logbook.Contents, error) {
		c, err := readLogbook(w, s, name, take)
		damaged = damaged || err != nil || c.Damaged > 0
		if err == nil || len(names) == 1 {
			return c, err
		}
		w.Tell(words.Error(err))
		unread = true
		return nil, nil
	}
	defer func() {
		if unread && err == nil {
			err = exit.With(exit.CodeTrouble)
		}
	}()
	all := func(take logbook.Taker) error {
		for _, name := range names {
			if _, err := read(name, take); err != nil {
				return err
			}
		}
		return nil
	}
	switch {
	case lf.csv != "":
		for _, name := range names {
			noteLogbook(w, s, name)
		}
		return exportCSV(w, lf, f, all)
	case lf.pupil != "" || lf.all || !f.All():
		return printEntries(w, lf.json, len(names) > 1, f, lf.pupil, &damaged, all)
	}
	return printPupils(w, lf.json, names, read)
}

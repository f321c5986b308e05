package main

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"propsoff/assets/mouth"
	"propsoff/assets/yamldoc"
	"propsoff/cmd/propsoff/internal/logbook"
	"propsoff/cmd/propsoff/internal/phrase"
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

func newLogbook(w *world, now func() time.Time) *cobra.Command {
	lf := new(logbookFlags)
	cmd := &cobra.Command{
		Use:   "logbook",
		Short: "List what pupils did, export it, make a one-page report, delete a pupil",
		Long: "Without a flag it lists the pupils. With --pupil, --all or a filter it lists entries, oldest first. --json prints the lines as they are kept, with the\n" +
			"pupil's name in front. --csv writes a table, one row a try; cells that a spreadsheet would take for a formula (beginning with = + - @) or that begin with an\n" +
			"apostrophe get an apostrophe in front. Nothing leaves this machine.\n\n" +
			"Exit status: 0 done, also where lines were damaged and left out (one notice tells how many, and shows the first three); 2 bad input, no such pupil; 3 the machine did not let it.",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				return unknownWord(cmd, args[0])
			}
			return nil
		},
		RunE: func(*cobra.Command, []string) error { return listLogbooks(w, lf) },
	}
	cmd.PersistentFlags().StringVar(&lf.folder, "folder", "", "`FOLDER` of the logbooks (default in your data folder)")
	cmd.PersistentFlags().Var(pupilName{&lf.pupil}, "pupil", "`NAME` of the pupil, capitals and small letters are alike")
	p := cmd.Flags()
	p.BoolVar(&lf.all, "all", false, "list the entries of all pupils")
	p.StringVar(&lf.drill, "drill", "", "only runs of this drill, by its `CODE`")
	p.StringVar(&lf.verdict, "verdict", "", "only runs with a try of this `VERDICT`: "+strings.Join(phrase.Verdicts(), ", "))
	p.StringVar(&lf.since, "since", "", "only from this `DAY` on, as 2031-04-05")
	p.StringVar(&lf.until, "until", "", "only up to this `DAY`")
	p.BoolVar(&lf.json, "json", false, "one JSON object a line")
	p.StringVar(&lf.csv, "csv", "", "write a table into `FILE`; - is standard output")
	p.BoolVar(&lf.over, "over", false, "write over a file that is there already")
	names := func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		s, err := lf.store()
		if err != nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		found, _, _ := s.Pupils()
		return found, cobra.ShellCompDirectiveNoFileComp
	}
	_ = cmd.RegisterFlagCompletionFunc("pupil", names)
	_ = cmd.RegisterFlagCompletionFunc("verdict", func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return phrase.Verdicts(), cobra.ShellCompDirectiveNoFileComp
	})
	cmd.AddCommand(newLogbookReport(w, lf, now), newLogbookForget(w, lf))
	return cmd
}

// noPupil refuses words after a command that acts on one pupil: they are most likely the name.
func noPupil(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	return fmt.Errorf("%q takes no arguments, but got %q: did you mean --pupil %q? See \"%s --help\"", cmd.CommandPath(), args[0], args[0], cmd.CommandPath())
}

// store is the folder that was named, or that of the system.
func (lf *logbookFlags) store() (logbook.Store, error) {
	if lf.folder != "" {
		return logbook.Store{Dir: lf.folder}, nil
	}
	dir, err := logbook.Folder()
	if err != nil {
		return logbook.Store{}, trouble(err)
	}
	return logbook.Store{Dir: dir}, nil
}

// filter reads the flags that choose entries.
func (lf *logbookFlags) filter() (f logbook.Filter, err error) {
	f.Drill, f.Verdict = lf.drill, lf.verdict
	if lf.verdict != "" {
		if _, ok := phrase.VerdictOf(lf.verdict); !ok {
			near, _ := yamldoc.Near(lf.verdict, phrase.Verdicts())
			return f, badInput(errors.New(phrase.LogbookNoVerdict(lf.verdict, phrase.Verdicts(), near)))
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
			return f, badInput(errors.New(phrase.LogbookNoDay(d.flag, d.text)))
		}
		day := logbook.Day(t)
		*d.to = &day
	}
	return f, nil
}

// tell says what could not be used.
func tell(w *world, notices []logbook.Notice) {
	for _, n := range notices {
		w.say(n.String())
	}
}

// whose are the names of the logbooks to read: the one that was named, else all.
func (lf *logbookFlags) whose(w *world, s logbook.Store) ([]string, error) {
	if lf.pupil != "" {
		return []string{lf.pupil}, nil
	}
	names, notices, err := s.Pupils()
	if err != nil {
		return nil, trouble(err)
	}
	tell(w, notices)
	return names, nil
}

// readLogbook reads one logbook and tells of what is damaged in it.
func readLogbook(w *world, s logbook.Store, name string, take logbook.Taker) (*logbook.Contents, error) {
	c, err := s.Read(name, take)
	switch {
	case errors.Is(err, logbook.ErrNoPupil):
		return nil, noLogbook(s, name)
	case err != nil:
		return nil, trouble(err)
	}
	tell(w, c.Notices)
	return c, nil
}

// noLogbook says that there is no logbook of a name, and which may have been meant.
func noLogbook(s logbook.Store, name string) error {
	names, _, _ := s.Pupils()
	near, _ := yamldoc.Near(name, names)
	return badInput(errors.New(mouth.Printable(phrase.LogbookNoPupil(name, s.Dir, near))))
}

// noteLogbook keeps a logbook that is read from being written over.
func noteLogbook(w *world, s logbook.Store, name string) {
	for _, path := range s.Files(name) {
		w.door.Note(path)
	}
}

func listLogbooks(w *world, lf *logbookFlags) (err error) {
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
	if len(names) == 0 && lf.csv == "" {
		w.say(phrase.LogbookNobody(s.Dir))
		return nil
	}
	unread := false // one that cannot be read does not hide the others
	read := func(name string, take logbook.Taker) (*logbook.Contents, error) {
		c, err := readLogbook(w, s, name, take)
		if err == nil || len(names) == 1 {
			return c, err
		}
		w.say(err.Error())
		unread = true
		return nil, nil
	}
	defer func() {
		if unread && err == nil {
			err = &exitError{code: exitTrouble}
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
		return printEntries(w, lf.json, len(names) > 1, f, all)
	}
	return printPupils(w, lf.json, names, read)
}

package main

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"propsoff.example/assets/door"
	"propsoff.example/assets/mouth"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/paper"
	onepage "propsoff.example/cmd/propsoff/internal/report"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/sim/drill/drillfile"
)

const htmlEnding = ".html"

func newLogbookReport(w *world.World, lf *logbookFlags, now func() time.Time) *cobra.Command {
	endings := append([]string{htmlEnding}, paper.Extensions()...)
	cmd := newCommand(w, "report", words.T("command.logbook-report"), words.T("command.logbook-report-about"))
	cmd.Args = noPupil
	cmd.RunE = func(*cobra.Command, []string) error { return writeReport(w, lf, endings, now()) }
	p := cmd.Flags()
	p.StringVarP(&lf.out, "output", "o", "report.pdf", w.Say(words.T("flag.output", words.Args{"endings": withCommas(endings)})))
	p.BoolVar(&lf.over, "over", false, w.Say(words.T("flag.over")))
	p.StringVar(&lf.paper, "paper", strings.ToLower(paper.A4().Name), w.Say(words.T("flag.paper")))
	p.StringVar(&lf.date, "date", "", w.Say(words.T("flag.date-report")))
	return cmd
}

func writeReport(w *world.World, lf *logbookFlags, endings []string, today time.Time) error {
	asHTML := strings.EqualFold(filepath.Ext(lf.out), htmlEnding)
	format, ok, err := w.Format(lf.out)
	switch {
	case err != nil:
		return err
	case !ok && !asHTML:
		return exit.BadInput(tell.FileEnding(lf.out, endings).Problem())
	}
	size, date, err := onPaper(lf.paper, lf.date, today)
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
	case len(names) == 0:
		return exit.BadInput(tell.LogbookNobody(mouth.Printable(s.Dir)).Problem())
	case len(names) > 1:
		return exit.BadInput(tell.LogbookWhose("logbook report", printable(names)).Problem())
	}
	noteLogbook(w, s, names[0])
	var x logbook.Index
	c, err := readLogbook(w, s, names[0], x.Take)
	if err != nil {
		return err
	}
	course, err := reportCourse(w)
	if err != nil {
		return err
	}
	data, err := onepage.Of(c, x.Each, onepage.Options{Course: course, Date: date, Program: world.Version})
	if err != nil {
		return exit.Trouble(err)
	}
	return lf.save(w, lf.out, func(to io.Writer) error {
		if asHTML {
			return onepage.HTML(to, w.Language(), &data)
		}
		page := size.Page(paper.Fine)
		onepage.Draw(page, w.Language(), &data)
		d := onepage.Paper(page, w.Language(), &data)
		return d.Write(to, format)
	})
}

// reportCourse are the drills of the shipped course.
func reportCourse(w *world.World) (out []onepage.Drill, err error) {
	known, err := drillKnown(w, "")
	if err != nil {
		return nil, err
	}
	_, drills, err := drillfile.Shipped("beginner", known)
	if err != nil {
		return nil, exit.BadInput(err)
	}
	for _, d := range drills {
		alarm := slices.ContainsFunc(d.Cases, func(c drillfile.Words) bool { return c.Sound == "alarm" })
		out = append(out, onepage.Drill{Code: d.Config.Code, Name: d.Name, Alarm: alarm})
	}
	return out, nil
}

func exportCSV(w *world.World, lf *logbookFlags, f logbook.Filter, all func(logbook.Taker) error) error {
	return lf.save(w, lf.csv, func(to io.Writer) error {
		cells := mouth.NewWriter(to)
		t := logbook.NewTable(cells, f)
		var unwritten error
		read := all(func(c *logbook.Contents, e *logbook.Entry) error {
			unwritten = t.Take(c, e)
			return unwritten
		})
		if unwritten != nil {
			read = unwritten // not what stands in a logbook is at fault
		}
		return errors.Join(read, t.Close(), cells.Close())
	})
}

// save writes a file as a whole, for its owner alone: what a pupil did is nobody else's. Without over a file that is there stays.
func (lf *logbookFlags) save(w *world.World, path string, write func(io.Writer) error) error {
	if err := w.Publish(path, door.Out{Over: lf.over, Private: true}, write); err != nil || door.IsStdout(path) {
		return err
	}
	fmt.Fprintln(w.Out, mouth.Printable(w.Say(words.T("logbook.saved", words.Args{"path": words.Quote(path)}))))
	return nil
}

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

	"propsoff/assets/door"
	"propsoff/assets/mouth"
	"propsoff/cmd/propsoff/internal/logbook"
	"propsoff/cmd/propsoff/internal/paper"
	"propsoff/cmd/propsoff/internal/phrase"
	onepage "propsoff/cmd/propsoff/internal/report"
	"propsoff/sim/drill/drillfile"
)

const htmlEnding = ".html"

func newLogbookReport(w *world, lf *logbookFlags, now func() time.Time) *cobra.Command {
	endings := append([]string{htmlEnding}, paper.Extensions()...)
	cmd := &cobra.Command{
		Use:   "report",
		Short: "Write a pupil's one-page report: reaction times, drills mastered, refusals",
		Long: "Writes one page on one pupil: reaction time over days with the pass line, drills learned and mastered, why arming was refused. The ending of the file name says\n" +
			"what is written: .pdf, .svg or .png for paper, .html for a page that stands by itself, with every plot as a table too.\n\n" +
			"Exit status: 0 the report is written; 2 bad input, no such pupil; 3 the machine did not let it.",
		Args: noPupil,
		RunE: func(*cobra.Command, []string) error { return writeReport(w, lf, endings, now()) },
	}
	p := cmd.Flags()
	p.StringVarP(&lf.out, "output", "o", "report.pdf", "`FILE` to write, ending in "+strings.Join(endings, ", ")+", or - for a PDF on standard output")
	p.BoolVar(&lf.over, "over", false, "write over a file that is there already")
	p.StringVar(&lf.paper, "paper", strings.ToLower(paper.A4().Name), "`SIZE` of the paper: a4 or letter")
	p.StringVar(&lf.date, "date", "", "the `DAY` on the report, as 2031-04-05, or none (default today)")
	return cmd
}

func writeReport(w *world, lf *logbookFlags, endings []string, today time.Time) error {
	asHTML := strings.EqualFold(filepath.Ext(lf.out), htmlEnding)
	format, ok, err := w.format(lf.out)
	switch {
	case err != nil:
		return err
	case !ok && !asHTML:
		return badInput(errors.New(phrase.LogbookEnding(lf.out, endings)))
	}
	size, date, err := (&cardFlags{paper: lf.paper, date: lf.date}).check(today)
	if err != nil {
		return badInput(err)
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
		return badInput(errors.New(mouth.Printable(phrase.LogbookNobody(s.Dir))))
	case len(names) > 1:
		return badInput(errors.New(mouth.Printable(phrase.LogbookWhose("logbook report", names))))
	}
	noteLogbook(w, s, names[0])
	var x logbook.Index
	c, err := readLogbook(w, s, names[0], x.Take)
	if err != nil {
		return err
	}
	course, err := w.reportCourse()
	if err != nil {
		return err
	}
	data, err := onepage.Of(c, x.Each, onepage.Options{Course: course, Date: date, Program: version})
	if err != nil {
		return trouble(err)
	}
	return lf.save(w, lf.out, func(to io.Writer) error {
		if asHTML {
			return onepage.HTML(to, &data)
		}
		page := size.Page(paper.Fine)
		onepage.Draw(page, &data)
		d := paper.Print{Page: page, DPI: paper.Fine, Title: phrase.ReportFileTitle(c.Pupil), About: phrase.ReportFileAbout(), Date: date}
		return d.Write(to, format)
	})
}

// reportCourse are the drills of the shipped course.
func (w *world) reportCourse() (out []onepage.Drill, err error) {
	known, err := w.drillKnown("")
	if err != nil {
		return nil, err
	}
	_, drills, err := drillfile.Shipped("beginner", known)
	if err != nil {
		return nil, badInput(err)
	}
	for _, d := range drills {
		alarm := slices.ContainsFunc(d.Cases, func(c drillfile.Words) bool { return c.Sound == "alarm" })
		out = append(out, onepage.Drill{Code: d.Config.Code, Name: d.Name, Alarm: alarm})
	}
	return out, nil
}

func exportCSV(w *world, lf *logbookFlags, f logbook.Filter, all func(logbook.Taker) error) error {
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
func (lf *logbookFlags) save(w *world, path string, write func(io.Writer) error) error {
	if err := w.publish(path, door.Out{Over: lf.over, Private: true}, write); err != nil || door.IsStdout(path) {
		return err
	}
	fmt.Fprintln(w.out, mouth.Printable(phrase.LogbookSaved(path)))
	return nil
}

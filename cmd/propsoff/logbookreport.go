package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"propsoff/assets/wholefile"
	"propsoff/cmd/propsoff/internal/logbook"
	"propsoff/cmd/propsoff/internal/paper"
	"propsoff/cmd/propsoff/internal/phrase"
	onepage "propsoff/cmd/propsoff/internal/report"
	"propsoff/cmd/propsoff/internal/terminal"
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
	p.StringVarP(&lf.out, "output", "o", "report.pdf", "`FILE` to write, ending in "+strings.Join(endings, ", "))
	p.BoolVar(&lf.over, "over", false, "write over a file that is there already")
	p.StringVar(&lf.paper, "paper", strings.ToLower(paper.A4().Name), "`SIZE` of the paper: a4 or letter")
	p.StringVar(&lf.date, "date", "", "the `DAY` on the report, as 2031-04-05, or none (default today)")
	return cmd
}

func writeReport(w *world, lf *logbookFlags, endings []string, today time.Time) error {
	asHTML := strings.EqualFold(filepath.Ext(lf.out), htmlEnding)
	asked := lf.out
	if asHTML {
		asked = "report.pdf" // the rest of what is asked for is checked as for a card
	} else if _, ok := paper.FormatOf(lf.out); !ok {
		return badInput(errors.New(phrase.LogbookEnding(lf.out, endings)))
	}
	size, date, err := (&cardFlags{out: asked, paper: lf.paper, date: lf.date}).check(today)
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
		return badInput(errors.New(terminal.Printable(phrase.LogbookNobody(s.Dir))))
	case len(names) > 1:
		return badInput(errors.New(terminal.Printable(phrase.LogbookWhose("logbook report", names))))
	}
	var x logbook.Index
	c, err := readLogbook(w, s, names[0], x.Take)
	if err != nil {
		return err
	}
	course, err := reportCourse()
	if err != nil {
		return err
	}
	data, err := onepage.Of(c, x.Each, onepage.Options{Course: course, Date: date, Program: version})
	if err != nil {
		return trouble(err)
	}
	var b bytes.Buffer
	if asHTML {
		err = onepage.HTML(&b, &data)
	} else {
		format, _ := paper.FormatOf(lf.out)
		page := size.Page(paper.Fine)
		onepage.Draw(page, &data)
		d := paper.Print{Page: page, DPI: paper.Fine, Title: phrase.ReportFileTitle(c.Pupil), About: phrase.ReportFileAbout(), Date: date}
		err = d.Write(&b, format)
	}
	if err != nil {
		return trouble(err)
	}
	return saveNew(w, lf.out, lf.over, func(out io.Writer) error {
		_, err := b.WriteTo(out)
		return err
	})
}

// reportCourse are the drills of the shipped course.
func reportCourse() (out []onepage.Drill, err error) {
	known, err := drillKnown("")
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
	fill := func(out io.Writer) error {
		t := logbook.NewTable(out, f)
		read := all(t.Take)
		if err := t.Close(); err != nil {
			return err
		}
		return read
	}
	if lf.csv != "-" {
		return saveNew(w, lf.csv, lf.over, fill)
	}
	if err := fill(w.out); err != nil {
		return said(err, trouble)
	}
	return nil
}

// said leaves an error that has its exit status as it is.
func said(err error, as func(error) error) error {
	if e := (*exitError)(nil); errors.As(err, &e) {
		return err
	}
	return as(err)
}

// saveNew writes a file as a whole, for its owner alone: what a pupil did is nobody else's. Without over a file that is there stays.
func saveNew(w *world, path string, over bool, fill func(io.Writer) error) error {
	if st, err := os.Lstat(path); err == nil && st.Mode().IsRegular() && !over {
		return badInput(errors.New(phrase.LogbookThere(path)))
	}
	if err := writable(path); err != nil {
		return err
	}
	unwritten := func(err error) error { return cannotWrite(path, err) }
	if st, err := os.Stat(path); err == nil && !st.Mode().IsRegular() { // a pipe or a device
		f, err := os.OpenFile(path, os.O_WRONLY, 0)
		if err == nil {
			err = errors.Join(fill(f), f.Close())
		}
		if err != nil {
			return said(err, unwritten)
		}
		return nil
	}
	if real, err := filepath.EvalSymlinks(path); err == nil && over {
		path = real
	}
	write := wholefile.NewBy
	if over {
		write = wholefile.ReplaceBy
	}
	switch err := write(path, fill, 0o600); {
	case errors.Is(err, fs.ErrExist): // one that has come between
		return badInput(errors.New(phrase.LogbookThere(path)))
	case err != nil:
		return said(err, unwritten)
	}
	fmt.Fprintln(w.out, terminal.Printable(phrase.LogbookSaved(path)))
	return nil
}

package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"propsoff/assets/door"
	"propsoff/assets/mouth"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/follow"
	"propsoff/cmd/propsoff/internal/paper"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/input"
	"propsoff/input/radio"
	"propsoff/sim/prove"
)

type cardFlags struct {
	craft, radio, device string
	gestures             string
	out, paper, date     string
	over, prove          bool
}

func newCard(w *world, now func() time.Time) *cobra.Command {
	var cf cardFlags
	cmd := &cobra.Command{
		Use:   "card",
		Short: "Write the switch card: one page with every control and what it does, to hang up",
		Long: "Write the switch card, one page to print: the radio with every control, its positions, what the craft does at each, how\n" +
			"it is armed, what happens when the link is lost, what was proved, the date and the cautions. The ending of the file name\n" +
			"says what is written: .pdf, .svg or .png. Without a radio file an ideal radio is drawn, and the card says so.\n\n" +
			"Exit status: 0 the card is written, and with --prove every rule was searched to its end and none is broken; 2 bad input; 3 the\n" +
			"machine did not let it. With --prove the card is written all the same where a rule is broken, status 1, and where none was found\n" +
			"broken but the search was stopped or ran out of memory before its end, status 4.",
		Args: noArguments,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return writeCard(cmd.Context(), w, &cf, now())
		},
	}
	p := cmd.Flags()
	p.StringVar(&cf.craft, "craft", "", "craft `FILE`, or a shipped craft: "+strings.Join(crafts(), ", "))
	p.StringVar(&cf.radio, "radio", "", "radio `FILE` that says which axis or button is what")
	p.StringVar(&cf.device, "device", "", "the kept radio file of the radio that is plugged in, by `NAME` or number")
	p.StringVarP(&cf.out, "output", "o", "card.pdf", "`FILE` to write, ending in "+strings.Join(paper.Extensions(), ", ")+", or - for a PDF on standard output")
	p.BoolVar(&cf.over, "over", false, "write over a file that is there already")
	p.StringVar(&cf.paper, "paper", strings.ToLower(paper.A4().Name), "`SIZE` of the paper: a4 or letter")
	p.StringVar(&cf.date, "date", "", "the `DAY` on the card, as 2031-04-05, or none (default today)")
	p.StringVar(&cf.gestures, "gestures", "", "gesture `FILE`: the two-stick gestures and menus to be searched too; else your own, or the shipped ones")
	p.BoolVar(&cf.prove, "prove", false, "search every situation first and put on the card what was found; Ctrl-C stops the search")
	_ = cmd.RegisterFlagCompletionFunc("craft", func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return crafts(), cobra.ShellCompDirectiveDefault
	})
	return cmd
}

func writeCard(ctx context.Context, w *world, cf *cardFlags, today time.Time) error {
	size, date, err := cf.check(today)
	if err != nil {
		return badInput(err)
	}
	format, ok, err := w.format(cf.out)
	switch {
	case err != nil:
		return err
	case !ok:
		return badInput(errors.New(phrase.CardEnding(cf.out, paper.Extensions())))
	}
	out, say := door.Out{Over: cf.over}, w.out
	if door.IsStdout(cf.out) {
		say = w.err // standard output is the card's
	}
	c, err := w.loadFlown(&shared{craft: cf.craft, gestures: cf.gestures})
	if err != nil {
		return err
	}
	l, given, err := cf.layout(w, c)
	if err != nil {
		return err
	}
	if err := w.try(out, cf.out); err != nil {
		return err
	}
	day := ""
	if !date.IsZero() {
		day = phrase.CardDay(date)
	}
	data := sheet.NewCard(c.File, l.Radio, given, day)
	verdict := prove.AllHold
	if cf.prove {
		report, err := search(ctx, w, l)
		if err != nil {
			return err
		}
		data.Prove(report)
		verdict = report.Verdict()
		if _, err := fmt.Fprintln(say, data.Verdict); err != nil {
			return trouble(err)
		}
	}
	page := size.Page(paper.Fine)
	sheet.PrintCard(page, &data)
	d := paper.Print{Page: page, DPI: paper.Fine, Title: phrase.CardFileTitle(data.Craft), About: phrase.CardFileAbout(l.Radio.Name, given), Date: date}
	if err := w.publish(cf.out, out, func(to io.Writer) error { return d.Write(to, format) }); err != nil {
		return err
	}
	if !door.IsStdout(cf.out) {
		if _, err := fmt.Fprintln(w.out, mouth.Printable(phrase.CardSaved(cf.out))); err != nil {
			return trouble(err)
		}
	}
	return exitOf(verdict)
}

// check reads the flags that need no file. The zero date leaves it out.
func (cf *cardFlags) check(today time.Time) (size paper.Size, date time.Time, err error) {
	if cf.radio != "" && cf.device != "" {
		return size, date, errors.New(phrase.CardTwoRadios())
	}
	size, ok := paper.SizeNamed(cf.paper)
	if !ok {
		var known []string
		for _, s := range paper.Sizes() {
			known = append(known, strings.ToLower(s.Name))
		}
		return size, date, errors.New(phrase.CardNoPaper(cf.paper, known))
	}
	switch cf.date {
	case "":
		return size, today, nil
	case "none":
		return size, time.Time{}, nil
	}
	if date, err = time.Parse(phrase.CardDayAsked, cf.date); err != nil || date.IsZero() {
		return size, date, errors.New(phrase.CardNoDate(cf.date))
	}
	return size, date, nil
}

// layout is the craft with the radio to draw: that of the file, that of the radio plugged in, or an ideal one (given false).
func (cf *cardFlags) layout(w *world, c *craft) (l prove.Layout, given bool, err error) {
	if cf.device != "" {
		file, info, err := keptFile(w, cf.device)
		if err != nil {
			return l, false, err
		}
		return facts.LayoutOf(c.File, file, info), true, nil
	}
	file, err := w.loadRadio(cf.radio, "", c)
	if err != nil {
		return l, false, err
	}
	return facts.LayoutOf(c.File, file, nil), file != nil, nil
}

// keptFile finds the radio file that was kept of a radio that is plugged in, and what the radio itself tells.
func keptFile(w *world, device string) (*radio.File, *input.Info, error) {
	found, _, err := w.radios.List()
	if err != nil {
		return nil, nil, trouble(err)
	}
	if len(found) == 0 {
		return nil, nil, trouble(errors.New(phrase.NoRadio()))
	}
	policy := follow.Policy{Wanted: device, Store: w.store}
	f, err := policy.Choose(found)
	if err != nil {
		return nil, nil, badInput(err)
	}
	info := follow.InfoOf(f)
	if f.Way != "" {
		if d, err := w.radios.Open(f.Path, w.now()); err == nil {
			info = d.Info()
			_ = d.Close()
		}
	}
	a := policy.FileFor(info)
	switch {
	case a.Trouble != nil:
		return nil, nil, trouble(a.Trouble)
	case a.How == follow.Unknown && len(a.Spoilt) > 0:
		return nil, nil, badInput(errors.Join(a.Spoilt...))
	case a.How == follow.Unknown:
		return nil, nil, badInput(errors.New(phrase.CardNotLearned(info.Name)))
	case a.How == follow.Alike:
		w.say(phrase.ReadAlike(info.Name, a.Path, len(a.Alike)))
	}
	return &a.File, &info, nil
}

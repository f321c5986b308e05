package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"propsoff.example/assets/door"
	"propsoff.example/assets/mouth"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/live/whichradio"
	"propsoff.example/cmd/propsoff/internal/paper"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui/card"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/sim/prove"
)

type cardFlags struct {
	world.Named
	device, out, paper, date, size, pupil string
	over, prove                           bool
	like                                  world.Named // the old layout
}

func newCard(w *world.World, now func() time.Time) *cobra.Command {
	var cf cardFlags
	cmd := newCommand(w, "card", words.T("command.card"), words.T("command.card-about"))
	cmd.RunE = func(cmd *cobra.Command, _ []string) error {
		return writeCard(cmd.Context(), w, &cf, now())
	}
	p := cmd.Flags()
	craftFlag(cmd, &cf.Craft, flownCraft(w))
	radioFlag(w, cmd, &cf.Radio)
	p.StringVar(&cf.device, "device", "", w.Say(words.T("flag.device-kept")))
	p.StringVarP(&cf.out, "output", "o", "card.pdf", w.Say(words.T("flag.output", words.Args{"endings": withCommas(paper.Extensions())})))
	p.BoolVar(&cf.over, "over", false, w.Say(words.T("flag.over")))
	p.StringVar(&cf.paper, "paper", strings.ToLower(paper.A4().Name), w.Say(words.T("flag.paper")))
	p.StringVar(&cf.size, "size", card.SizeCodes()[card.Bank], w.Say(words.T("flag.size-card", words.Args{"sizes": withCommas(card.SizeCodes())})))
	pupilFlag(p, &cf.pupil, w.Say(words.T("flag.pupil-card")))
	p.StringVar(&cf.date, "date", "", w.Say(words.T("flag.date-card")))
	p.StringVar(&cf.Gestures, "gestures", "", w.Say(words.T("flag.gestures-searched")))
	p.BoolVar(&cf.prove, "prove", false, w.Say(words.T("flag.prove-card")))
	p.StringVar(&cf.like.Craft, "like", "", w.Say(words.T("flag.like")))
	p.StringVar(&cf.like.Radio, "like-radio", "", w.Say(words.T("flag.like-radio")))
	_ = cmd.RegisterFlagCompletionFunc("like", cobra.FixedCompletions(world.Crafts(), cobra.ShellCompDirectiveDefault))
	_ = cmd.RegisterFlagCompletionFunc("size", cobra.FixedCompletions(card.SizeCodes(), cobra.ShellCompDirectiveNoFileComp))
	return cmd
}

func writeCard(ctx context.Context, w *world.World, cf *cardFlags, today time.Time) error {
	if cf.Radio != "" && cf.device != "" {
		return exit.BadInput(words.Wrong("card.two-radios"))
	}
	on, date, err := onPaper(cf.paper, cf.date, today)
	if err != nil {
		return err
	}
	size, ok := card.SizeOf(cf.size)
	if !ok {
		return exit.BadInput(tell.CardNoSize(cf.size, card.SizeCodes()).Problem())
	}
	format, ok, err := w.Format(cf.out)
	switch {
	case err != nil:
		return err
	case !ok:
		return exit.BadInput(tell.FileEnding(cf.out, paper.Extensions()).Problem())
	}
	out, say := door.Out{Over: cf.over}, w.Out
	if door.IsStdout(cf.out) {
		say = w.Err // standard output is the card's
	}
	l, c, file, err := cardOf(w, cf)
	if err != nil {
		return err
	}
	if err := w.Try(out, cf.out); err != nil {
		return err
	}
	data := card.Make(c.File, c.Path, l.Radio, file.file != nil)
	data.Date, data.Whom = date, cf.pupil
	if cf.like != (world.Named{}) {
		if data.Like, err = provedLike(ctx, w, cf, c, file); err != nil {
			return err
		}
		data.Like.On = date
		if _, err := fmt.Fprintln(say, w.Say(tell.CardLike(data.Like))); err != nil {
			return exit.Trouble(err)
		}
	}
	verdict := prove.AllHold
	if cf.prove {
		report, err := search(ctx, w, l)
		if err != nil {
			return err
		}
		data.Proved, data.Searched = report, date
		verdict = report.Verdict()
		if _, err := fmt.Fprintln(say, w.Say(data.Verdict())); err != nil {
			return exit.Trouble(err)
		}
	}
	page, _ := size.Lay(on, w.Language(), &data)
	d := size.Paper(page, w.Language(), &data)
	if err := w.Publish(cf.out, out, func(to io.Writer) error { return d.Write(to, format) }); err != nil {
		return err
	}
	if !door.IsStdout(cf.out) {
		if _, err := fmt.Fprintln(w.Out, mouth.Printable(w.Say(words.T("card.saved", words.Args{"path": words.Quote(cf.out)})))); err != nil {
			return exit.Trouble(err)
		}
	}
	return exit.Of(verdict)
}

// cardRadio is the radio of a card: its file, nil for an ideal one, and what the radio itself tells, nil where it is not at hand.
type cardRadio struct {
	file *radio.File
	info *input.Info
}

// cardOf are the craft and the radio of the card: those that were named, else those that the pupil practised with last.
func cardOf(w *world.World, cf *cardFlags) (l prove.Layout, c *world.Craft, held cardRadio, err error) {
	var last *practised
	if cf.pupil != "" && (cf.Craft == "" || cf.Radio == "" && cf.device == "") { // where both are given, only the name is wanted
		if last, err = practisedLast(w, cf.pupil); err != nil {
			return l, nil, held, err
		}
		if cf.Craft == "" {
			if cf.Craft, err = last.craftFile(w); err != nil {
				return l, nil, held, err
			}
		}
	}
	c, file, err := w.LoadFlown(&cf.Named)
	if err != nil {
		return l, nil, held, err
	}
	var info *input.Info
	switch {
	case cf.device != "":
		file, info, err = keptFile(w, cf.device)
	case cf.Radio == "" && last != nil:
		file, err = last.radioFile(w)
	}
	if err != nil {
		return l, nil, held, err
	}
	l = facts.LayoutOf(c.File, file, info)
	if file == nil && last != nil && last.stickMode > 0 {
		l.Radio.StickMode = last.stickMode
	}
	return l, c, cardRadio{file, info}, nil
}

// onPaper reads the flags of a page to be printed: its size, and the date on it. The zero date leaves it out.
func onPaper(name, day string, today time.Time) (size paper.Size, date time.Time, err error) {
	size, ok := paper.SizeNamed(name)
	if !ok {
		var known []string
		for _, s := range paper.Sizes() {
			known = append(known, strings.ToLower(s.Name))
		}
		return size, date, exit.BadInput(tell.CardNoPaper(name, known).Problem())
	}
	switch day {
	case "":
		return size, today, nil
	case "none":
		return size, time.Time{}, nil
	}
	if date, err = time.Parse(time.DateOnly, day); err != nil || date.IsZero() {
		return size, date, exit.BadInput(words.Wrong("card.bad-date", words.Args{"text": words.Quote(day)}))
	}
	return size, date, nil
}

// keptFile finds the radio file that was kept of a radio that is plugged in, and what the radio itself tells.
func keptFile(w *world.World, device string) (*radio.File, *input.Info, error) {
	found, _, err := w.Radios.List()
	if err != nil {
		return nil, nil, exit.Trouble(err)
	}
	if len(found) == 0 {
		return nil, nil, exit.Trouble(words.Wrong("notice.no-radio-now"))
	}
	policy := whichradio.Policy{Wanted: device, Store: w.Store}
	f, err := policy.Choose(found)
	if err != nil {
		return nil, nil, exit.BadInput(err)
	}
	info := whichradio.InfoOf(f)
	if f.Way != "" {
		if d, err := w.Radios.Open(f.Path, w.Now()); err == nil {
			info = d.Info()
			_ = d.Close()
		}
	}
	a := policy.FileFor(info)
	switch {
	case a.Trouble != nil:
		return nil, nil, exit.Trouble(a.Trouble)
	case a.How == whichradio.Unknown && len(a.Spoilt) > 0:
		return nil, nil, exit.BadInput(errors.Join(a.Spoilt...))
	case a.How == whichradio.Unknown:
		return nil, nil, exit.BadInput(words.Wrong("card.not-learned", words.Args{"radio": words.Quote(info.Name)}))
	case a.How == whichradio.Alike:
		w.Tell(tell.ReadAlike(info.Name, a.Path, len(a.Alike)))
	}
	if a.File.Given {
		w.Tell(tell.NotTried(info.Name, words.Text{}, true))
	}
	return &a.File, &info, nil
}

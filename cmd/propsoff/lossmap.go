package main

import (
	"cmp"
	"context"
	"io"
	"slices"
	"strconv"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/lossplot"
	"propsoff.example/cmd/propsoff/internal/lossrun"
	"propsoff.example/cmd/propsoff/internal/paper"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/sim/lossmap"
)

// mapFlags are the flags of the map of a lost link.
type mapFlags struct {
	on                                    bool
	receiver, throttle, wind, table, plot string
	writeOver                             bool
}

// mapOnly are the flags that go with --map only, mapNever those that do not.
var (
	mapOnly  = []string{"receiver", "throttle", "wind", "table", "plot", "over"}
	mapNever = []string{"height", "off"}
)

// The words of receivers, throttles and winds, as they are written after their flags.
func receiverWords() (all []string) {
	for i := range lossrun.Receivers {
		all = append(all, codes.OnLoss(facts.OnLoss(i)))
	}
	return all
}

func throttleWords() (all []string) {
	for i := range lossmap.Throttles {
		all = append(all, tell.MapThrottleCode(i))
	}
	return all
}

func windWords() (all []string) {
	for _, v := range lossmap.Winds() {
		all = append(all, strconv.FormatFloat(v, 'f', -1, 64))
	}
	return all
}

func (f *mapFlags) register(w *world.World, cmd *cobra.Command) {
	s := cmd.Flags()
	s.BoolVar(&f.on, "map", false, w.Say(words.T("flag.map")))
	for _, one := range []struct {
		to       *string
		name, as string
		usage    words.ID
		known    []string
	}{
		{&f.receiver, "receiver", "", "flag.receiver-map", receiverWords()},
		{&f.throttle, "throttle", tell.MapThrottleCode(lossmap.Hover), "flag.throttle-map", throttleWords()},
		{&f.wind, "wind", "", "flag.wind-map", windWords()},
	} {
		s.StringVar(one.to, one.name, one.as, w.Say(words.T(one.usage, words.Args{"values": withCommas(one.known)})))
		_ = cmd.RegisterFlagCompletionFunc(one.name, cobra.FixedCompletions(one.known, cobra.ShellCompDirectiveNoFileComp))
	}
	s.StringVarP(&f.table, "table", "o", "", w.Say(words.T("flag.table-map")))
	s.StringVar(&f.plot, "plot", "", w.Say(words.T("flag.plot-map")))
	s.BoolVar(&f.writeOver, "over", false, w.Say(words.T("flag.over-files")))
}

// fit refuses flags that do not go together.
func (f *mapFlags) fit(s *pflag.FlagSet) (err error) {
	s.Visit(func(one *pflag.Flag) {
		id := words.ID("")
		switch {
		case !f.on && slices.Contains(mapOnly, one.Name):
			id = "refused.only-map"
		case f.on && slices.Contains(mapNever, one.Name):
			id = "refused.not-map"
		}
		if id != "" && err == nil {
			err = exit.BadInput(words.Wrong(id, words.Args{"flag": words.Quote(one.Name)}))
		}
	})
	return err
}

// slice is what is shown of the map.
func (f *mapFlags) slice() (at terminal.MapSlice, err error) {
	if at.Throttle, err = oneOf("throttle", f.throttle, throttleWords()); err != nil {
		return at, err
	}
	at.Wind, err = oneOf("wind", cmp.Or(f.wind, windWords()[0]), windWords())
	return at, err
}

// lossMap works the map out, and tells, writes and draws it.
func lossMap(ctx context.Context, w *world.World, f lossFlags) error {
	at, err := f.over.slice()
	if err != nil {
		return err
	}
	format, ok, err := w.Format(f.over.plot)
	switch {
	case err != nil:
		return err
	case f.over.plot != "" && !ok:
		return exit.BadInput(words.Wrong("refused.plot", words.Args{"value": words.Quote(f.over.plot), "endings": withCommas(paper.Extensions())}))
	}
	c, err := w.LoadCraft(f.craft, "")
	if err != nil {
		return err
	}
	craft := c.Config()
	way := int(craft.Link.OnLoss)
	if f.over.receiver != "" {
		if way, err = oneOf("receiver", f.over.receiver, receiverWords()); err != nil {
			return err
		}
	}
	stored, err := f.store(c.Name, &craft)
	if err != nil {
		return err
	}
	out := door.Out{Over: f.over.writeOver}
	if err := w.Try(out, f.over.table, f.over.plot); err != nil {
		return err
	}
	m, craft := facts.LossMap(&craft, facts.OnLoss(way), stored)
	if !m.Level {
		return exit.BadInput(words.Within(c.Name, words.Wrong("loss-map.not-level")))
	}
	line := &progress{w: w, from: w.Now(), after: mapAfter, every: mapTells}
	for m.Work(mapChunk) {
		line.tell(func(int64) words.Text { return tell.MapProgress(m) })
		if ctx.Err() != nil {
			line.end()
			return exit.ErrStopped
		}
	}
	line.end()
	title := words.T("loss-map.title", words.Args{"craft": words.Quote(c.Name)})
	does := tell.MapDoes(&craft)
	var told, tableErr, plotErr error
	if !door.IsStdout(f.over.table) && !door.IsStdout(f.over.plot) {
		told = put(w, terminal.Form{JSON: f.json, Book: w.Language()}.Map(nil, m, c.Name, receiverWords()[way], title, does, at))
	}
	if f.over.table != "" {
		tableErr = w.Publish(f.over.table, out, func(to io.Writer) error { return terminal.MapCSV(m, to) })
	}
	if f.over.plot != "" {
		page := ink.NewPage(plotWide, plotHigh, 0, paper.Theme())
		lossplot.Page(page, title, does, lossplot.Look{Map: m, Throttle: at.Throttle, Wind: at.Wind, Book: w.Language()})
		plotErr = w.Publish(f.over.plot, out, func(to io.Writer) error {
			return (&paper.Print{Page: page, DPI: 96, Title: w.Say(title)}).Write(to, format)
		})
	}
	return cmp.Or(told, tableErr, plotErr)
}

// How long a map goes on before its progress is told, how often then (µs), after how many steps it is looked whether it is time to; and the size
// of its plot in pixels. All ours.
const (
	mapAfter, mapTells, mapChunk = 200_000, 90_000, 20_000
	plotWide, plotHigh           = 1000, 1400
)

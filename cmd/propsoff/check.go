package main

import (
	"context"
	"errors"
	"io/fs"
	"time"

	"github.com/spf13/cobra"

	"propsoff/cmd/propsoff/internal/follow"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/terminal"
	"propsoff/input"
	"propsoff/input/check"
	"propsoff/input/radio"
)

// checkBehind is how long the check lets time lag behind the clock, in µs, so that no report that is still on its way comes too
// late.
const checkBehind = 10_000

type checkFlags struct {
	json          bool
	length        time.Duration
	device        string
	craft, radioF string
}

func newCheck(w *world) *cobra.Command {
	var cf checkFlags
	cmd := &cobra.Command{
		Use:   "check",
		Short: "Check every control of the radio, full and free: direction, travel, rest, noise, jumps, reports",
		Long: "Ask for one movement after another until every learned control was taken to both ends and back, and say of each item\n" +
			"whether it passes, warns or fails, with the measured value, the limit, why it matters and what to set in the radio.\n" +
			"Exit status: 0 nothing fails, 1 something fails or was never moved, 2 no fitting radio file, 3 no radio.\n\n" + phrase.Cautions()[0],
		Args: noArguments,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if cf.length <= 0 && cmd.Flags().Changed("for") {
				return badInput(errors.New("--for needs a time of more than nothing, for example 30s"))
			}
			return runCheck(cmd.Context(), w, cf)
		},
	}
	f := cmd.Flags()
	f.BoolVar(&cf.json, "json", false, "print one JSON object a line: what is asked, each item as it settles, and a summary")
	f.DurationVar(&cf.length, "for", 0, "end after `TIME` even if not everything was moved, for example 30s")
	f.StringVar(&cf.device, "device", "", "which radio: `NAME` or a part of it, its number as listed by \"propsoff radios\", or its path")
	f.StringVar(&cf.radioF, "radio", "", "radio `FILE` that says which axis or button is what")
	f.StringVar(&cf.craft, "craft", "", "craft `FILE`, or a shipped craft: its low throttle mark and its channels count")
	_ = cmd.RegisterFlagCompletionFunc("craft", func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return crafts(), cobra.ShellCompDirectiveDefault
	})
	return cmd
}

// checking is a check that goes on in the terminal.
type checking struct {
	w       *world
	watcher portWatcher
	epoch   int64
	manner  manner
	device  input.Device // nil while it is unplugged
	info    input.Info
	c       *check.Checker
	shown   terminal.Checked
	view    check.View
	told    []check.Verdict // of each item, as it was told last
	asked   [2]int          // ask and control, as told last
	states  []input.Raw
	lines   *terminal.Lines
}

func runCheck(ctx context.Context, w *world, cf checkFlags) error {
	w.door.In = nil // a radio file is read again when its radio comes
	c, err := w.loadCraft(cf.craft, "")
	if err != nil {
		return err
	}
	file, err := w.loadRadio(cf.radioF, "", c)
	if err != nil {
		return err
	}
	watcher, err := w.radios.Watch()
	if err != nil {
		return trouble(err)
	}
	defer watcher.Close()
	k := &checking{w: w, watcher: watcher, epoch: w.now(), manner: mannerOf(w, cf.json), asked: [2]int{-1, -1}}
	k.lines = terminal.NewLines(w.out, func(dst []byte, n int) []byte { return k.appendSaid(dst, phrase.LinesLeftOut(n)) })
	policy := follow.Policy{Wanted: cf.device, File: file, Store: w.store}
	if err := k.open(&policy, cf.radioF, c); err != nil {
		return err
	}
	defer k.close()
	if k.manner != asScreen {
		w.say(phrase.Cautions()[0])
	} else {
		k.shown.Notices = append(k.shown.Notices, phrase.Cautions()[0])
	}
	if cf.length > 0 {
		var cancel context.CancelFunc
		ctx, cancel = context.WithTimeout(ctx, cf.length)
		defer cancel()
	}
	shows := k.lines.Run
	if k.manner == asScreen {
		shows = w.console.Run
	}
	if err := w.together(ctx, k.run, shows); err != nil {
		return trouble(errors.Join(err, w.console.End(false)))
	}
	if err := k.finish(); err != nil {
		return trouble(err)
	}
	if k.view.Count[check.Fails] > 0 || !k.view.Settled {
		return &exitError{code: exitFailed}
	}
	return nil
}

// open opens the radio and finds its file.
func (k *checking) open(p *follow.Policy, path string, c *craft) error {
	found := k.watcher.Found()
	if len(found) == 0 {
		return trouble(errors.New(phrase.NoRadio()))
	}
	f, err := p.Choose(found)
	if err != nil {
		return badInput(err)
	}
	d, err := k.w.radios.Open(f.Path, k.epoch)
	if err != nil {
		if errors.Is(err, fs.ErrPermission) || f.Way == "" {
			err = errors.New(phrase.NotOpened(f.Name))
		}
		return trouble(err)
	}
	k.device, k.info = d, d.Info()
	fail := func(err error) error { return badInput(errors.Join(err, d.Close())) }
	a := p.FileFor(k.info)
	switch {
	case a.How == follow.Unknown && len(a.Spoilt) > 0:
		return fail(errors.Join(append(a.Spoilt, errors.New(phrase.CheckNotLearned(k.info.Name)))...))
	case a.How == follow.Unknown:
		return fail(errors.New(phrase.CheckNotLearned(k.info.Name)))
	case a.Other:
		return fail(errors.New(phrase.CheckOfAnother(k.info.Name, a.File.Device.Name)))
	case a.How == follow.Given: // again, with the device at hand: errors then name the line
		if a.File, err = radio.Load(path, radio.Known{Info: &k.info, Names: &c.names}); err != nil {
			return fail(err)
		}
	case a.How == follow.Alike:
		k.w.say(phrase.ReadAlike(k.info.Name, a.Path, len(a.Alike)))
	}
	cfg := c.Config()
	k.c, err = check.New(check.Config{Info: k.info, File: a.File, Names: c.names, Wants: check.Wants{LowThrottle: cfg.Arming.LowThrottle}})
	if err != nil {
		return fail(err)
	}
	k.shown.Radio, k.shown.View = k.info.Name, &k.view
	return nil
}

func (k *checking) close() {
	if k.device != nil {
		_ = k.device.Close()
	}
}

// run goes on until everything is settled or ctx is done.
func (k *checking) run(ctx context.Context) error {
	tick := time.NewTicker(redrawEvery)
	defer tick.Stop()
	for {
		now := k.w.now() - k.epoch // before the reading: all that is stamped before it is then read, however long this takes
		k.read()
		k.c.Tick(now - checkBehind)
		k.c.View(&k.view)
		k.shown.At = now
		k.tell()
		var states <-chan struct{}
		if k.device != nil {
			states = k.device.Wake()
		}
		if k.view.Settled || ctx.Err() != nil {
			return nil
		}
		select {
		case <-ctx.Done():
		case <-states:
			if k.manner == asScreen { // a thousand pictures a second help nobody
				select {
				case <-tick.C:
				case <-ctx.Done():
				}
			}
		case <-k.watcher.Wake():
			k.watcher.Poll(nil)
			k.reopen()
		case <-tick.C:
			k.reopen()
		}
	}
}

// read feeds what the radio has said.
func (k *checking) read() {
	if k.device == nil {
		return
	}
	var err error
	k.states, err = k.device.Poll(k.states[:0])
	for i := range k.states {
		k.c.Feed(&k.states[i])
	}
	if err == nil {
		return
	}
	at := k.w.now() - k.epoch
	var when interface{ GoneAt() int64 }
	if errors.As(err, &when) {
		at = when.GoneAt()
	}
	k.c.Gone(at)
	_ = k.device.Close()
	k.device = nil
	k.say(phrase.Unplugged(k.info.Name))
}

// reopen opens the radio again where it is back.
func (k *checking) reopen() {
	if k.device != nil {
		return
	}
	f, ok := follow.Again(radio.DeviceOf(k.info), k.watcher.Found())
	if !ok {
		return
	}
	d, err := k.w.radios.Open(f.Path, k.epoch)
	if err != nil {
		return // it is looked for again in a moment
	}
	if info := d.Info(); len(info.Axes) != len(k.info.Axes) || info.Buttons != k.info.Buttons {
		_ = d.Close()
		return
	}
	k.device = d
	k.say(phrase.CheckBack(k.info.Name))
}

func (k *checking) say(text string) {
	if k.manner != asScreen {
		k.lines.Add(func(dst []byte) []byte { return k.appendSaid(dst, text) })
		return
	}
	k.shown.Notices = append(k.shown.Notices, text)
	if n := len(k.shown.Notices); n > noticesMost {
		k.shown.Notices = k.shown.Notices[n-noticesMost:]
	}
}

func (k *checking) appendSaid(dst []byte, text string) []byte {
	if k.manner == asJSON {
		return k.shown.AppendSaidJSON(dst, text)
	}
	return k.shown.AppendSaid(dst, text)
}

// tell shows what is new.
func (k *checking) tell() {
	if k.manner == asScreen {
		columns, rows, _ := k.w.console.Size()
		k.w.console.Show(k.shown.Screen(columns, rows))
		return
	}
	add, addAsk := k.shown.AppendItem, k.shown.AppendAsk
	if k.manner == asJSON {
		add, addAsk = k.shown.AppendItemJSON, k.shown.AppendAskJSON
	}
	if len(k.told) != len(k.view.Items) {
		k.told = make([]check.Verdict, len(k.view.Items))
	}
	for i := range k.view.Items {
		it := &k.view.Items[i]
		if it.Verdict == k.told[i] {
			continue
		}
		k.told[i] = it.Verdict
		k.lines.Add(func(dst []byte) []byte { return add(dst, it) })
	}
	if asked := [2]int{int(k.view.Ask), k.view.Control}; asked != k.asked && !k.view.Settled {
		k.asked = asked
		k.lines.Add(addAsk)
	}
}

// finish writes the summary.
func (k *checking) finish() error {
	end := k.shown.AppendEnd
	switch k.manner {
	case asJSON:
		end = k.shown.AppendEndJSON
	case asScreen:
		if err := k.w.console.End(true); err != nil {
			return err
		}
	}
	k.lines.Add(end)
	return k.lines.Flush()
}

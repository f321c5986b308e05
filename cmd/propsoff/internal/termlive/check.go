package termlive

import (
	"context"
	"errors"
	"time"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/exit"
	"propsoff/cmd/propsoff/internal/live/whichradio"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/terminal"
	"propsoff/cmd/propsoff/internal/world"
	"propsoff/input"
	"propsoff/input/check"
	"propsoff/input/radio"
)

// checkBehind is how long the check lets time lag behind the clock, in µs, so that no report that is still on its way comes too
// late.
const checkBehind = 10_000

// checking is a check that goes on in the terminal.
type checking struct {
	CheckLines
	watcher world.Watcher
	epoch   int64
	radio   whichradio.Follower // faithful: another radio is another check
	device  input.Device        // nil while it is unplugged
	info    input.Info
	c       *check.Checker
	view    check.View
	states  []input.Raw
}

// CheckOptions says what is checked.
type CheckOptions struct {
	// Device is the radio that is wanted, by name, number or path; empty takes the best known, else the first.
	Device string
	// Craft and Radio are files, each empty where none was named: the built-in craft, the stored radio file.
	Craft, Radio string
	// JSON has what is asked and found told as JSON Lines.
	JSON bool
	// Length is how long at most, 0 until every control was moved.
	Length time.Duration
}

// Check asks for one movement after another until every control of a radio has shown what it does. The error has its status (exit); it is
// exit.CodeFailed where something fails or was never moved.
func Check(ctx context.Context, w *world.World, o *CheckOptions) error {
	w.Door.In = nil // a radio file is read again when its radio comes
	c, err := w.LoadCraft(o.Craft, "")
	if err != nil {
		return err
	}
	file, err := w.LoadRadio(o.Radio, "", c)
	if err != nil {
		return err
	}
	watcher, err := w.Radios.Watch()
	if err != nil {
		return exit.Trouble(err)
	}
	defer watcher.Close()
	k := &checking{CheckLines: CheckLines{w: w, manner: mannerOf(w, o.JSON), asked: [2]int{-1, -1}}, watcher: watcher, epoch: w.Now()}
	k.Shown.View, k.Shown.Book = &k.view, w.Language()
	k.lines = terminal.NewLines(w.Out, func(dst []byte, n int) []byte { return k.appendSaid(dst, tell.LinesLeftOut(n)) })
	policy := whichradio.Policy{Wanted: o.Device, File: file, Store: w.Store}
	if err := k.open(&policy, o.Radio, c); err != nil {
		return err
	}
	defer k.close()
	if k.manner != asScreen {
		w.Tell(tell.Cautions()[0])
	} else {
		k.say(tell.Cautions()[0])
	}
	ctx, cancel := within(ctx, o.Length)
	defer cancel()
	shows := k.lines.Run
	if k.manner == asScreen {
		shows = w.Console.Run
	}
	if err := w.Together(ctx, k.run, shows); err != nil {
		return exit.Trouble(errors.Join(err, w.Console.End(false)))
	}
	if err := k.Finish(); err != nil {
		return exit.Trouble(err)
	}
	if k.view.Count[check.Fails] > 0 || !k.view.Settled {
		return exit.With(exit.CodeFailed)
	}
	return nil
}

// open opens the radio and finds its file.
func (k *checking) open(p *whichradio.Policy, path string, c *world.Craft) error {
	found := k.watcher.Found()
	if len(found) == 0 {
		return exit.Trouble(failed(words.T("notice.no-radio")))
	}
	k.radio.Faithful = true
	to := k.radio.Look(found, p.Choose)
	if to.Err != nil {
		return exit.BadInput(to.Err)
	}
	f := to.Radio
	d, err := k.w.Radios.Open(f.Path, k.epoch)
	if err != nil {
		return exit.Trouble(whyShut(f, err))
	}
	k.device, k.info = d, d.Info()
	k.radio.Reads(f)
	fail := func(err error) error { return exit.BadInput(errors.Join(err, d.Close())) }
	a := p.FileFor(k.info)
	switch {
	case a.How == whichradio.Unknown:
		return fail(errors.Join(append(a.Spoilt, tell.CheckNotLearned(k.info.Name))...))
	case a.Other:
		return fail(tell.CheckOfAnother(k.info.Name, a.File.Device.Name))
	case a.How == whichradio.Given: // again, with the device at hand: errors then name the line
		if a.File, err = radio.Load(path, radio.Known{Info: &k.info, Names: &c.Words}); err != nil {
			return fail(err)
		}
	case a.How == whichradio.Alike:
		k.w.Tell(tell.ReadAlike(k.info.Name, a.Path, len(a.Alike)))
	}
	cfg := c.Config()
	k.c, err = check.New(check.Config{Info: k.info, File: a.File, Names: c.Words, Wants: check.Wants{LowThrottle: cfg.Arming.LowThrottle}})
	if err != nil {
		return fail(err)
	}
	k.Shown.Radio = k.info.Name
	return nil
}

func (k *checking) close() {
	if k.device != nil {
		_ = k.device.Close()
	}
}

// run goes on until everything is settled or ctx is done.
func (k *checking) run(ctx context.Context) error {
	tick := time.NewTicker(RedrawEvery)
	defer tick.Stop()
	for {
		now := k.w.Now() - k.epoch // before the reading: all that is stamped before it is then read, however long this takes
		k.read()
		k.c.Tick(now - checkBehind)
		k.c.View(&k.view)
		k.Shown.At = now
		k.Tell()
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
	at := k.w.Now() - k.epoch
	var when interface{ GoneAt() int64 }
	if errors.As(err, &when) {
		at = when.GoneAt()
	}
	k.c.Gone(at)
	k.radio.Lost()
	_ = k.device.Close()
	k.device = nil
	k.say(tell.Unplugged(k.info.Name))
}

// reopen opens the radio again where it is back.
func (k *checking) reopen() {
	if k.device != nil {
		return
	}
	a := k.radio.Look(k.watcher.Found(), nil)
	if a.Step != whichradio.Reopen {
		return
	}
	d, err := k.w.Radios.Open(a.Radio.Path, k.epoch)
	if err != nil {
		return // it is looked for again in a moment
	}
	if info := d.Info(); len(info.Axes) != len(k.info.Axes) || info.Buttons != k.info.Buttons {
		_ = d.Close()
		return
	}
	k.device = d
	k.radio.Reads(a.Radio)
	k.say(tell.CheckBack(k.info.Name))
}

package termlive

import (
	"context"
	"errors"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/live/whichradio"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input/check"
	"propsoff.example/input/radio"
)

// checkBehind is how long the check lets time lag behind the clock, in µs, so that no report that is still on its way comes too
// late.
const checkBehind = 10_000

// checking is a check that goes on in the terminal. The reader is faithful: another radio is another check.
type checking struct {
	*CheckLines
	*reader
	c    *check.Checker
	view check.View
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
	k := &checking{}
	if k.reader, err = newReader(w, o.Device, file); err != nil {
		return err
	}
	defer k.close()
	k.radio.Faithful = true
	k.CheckLines = NewCheckLines(w, &k.view, o.JSON)
	if err := k.begin(o.Radio, c); err != nil {
		return err
	}
	k.caution()
	ctx, cancel := within(ctx, o.Length)
	defer cancel()
	if err := w.Together(ctx, k.run, k.shows.run); err != nil {
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

// begin opens the radio and finds its file, which lies at path where one was given.
func (k *checking) begin(path string, c *world.Craft) error {
	found := k.watcher.Found()
	if len(found) == 0 {
		return exit.Trouble(words.Wrong("notice.no-radio-now"))
	}
	to := k.radio.Look(found, k.policy.Choose)
	if to.Err != nil {
		return exit.BadInput(to.Err)
	}
	if err := k.open(to.Radio); err != nil {
		return exit.Trouble(err)
	}
	a := k.policy.FileFor(k.info)
	var err error
	switch {
	case a.How == whichradio.Unknown:
		err = errors.Join(append(a.Spoilt, words.Wrong("check.not-learned", words.Args{"device": words.Quote(k.info.Name)}))...)
	case a.Other:
		err = words.Wrong("check.of-another", words.Args{"device": words.Quote(k.info.Name), "file": words.Quote(a.File.Device.Name)})
	case a.How == whichradio.Given: // again, with the device at hand: errors then name the line
		a.File, err = radio.Load(path, radio.Known{Info: &k.info, Names: &c.Words})
	case a.How == whichradio.Alike:
		k.w.Tell(tell.ReadAlike(k.info.Name, a.Path, len(a.Alike)))
	}
	if err != nil {
		return exit.BadInput(err)
	}
	if a.File.Given {
		k.w.Tell(tell.NotTried(k.info.Name, words.Text{}, a.How != whichradio.Given))
	}
	k.Shown.Radio = k.info.Name
	cfg := c.Config()
	k.c, err = check.New(check.Config{Info: k.info, File: a.File, Names: c.Words, Wants: check.Wants{LowThrottle: cfg.Arming.LowThrottle}})
	if err != nil {
		return exit.BadInput(err)
	}
	return nil
}

// run goes on until everything is settled or ctx is done.
func (k *checking) run(ctx context.Context) error {
	tick := time.NewTicker(RedrawEvery)
	defer tick.Stop()
	for {
		now := k.w.Now() - k.epoch // before the reading: all that is stamped before it is then read, however long this takes
		k.hear()
		k.c.Tick(now - checkBehind)
		k.c.View(&k.view)
		k.Shown.At = now
		k.Tell()
		if k.view.Settled || ctx.Err() != nil {
			return nil
		}
		select {
		case <-ctx.Done():
		case <-k.wake():
			if k.screen { // a thousand pictures a second help nobody
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

// hear feeds what the radio has said.
func (k *checking) hear() {
	if k.device == nil {
		return
	}
	err := k.read(k.c.Feed)
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
	was := k.info
	if k.open(a.Radio) != nil {
		return // it is looked for again in a moment
	}
	if len(k.info.Axes) != len(was.Axes) || k.info.Buttons != was.Buttons {
		k.radio.Lost()
		k.shut()
		k.info = was
		return
	}
	k.say(words.T("check.back", words.Args{"device": words.Quote(k.info.Name)}))
}

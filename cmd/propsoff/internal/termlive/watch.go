package termlive

import (
	"context"
	"slices"
	"time"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/exit"
	"propsoff/cmd/propsoff/internal/live"
	"propsoff/cmd/propsoff/internal/live/whichradio"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/terminal"
	"propsoff/cmd/propsoff/internal/world"
	"propsoff/input"
	"propsoff/sim/pulse"
)

// WatchOptions says what is watched.
type WatchOptions struct {
	world.Named
	// Device is the radio that is wanted, by name, number or path; empty takes the best known, else the first.
	Device string
	// JSON has happenings and values told as JSON Lines; Raw shows the device's own axes and buttons instead.
	JSON, Raw bool
	// Length is how long, 0 until ctx is done.
	Length time.Duration
}

// Watch shows live what a craft would do with the radio that is plugged in. The error has its status (exit).
func Watch(ctx context.Context, w *world.World, o *WatchOptions) error {
	if o.Raw && o.Record != "" {
		return exit.BadInput(words.Wrong("typed.raw-recorded"))
	}
	w.Door.In = nil // a radio file is read again when its radio comes
	c, err := w.LoadFlown(o.Named)
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
	papers := c.Papers()
	rec, err := w.BeginTake(o.Record, papers.WithRadio(file, nil), &live.Start{Craft: c.Config(), Note: "watch"})
	if err != nil {
		return err
	}
	ctx, cancel := within(ctx, o.Length)
	defer cancel()

	d := newDisplay(w, "watch", mannerOf(w, o.JSON), c.Config())
	if d.manner == asScreen {
		d.notice(tell.Cautions()[0])
	} else {
		w.Tell(tell.Cautions()[0])
	}
	epoch := w.Now()
	lo := live.Options{
		Craft: c.Config(), Clock: live.RealClock(w.Now), Listen: d.listen,
		Begin: []pulse.Reading{{Kind: pulse.Power, Value: 1}},
	}
	on := len(watcher.Found()) > 0
	if on {
		lo.Begin = slices.Insert(lo.Begin, 0, pulse.Reading{Kind: pulse.Link, Value: 1})
	}
	if rec != nil {
		lo.Take, lo.Begun = rec, true
	}
	if o.Raw {
		lo.Listen = nil // no practice is shown
	}
	l := live.New(lo)
	d.follow(l)
	s := &session{
		world: w, watcher: watcher, craft: c, filePath: o.Radio, epoch: epoch, rawOnly: o.Raw,
		policy: whichradio.Policy{Wanted: o.Device, File: file, Store: w.Store},
		use: func(players ...live.Player) error {
			if !on { // the radio is switched on when there is one
				on = true
				l.Desk().Put(pulse.Link, 1)
			}
			return l.Use(players...)
		},
		mode:   func(mode int) { l.Desk().Put(pulse.StickMode, int32(mode)) },
		notice: d.notice, reads: d.reads, onRaw: d.rawState(o.Raw), filed: world.NoteRadio(rec, papers),
	}
	err = w.Together(ctx, l.Run, d.run, s.run)
	return ended(l, err, d.flush())
}

// CalmEvery is how often raw states are printed as text, in µs: a person cannot read a thousand lines a second. JSON Lines
// hold every one.
const CalmEvery = 100_000

// rawState shows raw states. Each one with --raw or as JSON; else a few a second, until the radio is learned.
func (d *display) rawState(every bool) func(info *input.Info, raw *input.Raw) {
	last := int64(-CalmEvery)
	return func(info *input.Info, raw *input.Raw) {
		axes := len(info.Axes)
		switch {
		case d.manner == asScreen:
			r := terminal.NewRadio(1, info, raw)
			d.reads(info.Name, &r)
		case d.manner == asJSON:
			d.lines.Add(func(dst []byte) []byte { return terminal.AppendRaw(dst, raw.At, raw, axes) })
		case every || raw.At-last >= CalmEvery:
			last = raw.At
			d.lines.Add(func(dst []byte) []byte { return terminal.AppendRawText(dst, d.w.Language(), raw.At, raw, axes) })
		}
	}
}

package termlive

import (
	"context"
	"slices"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
	"propsoff.example/sim/pulse"
)

// WatchOptions says what is watched.
type WatchOptions struct {
	world.Named
	// Device is the radio that is wanted, by name, number or path; empty takes the best known, else the first.
	Device string
	// JSON has happenings and values told as JSON Lines; Raw shows the device's own axes and buttons instead.
	JSON, Raw bool
	// Plain says whether plain sentences are told.
	Plain Plain
	// Length is how long, 0 until ctx is done.
	Length time.Duration
}

// Watch shows live what a craft would do with the radio that is plugged in. The error has its status (exit).
func Watch(ctx context.Context, w *world.World, o *WatchOptions) error {
	if o.Raw && o.Record != "" {
		return exit.BadInput(words.Wrong("typed.raw-recorded"))
	}
	w.Door.In = nil // a radio file is read again when its radio comes
	c, file, err := w.LoadFlown(&o.Named)
	if err != nil {
		return err
	}
	s, lo, err := begin(w, &o.Named, o.Device, c, file, "watch")
	if err != nil {
		return err
	}
	defer s.close()
	ctx, cancel := within(ctx, o.Length)
	defer cancel()
	d := newDisplay(w, "watch", o.JSON, o.Plain)
	d.caution()
	lo.Begin = []pulse.Reading{{Kind: pulse.Power, Value: 1}}
	on := len(s.watcher.Found()) > 0
	if on {
		lo.Begin = slices.Insert(lo.Begin, 0, pulse.Reading{Kind: pulse.Link, Value: 1})
	}
	if !o.Raw { // else no practice is shown
		lo.Listen = d.listen
	}
	l := live.New(*lo)
	d.l = l
	if !d.screen && o.Length == 0 { // a screen says it below, and what has its time ends by itself
		s.waits = words.T("notice.waits")
	}
	s.rawOnly, s.notice, s.reads, s.onRaw = o.Raw, d.notice, d.reads, d.rawState(o.Raw)
	s.mode = func(mode int) { l.Desk().Put(pulse.StickMode, int32(mode)) }
	s.use = func(players ...live.Player) error {
		if !on { // the radio is switched on when there is one
			on = true
			l.Desk().Put(pulse.Link, 1)
		}
		return l.Use(players...)
	}
	err = w.Together(ctx, l.Run, d.run, s.run)
	return ended(l, err, d.end(false))
}

// CalmEvery is how often raw states are printed as text, in µs: a person cannot read a thousand lines a second. JSON Lines
// hold every one.
const CalmEvery = 100_000

// rawState shows raw states. Each one with --raw or as JSON; else a few a second, until the radio is learned.
func (d *display) rawState(every bool) func(info *input.Info, raw *input.Raw) {
	last := int64(-CalmEvery)
	return func(info *input.Info, raw *input.Raw) {
		switch {
		case d.screen:
			r := terminal.NewRadio(1, info, raw)
			d.reads(info.Name, &r)
		case d.form.Plain && !every: // that it is not learned was said
			d.reads(info.Name, &terminal.Radio{})
		case d.form.JSON || every || raw.At-last >= CalmEvery:
			last = raw.At
			d.add(func(dst []byte) []byte { return d.form.Raw(dst, raw, len(info.Axes)) })
		}
	}
}

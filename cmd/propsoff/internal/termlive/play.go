package termlive

import (
	"context"
	"errors"
	"sync/atomic"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/playback"
	"propsoff.example/cmd/propsoff/internal/takes"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
	"propsoff.example/sim"
	"propsoff.example/sim/practice"
)

// Play plays a plan in real time, tick for tick what playback.Fast does, and notes it in rec, where that is given. The error has its status
// (exit).
func Play(ctx context.Context, w *world.World, p *playback.Plan, asJSON bool, plain Plain, rec *takes.Recorder) error {
	d := newDisplay(w, "run", asJSON, plain)
	d.plays, d.old = true, p.Judge != nil && p.Judge.Older()
	d.reads(p.Name, nil)
	r := playback.NewReport(p, asJSON, d.lines.Add)
	heard := d.form.Plain && !d.old // an older model's take is told as it was
	r.Plain(d.form.Plain, heard)
	running, cancel := context.WithCancel(ctx)
	defer cancel()
	var (
		ended  error // of the source; the loop's goroutine only
		digest uint64
		over   atomic.Bool
	)
	o := live.Options{
		Craft: p.Start.Craft, Tick: p.Start.Tick, Stands: p.Start.Stands, Note: p.Start.Note, Clock: live.RealClock(w.Now),
		Ended: func(_ input.Source, why error) { ended = why },
		Listen: func(pr *practice.Practice) {
			if over.Load() {
				return
			}
			r.Observe(pr)
			if heard {
				d.hear(pr)
			}
			if ended == nil {
				return
			}
			if last := p.Last(); !errors.Is(ended, input.ErrEnd) || pr.Tick()-1 >= last {
				digest = pr.Digest()
				over.Store(true)
				cancel()
			}
		},
	}
	if rec != nil {
		o.Take, o.Begun = rec, true
	}
	l := live.New(o)
	if err := l.Use(live.Player{Source: p.Source}); err != nil {
		return err
	}
	d.l = l
	err := w.Together(running, l.Run, d.run)
	if over.Load() {
		d.teachLast(ctx)
	}
	if ferr := d.end(false); err == nil {
		err = ferr
	}
	switch {
	case err != nil:
		return exit.Trouble(err)
	case !over.Load():
		var now sim.Snapshot
		l.Snapshot(&now)
		r.Stopped(now.Tick)
		return errors.Join(exit.Trouble(exit.ErrStopped), d.lines.Flush())
	case !errors.Is(ended, input.ErrEnd):
		return exit.BadInput(ended)
	}
	result := r.Finish(p.Last(), digest)
	if err := d.lines.Flush(); err != nil {
		return exit.Trouble(err)
	}
	if why := l.Recording().Err; why != nil {
		return exit.Trouble(tell.RecordingStopped(words.Error(why)).Problem())
	}
	return result
}

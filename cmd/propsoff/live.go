package main

import (
	"context"
	"errors"
	"sync/atomic"

	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/records"
	"propsoff/input"
	"propsoff/sim"
	"propsoff/sim/practice"
)

// runLive plays a plan in real time, tick for tick what runFast does.
func runLive(ctx context.Context, w *world, rf runFlags, p *plan, rec *records.Recorder) error {
	d := newDisplay(w, "run", mannerOf(w, rf.json), p.craft.Config())
	d.plays = true
	d.reads(p.name, nil)
	p.onPart(func(part *records.Part) { d.useCraft(part.Craft.Config()) })
	r := newReport(p, rf.json, d.lines.Add)
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	var (
		ended  error // of the source; the loop's goroutine only
		digest uint64
		over   atomic.Bool
	)
	o := loop.Options{
		Craft: p.start.Craft, Tick: p.start.Tick, Stands: p.start.Stands, Note: p.start.Note, Clock: loop.RealClock(w.now),
		Ended: func(_ input.Source, why error) { ended = why },
		Listen: func(pr *practice.Practice) {
			if over.Load() {
				return
			}
			r.observe(pr)
			if ended == nil {
				return
			}
			if last := p.last(); !errors.Is(ended, input.ErrEnd) || pr.Tick()-1 >= last {
				digest = pr.Digest()
				over.Store(true)
				cancel()
			}
		},
	}
	if rec != nil {
		o.Take, o.Begun = rec, true
	}
	l := loop.New(o)
	if err := l.Use(loop.Player{Source: p.source}); err != nil {
		return err
	}
	d.follow(l)
	err := w.together(ctx, l.Run, d.run)
	if ferr := d.flush(); err == nil {
		err = ferr
	}
	switch {
	case err != nil:
		return trouble(err)
	case !over.Load():
		var now sim.Snapshot
		l.Snapshot(&now)
		r.stopped(now.Tick)
		return errors.Join(trouble(errStopped), d.lines.Flush())
	case !errors.Is(ended, input.ErrEnd):
		return badInput(ended)
	}
	result := r.finish(p.last(), digest)
	if err := d.lines.Flush(); err != nil {
		return trouble(err)
	}
	if why := l.Recording().Err; why != nil {
		return trouble(errors.New(phrase.RecordingStopped(why.Error())))
	}
	return result
}

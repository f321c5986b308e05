//go:build windows || js || darwin || (cgo && window)

package main

import (
	"context"
	"runtime"

	"propsoff/assets"
	"propsoff/cmd/propsoff/internal/coach"
	"propsoff/cmd/propsoff/internal/drive"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/cmd/propsoff/internal/pads"
	"propsoff/cmd/propsoff/internal/records"
	"propsoff/cmd/propsoff/internal/screen"
	"propsoff/cmd/propsoff/internal/window"
	"propsoff/input"
	"propsoff/input/script"
	"propsoff/sim/practice"
	"propsoff/sim/pulse"
)

// openWindow opens the window and stays until it is closed.
func openWindow(ctx context.Context, o windowOptions) error {
	start := loop.Start{Craft: o.craft.Config(), Note: "window"}
	papers := papersOf(o.craft)
	papers = papers.WithRadio(o.radio, nil)
	if o.plan != nil {
		start, papers = o.plan.start, o.plan.papers
	}
	rec, err := o.world.beginTake(o.record, papers, &start)
	if err != nil {
		return err
	}
	ended := make(chan drive.Ended, 8)
	clock := loop.RealClock(o.world.now)
	lo := loop.Options{
		Craft: start.Craft, Tick: start.Tick, Stands: start.Stands, Note: start.Note, Clock: clock,
		Ended: func(s input.Source, why error) {
			select {
			case ended <- drive.Ended{Source: s, Why: why}:
			default: // a source that ends again and again while nobody looks is told of once
			}
		},
	}
	if lo.Begun = rec != nil; rec == nil {
		rec = records.NewRecorder(papers)
	}
	rec.Most = 0 // a recording may begin at any time
	lo.Take = rec
	trainer := coach.New()
	lo.Listen = trainer.Listen
	watched := newWatched(o.plan)
	if watched != nil {
		lo.Listen = func(p *practice.Practice) {
			watched.listen(p)
			trainer.Listen(p)
		}
	}
	drills, endPupil, err := drillOptions(o.craft, trainer, o.pupil)
	if err != nil {
		return err
	}
	watcher, err := o.world.radios.Watch()
	if err != nil {
		return trouble(err)
	}
	do := drive.Options{
		Clock: clock, Names: o.craft.names, Store: o.world.store, File: o.radio, Device: o.device,
		Demo: demoPilot(o.craft),
	}
	wo := window.Options{Title: "propsoff", W: o.w, H: o.h}
	filler := pads.New(o.world.now)
	if runtime.GOOS == "windows" {
		wo.Pads = filler.Saw
	}
	do.Radios = openRadios{watcher, o.world.radios, filler}
	if o.plan != nil {
		do.Script = o.plan.source
	} else {
		// Radio on first, then the craft: the bench begins as a person would begin it.
		lo.Begin = []pulse.Reading{{Kind: pulse.Link, Value: 1}, {Kind: pulse.Power, Value: 1}}
		if o.outside { // the craft stands outside at once, its propellers right; no demo pilot flies it away
			hands := lo.Craft.Body.Hand
			lo.Begin = append(lo.Begin, pulse.Reading{Kind: pulse.Air, Value: 1}, pulse.Reading{Kind: pulse.Propellers, Value: pulse.PropellersValue(hands, true)})
			do.Demo = nil
		}
	}
	l := loop.New(lo)
	do.Loop = l
	d := drive.New(do)
	so := o.screen(l, d)
	so.Ended, so.Drills = ended, drills
	so.Record = screen.RecordOptions{Recorder: rec, Folder: takesFolder(), Program: version}
	if watched != nil {
		so.Record.Played = watched.say
	}
	so.Sounds.Speaker = window.NewSpeaker(clock.Now)
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	if o.plan != nil {
		d.Turn() // what is played stands ready before the first tick, so a take goes tick for tick as it was recorded
	}
	done := make(chan error, 1)
	go func() { done <- l.Run(ctx) }()
	for _, p := range o.pictures {
		wo.Shots = append(wo.Shots, window.Shot{After: p.after, File: p.file, Over: o.over})
	}
	err = window.Run(&windowProgramme{screen.New(so), ctx}, wo)
	stop()
	if closing := d.Close(); err == nil {
		err = closing
	}
	if last := <-done; err == nil {
		err = last
	}
	if ending := endPupil(); err == nil {
		err = ending
	}
	if err != nil {
		return trouble(err)
	}
	return nil
}

// demoPilot makes the shipped demo script a source for this craft; nil where it does not fit the craft.
func demoPilot(c *craft) func() input.Source {
	name, text, ok := assets.Script("demo")
	if !ok {
		return nil
	}
	s, err := script.Parse(name, text, c.names)
	if err != nil {
		return nil
	}
	return func() input.Source { return s.Source() }
}

// openRadios joins the watcher and the opening of radios for the driver.
type openRadios struct {
	portWatcher
	port   port
	filler *pads.Filler
}

func (r openRadios) Open(path string, epoch int64) (input.Device, error) {
	dev, err := r.port.Open(path, epoch)
	if err != nil {
		return nil, err
	}
	return r.filler.Wrap(dev, epoch), nil
}

// windowProgramme is a screen as the window wants it.
type windowProgramme struct {
	*screen.Screen
	ctx context.Context
}

func (p *windowProgramme) Turn() window.Wish {
	quit, full := p.Screen.Turn()
	return window.Wish{Quit: quit || p.ctx.Err() != nil, FullScreen: full}
}

func (p *windowProgramme) Page(page *ink.Page, w, h float64) { p.Screen.Page(page, w, h) }

//go:build windows || js || (darwin && cgo) || (cgo && window)

package main

import (
	"cmp"
	"context"
	"errors"
	"runtime"

	"propsoff.example/assets"
	"propsoff.example/assets/icon"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/comfort"
	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/engineaxes"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/playback"
	"propsoff.example/cmd/propsoff/internal/pupils"
	"propsoff.example/cmd/propsoff/internal/takes"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/house"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/window"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/input/script"
	"propsoff.example/input/usb"
	"propsoff.example/sim/practice"
)

// openWindow opens the window and stays until it is closed.
func openWindow(ctx context.Context, o windowOptions) error {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	system := comfort.Watch(ctx) // which may take its time: so it is asked first
	start, papers := live.Start{Craft: o.craft.Config(), Note: "window"}, o.craft.Papers().WithRadio(o.radio, nil)
	if o.plan != nil {
		start, papers = o.plan.Start, o.plan.Papers
	}
	rec, err := o.world.BeginTake(o.Record, papers, &start)
	if err != nil {
		return err
	}
	lo := live.Options{Craft: start.Craft, Tick: start.Tick, Stands: start.Stands, Note: start.Note, Clock: live.RealClock(o.world.Now), Begun: rec != nil}
	if rec == nil {
		rec = takes.NewRecorder(papers)
	}
	rec.Most, lo.Take = 0, rec // a recording may begin at any time
	lo.Begin = o.begins(&lo.Craft)
	ended, wake := make(chan whodrives.Ended, 8), make(chan struct{}, 1)
	lo.Came = wake
	lo.Ended = func(s input.Source, why error) {
		select {
		case ended <- whodrives.Ended{Source: s, Why: why}:
		default: // a source that ends again and again while nobody looks is told of once
		}
	}
	trainer, watched := drillrun.New(), playback.NewWatched(o.plan)
	lo.Listen = listens(trainer, watched)
	drills, endPupil, err := pupils.Course(o.craft, trainer, cmp.Or(o.pupil, o.remembered.Person))
	if err != nil && o.pupil == "" && o.remembered.Person != "" { // whoever practised last must not keep the window from opening
		o.remembered.Trouble = words.Error(err)
		drills, endPupil, err = pupils.Course(o.craft, trainer, "")
	}
	if err != nil {
		return err
	}
	filler := engineaxes.New(o.world.Now)
	l := live.New(lo)
	d, noRadios, err := o.driver(l, filler)
	if err != nil {
		return err
	}
	so := o.screen(l, d)
	so.Give = gives
	if !o.bare() { // a script and a picture come out the same everywhere
		so.System = system
	}
	so.InPage, so.Touch, so.NoRadios = inPage, byFinger(), noRadios
	so.Ended, so.Drills = ended, drills
	so.Record = screen.RecordOptions{Recorder: rec, Folder: world.TakesFolder(), Program: world.Version}
	if watched != nil {
		so.Record.Played = watched.Say
	}
	so.Sounds.Speaker = window.NewSpeaker(lo.Clock.Now)
	if o.plan != nil {
		d.Turn() // what is played stands ready before the first tick, so a take goes tick for tick as it was recorded
	}
	done := make(chan error, 1)
	go func() {
		waitForPicture(ctx)
		done <- l.Run(ctx)
	}()
	wo := window.Options{Title: "propsoff", Icons: icon.Pictures(), W: o.w, H: o.h, Wake: wake}
	for _, p := range o.pictures {
		wo.Shots = append(wo.Shots, window.Shot{After: p.after, File: p.file, Over: o.over})
	}
	if runtime.GOOS == "windows" {
		wo.Pads = filler.Saw
	}
	p := &windowProgramme{ctx: ctx}
	so.Say = pageSays(func() *ui.View { return p.View() })
	p.Screen = house.New(so)
	wo.Do, p.turned = pageDoes(p.Screen)
	wo.Pan = pans
	err = window.Run(p, wo)
	stop()
	return exit.Trouble(cmp.Or(err, d.Close(), <-done, endPupil()))
}

// driver says who drives the loop: the plan, else radios, the keyboard and the demo pilot, which flies nothing away that stands outside. Where the system
// lets no radio be read, it says why: the keyboard drives there too.
func (o *windowOptions) driver(l *live.Loop, filler *engineaxes.Filler) (d *whodrives.Driver, noRadios words.Text, err error) {
	do := whodrives.Options{
		Loop: l, Clock: l.Clock(), Names: o.craft.Words, Store: o.world.Store, File: o.radio, Device: o.device, StickMode: o.remembered.StickMode,
	}
	switch watcher, err := o.world.Radios.Watch(); {
	case errors.Is(err, usb.ErrNone):
		do.Radios, noRadios = unreadable{}, words.T("notice.radios-not-read", words.Args{"why": words.Error(err)})
	case err != nil:
		return nil, noRadios, exit.Trouble(err)
	default:
		do.Radios = openRadios{watcher, o.world.Radios, filler}
	}
	if liked := o.remembered.Radio; liked != "" {
		do.Likes = func(d radio.Device) bool { return screen.RadioID(d) == liked }
	}
	if o.plan != nil {
		do.Script = o.plan.Source
	}
	if o.plan != nil || !o.outside {
		do.Demo = demoPilot(o.craft)
	}
	return whodrives.New(do), noRadios, nil
}

// unreadable is a system that lets no radio be read.
type unreadable struct{}

func (unreadable) Poll(dst []usb.Change) []usb.Change       { return dst }
func (unreadable) Found() []usb.Found                       { return nil }
func (unreadable) Open(string, int64) (input.Device, error) { return nil, usb.ErrNone }
func (unreadable) Close() error                             { return nil }

// listens puts a coach into the loop's goroutine, and before it what holds a take that is played against what it does, if there is one.
func listens(trainer *drillrun.Coach, watched *playback.Watched) func(*practice.Practice) {
	if watched == nil {
		return trainer.Listen
	}
	return func(p *practice.Practice) {
		watched.Listen(p)
		trainer.Listen(p)
	}
}

// demoPilot makes the shipped demo script a source for this craft; nil where it does not fit the craft.
func demoPilot(c *world.Craft) func() input.Source {
	name, text, _ := assets.Script(demoName)
	s, err := script.Parse(name, text, c.Words)
	if err != nil {
		return nil
	}
	return func() input.Source { return s.Source() }
}

// openRadios joins the watcher and the opening of radios for the driver.
type openRadios struct {
	world.Watcher
	port   world.Port
	filler *engineaxes.Filler
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
	ctx    context.Context
	turned func() // is told of every turn
}

func (p *windowProgramme) Turn() window.Wish {
	quit, full := p.Screen.Turn()
	p.turned()
	return window.Wish{Quit: quit || p.ctx.Err() != nil, FullScreen: full}
}

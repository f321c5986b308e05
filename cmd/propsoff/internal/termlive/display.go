// Package termlive is what goes on live in the terminal: a practice is watched or played, drills are run, a radio is learned or checked.
//
// Each is one function that a command calls with its options and that stays until it is over. Sentences and pictures come from tell and
// terminal; who is read is for live/whichradio to say.
package termlive

import (
	"context"
	"sync"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/spoken"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/sim"
	"propsoff.example/sim/lesson"
	"propsoff.example/sim/practice"
)

// recentMost is how many happenings the live screen keeps.
const recentMost = 12

// display shows a practice in the terminal while it goes on. listen is called by the loop, notice by anyone; run draws.
type display struct {
	shows
	command string // whose the live screen is
	plays   bool   // a script or take, which nobody can tell anything

	// The loop's goroutine only.
	told  terminal.Values
	begun bool
	voice *spoken.Bench // where plain sentences are told

	// taught is the wreck of which was told last until when that craft could have been saved; the goroutine that teaches, and after it the end.
	taught *live.Wreck
	// old: an older model's take is played, in which no craft broke.
	old bool

	mu     sync.Mutex
	source string
	raw    *terminal.Radio
	l      *live.Loop        // nil until it is followed
	now    practice.Practice // of the drawing goroutine
	teller facts.Teller      // of the drawing goroutine; where plain sentences are told, of the loop's
}

func newDisplay(w *world.World, command string, asJSON bool, plain Plain) *display {
	d := &display{command: command}
	d.shows = newShows(w, asJSON, plain, d.appendNotice)
	d.voice = spoken.NewBench(func(t words.Text, _ bool) { d.lines.Add(func(dst []byte) []byte { return d.form.Sentence(dst, t) }) })
	return d
}

// listen adds the lines of the tick that p has just run.
func (d *display) listen(p *practice.Practice) {
	if d.form.Plain {
		d.hear(p)
		return
	}
	for _, h := range p.Happenings() {
		d.add(func(dst []byte) []byte { return d.form.Happening(dst, sim.Model, h, p.Bench().Config()) })
	}
	if !d.form.JSON {
		return
	}
	var s sim.Snapshot
	p.Snapshot(&s)
	if v := terminal.ValuesOf(&s); v != d.told || !d.begun {
		d.told, d.begun = v, true
		d.add(func(dst []byte) []byte { return terminal.AppendValues(dst, &s) })
	}
}

// hear says what is new in the tick that p has just run.
func (d *display) hear(p *practice.Practice) {
	for _, h := range p.Happenings() {
		d.voice.Happened(h, p.Bench().Config())
	}
	if (p.Tick()-1)%spoken.LookEvery == 0 {
		f := d.teller.Of(p, d.whose())
		d.voice.Look(&f)
	}
}

// whose is whose hand drives.
func (d *display) whose() facts.Whose {
	d.mu.Lock()
	defer d.mu.Unlock()
	w := facts.Whose{Hand: facts.Radio}
	switch {
	case d.plays:
		w.Hand = facts.Played
	case d.source == "" || d.raw != nil:
		w.Hand = facts.Nobody
	}
	return w
}

// notice shows a notice: on the screen until others push it out, else as a line.
func (d *display) notice(t words.Text) {
	d.mu.Lock()
	d.note(t)
	d.mu.Unlock()
	d.add(func(dst []byte) []byte { return d.appendNotice(dst, t) })
}

func (d *display) appendNotice(dst []byte, t words.Text) []byte {
	var s sim.Snapshot
	if d.l != nil {
		d.l.Snapshot(&s)
	}
	return d.form.Notice(dst, max(s.Tick, 0), t)
}

// reads tells what is read; raw is given for a radio that has not been learned.
func (d *display) reads(source string, raw *terminal.Radio) {
	d.mu.Lock()
	d.source, d.raw = source, raw
	d.mu.Unlock()
}

// run shows what goes on until ctx is done; the end is left to end, once nothing is added any more.
func (d *display) run(ctx context.Context) error {
	if !d.screen {
		return d.w.Together(ctx, d.teach, d.shows.run)
	}
	return d.w.Together(ctx, d.teach, d.draw, d.shows.run)
}

// teach tells after each wreck until when that craft could have been saved, as soon as it is found out: the last seconds are flown again beside
// what goes on.
func (d *display) teach(ctx context.Context) error {
	tick := time.NewTicker(RedrawEvery)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return nil
		case <-tick.C:
			if w := d.l.Wreck(); w != nil {
				d.lesson(w, w.Found())
			}
		}
	}
}

// teachLast tells of a wreck that what went on has ended with, unless ctx ends before that is found out.
func (d *display) teachLast(ctx context.Context) {
	if w := d.l.Wreck(); w != nil && w != d.taught {
		d.lesson(w, w.Wait(ctx))
		if d.screen {
			d.show(d.picture)
		}
	}
}

// lesson tells once what was found out of a wreck.
func (d *display) lesson(w *live.Wreck, found *lesson.Found) {
	if found == nil || w == d.taught || d.old {
		return
	}
	d.taught = w
	d.mu.Lock()
	d.note(tell.Saved(found))
	d.mu.Unlock()
	add := d.add
	if d.plays { // whose lines are shown at the end where there is a live screen
		add = d.lines.Add
	}
	add(func(dst []byte) []byte { return d.form.Lesson(dst, found) })
}

func (d *display) draw(ctx context.Context) error {
	tick := time.NewTicker(RedrawEvery)
	defer tick.Stop()
	for {
		d.show(d.picture)
		select {
		case <-ctx.Done():
			return nil
		case <-tick.C:
		}
	}
}

func (d *display) picture(columns, rows int) []string {
	d.l.Copy(&d.now)
	_, next := d.l.Happenings(nil, 1<<62)
	recent, _ := d.l.Happenings(nil, next-min(next, recentMost))
	f := d.teller.Of(&d.now, d.whose())
	d.mu.Lock()
	defer d.mu.Unlock()
	v := terminal.View{Book: d.form.Book, Command: d.command, Source: d.source, Notices: d.notices, Facts: &f, Recent: recent, Raw: d.raw}
	return terminal.Screen(&v, columns, rows)
}

package main

import (
	"context"
	"errors"
	"sync"
	"time"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/terminal"
	"propsoff/sim"
	"propsoff/sim/happening"
	"propsoff/sim/practice"
)

// Times of the terminal (ours).
const (
	redrawEvery = 50 * time.Millisecond
	// recentMost is how many happenings the live screen keeps.
	recentMost = 12
	// noticesMost is how many notices it shows.
	noticesMost = 3
)

// manner is how a live command shows what goes on.
type manner uint8

const (
	asText   manner = iota // happenings, one a line
	asJSON                 // happenings and values as JSON Lines
	asScreen               // the live screen, drawn in place
)

func mannerOf(w *world, json bool) manner {
	if json {
		return asJSON
	}
	if _, _, ok := w.console.Size(); ok {
		return asScreen
	}
	return asText
}

// display shows a practice in the terminal while it goes on. listen is called by the loop, notice by anyone; run draws.
type display struct {
	w       *world
	command string // whose the live screen is
	manner  manner
	plays   bool // a script or take, which nobody can tell anything
	lines   *terminal.Lines

	// The loop's goroutine only.
	told  terminal.Values
	begun bool

	mu      sync.Mutex
	cfg     sim.Config
	notices []string
	source  string
	raw     *terminal.Radio
	snap    func(*sim.Snapshot)
	copy    func(*practice.Practice)
	now     practice.Practice // of the drawing goroutine
	teller  facts.Teller
	recent  func([]happening.Happening, uint64) ([]happening.Happening, uint64)
}

func newDisplay(w *world, command string, m manner, cfg sim.Config) *display {
	d := &display{w: w, command: command, manner: m, cfg: cfg}
	d.lines = terminal.NewLines(w.out, func(dst []byte, lines int) []byte { return d.appendNotice(dst, phrase.LinesLeftOut(lines)) })
	return d
}

// follow lets the display read the published state of a loop.
func (d *display) follow(l *loop.Loop) { d.snap, d.copy, d.recent = l.Snapshot, l.Copy, l.Happenings }

// listen adds the lines of the tick that p has just run.
func (d *display) listen(p *practice.Practice) {
	if d.manner == asScreen {
		return
	}
	for _, h := range p.Happenings() {
		d.lines.Add(func(dst []byte) []byte {
			if d.manner == asJSON {
				return terminal.AppendJSON(dst, h, p.Bench().Config())
			}
			return terminal.AppendText(dst, h, p.Bench().Config())
		})
	}
	if d.manner != asJSON {
		return
	}
	var s sim.Snapshot
	p.Snapshot(&s)
	if v := terminal.ValuesOf(&s); v != d.told || !d.begun {
		d.told, d.begun = v, true
		d.lines.Add(func(dst []byte) []byte { return terminal.AppendValues(dst, &s) })
	}
}

// useCraft shows another craft from now on.
func (d *display) useCraft(cfg sim.Config) {
	d.mu.Lock()
	d.cfg = cfg
	d.mu.Unlock()
}

// notice shows a notice: on the screen until others push it out, else as a line.
func (d *display) notice(text string) {
	d.mu.Lock()
	d.notices = append(d.notices, text)
	if len(d.notices) > noticesMost {
		d.notices = d.notices[1:]
	}
	d.mu.Unlock()
	if d.manner == asScreen {
		return
	}
	d.lines.Add(func(dst []byte) []byte { return d.appendNotice(dst, text) })
}

func (d *display) appendNotice(dst []byte, text string) []byte {
	if d.manner == asJSON {
		return terminal.AppendNotice(dst, d.tick(), text)
	}
	return terminal.AppendNoticeText(dst, d.tick(), text)
}

func (d *display) tick() int64 {
	if d.snap == nil {
		return 0
	}
	var s sim.Snapshot
	d.snap(&s)
	return max(s.Tick, 0)
}

// reads tells what is read; raw is given for a radio that has not been learned.
func (d *display) reads(source string, raw *terminal.Radio) {
	d.mu.Lock()
	d.source, d.raw = source, raw
	d.mu.Unlock()
}

// run shows what goes on until ctx is done; the end is left to flush, once nothing is added any more.
func (d *display) run(ctx context.Context) error {
	if d.manner != asScreen {
		return d.lines.Run(ctx)
	}
	return d.w.together(ctx, d.draw, d.w.console.Run)
}

// flush shows what is left and gives the terminal back.
func (d *display) flush() error {
	if d.manner == asScreen {
		return d.w.console.End(false)
	}
	return d.lines.Flush()
}

func (d *display) draw(ctx context.Context) error {
	tick := time.NewTicker(redrawEvery)
	defer tick.Stop()
	for {
		d.w.console.Show(d.picture())
		select {
		case <-ctx.Done():
			return nil
		case <-tick.C:
		}
	}
}

func (d *display) picture() []string {
	d.copy(&d.now)
	_, next := d.recent(nil, 1<<62)
	recent, _ := d.recent(nil, next-min(next, recentMost))
	columns, rows, _ := d.w.console.Size()
	d.mu.Lock()
	defer d.mu.Unlock()
	w := facts.Whose{Hand: facts.Radio}
	switch {
	case d.plays:
		w.Hand = facts.Played
	case d.source == "" || d.raw != nil:
		w.Hand = facts.Nobody
	}
	f := d.teller.Of(&d.now, w)
	v := terminal.View{Command: d.command, Source: d.source, Notices: d.notices, Facts: &f, Recent: recent, Raw: d.raw}
	return terminal.Screen(&v, columns, rows)
}

// together runs every part until one of them ends or ctx is done, then lets the others end, and gives the first error that
// is not the end of ctx.
func (w *world) together(ctx context.Context, parts ...func(context.Context) error) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	results := make(chan error)
	for _, part := range parts {
		go func() { results <- w.console.Guard(func() error { return part(ctx) }) }()
	}
	var first error
	for range parts {
		err := <-results
		cancel()
		if first == nil && !errors.Is(err, context.Canceled) && !errors.Is(err, context.DeadlineExceeded) {
			first = err
		}
	}
	return first
}

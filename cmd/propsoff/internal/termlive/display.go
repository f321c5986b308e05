// Package termlive is what goes on live in the terminal: a practice is watched or played, drills are run, a radio is learned or checked.
//
// Each is one function that a command calls with its options and that stays until it is over. Sentences and pictures come from tell and
// terminal; who is read is for live/whichradio to say.
package termlive

import (
	"context"
	"sync"
	"time"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/live"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/terminal"
	"propsoff/cmd/propsoff/internal/world"
	"propsoff/sim"
	"propsoff/sim/happening"
	"propsoff/sim/practice"
)

const (
	// RedrawEvery is how often the live screen is drawn anew (ours).
	RedrawEvery = 50 * time.Millisecond
	// recentMost is how many happenings the live screen keeps.
	recentMost = 12
)

// manner is how a live command shows what goes on.
type manner uint8

const (
	asText   manner = iota // happenings, one a line
	asJSON                 // happenings and values as JSON Lines
	asScreen               // the live screen, drawn in place
)

func mannerOf(w *world.World, json bool) manner {
	if json {
		return asJSON
	}
	if _, _, ok := w.Console.Size(); ok {
		return asScreen
	}
	return asText
}

// display shows a practice in the terminal while it goes on. listen is called by the loop, notice by anyone; run draws.
type display struct {
	w       *world.World
	command string // whose the live screen is
	manner  manner
	plays   bool // a script or take, which nobody can tell anything
	lines   *terminal.Lines

	// The loop's goroutine only.
	told  terminal.Values
	begun bool

	mu      sync.Mutex
	cfg     sim.Config
	notices []words.Text
	source  string
	raw     *terminal.Radio
	snap    func(*sim.Snapshot)
	copy    func(*practice.Practice)
	now     practice.Practice // of the drawing goroutine
	teller  facts.Teller
	recent  func([]happening.Happening, uint64) ([]happening.Happening, uint64)
}

func newDisplay(w *world.World, command string, m manner, cfg sim.Config) *display {
	d := &display{w: w, command: command, manner: m, cfg: cfg}
	d.lines = terminal.NewLines(w.Out, func(dst []byte, lines int) []byte { return d.appendNotice(dst, tell.LinesLeftOut(lines)) })
	return d
}

// follow lets the display read the published state of a loop.
func (d *display) follow(l *live.Loop) { d.snap, d.copy, d.recent = l.Snapshot, l.Copy, l.Happenings }

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
			return terminal.AppendText(dst, d.w.Language(), h, p.Bench().Config())
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
func (d *display) notice(t words.Text) {
	d.mu.Lock()
	d.notices = newest(d.notices, t)
	d.mu.Unlock()
	if d.manner == asScreen {
		return
	}
	d.lines.Add(func(dst []byte) []byte { return d.appendNotice(dst, t) })
}

func (d *display) appendNotice(dst []byte, t words.Text) []byte {
	if d.manner == asJSON {
		return terminal.AppendNotice(dst, d.tick(), t)
	}
	return terminal.AppendNoticeText(dst, d.w.Language(), d.tick(), t)
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
	return d.w.Together(ctx, d.draw, d.w.Console.Run)
}

// flush shows what is left and gives the terminal back.
func (d *display) flush() error {
	if d.manner == asScreen {
		return d.w.Console.End(false)
	}
	return d.lines.Flush()
}

func (d *display) draw(ctx context.Context) error {
	tick := time.NewTicker(RedrawEvery)
	defer tick.Stop()
	for {
		d.w.Console.Show(d.picture())
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
	columns, rows, _ := d.w.Console.Size()
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
	v := terminal.View{Book: d.w.Language(), Command: d.command, Source: d.source, Notices: d.notices, Facts: &f, Recent: recent, Raw: d.raw}
	return terminal.Screen(&v, columns, rows)
}

package termlive

import (
	"context"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/cmd/propsoff/internal/world"
)

const (
	// RedrawEvery is how often the live screen is drawn anew (ours).
	RedrawEvery = 50 * time.Millisecond
	// noticesMost is how many notices a live screen shows.
	noticesMost = 3
)

// shows is how a live command tells what goes on: on the live screen, drawn in place, or in lines of text or JSON.
type shows struct {
	w       *world.World
	screen  bool // else in lines
	form    terminal.Form
	lines   *terminal.Lines
	notices []words.Text // of the live screen
}

// Plain says whether plain sentences are wanted, one a line, in the place of pictures and columns.
type Plain uint8

// The wishes.
const (
	PlainIfFit  Plain = iota // where there is no terminal, or one that cannot draw in place
	PlainAlways              // everywhere
	PlainNever               // nowhere: there are columns then, of time, code and sentence
)

// newShows tells on the live screen where there is a terminal that can draw in place, and neither JSON nor plain sentences are asked for. appendNotice
// appends a sentence as a line.
func newShows(w *world.World, asJSON bool, plain Plain, appendNotice func(dst []byte, t words.Text) []byte) shows {
	s := shows{w: w, form: terminal.Form{JSON: asJSON, Book: w.Language()}}
	s.lines = terminal.NewLines(w.Out, func(dst []byte, n int) []byte { return appendNotice(dst, tell.LinesLeftOut(n)) })
	s.form.Plain = !asJSON && plain.fits(w)
	if !asJSON && !s.form.Plain && !w.Dumb() {
		_, _, s.screen = w.Console.Size()
	}
	return s
}

// fits tells whether plain sentences are told in a world.
func (p Plain) fits(w *world.World) bool {
	_, _, terminal := w.Console.Size()
	return p == PlainAlways || p == PlainIfFit && (!terminal || w.Dumb())
}

// add appends lines, where lines are told.
func (s *shows) add(f func(dst []byte) []byte) {
	if !s.screen {
		s.lines.Add(f)
	}
}

// note keeps a notice for the live screen, which shows the last few.
func (s *shows) note(t words.Text) {
	s.notices = append(s.notices, t)
	s.notices = s.notices[max(len(s.notices)-noticesMost, 0):]
}

// caution gives the caution that holds for whoever plugs a radio in, before anything else: on the live screen it stands until other notices push it out.
func (s *shows) caution() {
	if s.screen {
		s.note(tell.Cautions()[0])
	} else {
		s.w.Tell(tell.Cautions()[0])
	}
}

// show draws the live screen.
func (s *shows) show(picture func(columns, rows int) []string) {
	columns, rows, _ := s.w.Console.Size()
	s.w.Console.Show(picture(columns, rows))
}

// run writes pictures or lines until ctx is done; what waits then is left to end.
func (s *shows) run(ctx context.Context) error {
	if s.screen {
		return s.w.Console.Run(ctx)
	}
	return s.lines.Run(ctx)
}

// end shows what waits and gives the terminal back; clear takes the live screen away.
func (s *shows) end(clear bool) error {
	if s.screen {
		return s.w.Console.End(clear)
	}
	return s.lines.Flush()
}

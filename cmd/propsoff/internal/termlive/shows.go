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

// newShows tells on the live screen where there is a terminal and JSON is not asked for. appendNotice appends a sentence as a line.
func newShows(w *world.World, asJSON bool, appendNotice func(dst []byte, t words.Text) []byte) shows {
	s := shows{w: w, form: terminal.Form{JSON: asJSON, Book: w.Language()}}
	s.lines = terminal.NewLines(w.Out, func(dst []byte, n int) []byte { return appendNotice(dst, tell.LinesLeftOut(n)) })
	if !asJSON {
		_, _, s.screen = w.Console.Size()
	}
	return s
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

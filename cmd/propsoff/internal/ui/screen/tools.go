package screen

import (
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
)

// Sheet is one sheet: its keys, what they do, what it shows and how it is drawn. Its methods belong to the window's goroutine. Embed Base
// for those that it has no use for.
type Sheet interface {
	// About is what does not change: place, keys, when each is there.
	About() *ui.About
	// Open is called when its sheet is turned to.
	Open()
	// Close is called when its sheet is left.
	Close()
	// Turn is called at every turn of the screen, whether its sheet is open or not.
	Turn()
	// Fill brings its own part of the view up to date; called while its sheet is open.
	Fill(v *ui.View)
	// Act does an action of its sheet; false leaves it to the screen.
	Act(a ui.Action) bool
	// Key takes a key before the table of actions is asked, as typing does; false leaves it.
	Key(name string, down bool) bool
	// Hit does what a hit area stands for; false leaves it.
	Hit(name string) bool
	// Draw draws its sheet.
	Draw(p *ink.Page, v *ui.View)
}

// Base is a sheet that does nothing by itself.
type Base struct{}

// Open does nothing.
func (Base) Open() {}

// Close does nothing.
func (Base) Close() {}

// Turn does nothing.
func (Base) Turn() {}

// Fill adds nothing.
func (Base) Fill(*ui.View) {}

// Act leaves the action.
func (Base) Act(ui.Action) bool { return false }

// Key leaves the key.
func (Base) Key(string, bool) bool { return false }

// Hit leaves the hit area.
func (Base) Hit(string) bool { return false }

// isTool tells whether a sheet is opened over the bench.
func (s *Screen) isTool(p ui.Place) bool {
	about := s.House.Of(p)
	return about != nil && about.Opens()
}

// Sheet is the sheet of a place, nil where there is none.
func (s *Screen) Sheet(p ui.Place) Sheet { return s.at[p] }

// open is the sheet on top.
func (s *Screen) open() Sheet { return s.Sheet(s.Place()) }

// From is where one goes back to from the sheet that is open: the first sheet, or empty for the bench.
func (s *Screen) From() ui.Place { return s.from }

// TurnTo opens the sheet of an action, the bench too. The sheet that is open already, and no action, lead back to where one came from: the
// sheet from which it was opened, and from there the bench or the first sheet.
func (s *Screen) TurnTo(a ui.Action) {
	was, to := s.Tool, ui.Place(a)
	s.Tool = ""
	back := to == was || !s.isTool(to) && to != ui.OnBench
	if back {
		if to = s.besides; to == "" || s.House.Of(to).InAir && !s.Flight.Live.In.Air {
			to = s.from
		}
	}
	switch {
	case was == "" || was == ui.OnStart:
		s.from, s.besides = was, ""
	case back || to == s.besides || !s.isTool(to) || to == ui.OnStart: // there and back is no way that gets longer
		s.besides = ""
	default:
		s.besides = was
	}
	if t := s.Sheet(was); t != nil {
		t.Close()
	}
	if s.isTool(to) {
		s.Tool = to
	}
	if t := s.Sheet(s.Tool); t != nil {
		t.Open()
	}
}

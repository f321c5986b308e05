package start

import (
	"slices"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
)

// part is the sheet in the window.
type part struct {
	screen.Base
	s *screen.Screen
	// door is the one that is open, at what is marked, rows what is behind it. moved: it was marked by hand, and not because it is next.
	door, at int
	moved    bool
	known    bool // a radio that was learned just now is told of, over this sheet
	rows     []row
	// files are the radios that are known by a file, radios how many were plugged in then. practice is how the drills stand.
	files    []string
	radios   []string
	practice practice
	looked   bool
}

// New makes the sheet.
func New(s *screen.Screen) screen.Sheet { return &part{s: s, door: NoDoor, at: -1} }

// Open shows what is behind the door through which one went, for whoever comes back, else the four doors.
func (p *part) Open() {
	p.looked, p.s.Choosing = false, false
	if p.s.From() != ui.OnStart {
		p.door, p.rows = NoDoor, nil
	}
	p.moved = p.moved && p.door != NoDoor
}

// Turn shows the four doors to whoever goes on after a radio was learned: what is next has changed by it.
func (p *part) Turn() {
	known := p.s.Driving.Result != nil
	if p.known && !known {
		p.door, p.rows, p.moved = NoDoor, nil, false
	}
	p.known = known
}

// move marks another door or row. It stops at the ends.
func (p *part) move(by int) {
	p.at, p.moved = ui.ClampInt(p.at+by, 0, p.count()-1), true
}

// count is how many there are to choose between.
func (p *part) count() int {
	if p.door == NoDoor {
		return Doors
	}
	return len(p.rows)
}

// take opens a door, or does what a row behind it is for.
func (p *part) take(i int) {
	switch {
	case i < 0 || i >= p.count():
	case p.door == NoDoor:
		p.door = i
		p.fillRows()
		p.at = max(slices.IndexFunc(p.rows, func(r row) bool { return r.Next }), 0)
	default:
		p.at = i
		p.rows[i].do()
	}
}

// back shows the four doors again.
func (p *part) back() {
	if p.door != NoDoor {
		p.door, p.at, p.rows, p.moved = NoDoor, p.door, nil, true
	}
}

// Act goes back to the doors before the sheet is left.
func (p *part) Act(a ui.Action) bool {
	inside := p.door != NoDoor
	switch {
	case a == ui.OnStart.Open(), a == ui.Leave && inside:
		p.back()
		return true
	}
	return false
}

// Key lets the arrows move the mark: nothing is flown here.
func (p *part) Key(name string, down bool) bool {
	by, moves := map[string]int{"Up": -2, "Left": -1, "Right": 1, "Down": 2}[name]
	if moves && down {
		if Of(p.s.View()).single { // one below the other
			by /= max(by, -by)
		}
		p.move(by)
	}
	return moves
}

// Fill tells how things stand.
func (p *part) Fill(v *ui.View) {
	p.look()
	own := Of(v)
	own.Stands, own.Next = p.stands(), p.next()
	if p.door == NoDoor && !p.moved {
		p.at = own.Next
	}
	own.Rows = own.Rows[:0]
	if own.Note = p.note(); p.door != NoDoor {
		p.fillRows()
		for _, r := range p.rows {
			own.Rows = append(own.Rows, r.Offer)
		}
	}
	p.at = min(p.at, p.count()-1)
	own.Door, own.At = p.door, p.at
}

// look finds what takes longer than a picture may, once for a while: radio files, and how the drills stand.
func (p *part) look() {
	if p.looked && slices.Equal(p.radios, p.s.Driving.Choices) && !p.practice.stale(p.s) {
		return
	}
	p.looked, p.radios = true, slices.Clone(p.s.Driving.Choices)
	p.files = p.s.Options.Driver.RadioFiles()
	p.practice = practiceOf(p.s)
}

// Draw draws the sheet.
func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }

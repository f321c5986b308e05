// Package start is one sheet: what a person wants to do, as four doors, and what is behind each.
package start

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
)

// The doors, in the order in which they are shown.
const (
	Plug     = iota // plug in my radio
	Practise        // practise now
	Check           // check my switches
	Teach
	Doors
)

// NoDoor is the sheet's first page: all four doors.
const NoDoor = -1

// View is what the sheet knows.
type View struct {
	// Door is the one that is open, NoDoor for none. At is the door or row that is marked.
	Door, At int
	// Stands say how it is with each door in a short line. Next is the door to begin with.
	Stands [Doors]words.Text
	Next   int
	// Rows are what is behind the open door, Note what else there is to know of it.
	Rows []ui.Offer
	Note words.Text
	// single: they were drawn one below the other.
	single bool
}

// What the sheet's own keys do.
const (
	Before ui.Action = "start-before" // mark the one before
	After  ui.Action = "start-after"  // mark the one after
	Open   ui.Action = "start-open"   // open the one marked
	Doors4 ui.Action = "start-doors"  // back to the four doors
)

// rowPrefix and a number from 1 name the hit areas of doors, and of what is behind one.
const rowPrefix = "start-row-"

// Of is what this sheet knows besides what all know.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// About is what there is to know of the sheet.
func About() *ui.About { return new(part).About() }

// About is what there is to know of the sheet.
func (p *part) About() *ui.About {
	inside := func(v *ui.View) bool { return Of(v).Door != NoDoor }
	return &ui.About{
		Place: ui.OnStart, Key: "Home", Everywhere: true,
		Shared: ui.Usual(ui.TurnLanguage, ui.TurnSound),
		Common: []ui.Action{ui.TurnLanguage, ui.TurnTextSize},
		Own: []ui.Act{
			{Action: Before, Physical: "PageUp", Do: func() { p.move(-1) }},
			{Action: After, Physical: "PageDown", Do: func() { p.move(1) }},
			{Action: Open, Physical: "Enter", Do: func() { p.take(p.at) }},
			{Action: Doors4, Physical: "Backspace", Do: p.back, Shows: inside},
		},
		More:  ui.ArrowsMark,
		Picks: []ui.Pick{{Prefix: rowPrefix, Keys: true, Do: p.take}},
		Shows: func(v *ui.View, a ui.Action) (shows, known bool) {
			if a == ui.Leave {
				return inside(v), v.InPage
			}
			return inside(v), a == ui.OnStart.Open()
		},
		Does: func(v *ui.View, a ui.Action) (t words.Text) {
			if a == ui.Leave {
				t = tell.Does(a.Code(), inside(v), 0)
			}
			return t
		},
	}
}

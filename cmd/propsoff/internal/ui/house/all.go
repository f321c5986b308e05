// Package house is the window's program with every sheet in it.
package house

import (
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/ask"
	"propsoff.example/cmd/propsoff/internal/ui/bench"
	"propsoff.example/cmd/propsoff/internal/ui/card"
	"propsoff.example/cmd/propsoff/internal/ui/check"
	"propsoff.example/cmd/propsoff/internal/ui/desk"
	"propsoff.example/cmd/propsoff/internal/ui/drills"
	"propsoff.example/cmd/propsoff/internal/ui/files"
	"propsoff.example/cmd/propsoff/internal/ui/first"
	"propsoff.example/cmd/propsoff/internal/ui/foresee"
	"propsoff.example/cmd/propsoff/internal/ui/gestures"
	"propsoff.example/cmd/propsoff/internal/ui/help"
	"propsoff.example/cmd/propsoff/internal/ui/layout"
	"propsoff.example/cmd/propsoff/internal/ui/learn"
	"propsoff.example/cmd/propsoff/internal/ui/loss"
	"propsoff.example/cmd/propsoff/internal/ui/people"
	"propsoff.example/cmd/propsoff/internal/ui/prove"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/ui/seats"
	"propsoff.example/cmd/propsoff/internal/ui/start"
	"propsoff.example/cmd/propsoff/internal/ui/three"
	"propsoff.example/cmd/propsoff/internal/ui/write"
)

// rooms are the sheets of the program, the bench first, then in the order in which the bench shows their keys: a new one is one line here.
var rooms = [...]struct {
	about func() *ui.About
	make  func(*screen.Screen) screen.Sheet
}{
	{bench.About, bench.New},
	{ask.About, ask.New},
	{write.About, write.New},
	{learn.About, learn.New},
	{learn.AboutWhich, learn.NewWhich},
	{seats.About, seats.New},
	{help.About, help.New},
	{help.AboutCautions, help.NewCautions},
	{check.About, check.New},
	{layout.About, layout.New},
	{prove.About, prove.New},
	{prove.AboutCompare, prove.NewCompare},
	{card.About, card.New},
	{first.About, first.New},
	{three.About, three.New},
	{gestures.About, gestures.New},
	{loss.About, loss.New},
	{drills.About, drills.New},
	{foresee.About, foresee.New},
	{desk.About, desk.New},
	{start.About, start.New},
	{people.About, people.NewSheet},
	{files.About, files.New},
}

// New makes a screen with every sheet.
func New(o screen.Options) *screen.Screen {
	s := screen.New(o)
	all := make([]screen.Sheet, len(rooms))
	for i := range rooms {
		all[i] = rooms[i].make(s)
	}
	s.Furnish(all)
	return s
}

// Sheets is what there is to know of every sheet.
func Sheets() *ui.House {
	all := make([]*ui.About, len(rooms))
	for i := range rooms {
		all[i] = rooms[i].about()
	}
	return ui.NewHouse(all...)
}

// Openable are the sheets that are opened over the bench, by their names.
func Openable() (names []string) {
	for i := range rooms {
		if a := rooms[i].about(); a.Opens() {
			names = append(names, string(a.Place))
		}
	}
	return names
}

// Places are all sheets by their places.
func Places() (all []ui.Place) {
	for i := range rooms {
		all = append(all, rooms[i].about().Place)
	}
	return all
}

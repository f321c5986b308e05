package ui

import (
	"propsoff/assets/words"
)

// GogglesView is the menu that is open, as the goggles show it. Its texts are made by whoever fills it.
type GogglesView struct {
	// Open: a menu is open. Name is what it is called; Camera: it is a camera's.
	Open   bool
	Name   words.Text
	Camera bool
	// Path are the pages from the first one to the one that is shown.
	Path []words.Text
	// Items of the page in their order; Mark is the one that the mark stands on.
	Items []GogglesItem
	Mark  int
	// Leaving: it is asked what is to become of what was changed. Answers in their order, Answer the one marked.
	Leaving bool
	Answers []words.Text
	Answer  int
	// Changed is how many values stand otherwise than when the menu was opened.
	Changed int
	// Moves says how the sticks move the menu, a sentence each.
	Moves []words.Text
	// Stands says in half a sentence which menu is open and where the mark stands, for the bench.
	Stands words.Text
}

// GogglesKind is what an item is.
type GogglesKind uint8

// The kinds.
const (
	GogglesValue GogglesKind = iota // a value that is changed
	GogglesPage                     // it opens a page
	GogglesLeave                    // it leaves the page or the menu
)

// GogglesItem is one line of a page.
type GogglesItem struct {
	Kind  GogglesKind
	Label words.Text
	// Holds is how many items a page holds, without its way out.
	Holds int
	// Value with its unit, and Was what it was when the menu was opened, where it was Changed. Less and More: there is room that way.
	Value, Was words.Text
	Changed    bool
	Less, More bool
	// Moves: the sticks move the value now, Upright by up and down. Inside: it was gone into for that.
	Moves, Upright, Inside bool
}

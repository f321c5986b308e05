// Package menu is a tree of items moved through by sticks.
//
// Step is called once a slot, after the gestures. Everything is an integer, and two equal States are the same situation. Values
// change at once, and are kept only where the pilot says so on leaving: leaving by itself keeps nothing.
//
// A menu is moved in one of two ways, by physical stick. One stick: the right stick's up and down moves the mark, its right goes in,
// its left goes out; to change a value one goes into it, and then up and down changes it until one goes out. Two sticks: the right stick's
// up and down moves the mark; the left stick's right goes in, its left goes out, and where the mark stands on a value they raise and lower
// it. Each page ends with an item that goes out of it, so there is a way back from anywhere.
//
// A stick that is held acts again after a while and then again and again, where that makes sense: it moves the mark and changes values,
// but never goes in or out twice. Two directions pushed at once do nothing. After opening, and whenever the craft was armed or its link was not good, the
// directions that the way uses must first have come to rest in the middle; where the right stick's up and down is the throttle (stick modes
// 1 and 3) it rests there once a hand has put it there. Slots without a valid frame change nothing.
package menu

import "propsoff.example/sim/pulse"

// The limits of all menus of a craft together.
const (
	MostValues  = 48
	MostItems   = 120
	MostDepth   = 4 // pages within pages, the first one included
	MostChoices = 12
)

// Way is how a menu is moved.
type Way uint8

// The ways.
const (
	OneStick Way = iota
	TwoSticks
)

// Kind is what an item is.
type Kind uint8

// The kinds.
const (
	Page   Kind = iota // gone into; Item.First and Count are its items
	Value              // a number
	Choice             // a word of several
	Out                // goes out of the page; on the first page it leaves the menu
)

// Item is one line of a page.
type Item struct {
	// Name is what the file calls it; an Out has none.
	Name string
	Kind Kind
	// First and Count say which items of Config.Items are those of a Page: Count of them, from the number First on.
	First, Count int
	// Index is the place of a Value or Choice in State.Now and Kept.
	Index int
	// Low, High and Start are in units of 10 to the power of −Decimals, as is By, the step of one push. For a Choice they count its
	// words, from 0.
	Low, High, By, Start int32
	Decimals             uint8
	Unit                 string
	Choices              []string
}

// Tree is one menu.
type Tree struct {
	// Name is what a person calls it; Code is its word in files.
	Name, Code string
	// Camera: it is a camera's, not the craft's own.
	Camera bool
	Way    Way
	// First and Count are the items of the first page.
	First, Count int
}

// Config is the menus of one craft.
type Config struct {
	Menus []Tree
	// Items are those of all menus; their numbers are what happenings tell.
	Items []Item
	// Values is how many values there are.
	Values int
	// In is how far from the middle a direction must be pushed to act, Leave how near it must come back to count as let go; Rest is how
	// near to the middle it must have been at first. All in eighths of a µs.
	In, Leave, Rest pulse.Width
	// Delay is how many slots a stick must be held before it acts again, Every how many slots lie between the times after that.
	Delay, Every uint16
}

// Default is a Config without menus: a push from 70 % of travel on, let go at 60 %, rest within 25 % (as gestures have their zones),
// acting again after half a second and then four times a second (ours).
func Default(slotTicks uint16) Config {
	slots := func(ms int) uint16 { return uint16((ms + int(slotTicks) - 1) / int(slotTicks)) }
	return Config{
		In: pulse.Percent(700) - pulse.Centre, Leave: pulse.Percent(600) - pulse.Centre, Rest: pulse.Percent(250) - pulse.Centre,
		Delay: slots(520), Every: slots(240),
	}
}

// Input is what one slot brings.
type Input struct {
	// Sticks are throttle, roll, pitch and yaw as received.
	Sticks [4]pulse.Width
	// StickMode is 1 to 4; 0 counts as 2.
	StickMode uint8
	// Valid: the slot brought a valid frame. Live: the craft is disarmed and its link is good.
	Valid, Live bool
}

// Answer is what to do with changes on leaving.
type Answer uint8

// The answers; NoQuestion: nothing is asked.
const (
	NoQuestion Answer = iota
	Keep
	PutBack
	Stay
)

// Push is a direction that is held.
type Push uint8

// The pushes.
const (
	None Push = iota
	Up
	Down
	In
	Back
)

// State is the menu as it stands; the zero value is a closed one, with every value as the file gives it.
type State struct {
	// Open is one more than the index of the open menu, 0 for none.
	Open uint8
	// Path has the numbers of the pages that were gone into, Depth how many those are; Marks is where the mark stands on each page, the
	// first one included.
	Path  [MostDepth]uint8
	Marks [MostDepth]uint8
	Depth uint8
	// Inside: the value that the mark stands on is being changed (one stick).
	Inside bool
	// Asked is the answer on which the mark stands while the menu asks what to do with the changes.
	Asked Answer
	// Rested: the sticks have come to rest since the menu was opened. Held is what is pushed now, Time for how many slots.
	Rested bool
	Held   Push
	Time   uint16
	// Now are the values as they stand, Kept as they were last kept; Known is false until the first menu has been opened.
	Now, Kept [MostValues]int32
	Known     bool
}

var _ = map[State]struct{}{}

// Open opens the menu with this index, from 0.
func Open(cfg *Config, s State, which int) State {
	if which < 0 || which >= len(cfg.Menus) {
		return s
	}
	if !s.Known {
		for i := range cfg.Items {
			if it := &cfg.Items[i]; it.Kind == Value || it.Kind == Choice {
				s.Kept[it.Index] = it.Start
			}
		}
		s.Known = true
	}
	return State{Open: uint8(which + 1), Now: s.Kept, Kept: s.Kept, Known: true}
}

// Close closes the open menu; what was changed in it is put back.
func Close(cfg *Config, s State) State {
	return State{Now: s.Kept, Kept: s.Kept, Known: s.Known}
}

// Tree is the open menu, nil for none.
func (cfg *Config) Tree(s *State) *Tree {
	if s.Open == 0 || int(s.Open) > len(cfg.Menus) {
		return nil
	}
	return &cfg.Menus[s.Open-1]
}

// Page gives the items of the page that is shown: the number of the first, and how many.
func (cfg *Config) Page(s *State) (first, count int) {
	if s.Depth > 0 {
		it := &cfg.Items[s.Path[s.Depth-1]]
		return it.First, it.Count
	}
	if t := cfg.Tree(s); t != nil {
		return t.First, t.Count
	}
	return 0, 0
}

// Marked is the number of the item that the mark stands on, −1 where no menu is open.
func (cfg *Config) Marked(s *State) int {
	first, count := cfg.Page(s)
	if count == 0 {
		return -1
	}
	return first + int(s.Marks[s.Depth])
}

// Changed is how many values differ from what was last kept.
func (cfg *Config) Changed(s *State) int {
	n := 0
	for i := range cfg.Values {
		if s.Now[i] != s.Kept[i] {
			n++
		}
	}
	return n
}

// MenuOf is the index of the menu that an item belongs to, −1 for none.
func (cfg *Config) MenuOf(item int) int {
	for i := len(cfg.Menus) - 1; i >= 0; i-- { // the items of a menu follow its first one
		if item >= cfg.Menus[i].First {
			return i
		}
	}
	return -1
}

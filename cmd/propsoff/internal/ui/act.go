package ui

import (
	"fmt"
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/input/keyboard"
)

// Action is one thing that a person can do besides moving sticks and switches, by its code word: hit areas, the table of keys and the words
// for it have the same. What each does is told by tell.Does; the sheet, or the screen, does it.
type Action string

// Code is the action's code word.
func (a Action) Code() string { return string(a) }

// Act ties an action to its key. The key's place on a keyboard has the letters of the US layout, as in keyboard.Binding. It is never a key
// of keyboard.Layout.
type Act struct {
	Action   Action
	Physical string
	// Do does it on the sheet whose own it is; nil leaves it to others. Shows tells whether it is there to be done now, nil: always.
	Do    func()
	Shows func(*View) bool
	// What its key does now, in a few words, is told by how its thing stands, On, or by the value that it goes to, Next, or Says says it.
	On   func(*View) bool
	Next func(*View) int
	Says func(*View) words.Text
}

// Pick is a row of things to choose between by a click, or by the number keys: the hit areas are called by Prefix and a number from 1, and Do
// takes the number from 0.
type Pick struct {
	Prefix string
	Keys   bool
	Do     func(i int)
}

// Place names a sheet.
type Place string

// LeavesProgram tells whether whoever goes back from the sheet leaves the program.
func (p Place) LeavesProgram() bool { return p == OnStart || p == OnCautions }

// Open is the action that opens a sheet over the bench, or goes back to the bench from it.
func (p Place) Open() Action { return Action(p) }

// About is what there is to know of a sheet besides what it shows.
type About struct {
	Place Place
	// Key opens the sheet over the bench; empty for a sheet that is not opened by a key. Everywhere: from every sheet so opened, too.
	Key        string
	Everywhere bool
	// ByDoor: it is opened over the bench though it has no key, by a door of the start and by its name.
	ByDoor bool
	// NotFrom are sheets from which it is not opened by that key even so: there the key is the sheet's own.
	NotFrom []Place
	// Shared are the actions that it has in common with others (Usual), Own its own with their keys, in the order in which they are shown. Picks are what
	// is chosen by a click or a number.
	Shared []Action
	Own    []Act
	Picks  []Pick
	// More are keys that the sheet takes itself: those that come and go with what it shows, and arrow keys. One whose Action is empty cannot be clicked. Nil
	// has none.
	More func(v *View) []Act
	// Whose keys are printed: large its own, after those shared ones that are as much to the point there, Front; small and last Common, help and the way
	// out. Nil leaves Common to the screen. Every other key works as well and is found by help.
	Front, Common []Action
	// Still: its keys have the room that all its own need together, so that what is drawn above stays where it is while they come and go.
	Still bool
	// Flown: the keyboard pilot drives there. InAir: it is opened in the air only. NoClass: class view shows it as it is.
	Flown, InAir, NoClass bool
	// Shows tells whether an action is there to be done now, Does what its key does now, in a few words. Both leave to what the action's Act
	// says what they do not know. Either may be nil.
	Shows func(v *View, a Action) (shows, known bool)
	Does  func(v *View, a Action) words.Text
}

// Opens tells whether it is opened over the bench.
func (a *About) Opens() bool { return a.Key != "" || a.ByDoor }

// Usual are the shared actions of every sheet that is opened over the bench, and more that this one has.
func Usual(more ...Action) []Action {
	return append([]Action{TurnSheet, TurnTextSize, TurnFullScreen, ShowHelp, Leave}, more...)
}

// House is all sheets, the bench first.
type House struct {
	sheets []*About
	keys   map[Place][]Act
	acts   map[Action]Act
}

// NewHouse makes the table of all sheets. It panics where two have one place, or two things one action's code word: whichever came first
// would silently do nothing any more.
func NewHouse(sheets ...*About) *House {
	h := &House{sheets: sheets, keys: map[Place][]Act{}, acts: map[Action]Act{}}
	owners := map[Action]Place{}
	owns := func(owner Place, a Act) {
		if other, taken := owners[a.Action]; taken {
			panic(fmt.Sprintf("the code word %q is of two: of %s and of %s", a.Action, other, owner))
		}
		owners[a.Action], h.acts[a.Action] = owner, a
	}
	for _, a := range shared {
		owns("shared", a)
	}
	for i, s := range sheets {
		if slices.ContainsFunc(sheets[:i], func(o *About) bool { return o.Place == s.Place }) {
			panic(fmt.Sprintf("two sheets have the place %q", s.Place))
		}
		if s.Opens() {
			open := Act{Action: s.Place.Open(), Physical: s.Key}
			if s.InAir {
				open.Shows = func(v *View) bool { return v.Snap.In.Air }
			}
			owns(s.Place, open)
		}
		for _, a := range s.Own {
			owns(s.Place, a)
		}
	}
	h.oneMeaning()
	for _, s := range sheets {
		h.keys[s.Place] = h.keysOf(s)
	}
	return h
}

// oneMeaning panics where a letter of the keyboard pilot's, a shared key or one that opens a sheet is taken for something else, whatever the sheet: a hand
// learns one meaning of a key. The other keys of the pilot are free where it does not fly.
func (h *House) oneMeaning() {
	means := map[string]string{}
	take := func(key, what string) {
		if other, taken := means[key]; taken {
			panic(fmt.Sprintf("the key %s means two things: %q and %q", key, other, what))
		}
		means[key] = what
	}
	for _, b := range LayoutKeys {
		if Writes(b.Physical) {
			take(b.Physical, b.Code)
		}
	}
	for _, a := range shared {
		if a.Action != LeafBack && a.Action != LeafOn && a.Action != FlyAgain { // back and on everywhere: a page, a mark in a list, or a flight
			take(a.Physical, a.Action.Code())
		}
	}
	for _, s := range h.sheets {
		if s.Key != "" {
			take(s.Key, string(s.Place))
		}
	}
	for _, s := range h.sheets {
		for _, a := range s.Own {
			other, taken := means[a.Physical]
			pilots := s.Flown && slices.ContainsFunc(LayoutKeys, func(b keyboard.Binding) bool { return b.Physical == a.Physical })
			if taken || pilots {
				panic(fmt.Sprintf("the key %s means %q, or is the pilot's: not %q on the sheet %s", a.Physical, other, a.Action, s.Place))
			}
		}
	}
}

// keysOf are all keys of a sheet: what is shared, those that open sheets before those of the window, and its own.
func (h *House) keysOf(s *About) (all []Act) {
	for _, a := range shared {
		if a.Action == TurnSheet {
			for _, o := range h.sheets {
				if o.Key != "" && (s.Place == OnBench || s == o || s.Key != "" && o.Everywhere && (s.Place != OnStart || o.Place == OnPeople) && !slices.Contains(o.NotFrom, s.Place)) {
					all = append(all, h.acts[o.Place.Open()])
				}
			}
		}
		if slices.Contains(s.Shared, a.Action) {
			all = append(all, a)
		}
	}
	return append(all, s.Own...)
}

// Of is what there is to know of a sheet, nil where there is none of that name.
func (h *House) Of(p Place) *About {
	if i := slices.IndexFunc(h.sheets, func(s *About) bool { return s.Place == p }); i >= 0 {
		return h.sheets[i]
	}
	return nil
}

// Sheets are all sheets, the bench first. Read only.
func (h *House) Sheets() []*About { return h.sheets }

// Keys are the keys of a sheet, in the order in which they are shown. Read only.
func (h *House) Keys(p Place) []Act { return h.keys[p] }

// All are the keys of all sheets, each once, in the order in which they are met.
func (h *House) All() (all []Act) {
	for _, s := range h.sheets {
		for _, a := range h.keys[s.Place] {
			if !slices.ContainsFunc(all, func(o Act) bool { return o.Action == a.Action && o.Physical == a.Physical }) {
				all = append(all, a)
			}
		}
	}
	return all
}

// Has tells whether an action has a key on a sheet.
func (h *House) Has(p Place, a Action) bool {
	return slices.ContainsFunc(h.keys[p], func(k Act) bool { return k.Action == a })
}

// Do does an action that is a sheet's own; false leaves it.
func (h *House) Do(p Place, a Action) bool {
	do := h.acts[a].Do
	if do == nil || !h.Has(p, a) {
		return false
	}
	do()
	return true
}

// Arrows are the arrow keys, as one row of help has them.
const Arrows = "← ↑ ↓ →"

// ArrowsMark are the arrow keys of a sheet on which they move the mark.
func ArrowsMark(*View) []Act {
	return []Act{{Physical: Arrows, Says: func(*View) words.Text { return words.T("help.arrows-mark") }}}
}

// MovesMark moves a mark up and down by the arrow keys; it tells whether a key is one of those.
func MovesMark(key string, down bool, move func(by int)) bool {
	by, moves := map[string]int{"Up": -1, "Down": 1}[key]
	if moves && down {
		move(by)
	}
	return moves
}

// FunctionKey tells whether a key is one of F1, F2 and so on: they are no part of what is typed.
func FunctionKey(key string) bool {
	return len(key) > 1 && key[0] == 'F' && key[1] >= '0' && key[1] <= '9'
}

// KeyOf is the physical key of an action, by the letter of the US layout; empty where nothing does it.
func (h *House) KeyOf(a Action) string { return h.acts[a].Physical }

// Flown tells whether the keyboard pilot drives on a sheet.
func (h *House) Flown(p Place) bool {
	s := h.Of(p)
	return s != nil && s.Flown
}

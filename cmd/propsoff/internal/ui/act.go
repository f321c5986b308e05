package ui

import (
	"propsoff/assets/words"
	"slices"
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
}

// Place names a sheet.
type Place string

// Open is the action that opens a sheet over the bench, or goes back to the bench from it.
func (p Place) Open() Action { return Action(p) }

// About is what there is to know of a sheet besides what it shows.
type About struct {
	Place Place
	// Key opens the sheet over the bench; empty for a sheet that is not opened by a key. Everywhere: from every sheet so opened, too.
	Key        string
	Everywhere bool
	// Shared are the actions that it has in common with others, Own its own with their keys, in the order in which they are shown.
	Shared []Action
	Own    []Act
	// Flown: the keyboard pilot drives there.
	Flown bool
	// Shows tells whether an action is there to be done now, Does what its key does now, in a few words. Both leave to the usual rules what
	// they do not know. Either may be nil.
	Shows func(v *View, a Action) (shows, known bool)
	Does  func(v *View, a Action) words.Text
}

// House is all sheets, the bench first.
type House struct {
	sheets []*About
	keys   map[Place][]Act
	letter map[Action]string
}

// NewHouse makes the table of all sheets.
func NewHouse(sheets ...*About) *House {
	h := &House{sheets: sheets, keys: map[Place][]Act{}, letter: map[Action]string{}}
	for _, a := range shared {
		h.letter[a.Action] = a.Physical
	}
	for _, s := range sheets {
		if s.Key != "" {
			h.letter[s.Place.Open()] = s.Key
		}
		for _, a := range s.Own {
			h.letter[a.Action] = a.Physical
		}
	}
	for _, s := range sheets {
		h.keys[s.Place] = h.keysOf(s)
	}
	return h
}

// keysOf are all keys of a sheet: what is shared, those that open sheets before those of the window, and its own.
func (h *House) keysOf(s *About) (all []Act) {
	for _, a := range shared {
		if a.Action == TurnSheet {
			for _, o := range h.sheets {
				if o.Key != "" && (s.Place == OnBench || s == o || s.Key != "" && o.Everywhere) {
					all = append(all, Act{o.Place.Open(), o.Key})
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
	for _, s := range h.sheets {
		if s.Place == p {
			return s
		}
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
			if !slices.Contains(all, a) {
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

// KeyOf is the key of an action, as printed on it in the US layout; empty where nothing does it.
func (h *House) KeyOf(a Action) string { return h.letter[a] }

// Flown tells whether the keyboard pilot drives on a sheet.
func (h *House) Flown(p Place) bool {
	s := h.Of(p)
	return s != nil && s.Flown
}

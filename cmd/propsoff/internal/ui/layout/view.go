// Package layout is the sheet of the switch layout: what the craft does at each position of each switch of the radio, what is called out, and
// changes to the craft file.
package layout

import (
	"slices"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/sim"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/switches"
)

// View is what the sheet knows besides what all know.
type View struct {
	// Of says which craft and radio, Kept where the craft file is and what is not saved yet.
	Of, Kept words.Text
	// Levers are the switches, in the order of their channels; Chosen and At are the lever and position that keys act on.
	Levers     []Lever
	Chosen, At int
	// Radio is the one that the switches are on.
	Radio handset.Radio
	// Doing is what keys do at that position; Choices are those of the craft as a whole.
	Doing   []Key
	Choices []Choice
	// Calls are all callouts, those about the craft first.
	Calls []Call
	// Said is what came of the last act.
	Said words.Text
}

// Lever is one switch.
type Lever struct {
	// Name, and From: its channel and what carries it.
	Name, From words.Text
	Channel    int8
	// Notes are callouts about the switch as a whole.
	Notes []words.Text
	// Warns: something about it is a warning.
	Warns bool
	// Positions from low to high; Live is where it stands now, −1 where that is not known.
	Positions []Position
	Live      int
}

// Position is one position of a lever.
type Position struct {
	Does, Value, Margin words.Text
	Notes               []words.Text
}

// Key is a key and what it does; Code names its hit area.
type Key struct {
	Key, Code string
	Does      words.Text
	do        func()
}

// Choice is one choice of the craft with its options; Taken is the option that holds.
type Choice struct {
	Key
	Options []words.Text
	Taken   int
	take    func(option int)
}

// Call is one callout with the place that it is about, none for the craft: a lever and a position of it, −1 for none.
type Call struct {
	Text            words.Text
	Lever, Position int
	Told            bool
}

// chosen says which position keys act on, in full and in short.
func (v *View) chosen() []words.Text {
	var name, value words.Text
	if v.Chosen < len(v.Levers) {
		l := &v.Levers[v.Chosen]
		if name = l.Name; v.At < len(l.Positions) {
			value = l.Positions[v.At].Value
		}
	}
	return []words.Text{words.T("layout.chosen", words.Args{"name": name, "value": value}), name}
}

// keys are all keys of the sheet while nothing is asked.
func (v *View) keys() []Key {
	out := slices.Clone(v.Doing)
	for _, c := range v.Choices {
		out = append(out, c.Key)
	}
	return out
}

// About is what there is to know of the sheet.
func About() *ui.About {
	return &ui.About{
		Place: ui.OnLayout, Key: "F6", Everywhere: true,
		Shared: ui.Usual(ui.ShowSeats, ui.LeafBack, ui.LeafOn),
		Front:  []ui.Action{ui.ShowSeats},
		More: func(v *ui.View) (all []ui.Act) {
			for _, k := range Of(v).keys() {
				all = append(all, ui.Act{Action: ui.Action(k.Code), Physical: k.Key, Says: func(*ui.View) words.Text { return k.Does }})
			}
			return all
		},
	}
}

// Of is what the sheet knows besides what all know.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// ShowFacts puts facts about switches into words: Levers and Calls. No position is live yet.
func (v *View) ShowFacts(f *switches.Facts, cfg *sim.Config) {
	v.Levers, v.Calls = nil, nil
	for _, c := range f.Callouts {
		v.Calls = append(v.Calls, Call{Text: tell.CalloutCraft(c, cfg), Lever: -1, Position: -1})
	}
	for i := range f.Switches {
		s := &f.Switches[i]
		l := Lever{Name: tell.SwitchName(s), From: tell.SwitchFrom(s), Channel: s.Channel, Warns: s.Warnings() > 0, Live: -1}
		for _, c := range s.Callouts {
			says := tell.CalloutOf(s, c)
			l.Notes = append(l.Notes, says)
			v.Calls = append(v.Calls, Call{Text: tell.CalloutPlaced(l.Name, says), Lever: i, Position: -1, Told: c.Code.Told()})
		}
		for n := range s.Positions {
			at := &s.Positions[n]
			p := Position{Does: tell.PositionDoes(f, s, at), Value: tell.PositionValue(at, f.Measured), Margin: tell.PositionMargin(at, f.Measured)}
			for _, c := range at.Callouts {
				says := tell.CalloutAt(f, s, at, c)
				p.Notes = append(p.Notes, says)
				v.Calls = append(v.Calls, Call{Text: tell.CalloutPlaced(tell.PositionPlace(s, at), says), Lever: i, Position: n})
			}
			l.Positions = append(l.Positions, p)
		}
		v.Levers = append(v.Levers, l)
	}
}

// rank is where a callout stands in the list: what is about the chosen position and switch first, what is only told last.
func (v *View) rank(c *Call) int {
	switch {
	case c.Lever < 0, c.Lever == v.Chosen && c.Position == v.At:
		return 0
	case c.Lever == v.Chosen && !c.Told:
		return 1
	case !c.Told:
		return 2
	case c.Lever == v.Chosen:
		return 3
	}
	return 4
}

// leverPrefix and two numbers from 1 name the hit area of a position, with one number that of a switch.
const leverPrefix = "lever-"

// LeverOf finds lever and position of a hit area; position is −1 where it is that of the whole switch.
func LeverOf(code string) (lever, position int, ok bool) {
	if at := strings.LastIndexByte(code, '-'); at >= len(leverPrefix) {
		lever, ok = ui.NumberOf(code[:at], leverPrefix)
		position, both := ui.NumberOf(code[at:], "-")
		return lever, position, ok && both
	}
	lever, ok = ui.NumberOf(code, leverPrefix)
	return lever, -1, ok
}

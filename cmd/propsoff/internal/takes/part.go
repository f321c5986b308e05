package takes

import (
	"errors"
	"reflect"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/gestures/patternfile"
	"propsoff.example/input/take"
	"propsoff.example/sim"
	"propsoff.example/sim/craftfile"
)

// ErrNoCraft is given for a take that carries no craft file.
var ErrNoCraft error = words.Wrong("takes.no-craft")

// Part is a part of a take, read by the rules of its model.
type Part struct {
	// Settings are as they stand in the take.
	take.Settings
	// Craft is the craft, with its gestures: the person's own file where that says the same.
	Craft *craftfile.File
	// Gestures are those of the craft, nil for none.
	Gestures *patternfile.File
}

// CheckModel refuses a take of a newer model; name is what errors call it.
func CheckModel(name string, s *take.Settings) error {
	if s.Model > sim.Model {
		return tell.NewerModel(name, s.Model, sim.Model)
	}
	return nil
}

// Read reads a part; name is what errors call the take.
func Read(name string, s *take.Settings) (*Part, error) {
	if err := CheckModel(name, s); err != nil {
		return nil, err
	}
	p := &Part{Settings: *s}
	if err := p.readCraft(name); err != nil {
		return nil, err
	}
	return p, p.readGestures(name)
}

// readCraft reads the craft that stood on the bench.
func (p *Part) readCraft(name string) error {
	own, err := craftfile.ParseOf(p.Model, "", []byte(p.CraftText))
	if p.CraftFilled == "" {
		if p.CraftText == "" {
			return ErrNoCraft
		}
		p.Craft = own
		return within(name, "takes.own-craft", err)
	}
	filled, bad := craftfile.ParseOf(p.Model, "", []byte(p.CraftFilled))
	if bad != nil {
		return within(name, "takes.craft", bad)
	}
	if p.Craft = filled; err == nil {
		a, b := own.Config(), filled.Config()
		if craftfile.Same(&a, &b) {
			p.Craft = own // it has the jobs that do nothing on the bench, too
		}
	}
	return nil
}

// readGestures gives the craft the gestures that the take carries; one of before there were any has none, and goes without.
func (p *Part) readGestures(name string) error {
	cfg := p.Craft.Config()
	own, err := patternfile.ParseOf(p.Model, "", []byte(p.GesturesText), cfg.SlotTicks)
	switch {
	case p.GesturesFilled == "" && p.GesturesText == "":
		p.Craft.Learn(nil, nil)
		return nil
	case p.GesturesFilled == "" && err != nil:
		return within(name, "takes.own-gestures", err)
	}
	p.Gestures = own
	if p.GesturesFilled != "" {
		filled, bad := patternfile.ParseOf(p.Model, "", []byte(p.GesturesFilled), cfg.SlotTicks)
		if bad != nil {
			return within(name, "takes.gestures", bad)
		}
		if err != nil || !reflect.DeepEqual(own.Gestures, filled.Gestures) || !reflect.DeepEqual(own.Menus, filled.Menus) {
			p.Gestures = filled
		}
	}
	p.Craft.Learn(&p.Gestures.Gestures, &p.Gestures.Menus)
	return nil
}

// within says what is wrong with a file that a take carries, nil for nothing: the take's name, by id which of its files, place and fault.
func within(name string, id words.ID, err error) error {
	if err == nil {
		return nil
	}
	var all words.Problems
	if !errors.As(err, &all) {
		return words.Wrong(id, words.Args{"placed": words.Flag(false), "why": words.Error(err)}).In(name).Because(err)
	}
	out := make(words.Problems, len(all))
	for i, p := range all {
		out[i] = words.Wrong(id, words.Args{"placed": words.Flag(p.Line > 0), "why": words.Error(p)}).In(name).Because(p)
	}
	return out
}

// Start is how the practice of the part begins.
func (p *Part) Start() *live.Start {
	return &live.Start{Craft: p.Craft.Config(), Tick: p.From, Stands: p.Stands, Note: p.Note}
}

// Package handheld draws a plain hand-held radio, with each control where it sits on it.
//
// It draws the face, the shoulders (the upper edge, seen from the face over it) and the back (seen through the radio from the front, so that
// left stays left). Of shoulders and back only those are drawn on which something sits. It fits itself into any rectangle of a page; controls
// that would overlap are moved apart, each as little as it takes, with a line to its true place.
package handheld

import (
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/sim/handset"
	"slices"
)

// Radio is what is drawn.
type Radio struct {
	// Size is that of names and numbers in pixels, Pen the width of a thin line.
	Size, Pen float64
	Controls  []Control
	// Sticks are the left and the right one.
	Sticks [2]Stick
	// Titles name the views, by handset.View, in full and in short; an empty one is left out.
	Titles [handset.ViewCount][2]string
	// All: views are drawn on which nothing sits as well.
	All bool
	// Nameless: no name is drawn; each keeps its room.
	Nameless bool
	// Largest is how large a control on shoulders or back is at most, as a share of the face's height; 0 is what suits a sheet.
	Largest float64
}

// Control is one switch, button, knob or slider.
type Control struct {
	// Job and Channel tell which one it is.
	Job     string
	Channel int8
	// Others are further jobs of the same piece of the radio.
	Others []string
	Spot   handset.Spot
	// Name stands beside the control where there is room for all names, else Number does. Full is what it is called in a sentence.
	Name, Number, Full string
	// Positions are how many resting places it has; 0 goes everywhere. Springs: it comes back by itself.
	Positions int
	Springs   bool
	// At is where it stands from its low end, 0, to its high one, 1; below 0 nobody knows.
	At float64
	// Mark is how it stands out; To is where a control that must move is to come to, below 0 for none.
	Mark Mark
	To   float64
}

// Mark is how a control stands out among the others.
type Mark uint8

// The marks.
const (
	Plain  Mark = iota
	Chosen      // it is looked at
	Moves       // it is the one that must move
)

// Stick is one of the two sticks.
type Stick struct {
	// Up and Across are what its two directions do, empty for nothing to be said; UpJob and AcrossJob are the jobs.
	Up, Across, UpJob, AcrossJob string
	// Right and High are where it stands, from 0 to 1; below 0 it is in its middle.
	Right, High float64
	Mark        Mark
	// ToRight and ToHigh are which way it must move: −1, 0 or 1.
	ToRight, ToHigh float64
}

// Middle is a stick that stands in its middle.
var Middle = Stick{Right: 0.5, High: 0.5}

// Drawn is where what was drawn lies.
type Drawn struct {
	// Views are the insides of the views, in which spots are counted; empty where a view was left out.
	Views [handset.ViewCount]ink.Rect
	// Boxes are the controls, each with its name, in their order.
	Boxes []ink.Rect
}

// Draw draws a radio into a rectangle.
func Draw(p *ink.Page, r ink.Rect, d *Radio) Drawn {
	p.Group("radio")
	k := &drawing{Page: p, Radio: d}
	k.place(r)
	k.bodies()
	for i := range k.put {
		k.leader(&k.put[i])
	}
	for i := range k.put {
		k.control(&k.put[i])
	}
	drawn := Drawn{Views: k.inside, Boxes: make([]ink.Rect, len(d.Controls))}
	for i := range d.Controls {
		if n := slices.IndexFunc(k.put, func(q put) bool { return q.Control == &d.Controls[i] }); n >= 0 {
			drawn.Boxes[i] = k.put[n].box
		}
	}
	return drawn
}

func in(v ink.Rect, s handset.Spot) ink.Point {
	return ink.Point{X: v.X + v.W*float64(s.X)/1000, Y: v.Y + v.H*float64(s.Y)/1000}
}

// drawing is a radio that is being drawn.
type drawing struct {
	*ink.Page
	*Radio
	// outline and inside are each view's edge, and where in it controls may be; both empty for a view that is left out.
	outline, inside [handset.ViewCount]ink.Rect
	titled          float64 // the height of a title
	deep            float64 // how high the shoulders are for the height of the face
	put             []put
	// wells are the sticks' wells with their words; worded: the words are drawn.
	wells  [2]ink.Rect
	worded bool
	named  naming
}

// shown tells whether a view is drawn.
func (k *drawing) shown(v handset.View) bool {
	if v == handset.OnFace || k.All {
		return true
	}
	for i := range k.Controls {
		if k.Controls[i].Spot.View == v {
			return true
		}
	}
	return false
}

// Of is the control of a job, nil where there is none, as for a stick.
func (d *Radio) Of(job string) *Control {
	for i := range d.Controls {
		if c := &d.Controls[i]; c.Job == job || slices.Contains(c.Others, job) {
			return &d.Controls[i]
		}
	}
	return nil
}

// Mark marks the control of a job, and says where it is to come to from its low end, 0, to its high one, 1; below 0 nothing is said.
func (d *Radio) Mark(job string, m Mark, to float64) {
	if c := d.Of(job); c != nil {
		c.Mark, c.To = m, to
	}
}

// MarkStick marks the stick that carries a job, and says which way it must go: −1 to the low end of the job, 1 to its high end, 0 for not said.
func (d *Radio) MarkStick(job string, m Mark, to float64) {
	for i := range d.Sticks {
		switch s := &d.Sticks[i]; job {
		case s.UpJob:
			s.Mark, s.ToHigh = m, to
		case s.AcrossJob:
			s.Mark, s.ToRight = m, to
		}
	}
}

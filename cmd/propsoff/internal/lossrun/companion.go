package lossrun

import (
	"propsoff.example/sim"
	"propsoff.example/sim/lossmap"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// Companion is a Set that goes along with a practice: on either bench, from the place, attitude and speed that the pilot's
// own has as it begins.
type Companion struct {
	// Wanted is what the third receiver is to have stored: at once, or as soon as the radio is no longer silent.
	Wanted Stored
	// Anew has the three begin again where the pilot's own craft is.
	Anew bool
	// At is where they begin anew, of the map of a lost link; nil where the pilot's own craft is.
	At *lossmap.Point

	set  *Set
	runs [Receivers]Run
}

// Now is what is known of the three: each as it is, a copy to be asked what would be, and what was measured of it.
type Now struct {
	Snap  [Receivers]sim.Snapshot
	Craft [Receivers]practice.Practice
	Run   [Receivers]Run
}

// Turn begins the three, where they have not begun, are to begin anew or the pilot's own craft has been changed for another.
func (c *Companion) Turn(own *practice.Practice, changed bool) []*practice.Practice {
	switch {
	case c.Anew && c.At != nil:
		c.set, c.Anew = NewAt(own, c.Wanted, c.At), false
	case c.set == nil || c.Anew || changed:
		c.set, c.Anew, c.At = New(own, c.Wanted), false, nil
	case c.set.Stored() != c.Wanted:
		c.set.Choose(c.Wanted)
	}
	return c.set.craft[:]
}

// Step runs the next millisecond of all three with the readings that fall on it.
func (c *Companion) Step(readings []pulse.Reading) { c.set.Step(readings) }

// Publish keeps what was measured.
func (c *Companion) Publish() {
	for i := range c.runs {
		c.runs[i] = c.set.Run(i)
	}
}

// See fills craft i of dst from its practice as it was published.
func (c *Companion) See(dst *Now, i int, p *practice.Practice) {
	p.Snapshot(&dst.Snap[i])
	p.CopyTo(&dst.Craft[i])
	dst.Run[i] = c.runs[i]
}

// Stored is what the third receiver has stored now.
func (c *Companion) Stored() Stored { return c.set.Stored() }

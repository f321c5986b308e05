package drills

import (
	"math"
	"slices"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/handheld"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/handset"
)

// seated tells whether the pupil's radio is known, and where each of these switches sits on it: a place that is only guessed would send the hand
// elsewhere.
func (b *board) seated(levers []drill.Job) bool {
	if b.V.Driver != ui.Radio || !b.V.HasSeats {
		return false
	}
	return !slices.ContainsFunc(levers, func(j drill.Job) bool {
		c := b.V.Handset.On(j.Channel(&b.V.Config.Layout))
		return c == nil || c.Kind != handset.Switch || c.Spot.Guessed
	})
}

// leastSide is the least side of a drawn radio on which a hand finds its switches, px of the least window (ours).
const leastSide = 130

// besideRadio parts a place into one for the sticks, which stay the larger where they are asked, and one for the radio.
func (b *board) besideRadio(r ink.Rect) (sticks, radio ink.Rect) {
	run := &Of(b.V).Run
	least, most := 0.52, 0.6
	switch {
	case r.W < 1.6*r.H:
		least, most = 0.38, 0.45
	case run.byStick():
		least, most = 0.33, 0.42
	}
	if r.H > r.W {
		return r.CutTop(r.H*(1-most), b.Gap)
	}
	use := 2*(r.H-2*ink.BlockHeight(b.Body, 1)) + b.Gap // more the sticks cannot use
	return r.CutLeft(r.W-ui.Clamp(r.W-use, r.W*least, r.W*most)-b.Gap*1.6, b.Gap*1.6)
}

// byStick tells whether the case asks for something that sticks do.
func (r *Run) byStick() bool {
	c, _ := r.asked()
	return c.Craft.Arming == 2 || slices.ContainsFunc(c.Wants, func(w drill.Want) bool {
		return w.Kind == drill.Stick || w.Kind == drill.Gesture || w.Kind == drill.MenuValue || w.Kind == drill.MenuLeft
	})
}

// radio draws the pupil's radio with these switches by name, as far as names are told, and marks each that must move.
func (b *board) radio(r ink.Rect, levers []drill.Job) {
	run := &Of(b.V).Run
	d := figure.HandheldNow(b.V)
	d.Nameless = !run.prepares() && !run.tried() && !run.taught() || run.Cue() && b.V.HideMode
	d.Largest = 0.3
	if r.W < 200*b.U {
		d.Titles = [handset.ViewCount][2]string{}
	}
	for i := range d.Sticks { // what they do stands beside the large ones
		d.Sticks[i].Up, d.Sticks[i].Across = "", ""
	}
	of := make([]*handheld.Control, len(levers))
	for i := range d.Controls {
		c := &d.Controls[i]
		n := slices.IndexFunc(levers, func(j drill.Job) bool { return j.Channel(&b.V.Config.Layout) == c.Channel })
		if c.Number = c.Name; n < 0 { // nobody asks for it
			c.Name, c.Number = "", ""
		} else {
			of[n] = c
		}
	}
	for i, j := range levers {
		to, ok := b.comesTo(j)
		if line := ink.BlockHeight(b.Body, 1) + 4*b.U; !ok || (run.prepares() || run.early()) && math.Abs(to-of[i].At) < 0.01 {
			_, r = r.CutBottom(line, 0) // what is said of it has its place, so that nothing moves when it is marked
			continue
		}
		of[i].Mark, of[i].To = handheld.Moves, to
	}
	b.Handheld(r, d)
}

// comesTo is where on its way, from its low end, 0, to its high one, 1, a switch of the radio is to be now, as far as the sheet tells it: of more
// positions that will do the nearest.
func (b *board) comesTo(j drill.Job) (to float64, ok bool) {
	l := b.switchOf(j)
	if l == nil {
		return 0, false
	}
	goal, c := b.leverGoal(l, j), b.V.Handset.On(l.Channel)
	at := c.Share(b.V.Snap.In.Sent[l.Channel])
	for i := range c.Positions {
		if goal < 0 || l.Live(c.Positions[i].Width) != goal {
			continue
		}
		if share := float64(i) / float64(max(len(c.Positions)-1, 1)); !ok || math.Abs(share-at) < math.Abs(to-at) {
			to, ok = share, true
		}
	}
	return to, ok
}

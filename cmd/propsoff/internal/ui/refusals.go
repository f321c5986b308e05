package ui

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/happening"
)

// How long a cleared refusal is seen, in ticks of 1 ms (ours): the stroke is drawn, then the sentence stands crossed off.
const (
	strikeTicks = 400
	goneTicks   = 3000
)

// Refusals remembers which refusals were there, so that a cleared one is seen being crossed off. It is fed with
// snapshots and reads no clock: the same snapshots give the same rows. The zero value is ready.
type Refusals struct {
	rows  [facts.RefusalCount]remembered
	tick  int64
	begun bool
}

type remembered struct {
	text     words.Text // says nothing where it is not shown
	stands   bool
	clearsAt int64
}

// Row is one refusal as it is shown.
type Row struct {
	Refusal facts.Refusal
	Text    words.Text
	// Stands: it refuses now. Crossed is how much of the sentence is crossed off, 0 … 1.
	Stands  bool
	Crossed float64
}

// Update takes the next snapshot. A tick before the last one begins anew; a craft without power has no refusals at all.
func (r *Refusals) Update(f *facts.Facts) {
	s := &f.Snap
	if r.begun && s.Tick < r.tick || !s.In.Powered {
		*r = Refusals{}
	}
	r.tick, r.begun = s.Tick, true
	lost := s.Refusals.Has(facts.NoLink)
	for _, i := range facts.Shown() {
		row := &r.rows[i]
		switch {
		case !s.In.Powered:
		case !s.Refusals.Has(i) && lost && i.Group() != facts.AtCraft:
			*row = remembered{} // not cleared: without a link nobody knows
		case s.Refusals.Has(i):
			x, _ := f.Of(i)
			*row = remembered{text: tell.Sentence(x, f), stands: true}
		case row.stands:
			row.text, row.stands, row.clearsAt = tell.Cleared(i, row.text), false, s.Tick
		case !row.text.Empty() && s.Tick-row.clearsAt >= goneTicks:
			*row = remembered{}
		}
	}
}

// Rows appends those that are to be shown now, in their groups and order.
func (r *Refusals) Rows(dst []Row) []Row {
	for _, i := range facts.Shown() {
		row := &r.rows[i]
		if row.text.Empty() {
			continue
		}
		out := Row{Refusal: i, Text: row.text, Stands: row.stands}
		if !row.stands {
			out.Crossed = Clamp(float64(r.tick-row.clearsAt)/strikeTicks, 0.02, 1)
		}
		dst = append(dst, out)
	}
	return dst
}

// WhyDisarmed says how the craft was disarmed last, by the happening itself; it says nothing where it is armed, was not yet, or where that was after
// what is looked at.
func (v *View) WhyDisarmed() (t words.Text) {
	if h := &v.Disarmed; h.Code == happening.Disarmed && !v.Snap.Armed && h.Tick <= v.Snap.Tick {
		t = tell.Happening(*h, v.Config)
	}
	return t
}

// KeepDisarmed keeps how the craft was disarmed last, of what happened.
func (v *View) KeepDisarmed(happened []happening.Happening) {
	for _, h := range happened {
		switch h.Code {
		case happening.Disarmed:
			v.Disarmed = h
		case happening.Armed, happening.Moved:
			v.Disarmed = happening.Happening{}
		}
	}
}

// RefusalRows are the rows of a view.
func (v *View) RefusalRows() []Row {
	v.Rows = v.Rows[:0]
	if v.Snap.Armed { // none of them disarms, and "bring the throttle down" is no advice to one who flies
		return v.Rows
	}
	if v.Refusals != nil {
		v.Rows = v.Refusals.Rows(v.Rows)
		for i := range v.Rows {
			if v.Still && !v.Rows[i].Stands { // no stroke that grows
				v.Rows[i].Crossed = 1
			}
		}
		return v.Rows
	}
	for _, l := range tell.Lines(&v.Facts) {
		v.Rows = append(v.Rows, Row{Refusal: l.Refusal, Text: l.Text, Stands: true})
	}
	return v.Rows
}

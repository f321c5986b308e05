package sheet

import "propsoff/cmd/propsoff/internal/ink"

// tallBelow is the width to height ratio below which the bench stacks its chart under the rest (ours).
const tallBelow = 1.15

// tallWidth is how many pixels of the least window a stacked bench is wide: two columns need less than three (ours).
const tallWidth = 740

// Bench draws the bench sheet: state and why not, sticks and switches, craft and link, the chart paper, and what can
// be done. In class view it shows less, larger.
func Bench(p *ink.Page, v *View) {
	b := newBoard(p, v)
	if v.Class {
		b.class()
		return
	}
	r := b.sheetArea()
	r = b.footer(r, OnBench)
	switch air := v.Snap.In.Air; {
	case air && b.tall:
		b.airStacked(r)
	case air:
		b.airWide(r)
	case b.tall:
		b.stacked(r)
	default:
		b.wide(r)
	}
}

// wide sets three columns: what the hands do, what the craft makes of it, and the record.
func (b *board) wide(r ink.Rect) {
	cols := r.Columns(b.v.cells[:0], b.gap*1.6, ink.Share(33, 0), ink.Share(33, 0), ink.Share(31, 0))
	b.v.cells = cols
	left, middle, right := cols[0], cols[1], cols[2]
	b.hands(left)
	b.judgement(middle)
	b.record(right)
}

// stacked sets two columns over the record.
func (b *board) stacked(r ink.Rect) {
	top, bottom := r.CutTop(r.H*0.48, b.gap)
	cols := top.Columns(b.v.cells[:0], b.gap*1.6, ink.Share(1, 0), ink.Share(1, 0))
	b.v.cells = cols
	left, right := cols[0], cols[1]
	b.hands(left)
	b.judgement(right)
	b.record(bottom)
}

// hands is the state of the craft, the sticks and the switches.
func (b *board) hands(r ink.Rect) {
	r = b.state(r)
	levers := b.leversHeight()
	sticks := r
	if levers > 0 {
		var low ink.Rect
		low, sticks = r.CutBottom(levers, b.gap)
		b.levers(low)
	}
	b.sticks(sticks)
}

// judgement is why not, and the craft.
func (b *board) judgement(r ink.Rect) {
	least := r.H * 0.3
	need, size := b.whyNeeds(r.W, r.H-b.craftLeast()-b.gap)
	top, rest := r.CutTop(clamp(need, least, r.H), b.gap)
	b.why(top, size)
	b.craft(rest)
}

// record is the link, the channels and the chart paper; while choosing between radios the choice stands first.
func (b *board) record(r ink.Rect) {
	if b.v.choosing() {
		r = b.choice(r)
	}
	r = b.link(r)
	r = b.channels(r)
	b.chart(r)
}

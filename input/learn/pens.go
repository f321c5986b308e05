package learn

import "propsoff.example/input"

// PenParts and PenPart rule the pens' paper in parts of time (ours): fine enough that a flick of a switch shows, and
// some seconds long.
const (
	PenParts = 150
	PenPart  = 40_000 // µs
)

// Pens is what every axis has drawn in the newest PenParts parts of time. Of each part the place is kept that lies farthest from
// where the part began, so that what was quick shows too.
type Pens struct {
	newest int64 // number of the newest part
	drawn  int   // parts that there are, at most PenParts
	parts  [PenParts][input.MaxAxes]int16
	start  [input.MaxAxes]int16 // of the newest part
	last   [input.MaxAxes]int16
	up     bool // lifted until the next part
}

// nowhere is the place of a pen that is lifted.
const nowhere = -1

// Parts are how many parts are drawn.
func (p *Pens) Parts() int { return p.drawn }

// At is where axis i was in a part of time, in tenths of a percent of its range; age 0 is the newest. ok is false where its pen was
// lifted: no such axis, no such part, or the device was gone.
func (p *Pens) At(i, age int) (share int, ok bool) {
	if i < 0 || i >= input.MaxAxes || age < 0 || age >= p.drawn {
		return 0, false
	}
	v := p.row(p.newest - int64(age))[i]
	return int(v), v != nowhere
}

func (p *Pens) row(part int64) *[input.MaxAxes]int16 { return &p.parts[part%PenParts] }

// run lets the paper run until at.
func (p *Pens) run(at int64) {
	if p.drawn == 0 {
		return
	}
	to := at / PenPart
	for p.newest = max(p.newest, to-PenParts); p.newest < to; {
		p.next()
	}
}

// next begins a part with all pens where they are.
func (p *Pens) next() {
	p.newest++
	p.drawn = min(p.drawn+1, PenParts)
	*p.row(p.newest), p.start, p.up = p.last, p.last, false
}

// draw puts the pens where the axes are.
func (p *Pens) draw(axes []track, at int64) {
	var now [input.MaxAxes]int16
	for i := range now {
		now[i] = nowhere
		if i < len(axes) && !axes[i].dead() {
			now[i] = int16(axes[i].place(axes[i].now))
		}
	}
	if p.drawn == 0 {
		p.newest, p.drawn, p.last = at/PenPart-1, 0, now
		p.next()
	}
	p.last = now
	if p.up {
		return
	}
	row := p.row(p.newest)
	for i := range now {
		if row[i] == nowhere || abs(int(now[i]-p.start[i])) >= abs(int(row[i]-p.start[i])) {
			row[i] = now[i]
		}
	}
}

// lift leaves a gap: what comes after it has nothing to do with what was before.
func (p *Pens) lift() {
	if p.drawn == 0 {
		return
	}
	for i := range p.last {
		p.last[i] = nowhere
	}
	*p.row(p.newest), p.up = p.last, true
}

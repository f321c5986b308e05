package prove

import (
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// Trying makes a way on the whole bench from movements that are worked out elsewhere, one a slot.
type Trying struct{ t *trial }

// NewTrying begins with what is told of everything at the beginning; the craft is without power.
func NewTrying(l *Layout, first []pulse.Reading) *Trying {
	t := &trial{l: l, p: practice.New(l.Config), zero: -1, begun: true}
	t.way.Steps = []Step{{Kind: Start, Control: -1}}
	t.run(append([]pulse.Reading{{Kind: pulse.Power}, {Kind: pulse.Cable}}, first...))
	return &Trying{t}
}

// At is the time of the next step in µs.
func (y *Trying) At() int64 { return (y.t.tick + int64(y.t.l.Config.SlotTicks)) * 1000 }

// Do makes one step, with what is then told.
func (y *Trying) Do(st Step, readings []pulse.Reading) { y.t.do(st, readings...) }

// Wait lets so many slots pass.
func (y *Trying) Wait(slots int) { y.t.wait(slots) }

// Armed reports whether the craft now is.
func (y *Trying) Armed() bool { return y.t.armed() }

// End finishes the way: what it claims is what the bench came to.
func (y *Trying) End() *Way { return y.t.end() }

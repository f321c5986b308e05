package drillrun

import (
	"propsoff.example/sim/drill"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/hand"
	"propsoff.example/sim/mark"
)

// Mark is what a screen may know of a mark that is followed.
type Mark struct {
	// On: one is followed. Config is it.
	On     bool
	Config mark.Config
	// Off is how far the craft is off it, in rad: the mark less the craft. Left is how much of it is still to come, Whole how long it is, in ticks.
	Off         float64
	Left, Whole int64
}

// told is how many ticks lie between two events that tell how far off the mark the craft is (ours: as fast as a terminal can be read).
const told = 50

// follow takes the mark on by the tick that was just run, and measures the hand where it has come to its end: some milliseconds' work, in which the
// loop may fall behind and catches up.
func (c *Coach) follow(ctl *flight.Control) {
	v, f := &c.view, &c.mark
	if f.Step(v.Config, &v.State, &c.in, ctl) {
		r := hand.Of(&f.Run.Record)
		c.in.Followed, c.in.Hand = true, r.Whole(&f.Run.Record)
	}
	v.Mark = Mark{On: f.On}
	if !f.On {
		return
	}
	whole := f.Run.Config.Ticks()
	v.Mark = Mark{On: true, Config: f.Run.Config, Off: f.Run.Off, Left: whole - f.Run.Tick, Whole: whole}
	if c.o.Told != nil && f.Run.Tick%told == 0 {
		c.o.Told(c.tick, drill.Event{Kind: drill.MarkMoved, Case: v.State.Case, Number: int32(f.Run.Off * 1000)}, v)
	}
}

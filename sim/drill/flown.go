package drill

import (
	"math"

	"propsoff.example/sim"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/vec"
)

// Flown is how the craft flies, as far as a drill may ask for it: whole numbers in the unit of each Bound. Its zero value is a craft on the desk.
type Flown struct {
	// On: the craft is on the air bench.
	On bool
	// Height, North and East are where its middle is, from the start, in mm; Along and Climb how fast it goes along the ground and up, in mm/s.
	Height, North, East int32
	Along, Climb        int32
	// Lean is how far it leans, whichever way, Bank how far to the right, Pitch how far its nose is up, and Nose where its nose points, 0 away from the pilot, who stands behind
	// the start, and to the right of that positive; all in tenths of a degree.
	Lean, Bank, Pitch, Nose int32
}

// The whole turn and half of it, in tenths of a degree.
const (
	wholeTurn = 3600
	halfTurn  = 1800
)

// flownOf takes from a snapshot how the craft flies.
func flownOf(s *sim.Snapshot) (f Flown) {
	if !s.In.Air {
		return f
	}
	b := &s.Air.Body
	up, nose, right := b.Att.Turn(vec.V{Z: 1}).Z, b.Att.Turn(vec.V{X: 1}), b.Att.Turn(vec.V{Y: 1}).Z
	tenths := halfTurn / math.Pi
	return Flown{
		On: true, Height: whole(-b.Pos.Z, 1000), North: whole(b.Pos.X, 1000), East: whole(b.Pos.Y, 1000),
		Along: whole(vec.V{X: b.Vel.X, Y: b.Vel.Y}.Norm(), 1000), Climb: whole(-b.Vel.Z, 1000),
		Lean: whole(vec.Arc(math.Sqrt(max(1-vec.Mul(up, up), 0)), up), tenths), Bank: whole(vec.Arc(right, up), tenths),
		Pitch: whole(vec.Arc(-nose.Z, vec.V{X: nose.X, Y: nose.Y}.Norm()), tenths), Nose: whole(vec.Arc(nose.Y, nose.X), tenths),
	}
}

// whole is a number in a smaller unit, rounded towards 0; what is beyond all bounds stays there.
func whole(x, per float64) int32 {
	const most = 1 << 30
	x = vec.Mul(x, per)
	if !(x > -most) { // nor a number
		return -most
	}
	return int32(min(x, most))
}

// Bound is one thing that a flown task keeps within limits.
type Bound uint8

// The bounds, each with its unit.
const (
	OfHeight   Bound = iota // mm
	OfNorth                 // mm north of the start, which is away from the pilot
	OfEast                  // mm east of the start, to the pilot's right
	OfDistance              // mm along the ground from Task.Mark
	OfSpeed                 // mm/s along the ground
	OfClimb                 // mm/s, up
	OfLean                  // tenths of a degree from level, whichever way
	OfBank                  // tenths of a degree to the right
	OfNose                  // tenths of a degree to either side of Task.Nose
	Bounds
)

// Span is from Low up to but not including High.
type Span struct{ Low, High int32 }

// The ends of a span that has none.
const (
	NoLow  = math.MinInt32
	NoHigh = math.MaxInt32
)

// Task is what a craft in the air is to keep to, all of it at once; its zero value asks for nothing.
type Task struct {
	// Set has a bit for each Bound that counts, Spans where it may be.
	Set   uint16
	Spans [Bounds]Span
	// Mark is the place on the ground from which OfDistance counts, north and east of the start in mm; Nose where the nose is to point.
	Mark [2]int32
	Nose int32
}

// Has reports whether a task says something of a bound.
func (t *Task) Has(b Bound) bool { return t.Set>>b&1 == 1 }

// Value is what a craft has of a bound, as the task counts it.
func (t *Task) Value(b Bound, f *Flown) int32 {
	switch b {
	case OfHeight:
		return f.Height
	case OfNorth:
		return f.North
	case OfEast:
		return f.East
	case OfDistance:
		n, e := float64(f.North-t.Mark[0]), float64(f.East-t.Mark[1])
		return whole(vec.V{X: n, Y: e}.Norm(), 1)
	case OfSpeed:
		return f.Along
	case OfClimb:
		return f.Climb
	case OfLean:
		return f.Lean
	case OfBank:
		return f.Bank
	case OfNose:
		off := (f.Nose - t.Nose) % wholeTurn
		if off = max(off, -off); off > halfTurn {
			off = wholeTurn - off
		}
		return off
	}
	return 0
}

// Off is on which side of its span a craft is with a bound: below it −1, above it 1, within it, or where nothing is said of it, 0.
func (t *Task) Off(b Bound, f *Flown) int {
	v, s := t.Value(b, f), t.Spans[b]
	switch {
	case !t.Has(b):
	case v < s.Low:
		return -1
	case v >= s.High && s.High != NoHigh:
		return 1
	}
	return 0
}

// Broken is the first bound that a craft does not keep to; ok is false where it keeps to all.
func (t *Task) Broken(f *Flown) (b Bound, ok bool) {
	for ; b < Bounds; b++ {
		if t.Off(b, f) != 0 {
			return b, true
		}
	}
	return 0, false
}

// Keeps reports whether a craft in the air keeps to the whole task.
func (t *Task) Keeps(f *Flown) bool {
	_, broken := t.Broken(f)
	return f.On && !broken
}

// flown reports whether a want is about how the craft flies: it takes a while to come about and hands cannot lie still meanwhile.
func (w *Want) flown() bool { return w.Kind == Flies || w.Kind == Leaves }

// Flown reports whether the craft is to fly in a certain way when the cue comes.
func (c *Case) Flown() bool {
	n := len(c.Before)
	if n == 0 {
		return false
	}
	for i := range c.Before[n-1].Until {
		if c.Before[n-1].Until[i].flown() {
			return true
		}
	}
	return false
}

// Asks is the set of bounds, a bit each, that a case asks for before its cue or after it; that it comes down softly is asked of OfClimb.
func (c *Case) Asks() (set uint16) {
	note := func(all []Want) {
		for i := range all {
			switch w := &all[i]; {
			case w.flown():
				set |= w.Task.Set
			case w.Kind == TouchesDown && (w.A > 0 || w.B != NoHigh):
				set |= 1 << OfClimb
			}
		}
	}
	for i := range c.Before {
		note(c.Before[i].Until)
	}
	note(c.Wants)
	note(c.Nevers)
	return set
}

// Blows reports whether a case puts wind on the air bench.
func (c *Case) Blows() bool {
	for i := range c.Set {
		if d := c.Set[i].Fault.Deed; d == fault.Breeze || d == fault.Gusts {
			return true
		}
	}
	return false
}

package drill

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/vec"
)

// turned is the attitude that heading, pitch and bank make, in this order, in degrees.
func turned(heading, pitch, bank float64) vec.Q {
	about := func(a float64, axis vec.V) vec.Q {
		s, c := math.Sincos(a * math.Pi / 360)
		return vec.Q{W: c, X: s * axis.X, Y: s * axis.Y, Z: s * axis.Z}
	}
	return about(heading, vec.V{Z: 1}).Mul(about(pitch, vec.V{Y: 1})).Mul(about(bank, vec.V{X: 1}))
}

// The angles are those of flight mechanics: the lean against level is the angle between two verticals, whose cosine is that of pitch times that of bank
// (element 33 of the direction cosine matrix; B. L. Stevens, F. L. Lewis, "Aircraft Control and Simulation", 1.3, from memory).
func TestAnglesAreThoseOfFlightMechanics(t *testing.T) {
	for _, heading := range []float64{0, 45, 90, 179, -90, -135} {
		for _, pitch := range []float64{-60, -5, 0, 12, 70} {
			for _, bank := range []float64{-170, -45, 0, 8, 90, 120} {
				s := sim.Snapshot{In: sim.Inputs{Air: true}}
				s.Air.Body.Att = turned(heading, pitch, bank)
				s.Air.Body.Pos, s.Air.Body.Vel = vec.V{X: 1.5, Y: -2.25, Z: -3.125}, vec.V{X: 3, Y: -4, Z: 0.5}
				f := flownOf(&s)
				lean := math.Acos(math.Cos(pitch*math.Pi/180)*math.Cos(bank*math.Pi/180)) * 180 / math.Pi
				assert.InDelta(t, heading*10, f.Nose, 1.01)
				assert.InDelta(t, pitch*10, f.Pitch, 1.01)
				assert.InDelta(t, bank*10, f.Bank, 1.01)
				assert.InDelta(t, lean*10, f.Lean, 1.01)
				assert.Equal(t, [5]int32{3125, 1500, -2250, 5000, -500}, [5]int32{f.Height, f.North, f.East, f.Along, f.Climb})
			}
		}
	}
	s := sim.Snapshot{In: sim.Inputs{Air: true}}
	s.Air.Body.Att, s.Air.Body.Pos.X, s.Air.Body.Vel.Z = vec.Q{W: 1}, math.Inf(1), math.NaN()
	f := flownOf(&s)
	assert.Equal(t, [2]int32{1 << 30, -1 << 30}, [2]int32{f.North, f.Climb}, "what is no number is beyond every bound, on each machine")
	s.In.Air = false
	assert.Zero(t, flownOf(&s))
}

// tasked is a task of one bound.
func tasked(b Bound, low, high int32) Task {
	t := Task{Set: 1 << b}
	t.Spans[b] = Span{low, high}
	return t
}

// A span has its low end and not its high one, like every span here; what nothing is said of is free.
func TestATaskKeepsToItsSpans(t *testing.T) {
	f := Flown{On: true, Height: 2000, North: 3000, East: 4000, Nose: 1700}
	for _, c := range []struct {
		task Task
		off  int
	}{
		{tasked(OfHeight, 2000, 2001), 0}, {tasked(OfHeight, 1000, 2000), 1}, {tasked(OfHeight, 2001, 3000), -1}, {tasked(OfHeight, NoLow, NoHigh), 0},
		{tasked(OfDistance, 0, 5001), 0}, {tasked(OfDistance, 0, 5000), 1},
		{Task{Set: 1 << OfDistance, Mark: [2]int32{3000, 4000}, Spans: [Bounds]Span{OfDistance: {0, 1}}}, 0},
		{Task{Set: 1 << OfNose, Nose: 1800, Spans: [Bounds]Span{OfNose: {0, 101}}}, 0}, // 10° from straight behind
		{Task{Set: 1 << OfNose, Nose: 2700, Spans: [Bounds]Span{OfNose: {0, 901}}}, 1}, // 100° from the left
	} {
		bound := Bound(0)
		for c.task.Has(bound) == false {
			bound++
		}
		assert.Equal(t, c.off, c.task.Off(bound, &f), "%+v", c.task)
		assert.Equal(t, c.off == 0, c.task.Keeps(&f))
	}
	other := f
	other.Nose = -1750 // across the seam
	assert.EqualValues(t, 50, (&Task{Nose: 1800}).Value(OfNose, &other))
	free := Task{}
	assert.True(t, free.Keeps(&f))
	assert.False(t, free.Keeps(&Flown{}), "nothing flies on the desk")
}

// hold is the drill of holding a height for 2 s, after it was reached.
func hold() *Config {
	return &Config{Code: "hold", Tries: 5, InARow: 3, Cases: []Case{{
		Before: []Preparation{{Until: []Want{{Kind: Flies, Task: tasked(OfHeight, 500, NoHigh)}}}}, WaitLow: 1000, WaitHigh: 1000,
		Wants: []Want{{Kind: Flies, Task: tasked(OfHeight, 1000, 3000), For: 2000}}, Within: 8000,
		Nevers: []Want{{Kind: Leaves, Task: tasked(OfHeight, NoLow, 9000)}, {Kind: TouchesDown, A: 1000, B: NoHigh}},
	}}}
}

// A craft that flies as it is to when the cue comes must go on so for the whole time from then on; hands that fly need not lie still; and who loses the
// height before the cue gets it back first, without a false start.
func TestAFlownTry(t *testing.T) {
	d := newDesk(hold(), 1)
	fly := func(height int32, ms int) {
		d.in.Facts.Flown = Flown{On: true, Height: height}
		for range ms {
			d.in.Facts.Held[Throttle] += 7 // never still
			d.run(1)
		}
	}
	fly(0, 500)
	assert.Equal(t, Preparing, d.s.Phase)
	fly(2000, 900)
	require.Equal(t, Waiting, d.s.Phase)
	fly(300, 1)
	assert.Equal(t, Preparing, d.s.Phase, "not a false start")
	assert.Empty(t, d.tries())
	fly(2000, 100)
	for d.s.Phase != Running {
		fly(2000, 1)
	}
	fly(2000, 1500)
	fly(999, 1)
	fly(1000, 1999)
	assert.Empty(t, d.tries(), "left once, it counts anew")
	fly(2999, 3)
	x := d.last(t)
	assert.Equal(t, Right, x.Verdict)
	assert.EqualValues(t, 1502+2000, x.Reaction, "it was left in tick 1501, and back in the one after that")
}

// flies is a try of hold under way: what comes of a way of heights, one each ms.
func flies(t *testing.T, cfg *Config, last []happening.Happening, heights ...[2]int) (Try, Did) {
	d, w := newDesk(cfg, 1), &Way{}
	one := func(height int32, happened ...happening.Happening) {
		d.in.Facts.Flown = Flown{On: true, Height: height}
		d.run(1, happened...)
		w.Step(&d.s, &d.in)
	}
	for d.s.Phase != Running {
		one(600)
	}
	for _, h := range heights {
		for range h[1] {
			if len(d.tries()) == 0 {
				one(int32(h[0]))
			}
		}
	}
	if len(d.tries()) == 0 {
		one(600, last...)
	}
	x := d.last(t)
	return x, DidOf(cfg, &x, w)
}

// What the craft did not keep to is told: the bound, on which side, by how much, and for how long it was kept.
func TestHowItFlewIsTold(t *testing.T) {
	x, did := flies(t, hold(), nil, [2]int{600, 9000})
	assert.Equal(t, StillMissing, x.Why)
	assert.Equal(t, Did{Kind: DidFly, Bound: OfHeight, Side: -1, Flew: 600}, did)

	_, did = flies(t, hold(), nil, [2]int{600, 1000}, [2]int{2000, 1400}, [2]int{3100, 200}, [2]int{2000, 300}, [2]int{600, 9000})
	assert.Equal(t, DidLeave, did.Kind)
	assert.InDelta(t, 1400, did.By, flownApart)
	assert.Equal(t, [3]int32{int32(OfHeight), 1, 3100}, [3]int32{int32(did.Bound), int32(did.Side), did.Flew})

	_, did = flies(t, hold(), nil, [2]int{600, 7000}, [2]int{2000, 9000})
	assert.Equal(t, DidBriefly, did.Kind)
	assert.InDelta(t, 1060, did.By, 2*flownApart)

	x, did = flies(t, hold(), nil, [2]int{2000, 500}, [2]int{9000, 9000})
	assert.Equal(t, NeverSeen, x.Why)
	assert.Equal(t, Did{Kind: DidFly, Bound: OfHeight, Side: 1, Flew: 9000}, did)

	x, did = flies(t, hold(), []happening.Happening{{Code: happening.TouchedDown, A: 1700}}, [2]int{2000, 500})
	assert.Equal(t, NeverSeen, x.Why)
	assert.Equal(t, Did{Kind: DidTouch, Flew: 1700}, did)
	soft := hold()
	soft.Cases[0].Wants = []Want{{Kind: TouchesDown, B: 1000}}
	x, _ = flies(t, soft, []happening.Happening{{Code: happening.TouchedDown, A: 999}}, [2]int{2000, 500})
	assert.Equal(t, Right, x.Verdict)
	x, _ = flies(t, soft, []happening.Happening{{Code: happening.TouchedDown, A: 1000}}, [2]int{2000, 500})
	assert.Equal(t, Wrong, x.Verdict)
}

// A flight longer than there is room for keeps its end.
func TestALongFlightKeepsItsEnd(t *testing.T) {
	var f Flight
	in := Input{Facts: Facts{Flown: Flown{On: true}}}
	for in.Tick = range int64(mostFlown+10) * flownApart {
		f.note(&in, false)
	}
	assert.Equal(t, mostFlown, f.Moments())
	assert.EqualValues(t, 10*flownApart, f.At(0).Tick)
	assert.EqualValues(t, (mostFlown+9)*flownApart, f.At(mostFlown-1).Tick)
}

func TestAFlownStepAllocatesNothing(t *testing.T) {
	cfg, s, w := hold(), Begin(1), &Way{}
	in, out := Input{}, Events{}
	snap := sim.Snapshot{In: sim.Inputs{Air: true}}
	snap.Air.Body.Att, snap.Air.Body.Pos.Z = vec.Q{W: 1}, -2
	craft := sim.Default()
	assert.Zero(t, testing.AllocsPerRun(5000, func() {
		in.Tick++
		in.Facts = FactsOf(&snap, &craft)
		in.Cued, in.CueAt = s.Phase == Running && s.CueAt < 0, in.Tick
		s = Step(cfg, s, &in, &out)
		w.Step(&s, &in)
	}))
}

// What a case asks for anywhere is what is shown as a figure: also that it comes down softly, but not that it does not come down at all.
func TestWhatACaseAsksFor(t *testing.T) {
	high, fast := Task{Set: 1 << OfHeight}, Task{Set: 1<<OfSpeed | 1<<OfNose}
	assert.Equal(t, uint16(1<<OfHeight|1<<OfSpeed|1<<OfNose), (&Case{Before: []Preparation{{Until: []Want{{Kind: Flies, Task: high}}}}, Wants: []Want{{Kind: Flies, Task: fast}}}).Asks())
	assert.Equal(t, uint16(1<<OfHeight), (&Case{Nevers: []Want{{Kind: Leaves, Task: high}, {Kind: TouchesDown, B: NoHigh}}}).Asks())
	assert.Equal(t, uint16(1<<OfClimb), (&Case{Wants: []Want{{Kind: TouchesDown, B: 1000}}}).Asks())
	assert.Zero(t, (&Case{Wants: []Want{{Kind: Armed, A: 1}}}).Asks())
}

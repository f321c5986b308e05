package ui

import (
	"math"
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/flightlog"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/vec"
)

// TrailTicks is how far back the trail and the replay go, and TrailEvery the distance of two points of the trail, in ticks (ours).
const (
	TrailTicks = 30_000
	TrailEvery = 20
)

// FlightView is what the sheets may know of a flight besides the snapshot. It counts while Snap.In.Air. Points later than
// Snap.Tick are not drawn, so the same slices serve a replay.
type FlightView struct {
	// Trail is where the craft has been, oldest first, at most TrailTicks back, a point every TrailEvery ticks; empty after it was
	// carried to another bench.
	Trail []TrailPoint
	// Followed is what was asked and what came of it, oldest first: the last live.ChartTicks, a point every live.PointTicks.
	Followed []FollowedPoint
	Pace     Pace
	Replay   Replay
	// From is whence the craft is seen on the bench.
	From Seen
	// Wreck is what there is of a wreck, Again of a flight that goes on from before one.
	Wreck Wreck
	Again Again
}

// Seen is whence a flight is seen.
type Seen uint8

// The ways to see a flight, in the order in which a key takes them.
const (
	Drawn     Seen = iota // three drawings, for those who teach
	FromPilot             // from where the pilot stands
	FromCraft             // through the camera on board
	seenCount
)

// Next is the one after it.
func (s Seen) Next() Seen { return (s + 1) % seenCount }

// BenchAfter is the bench to which a key takes a craft that is outside: from the stand to a held height, from there to the whole craft, and to the stand
// again, as values of an Air reading.
func BenchAfter(at int32) int32 {
	switch at {
	case pulse.OnStand:
		return pulse.HeightHeld
	case pulse.HeightHeld:
		return pulse.InAir
	}
	return pulse.OnStand
}

// TrailPoint is the craft's place at one tick. Make it with NextTrailPoint.
type TrailPoint struct {
	Tick int64
	// Pos is in m, north, east, down.
	Pos vec.V
	// Facing is the way in which the eyes behind and beside the craft look, in rad from north clockwise: the heading, held while
	// the craft stands steeper than faceLimit, so that no view jumps over in a loop.
	Facing float64
}

// FollowedPoint is what was asked of the craft and what it did at one tick, about roll, pitch and yaw in this order. Make it with
// FollowedOf.
type FollowedPoint struct {
	Tick int64
	// Any is false while nothing is asked, as with still motors.
	Any bool
	// Asked and Rate are rates in rad/s: right, nose up, and right (clockwise from above) are positive.
	Asked, Rate [3]float64
	// AskedBank, AskedPitch, Bank and Pitch are angles in degrees, right and nose up positive; those asked count where Level > 0.
	AskedBank, AskedPitch, Bank, Pitch float64
	// Level is the share of self-levelling in what is asked, 0…1.
	Level float64
}

// Pace is how the time of the flight runs.
type Pace struct {
	Paused bool
	// Slow is by how many times slower than life it runs: 1, 4 or 10; 0 counts as 1.
	Slow int
}

// NextSlow is the pace after one of 1, 4 and 10.
func NextSlow(slow int) int { return map[int]int{0: 4, 1: 4, 4: 10, 10: 1}[slow] }

// The hit areas of a look back without an action of their own: a second back and on, and the bar, along which it is drawn.
const (
	ReplayBack = "replay-back"
	ReplayOn   = "replay-on"
	ReplayBar  = "replay-bar"
)

// Replay is a look back: while On, View.Snap is the snapshot of that moment.
type Replay struct {
	On bool
	// At is how far into the replay it stands and Length how long it is, both in ms.
	At, Length int64
	// Marked: at Mark, in ms into the replay, is the last moment at which the craft could have been saved.
	Marked bool
	Mark   int64
}

// faceLimit is the tilt in rad beyond which the eye behind the craft no longer turns with it (ours: 60°).
const faceLimit = math.Pi / 3

// NextTrailPoint is the point of a snapshot; last is the point before, nil for the first.
func NextTrailPoint(last *TrailPoint, s *sim.Snapshot) TrailPoint {
	b := &s.Air.Body
	p := TrailPoint{Tick: s.Tick, Pos: b.Pos, Facing: HeadingOf(b.Att)}
	if last != nil && b.Att.Turn(vec.V{Z: 1}).Z < math.Cos(faceLimit) {
		p.Facing = last.Facing
	}
	return p
}

// HeadingOf is where the nose points, rad from north clockwise.
func HeadingOf(q vec.Q) float64 {
	nose := q.Unit().Turn(vec.V{X: 1})
	if math.Hypot(nose.X, nose.Y) < 1e-9 {
		return 0
	}
	return math.Atan2(nose.Y, nose.X)
}

// Facing is the way in which the eye behind the craft looks now, rad.
func Facing(s *sim.Snapshot, trail []TrailPoint) float64 {
	for i := len(trail) - 1; i >= 0; i-- {
		if trail[i].Tick <= s.Tick {
			p := NextTrailPoint(&trail[i], s)
			return p.Facing
		}
	}
	return HeadingOf(s.Air.Body.Att)
}

// FollowedOf is the point of a snapshot.
func FollowedOf(s *sim.Snapshot, cfg *sim.Config) FollowedPoint {
	a := &s.Air
	p := FollowedPoint{Tick: s.Tick, Any: asks(s), Level: a.Asked.Level}
	p.Asked = [3]float64{a.Asked.Rate.X, a.Asked.Rate.Y, a.Asked.Rate.Z}
	p.Rate = [3]float64{a.Body.Spin.X, a.Body.Spin.Y, a.Body.Spin.Z}
	p.Bank, p.Pitch, _ = flightlog.Angles(a.Body.Att.Unit())
	h := heldSticks(s)
	bank, pitch := cfg.Control.Banks(s.Mode, h.roll, h.pitch)
	p.AskedBank, p.AskedPitch = bank*180/math.Pi, pitch*180/math.Pi
	return p
}

// asks tells whether anything is asked of the craft: with still motors nothing is.
func asks(s *sim.Snapshot) bool {
	return slices.ContainsFunc(s.Motor[:], func(m uint16) bool { return m > 0 })
}

// held is what the craft takes for the sticks, −1…1; right, forward and right are positive.
type held struct{ roll, pitch, yaw float64 }

// heldSticks are the sticks of the last frame; a sinking craft takes them for centred.
func heldSticks(s *sim.Snapshot) held {
	if s.Sinking {
		return held{}
	}
	at := func(w pulse.Width) float64 {
		if !w.Valid() {
			return 0
		}
		return Clamp(float64(w-pulse.Centre)/float64(pulse.Travel), -1, 1)
	}
	return held{roll: at(s.Jobs.Roll), pitch: at(s.Jobs.Pitch), yaw: at(s.Jobs.Yaw)}
}

// ghostAhead is how far ahead of the craft its ghost is in rate, s (ours).
const ghostAhead = 0.2

// Ghost is the attitude that the sticks ask for: in angle the bank and pitch asked; in rate where the rate asked would have
// turned the craft in ghostAhead seconds; in horizon between the two, by the share of self-levelling. False where nothing is asked.
func Ghost(s *sim.Snapshot, cfg *sim.Config) (vec.Q, bool) {
	if !s.In.Air || !asks(s) || s.Air.Tipped && !s.Air.Flying { // one that lies on its back answers nothing
		return vec.Q{W: 1}, false
	}
	att := s.Air.Body.Att.Unit()
	h, c := heldSticks(s), &cfg.Control
	yaw := c.Curve[2].Rate(h.yaw)
	rate := att.Mul(TurnBy(vec.V{X: c.Curve[0].Rate(h.roll), Y: -c.Curve[1].Rate(h.pitch), Z: yaw}.Scale(ghostAhead)))
	mode := s.Mode
	if s.Sinking {
		mode = layout.Angle
	}
	level := flight.Levelling(mode, h.roll, h.pitch)
	if level <= 0 {
		return rate.Unit(), true
	}
	// The shortest way to where "down" lies as asked, then the turn about the vertical.
	asked, down := c.Tilt(mode, h.roll, h.pitch), att.Back(vec.V{Z: 1})
	angle := TurnBy(vec.V{Z: yaw * ghostAhead}).Mul(att.Mul(between(asked, down)))
	if dot := angle.W*rate.W + angle.X*rate.X + angle.Y*rate.Y + angle.Z*rate.Z; dot < 0 {
		rate = vec.Q{W: -rate.W, X: -rate.X, Y: -rate.Y, Z: -rate.Z}
	}
	mix := vec.Q{}.Plus(level, angle).Plus(1-level, rate)
	return mix.Unit(), true
}

// TurnBy is the turn about an axis by its length in rad.
func TurnBy(a vec.V) vec.Q {
	n := a.Norm()
	if n < 1e-12 {
		return vec.Q{W: 1}
	}
	s, c := math.Sincos(n / 2)
	a = a.Scale(s / n)
	return vec.Q{W: c, X: a.X, Y: a.Y, Z: a.Z}
}

// between is the shortest turn from one direction to another; a half turn is one about the forward axis.
func between(from, to vec.V) vec.Q {
	axis := from.Cross(to)
	n, cos := axis.Norm(), from.Dot(to)
	if n < 1e-9 {
		if cos > 0 {
			return vec.Q{W: 1}
		}
		return vec.Q{X: 1}
	}
	return TurnBy(axis.Scale(math.Atan2(n, cos) / n))
}

// FlightFacts are what a sentence on the flight needs.
func (v *View) FlightFacts(s *sim.Snapshot) tell.Flight {
	bank, pitch, _ := flightlog.Angles(s.Air.Body.Att.Unit())
	var again words.Text
	if v.usual(StandAgain) {
		again = v.Named(StandAgain, OnBench)
	}
	var sink *facts.Sink
	if v.Facts.SinkKnown && s == &v.Snap { // the facts are that craft's
		sink = &v.Facts.Sink
	}
	return tell.Flight{
		Sink: sink, Up: s.Jobs.Throttle > pulse.Centre, Reaches: v.Facts.Reaches() && v.Facts.Tried && !v.Facts.Unsure, Powered: s.In.Powered, Armed: s.Armed, Sinking: s.Sinking, Ground: facts.OnGround(s, &v.Config.Body),
		Bank: bank, Pitch: pitch, Tilt: TiltOf(s.Air.Body.Att), Climb: -s.Air.Body.Vel.Z, Again: again, Wreck: s.Air.Wreck != 0, Hung: s.In.Hung, Held: s.In.Held, HeldAt: s.Air.Hold,
		Bare: facts.Bare(s), InWash: facts.InWash(s, &v.Config.Body), Dying: facts.Dying(s, &v.Config.Body),
	}
}

// TiltOf is how far an attitude is from level, degrees.
func TiltOf(q vec.Q) float64 {
	return math.Acos(Clamp(q.Unit().Turn(vec.V{Z: 1}).Z, -1, 1)) * 180 / math.Pi
}

// How is what to do now, as it is said on a sheet: that of the bench, or what a replay and a pause ask for.
func (v *View) How(on Place) words.Text {
	switch w := &v.Flight.Wreck; {
	case v.Flight.Replay.On:
		return words.Row(w.Saved(v.Snap.Tick), words.T("flight.replay-how", words.Args{"key": v.KeyFor(ReplayFlight, on)}))
	case v.Flight.Again.Waits:
		return tell.FlyAgain(&v.Flight.Again.Hands, v.KeyFor(PauseFlight, on))
	case w.Is && !v.Flight.Pace.Paused:
		replay, again := v.KeyFor(ReplayFlight, on), v.KeyHere(FlyAgain, on)
		if again.Empty() {
			again = v.KeyFor(FlyAgain, on)
		} else { // whoever can go on here need not look back elsewhere
			replay = v.KeyHere(ReplayFlight, on)
		}
		var whose words.Text
		if on == OnThree { // where others can break too
			whose = words.T("three.own-broke", words.Args{"mode": tell.Mode(v.Snap.Mode)})
		}
		return words.Row(whose, w.Saved(v.Snap.Tick), tell.AtOnce(w.Found), tell.LessonKeys(replay, again, w.Back))
	case v.Flight.Pace.Paused:
		return words.T("flight.paused-how", words.Args{"key": v.KeyFor(PauseFlight, on), "step": v.KeyFor(StepFlight, on)})
	}
	return tell.Next(&v.Facts, v.KeyWords(on))
}

// HowKey is the action whose key the sentence of How asks for first, NoAction where hands do what it says.
func (v *View) HowKey(on Place) (a Action) {
	switch next := v.Facts.Next(); {
	case v.Flight.Replay.On, v.Flight.Wreck.Is && !v.Flight.Pace.Paused:
		a = ReplayFlight
	case v.Flight.Pace.Paused:
		a = PauseFlight
	case v.Playing() || v.Facts.Plain:
	case next == facts.NextPack:
		a = SwitchPack
	case next == facts.NextRadio && v.Facts.Silent == facts.SwitchedOff && !v.Facts.RadioWaits():
		a = SwitchRadio
	}
	if a == ReplayFlight && v.Flight.Wreck.Is && !v.Shows(a, on) {
		a = FlyAgain
	}
	if a != NoAction && !v.Shows(a, on) {
		a = NoAction
	}
	return a
}

// Standing is the mode, and on the desk bench the motors, in one line.
func (v *View) Standing() words.Text {
	if v.HideMode {
		return words.T("drill.mode-hidden")
	}
	if v.Snap.In.Air {
		return tell.FlightStanding(&v.Snap)
	}
	return tell.Standing(&v.Snap, v.Config)
}

// WillBe tells whether something is on once time goes on: it is now, or was told so while time stands.
func (v *View) WillBe(k pulse.Kind, now bool) bool {
	if v.Waiting.Has(k) {
		return v.Waiting.Of(k, 0) != 0
	}
	return now
}

// Waits says what comes about once time goes on; nothing where nothing waits.
func (v *View) Waits() words.Text {
	var all []words.Text
	in := &v.Snap.In
	for _, w := range [...]struct {
		k    pulse.Kind
		now  bool
		name string
	}{{pulse.Link, in.Transmitter, "radio"}, {pulse.Power, in.Powered, "pack"}, {pulse.Cable, in.Craft.Cable, "cable"}} {
		if on := v.WillBe(w.k, w.now); on != w.now {
			all = append(all, words.Of("flight.waits-for", w.name, words.Args{"on": words.Flag(on)}))
		}
	}
	if v.Waiting.Has(pulse.Tilt) || v.Waiting.Has(pulse.Nudge) || v.Waiting.Has(pulse.Menu) {
		all = append(all, words.Of("flight.waits-for", "else"))
	}
	if len(all) == 0 {
		return words.Text{}
	}
	return words.T("flight.waits", words.Args{"what": words.Clauses(all...)})
}

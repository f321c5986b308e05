package sheet

import (
	"math"

	"propsoff/cmd/propsoff/internal/flown"
	"propsoff/sim"
	"propsoff/sim/body"
	"propsoff/sim/flight"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
	"propsoff/sim/vec"
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
	// Followed is what was asked and what came of it, oldest first: the last loop.ChartTicks, a point every loop.PointTicks.
	Followed []FollowedPoint
	Pace     Pace
	Replay   Replay
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

// NextSlow is the pace after one.
func NextSlow(slow int) int {
	switch {
	case slow <= 1:
		return 4
	case slow < 10:
		return 10
	}
	return 1
}

// Replay is a look back: while On, View.Snap is the snapshot of that moment.
type Replay struct {
	On bool
	// At is how far into the replay it stands and Length how long it is, both in ms.
	At, Length int64
}

// faceLimit is the tilt in rad beyond which the eye behind the craft no longer turns with it (ours: 60°).
const faceLimit = math.Pi / 3

// NextTrailPoint is the point of a snapshot; last is the point before, nil for the first.
func NextTrailPoint(last *TrailPoint, s *sim.Snapshot) TrailPoint {
	b := &s.Air.Body
	p := TrailPoint{Tick: s.Tick, Pos: b.Pos, Facing: headingOf(b.Att)}
	if last != nil && b.Att.Turn(vec.V{Z: 1}).Z < math.Cos(faceLimit) {
		p.Facing = last.Facing
	}
	return p
}

// headingOf is where the nose points, rad from north clockwise.
func headingOf(q vec.Q) float64 {
	nose := q.Unit().Turn(vec.V{X: 1})
	if math.Hypot(nose.X, nose.Y) < 1e-9 {
		return 0
	}
	return math.Atan2(nose.Y, nose.X)
}

// facing is the way in which the eye behind the craft looks now, rad.
func facing(s *sim.Snapshot, trail []TrailPoint) float64 {
	for i := len(trail) - 1; i >= 0; i-- {
		if trail[i].Tick <= s.Tick {
			p := NextTrailPoint(&trail[i], s)
			return p.Facing
		}
	}
	return headingOf(s.Air.Body.Att)
}

// FollowedOf is the point of a snapshot.
func FollowedOf(s *sim.Snapshot, cfg *sim.Config) FollowedPoint {
	a := &s.Air
	p := FollowedPoint{Tick: s.Tick, Any: asks(s), Level: a.Asked.Level}
	p.Asked = [3]float64{a.Asked.Rate.X, a.Asked.Rate.Y, a.Asked.Rate.Z}
	p.Rate = [3]float64{a.Body.Spin.X, a.Body.Spin.Y, a.Body.Spin.Z}
	p.Bank, p.Pitch, _ = flown.Angles(a.Body.Att.Unit())
	h := heldSticks(s)
	limit := cfg.Control.BankLimit * 180 / math.Pi
	p.AskedBank, p.AskedPitch = h.roll*limit, -h.pitch*limit
	return p
}

// asks tells whether anything is asked of the craft: with still motors nothing is.
func asks(s *sim.Snapshot) bool {
	for _, m := range s.Motor {
		if m > 0 {
			return true
		}
	}
	return false
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
		return clamp(float64(w-pulse.Centre)/float64(pulse.Travel), -1, 1)
	}
	return held{roll: at(s.Jobs.Roll), pitch: at(s.Jobs.Pitch), yaw: at(s.Jobs.Yaw)}
}

// ghostAhead is how far ahead of the craft its ghost is in rate, s (ours).
const ghostAhead = 0.2

// ghost is the attitude that the sticks ask for: in angle the bank and pitch asked; in rate where the rate asked would have
// turned the craft in ghostAhead seconds; in horizon between the two, by the share of self-levelling. False where nothing is asked.
func ghost(s *sim.Snapshot, cfg *sim.Config) (vec.Q, bool) {
	if !s.In.Air || !asks(s) || s.Air.Tipped && !s.Air.Flying { // one that lies on its back answers nothing
		return vec.Q{W: 1}, false
	}
	att := s.Air.Body.Att.Unit()
	h, c := heldSticks(s), &cfg.Control
	yaw := c.Curve[2].Rate(h.yaw)
	rate := att.Mul(turnBy(vec.V{X: c.Curve[0].Rate(h.roll), Y: -c.Curve[1].Rate(h.pitch), Z: yaw}.Scale(ghostAhead)))
	level := s.Air.Asked.Level
	if s.Sinking || s.Mode == layout.Angle {
		level = 1
	}
	if level <= 0 {
		return rate.Unit(), true
	}
	// The shortest way to where "down" lies as asked, then the turn about the vertical.
	asked, down := c.Tilt(h.roll, h.pitch), att.Back(vec.V{Z: 1})
	angle := turnBy(vec.V{Z: yaw * ghostAhead}).Mul(att.Mul(between(asked, down)))
	if dot := angle.W*rate.W + angle.X*rate.X + angle.Y*rate.Y + angle.Z*rate.Z; dot < 0 {
		rate = vec.Q{W: -rate.W, X: -rate.X, Y: -rate.Y, Z: -rate.Z}
	}
	mix := vec.Q{}.Plus(level, angle).Plus(1-level, rate)
	return mix.Unit(), true
}

// turnBy is the turn about an axis by its length in rad.
func turnBy(a vec.V) vec.Q {
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
	return turnBy(axis.Scale(math.Atan2(n, cos) / n))
}

// clearance is how far the craft's lowest corner is above the ground, m.
func clearance(s *sim.Snapshot, cfg *body.Config) float64 {
	low := math.Inf(1)
	att := s.Air.Body.Att.Unit()
	for i := range 2 * flight.Motors {
		corner := vec.V{X: cfg.ArmForward, Y: cfg.ArmRight, Z: cfg.HalfHeight}
		if i&1 == 1 {
			corner.X = -corner.X
		}
		if i&2 == 2 {
			corner.Y = -corner.Y
		}
		if i&4 == 4 {
			corner.Z = -corner.Z
		}
		low = min(low, -s.Air.Body.Pos.Z-att.Turn(corner).Z)
	}
	return max(low, 0)
}

// onGround tells whether the craft touches the ground, or nearly so: 2 cm (ours).
func onGround(s *sim.Snapshot, cfg *body.Config) bool { return clearance(s, cfg) < 0.02 }

// showsFlight tells whether an action of the flight is there to be done; known is false for all others.
func (v *View) showsFlight(a Action) (shows, known bool) {
	in := &v.Snap.In
	switch a {
	case OpenThree:
		return in.Air, true
	case PauseFlight, SlowFlight, ReplayFlight: // an instructor stops time on either bench
		return in.Air || v.Desk.Used, true
	case StepFlight:
		return (in.Air || v.Desk.Used) && v.Flight.Pace.Paused, true
	case StandAgain:
		return in.Air && !v.Flight.Replay.On, true
	case TurnPropeller, PropellersChecked, NextMotor:
		return !v.playing(), true
	case GoOut:
		return in.Air || v.First.Ready(), true
	case NudgeCraft:
		return !in.Air, true
	case TiltCraft: // in the air the hand that holds the craft is gone; what it left behind can be put right
		return !in.Air || in.Craft.TiltTenths != 0, true
	case PlugCable:
		return (!in.Air || in.Craft.Cable) && !v.Facts.CableHeld, true
	case TurnMenu:
		return !in.Air || in.Craft.Menu != pulse.MenuClosed, true
	}
	return false, false
}

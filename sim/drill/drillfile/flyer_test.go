package drillfile_test

import (
	"math"
	"slices"

	"propsoff.example/sim/drill"
	"propsoff.example/sim/hover"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/vec"
)

// flyer is a made pilot: he sees how the craft flies, late as a person does, and moves the sticks, 50 times a second. From place to speed to lean to
// stick in angle, where in rate the lean is turned by hand. His gains leave room: the craft's constants are not his.
type flyer struct {
	// lag is how old what he sees is, in ms.
	lag int64
	// letsGo: once the craft is over the square that it is to stay in, and slower than this in m/s, he takes the hand from roll and pitch; 0: never.
	letsGo float64

	on, landing bool
	task        drill.Task
	seen        []sight
	trim        float64 // what he has learned of the throttle that holds, as a share of full
	held        vec.V   // and of the lean against the wind or the drag, to the north and the east, rad
	spoiled     bool    // he flies no more
	free        bool    // he has let go
}

// sight is what a pilot saw at one moment: north, east and up in m and m/s, his craft's nose, and how far it leans forward and to the right, rad.
type sight struct {
	at, vel             vec.V
	nose, ahead, across float64
}

// glance is how often he looks and moves, in ms.
const glance = 20

func (f *flyer) off() {
	f.on, f.landing, f.spoiled, f.free, f.trim, f.held, f.seen = false, false, false, false, 0, vec.V{}, f.seen[:0]
}

// to has him fly to a task.
func (f *flyer) to(t *drill.Task) { f.on, f.landing, f.task = true, false, *t }

// land has him come down where he is.
func (f *flyer) land() { f.on, f.landing = true, true }

// sees is what is to be seen now.
func sees(l *lab) sight {
	b := &l.snap.Air.Body
	n, r := b.Att.Turn(vec.V{X: 1}), b.Att.Turn(vec.V{Y: 1})
	return sight{at: vec.V{X: b.Pos.X, Y: b.Pos.Y, Z: -b.Pos.Z}, vel: vec.V{X: b.Vel.X, Y: b.Vel.Y, Z: -b.Vel.Z},
		nose: math.Atan2(n.Y, n.X), ahead: math.Asin(min(max(n.Z, -1), 1)), across: math.Asin(min(max(r.Z, -1), 1))}
}

// mid is the middle of a span, in m or m/s; so far within the end that it has where it has only one.
func mid(s drill.Span, in float64) float64 {
	switch {
	case s.Low == drill.NoLow:
		return float64(s.High)/1000 - in
	case s.High == drill.NoHigh:
		return float64(s.Low)/1000 + in
	}
	return float64(s.Low+s.High) / 2000
}

// aim is where he flies to, and how fast he wants to go where the task asks for that.
func (f *flyer) aim() (at vec.V, speed, climb float64) {
	t := &f.task
	at = vec.V{X: float64(t.Mark[0]) / 1000, Y: float64(t.Mark[1]) / 1000, Z: 2}
	if t.Has(drill.OfNorth) {
		at.X, at.Y = mid(t.Spans[drill.OfNorth], 0), mid(t.Spans[drill.OfEast], 0)
	}
	if t.Has(drill.OfHeight) {
		at.Z = mid(t.Spans[drill.OfHeight], 0.7)
	}
	if t.Has(drill.OfSpeed) && t.Spans[drill.OfSpeed].Low > 0 {
		speed = mid(t.Spans[drill.OfSpeed], 0.7)
	}
	if t.Has(drill.OfClimb) {
		climb = mid(t.Spans[drill.OfClimb], 0.5)
	}
	return at, speed, climb
}

func within(x, most float64) float64 { return min(max(x, -most), most) }

// steer moves the sticks, where he flies.
func (f *flyer) steer(l *lab) {
	if l.in.Tick%glance != 0 || !l.snap.In.Air {
		return
	}
	if f.seen = append(f.seen, sees(l)); int64(len(f.seen)) > f.lag/glance+1 {
		f.seen = f.seen[1:]
	}
	if !f.on || f.spoiled {
		return
	}
	s, lay, cfg := &f.seen[0], l.layout(), l.p.Bench().Config()
	at, speed, climb := f.aim()

	up := within(0.8*(at.Z-s.at.Z), 1)
	switch {
	case f.landing:
		up = -min(max(0.5*(s.at.Z-cfg.Body.HalfHeight), 0.3), 0.8)
	case climb != 0:
		up = climb
	}
	f.trim = within(f.trim+0.02*(up-s.vel.Z)*glance/1000, 0.1)
	throttle := float64(hover.Throttle(cfg)-pulse.Micros(1000))/pulse.Eighths/1000 + 0.03*(up-s.vel.Z) + f.trim
	l.move(lay.Throttle, pulse.Micros(1000)+pulse.Width(within(throttle, 0.9)*1000*pulse.Eighths))

	want := vec.V{X: within(0.5*(at.X-s.at.X), 1.5), Y: within(0.5*(at.Y-s.at.Y), 1.5)}
	if speed > 0 {
		want = vec.V{X: speed}
	}
	const learns = 0.03 * glance / 1000
	f.held = vec.V{X: within(f.held.X+learns*(want.X-s.vel.X), 0.3), Y: within(f.held.Y+learns*(want.Y-s.vel.Y), 0.3)}
	lean := vec.V{X: f.held.X + within(0.11*(want.X-s.vel.X), 0.25), Y: f.held.Y + within(0.11*(want.Y-s.vel.Y), 0.25)} // rad, to the north and the east
	sin, cos := math.Sincos(s.nose)
	forward, right := lean.X*cos+lean.Y*sin, lean.Y*cos-lean.X*sin
	if bank := f.task.Spans[drill.OfBank]; f.task.Has(drill.OfBank) {
		forward, right = 0, 0.2+float64(bank.Low)/1800*math.Pi
		if bank.Low == drill.NoLow {
			right = float64(bank.High)/1800*math.Pi - 0.2
		}
	} else if f.task.Has(drill.OfLean) {
		forward, right = 0, 0
	}
	if l.snap.Mode == layout.Angle {
		forward, right = forward/cfg.Control.BankLimit, right/cfg.Control.BankLimit
	} else { // as fast as it is away from where it is to lean
		forward, right = f.turn(l, 1, 2*(forward+s.ahead)), f.turn(l, 0, 2*(right-s.across))
	}
	off := vec.V{X: at.X - s.at.X, Y: at.Y - s.at.Y}
	stands := off.Norm() < 0.8 && (vec.V{X: s.vel.X, Y: s.vel.Y}).Norm() < f.letsGo
	if f.free = f.free || stands && f.task.Has(drill.OfNorth); f.free {
		forward, right = 0, 0
	}
	stick(l, lay.Pitch, forward)
	stick(l, lay.Roll, right)
	yaw := math.Remainder(float64(f.task.Nose)/1800*math.Pi-s.nose, 2*math.Pi)
	stick(l, lay.Yaw, f.turn(l, 2, within(yaw, 0.6)))
}

// turn is the stick that asks for a rate about an axis, as far as he knows the curve: its straight part.
func (f *flyer) turn(l *lab, axis int, rate float64) float64 {
	c := l.p.Bench().Config().Control.Curve[axis]
	return rate / (c.Full * (1 - c.Exponential))
}

func stick(l *lab, channel int8, x float64) {
	l.move(channel, pulse.Centre+pulse.Width(within(x, 1)*float64(pulse.Travel)))
}

// spoil is what a careless pilot does: he drops the craft that is to land softly, flies off, lets it turn over, climbs on. It tells whether a case forbids
// any of that.
func (f *flyer) spoil(l *lab, c *drill.Case) bool {
	lay := l.layout()
	never := func(is func(w *drill.Want) bool) bool {
		return slices.ContainsFunc(c.Nevers, func(w drill.Want) bool { return is(&w) })
	}
	leaves := func(b drill.Bound) bool {
		return never(func(w *drill.Want) bool { return w.Kind == drill.Leaves && w.Task.Has(b) })
	}
	f.spoiled = f.on && c.Flown()
	switch {
	case never(func(w *drill.Want) bool { return w.Kind == drill.TouchesDown && w.A > 0 }):
		l.move(lay.Throttle, pulse.Low)
	case leaves(drill.OfLean):
		l.move(lay.Mode, pulse.High)
		l.move(lay.Roll, pulse.High)
	case leaves(drill.OfDistance):
		f.spoiled, f.task.Mark = false, [2]int32{1_000_000, 0}
		f.task.Set &^= 1<<drill.OfNorth | 1<<drill.OfEast
	case leaves(drill.OfHeight):
		l.move(lay.Throttle, pulse.High)
	default:
		return false
	}
	return true
}

package facts

import (
	"math"

	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/hover"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/vec"
)

// Sink is what comes of a craft that sinks, by the model: Climbs more metres first, and is Falls metres lower when it cuts, Speed m/s fast
// downwards; a craft that was higher falls from there. Lands: it comes to the ground before that, at Speed.
type Sink struct {
	Climbs, Falls, Speed float64
	Lands                bool
}

// sinkMost bounds how long is looked, in ms: the longest sinking and the longest silence limit.
const sinkMost = 40_000

// sinkOf steps a practice whose radio is silent until it is disarmed or on the ground.
func sinkOf(p *practice.Practice) Sink {
	at := p.Bench().State().Air.Body.Pos.Z
	top := at
	var s sim.State
	for range sinkMost {
		p.Step(nil)
		s = p.Bench().State()
		top = min(top, s.Air.Body.Pos.Z)
		if !s.Slot.Arming.Armed || !s.Air.Flying {
			break
		}
	}
	return Sink{Climbs: at - top, Falls: s.Air.Body.Pos.Z - at, Speed: s.Air.Body.Vel.Z, Lands: !s.Air.Flying}
}

// sinking is what was found of a craft that sinks: since when it does, what stood outside then, and the heights, in m, of its top and its end.
type sinking struct {
	since    int64
	in       sim.Inputs
	top, end float64
	sink     Sink
}

// sink tells what comes of a craft that sinks in the air while nothing of the radio reaches it. It is found once for each sinking, and anew where something outside changes, as the wind.
func (t *Teller) sink(f *Facts) {
	s := &f.Snap
	if !s.Sinking || !s.In.Air || !s.Air.Flying || f.Reaches() {
		t.sinking = sinking{}
		return
	}
	height := -s.Air.Body.Pos.Z
	since := s.Tick - int64(t.slots(t.cfg().Arming.SinkSlots)) + int64(s.SinkLeftMillis)
	in := s.In
	in.Sent, in.Craft = pulse.Frame{}, arming.Conditions{} // which change nothing about it
	if k := &t.sinking; k.since == 0 || k.in != in || since-k.since > int64(t.slots(1)) || k.since-since > int64(t.slots(1)) {
		t.begin()
		*k = sinking{since: max(since, 1), in: in, sink: sinkOf(&t.what)}
		k.top, k.end = height+k.sink.Climbs, height-k.sink.Falls
	}
	f.Sink, f.SinkKnown = t.sinking.sink, true
	f.Sink.Climbs, f.Sink.Falls = 0, height-t.sinking.end
	if s.Air.Body.Vel.Z < 0 { // else its top is behind it
		f.Sink.Climbs = max(t.sinking.top-height, 0)
	}
}

// SinkFromHover is what comes of a craft that hovers high up, its pack full, when its radio goes silent; ok is false for one that does not
// sink then. It takes some milliseconds.
func SinkFromHover(craft *sim.Config) (Sink, bool) {
	cfg := *craft
	cfg.Link.OnLoss = link.FallsSilent
	return sinkOf(hover.At(cfg, hover.High, false)), cfg.Arming.SinkSlots > 0
}

// HoverThrottle is the throttle at which a craft hovers, its pack full.
func HoverThrottle(craft *sim.Config) pulse.Width { return hover.Throttle(craft) }

// Horizon is what a stick that is held does in horizon, as shares of its travel, in whatever direction: up to Steady the craft comes to a
// bank of less than 80° and keeps it; from Over on it turns over. It follows from the rates that are asked, as if they were followed at
// once.
type Horizon struct{ Steady, Over float64 }

// HorizonOf measures it over the directions of the stick, to 1 % of travel. It takes some tens of milliseconds.
func HorizonOf(craft *sim.Config) Horizon {
	h := Horizon{Steady: 1}
	for turn := range 16 {
		a := float64(turn) * math.Pi / 8
		// The greatest travel for which a thing does not come yet: it comes for all that is greater.
		before := func(comes float64) float64 {
			low, high := 0.5, 1.01
			for high-low > 0.0101 {
				mid := (low + high) / 2
				if heldBank(&craft.Control, mid*math.Cos(a), mid*math.Sin(a), comes) >= comes {
					high = mid
				} else {
					low = mid
				}
			}
			return low
		}
		h.Steady, h.Over = min(h.Steady, before(80)), max(h.Over, before(150)+0.01)
	}
	h.Steady, h.Over = math.Floor(h.Steady*100)/100, min(math.Ceil(h.Over*100)/100, 1)
	return h
}

// heldBank is the greatest tilt, in degrees, that a craft comes to within four seconds of a held stick in horizon; it looks no further once
// that is enough.
func heldBank(c *flight.Control, roll, pitch, enough float64) float64 {
	const step = 0.01
	in := flight.ControlInput{Roll: roll, Pitch: pitch, Mode: layout.Horizon, Att: vec.Q{W: 1}}
	worst := 0.0
	for range 400 {
		in.Att = in.Att.Plus(step, in.Att.Rate(c.Ask(&in).Rate)).Unit()
		down := in.Att.Turn(vec.V{Z: 1}).Z
		if worst = max(worst, math.Acos(min(max(down, -1), 1))*180/math.Pi); worst >= enough {
			break
		}
	}
	return worst
}

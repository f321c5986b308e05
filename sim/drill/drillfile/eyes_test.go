package drillfile_test

import (
	"math"

	"propsoff.example/sim/body"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/vec"
)

// look watches, and moves what must be moved to see something: by drill.
func (q *pupil) look() {
	l, lay := q.l, q.l.layout()
	in := l.in.Tick - q.since - q.delay - q.late
	switch l.d.Config.Code {
	case "reversed-channel": // all sticks to the top right: what the sheet shows elsewhere runs backwards
		for i, c := range []int8{lay.Throttle, lay.Roll, lay.Pitch, lay.Yaw} {
			l.move(c, pulse.High)
			if s := l.snap.In.Sent[c]; in > 100 && s < pulse.Centre {
				q.seen.answer = []string{"throttle", "roll", "pitch", "yaw"}[i]
			}
		}
	case "find-the-fault":
		q.search(in)
	case "name-the-mode":
		switch {
		case in < 300:
			l.move(lay.Roll, pulse.High)
		case in < 1300:
			l.move(lay.Roll, pulse.Centre)
		case q.seen.answer != "":
		case q.seen.tilt < 60:
			q.seen.answer = "angle"
		case q.tilt() < 30:
			q.seen.answer = "horizon"
		default:
			q.seen.answer = "rate"
		}
	}
}

// tilt is how far the craft leans, in degrees.
func (q *pupil) tilt() float64 {
	up := q.l.snap.Air.Body.Att.Turn(vec.V{Z: 1}).Z
	return math.Acos(min(max(up, -1), 1)) * 180 / math.Pi
}

// search tries one thing after the other and looks at what the bench shows.
func (q *pupil) search(in int64) {
	l, lay := q.l, q.l.layout()
	sent := &l.snap.In.Sent
	if q.seen.answer != "" {
		return
	}
	switch {
	case in < 200: // everything at rest
		switch {
		case l.snap.Jobs.Missing>>lay.Mode&1 == 1:
			q.seen.answer = "no-mode"
		case sent[lay.Roll] > pulse.Centre+pulse.Micros(100):
			q.seen.answer = "tilted-roll"
		}
	case in < 400:
		l.move(lay.Pitch, pulse.High)
		if in > 300 && sent[lay.Roll] == pulse.High {
			q.seen.answer = "swapped"
		}
	case in < 600:
		l.move(lay.Pitch, pulse.Centre)
		l.move(lay.Throttle, pulse.High)
		if in > 500 && sent[lay.Throttle] < pulse.FullyHigh {
			q.seen.answer = "short"
		}
	case in < 900:
		l.move(lay.Throttle, pulse.Low)
		l.move(lay.Mode, pulse.Centre)
		if in > 800 && l.snap.Mode == layout.Rate {
			q.seen.answer = "gap"
		}
	default:
		l.move(lay.Mode, pulse.Low)
		if l.noted[happening.LinkLost] > l.shown {
			q.seen.answer = "dropouts"
		}
	}
}

// knows is the answer of a pupil who has learned the lists and has looked at the bench; empty while that is not enough to know. Whoever adds a
// drill whose answer is to be seen may say here how; until then the pupil is told that answer.
func (q *pupil) knows(w *drill.Want) string {
	l := q.l
	list := func(words ...string) string {
		if q.acts < len(words) {
			return words[q.acts]
		}
		return ""
	}
	switch l.d.Config.Code {
	case "reversed-channel", "find-the-fault", "name-the-mode":
		return q.seen.answer // look has found it
	case "loss-order":
		return list("off", "throttle", "stand", "pack", "why")
	case "first-flight-order":
		return list("show", "fit", "place", "helper", "power", "hover")
	case "pre-flight-list":
		return list("short", "metal", "bolts", "antenna", "wires") // in whatever order
	case "motor-test":
		m := l.words().Motor
		return list(m.Place, map[bool]string{true: "clockwise", false: "counter-clockwise"}[m.Clockwise])
	case "trims-at-zero":
		for i, c := range []int8{l.layout().Roll, l.layout().Pitch, l.layout().Yaw} {
			if s := l.snap.In.Sent[c]; s > pulse.Centre+pulse.Micros(40) || s < pulse.Centre-pulse.Micros(40) {
				return []string{"roll", "pitch", "yaw"}[i]
			}
		}
		return "none"
	case "refused-by-link":
		if l.snap.Jobs.Missing == 1<<l.layout().Mode {
			return "mode"
		}
	case "motor-stop":
		if l.snap.Motor[0] > 0 {
			return "turning"
		}
		return "still"
	case "loss-what":
		switch {
		case l.snap.Sinking:
			return "sinks"
		case !l.snap.Armed && l.snap.Receiving:
			return "stored"
		case !l.snap.Armed:
			return "cuts"
		case l.in.Tick > l.shown+900:
			return "goes-on"
		}
	case "short-travel":
		if low := l.snap.Seen[l.layout().Throttle].Low; low >= pulse.Micros(1000) {
			return "throttle"
		}
		return "yaw"
	case "wrong-propeller":
		for i, h := range body.Directions(true) {
			if l.snap.In.Hands[i] != h {
				return []string{"front-left", "front-right", "rear-left", "rear-right"}[i]
			}
		}
	default:
		return l.words().Codes[w.A]
	}
	return ""
}

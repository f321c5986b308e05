package sim_test

import (
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// hands drives a bench by hand: it holds the controls, moves one, and lets time pass. The tests of this
// folder say everything through it, in µs and ms.
type hands struct {
	t     fataler
	b     sim.Bench
	frame pulse.Frame
	queue []pulse.Reading
	log   happening.Log
	all   []happening.Happening
	// each, where set, looks at the bench after every tick.
	each func()
}

// fataler is what a plain test and a property have in common.
type fataler interface{ Fatalf(string, ...any) }

const (
	chThrottle, chRoll, chPitch, chYaw, chArm, chMode, chSecond = 0, 1, 2, 3, 4, 5, 6
)

// newHands holds a healthy radio with everything at rest and gives the craft power at tick 0.
func newHands(t fataler, cfg sim.Config) *hands {
	h := &hands{t: t, b: sim.New(cfg)}
	h.frame = pulse.Frame{chThrottle: pulse.Micros(988), chRoll: pulse.Centre, chPitch: pulse.Centre, chYaw: pulse.Centre,
		chArm: pulse.Micros(988), chMode: pulse.Micros(988), chSecond: pulse.Micros(988)}
	h.tell(pulse.Plug, 1)
	h.tell(pulse.Link, 1)
	h.tell(pulse.Power, 1)
	h.send()
	return h
}

func (h *hands) send() {
	h.queue = append(h.queue, pulse.Reading{Kind: pulse.Controls, Frame: h.frame})
}

func (h *hands) tell(k pulse.Kind, v int32) *hands {
	h.queue = append(h.queue, pulse.Reading{Kind: k, Value: v})
	return h
}

// move sets one channel in µs (0: no pulse).
func (h *hands) move(channel int, us float64) *hands {
	h.frame[channel] = pulse.Width(us * pulse.Eighths)
	h.send()
	return h
}

// wait lets ms milliseconds pass.
func (h *hands) wait(ms int) *hands {
	for range ms {
		h.log.Reset()
		h.b.Step(h.queue, &h.log)
		h.queue = h.queue[:0]
		h.all = append(h.all, h.log.All()...)
		if h.log.Lost > 0 {
			h.t.Fatalf("tick %d: %d happenings found no room", h.b.Tick(), h.log.Lost)
		}
		if h.each != nil {
			h.each()
		}
	}
	return h
}

func (h *hands) snap() sim.Snapshot {
	var s sim.Snapshot
	h.b.Snapshot(&s)
	return s
}

func (h *hands) armed() bool { return h.snap().Armed }

// times gives the ticks at which a code happened.
func (h *hands) times(code happening.Code) []int64 {
	var out []int64
	for _, x := range h.all {
		if x.Code == code {
			out = append(out, x.Tick)
		}
	}
	return out
}

func (h *hands) last(code happening.Code) (happening.Happening, bool) {
	for i := len(h.all) - 1; i >= 0; i-- {
		if h.all[i].Code == code {
			return h.all[i], true
		}
	}
	return happening.Happening{}, false
}

// ready waits until nothing refuses.
func (h *hands) ready() *hands { return h.wait(2100) }

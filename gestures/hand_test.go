package gestures_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/gestures"
	"propsoff.example/gestures/patternfile"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

const slotTicks = 20

// shipped is the gesture file that goes with every craft: three chains by job.
func shipped(t testing.TB) *gestures.Config {
	t.Helper()
	name, text, ok := assets.Gestures("examples")
	require.True(t, ok)
	f, err := patternfile.Parse(name, text, slotTicks)
	require.NoError(t, err)
	require.Len(t, f.Gestures.Patterns, 3)
	return &f.Gestures
}

// others are gestures of the kinds that do not ship: by physical stick, and with a single stand.
func others(t testing.TB) *gestures.Config {
	t.Helper()
	f, err := patternfile.Parse("others.yaml", []byte(`propsoff: gestures 1
gestures:
  outwards: {name: outwards, stand: {left: mid-height left, right: mid-height right}}
  leaning: {name: leaning, stand: {throttle: high, roll: right, pitch: back, yaw: any}}
  sweep: {name: sweep, parts: [{stand: {left: up left, right: up right}, for: 300ms}, {stand: {left: down right, right: down left}, for: 300ms, within: 1s}]}
`), slotTicks)
	require.NoError(t, err)
	return &f.Gestures
}

// inBoth runs a test on both sets.
func inBoth(t *testing.T, test func(t *testing.T, cfg *gestures.Config)) {
	t.Run("shipped", func(t *testing.T) { test(t, shipped(t)) })
	t.Run("others", func(t *testing.T) { test(t, others(t)) })
}

type sticks = [gestures.Directions]pulse.Width

// rest is where the sticks of a disarmed craft stand when nobody touches them, by job.
func rest() sticks {
	return sticks{gestures.Throttle: pulse.Low, gestures.Roll: pulse.Centre, gestures.Pitch: pulse.Centre, gestures.Yaw: pulse.Centre}
}

// hand moves sticks slot by slot and keeps what the patterns make of it.
type hand struct {
	cfg  *gestures.Config
	set  []gestures.State
	in   gestures.Input
	tick int64
	log  happening.Log
	made []int
	near []happening.Happening
	// most is the most gestures that were made in one slot.
	most int
}

// newHand has sticks that have been at rest for some slots.
func newHand(cfg *gestures.Config, mode uint8) *hand {
	h := fresh(cfg, mode)
	h.wait(3)
	return h
}

// fresh has patterns that have seen nothing yet.
func fresh(cfg *gestures.Config, mode uint8) *hand {
	return &hand{cfg: cfg, set: make([]gestures.State, len(cfg.Patterns)), in: gestures.Input{Sticks: rest(), StickMode: mode, Valid: true, Live: true}}
}

func (h *hand) slot() int {
	h.log.Reset()
	n := gestures.Step(h.cfg, h.set, &h.in, h.tick, &h.log)
	h.tick += int64(h.cfg.SlotTicks)
	made := 0
	for _, x := range h.log.All() {
		switch x.Code {
		case happening.Gesture:
			h.made = append(h.made, int(x.A))
			made++
		case happening.GestureNear:
			h.near = append(h.near, x)
		}
	}
	h.most = max(h.most, made)
	return n
}

func (h *hand) wait(slots int) *hand {
	for range slots {
		h.slot()
	}
	return h
}

func (h *hand) at(s sticks, slots int) *hand {
	h.in.Sticks = s
	return h.wait(slots)
}

// to goes there in a straight line.
func (h *hand) to(s sticks, slots int) *hand {
	from := h.in.Sticks
	for n := 1; n <= slots; n++ {
		for d := range s {
			h.in.Sticks[d] = from[d] + pulse.Width(int(s[d]-from[d])*n/slots)
		}
		h.slot()
	}
	return h
}

func (h *hand) clear() *hand {
	h.made, h.near = nil, nil
	return h
}

// target is where the sticks go for a part, by job: fully to the ends; directions that are free stay where they rest.
func target(p *gestures.Pattern, part int, mode uint8) sticks {
	s := rest()
	for d, z := range p.JobZones(part, mode) {
		switch z {
		case gestures.Low:
			s[d] = pulse.Low
		case gestures.Middle:
			s[d] = pulse.Centre
		case gestures.High:
			s[d] = pulse.High
		}
	}
	return s
}

// pattern is one by job with a single part.
func pattern(code string, dwell uint16, throttle, roll, pitch, yaw gestures.Zone) gestures.Pattern {
	p := gestures.Pattern{Name: code, Code: code, Count: 1}
	p.Parts[0] = gestures.Part{Zones: [gestures.Directions]gestures.Zone{throttle, roll, pitch, yaw}, Dwell: dwell}
	return p
}

func set(patterns ...gestures.Pattern) *gestures.Config {
	cfg := gestures.Default(slotTicks)
	cfg.Patterns = patterns
	return &cfg
}

const (
	free = gestures.Any
	low  = gestures.Low
	mid  = gestures.Middle
	high = gestures.High
)

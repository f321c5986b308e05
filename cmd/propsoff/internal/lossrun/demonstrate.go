package lossrun

import (
	"math"

	"propsoff.example/assets/words"
	"propsoff.example/sim"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// Options of a demonstration without a window.
type Options struct {
	Craft sim.Config
	// Stored are the values of the third receiver.
	Stored Stored
	// Height is where the radio goes off, in m above the ground, HeightLeast to HeightMost.
	Height float64
	// OffFor is how long it is off, in ms, 1000 to OffMost.
	OffFor int64
}

// Bounds of the options (ours).
const (
	HeightLeast, HeightMost = 1, 100
	OffLeast, OffMost       = 1000, 120_000

	// hoverWithin is how long the climb may take, in ms: at climbMost to the greatest height, and half as long again.
	hoverWithin = 110_000
	// steadyFor is how long it must have hovered, backFor how long it is watched after the radio is back, in ms.
	steadyFor = 1000
	backFor   = 12_000
)

// Moment is one craft at one time: as it was, and what had been measured of it.
type Moment struct {
	Snap sim.Snapshot
	Run  Run
}

// Outcome is what came of it: each craft with its receiver at three times.
type Outcome struct {
	Config [Receivers]sim.Config
	// Silent is the last tick without the radio. Asks is a slot after it came back: what refuses arming before the hands did anything.
	// End is the end, when the hands have armed what they could, and disarmed.
	Silent, Asks, End [Receivers]Moment
}

// Outside are the readings with which a craft stands outside, powered, its propellers right, with a radio that is on.
func Outside(cfg *sim.Config) []pulse.Reading {
	return append([]pulse.Reading{{Kind: pulse.Link, Value: 1}, {Kind: pulse.Power, Value: 1}}, Carried(cfg)...)
}

// Carried are those that only carry it there and put its propellers right.
func Carried(cfg *sim.Config) []pulse.Reading {
	return []pulse.Reading{{Kind: pulse.Air, Value: 1}, {Kind: pulse.Propellers, Value: pulse.PropellersValue(cfg.Body.Turns, true)}}
}

// Demonstrate lets the pilot hover at a height, switches the radio off and on again, and measures. The error tells of a craft that
// does not get so far.
func Demonstrate(o Options) (*Outcome, error) {
	own := practice.New(o.Craft)
	var snap sim.Snapshot
	pilot := NewPilot(o.Craft, o.Height, func(s *sim.Snapshot) { *s = snap })
	var set *Set
	readings := Outside(&o.Craft)
	step := func() {
		readings, _ = pilot.Poll(readings, own.Tick()*1000) // it never ends by itself
		own.Step(readings)
		if set != nil {
			set.Step(readings)
		}
		own.Snapshot(&snap)
		readings = readings[:0]
	}
	switchRadio := func(on int32) { readings = append(readings, pulse.Reading{Kind: pulse.Link, Value: on}) }

	steady := int64(0)
	for steady < steadyFor {
		if step(); Hovering(&snap, o.Height, false) {
			steady++
		} else {
			steady = 0
		}
		if snap.Tick > hoverWithin {
			return nil, words.Wrong("loss.no-hover", words.Args{
				"height": words.Fixed{N: int64(math.Round(o.Height * 1000)), Places: 3}, "time": words.Whole(hoverWithin / 1000),
				"at": words.Fixed{N: int64(math.Round(-snap.Air.Body.Pos.Z * 10)), Places: 1, Least: 1},
			})
		}
	}
	set = New(own, o.Stored)
	for range 40 { // the receivers hear the radio, and the third stores what it is to store
		step()
	}
	out := &Outcome{}
	see := func(at *[Receivers]Moment) {
		for i := range at {
			set.Craft(i).Snapshot(&at[i].Snap)
			at[i].Run = set.Run(i)
		}
	}
	switchRadio(0)
	for range o.OffFor {
		step()
	}
	see(&out.Silent)
	switchRadio(1)
	for n := range backFor {
		step()
		if n == int(o.Craft.SlotTicks) {
			see(&out.Asks)
		}
	}
	see(&out.End)
	for i := range out.Config {
		out.Config[i] = *set.Craft(i).Bench().Config()
	}
	return out, nil
}

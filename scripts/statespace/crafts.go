package main

import (
	_ "embed"
	"fmt"
	"os"

	"propsoff/sim"
	"propsoff/sim/arming"
	"propsoff/sim/handset"
	"propsoff/sim/layout"
	"propsoff/sim/prove"
)

// craft is a layout that prove searches.
type craft struct {
	name string
	prove.Layout
	// model is the whole craft for the model checker.
	model string
}

var (
	//go:embed switch.pml
	switchModel string
	//go:embed sticks.pml
	sticksModel string
)

// crafts are the built-in one, and the same armed by sticks that sinks for 4 s on a lost link.
func crafts() []craft {
	wants := []handset.Want{{Channel: 0, Job: "throttle"}, {Channel: 1, Job: "roll"}, {Channel: 2, Job: "pitch"}, {Channel: 3, Job: "yaw"},
		{Channel: 5, Job: "mode", Kind: handset.Switch}}
	sticks := sim.Default()
	sticks.Layout.Arm, sticks.Arming.By = layout.NoChannel, arming.BySticks
	sticks.Arming.SinkSlots = sim.Slots(4000, sticks.SlotTicks)
	sticks.Link.Needed = sticks.Layout.Needed()
	return []craft{
		{"the craft by switch", prove.Layout{Config: sim.Default(), Radio: handset.Ideal(append(wants, handset.Want{Channel: 4, Job: "arm", Kind: handset.Switch}))}, switchModel},
		{"the craft by sticks, sinks", prove.Layout{Config: sticks, Radio: handset.Ideal(wants)}, sticksModel},
	}
}

// proved searches a craft.
func proved(c *craft) (found uint64, bytes int64) {
	r, err := prove.Search(c.Layout, prove.Options{})
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(2)
	}
	return r.Situations, r.Bytes
}

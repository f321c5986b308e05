package main

import (
	_ "embed"

	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/prove"
)

// craft is a layout, for both sides.
type craft struct {
	name string
	prove.Layout
	// model is the whole craft for the model checker; flags are for its preprocessor.
	model string
	flags []string
	// states is how many there are.
	states uint64
	// idle is how many situations have no power. In these time changes nothing, which the model checker counts as a transition each and
	// prove does not.
	idle uint64
	// table and depth fit the model checker's tables to the problem: the logarithm of the number of its slots, and how deep its search
	// by depth goes.
	table, depth string
	// aim is how many times the model checker's speed is asked for; 0 where the graph is not the one that prove searches.
	aim float64
}

var (
	//go:embed switch.pml
	switchModel string
	//go:embed sticks.pml
	sticksModel string
)

// crafts are the built-in one, and the same armed by sticks that sinks for 4 s on a lost link. The model of the second is checked once
// more without the bit for a low throttle, as some would write it: a graph of its own, told for comparison alone.
func crafts() []craft {
	wants := []handset.Want{{Channel: 0, Job: "throttle"}, {Channel: 1, Job: "roll"}, {Channel: 2, Job: "pitch"}, {Channel: 3, Job: "yaw"},
		{Channel: 5, Job: "mode", Kind: handset.Switch}}
	sticks := sim.Default()
	sticks.Layout.Arm, sticks.Arming.By = layout.NoChannel, arming.BySticks
	sticks.Arming.SinkSlots = sim.Slots(4000, sticks.SlotTicks)
	sticks.Link.Needed = sticks.Layout.Needed()
	bySwitch := prove.Layout{Config: sim.Default(), Radio: handset.Ideal(append(wants, handset.Want{Channel: 4, Job: "arm", Kind: handset.Switch}))}
	bySticks := prove.Layout{Config: sticks, Radio: handset.Ideal(wants)}
	return []craft{
		{name: "by switch", Layout: bySwitch, model: switchModel, states: 85_400, idle: 16, table: "-w18", depth: "-m60000", aim: 4},
		{name: "by sticks, sinks", Layout: bySticks, model: sticksModel, states: 7_084_736, idle: 60, table: "-w24", depth: "-m300000", aim: 8},
		{name: "… without the low bit", model: sticksModel, flags: []string{"-DLOW=0"}, states: 7_080_718, idle: 60, table: "-w24", depth: "-m300000"},
	}
}

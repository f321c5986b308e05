package craftfile_test

import (
	"fmt"
	"strings"
	"testing"

	"propsoff.example/assets/words/wordstest"
	"propsoff.example/sim"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/pulse"
)

// Every language says each thing that can be wrong with a craft file.
func TestEveryLanguageSaysIt(t *testing.T) {
	room := wordstest.Of("craft-file")
	const channels = "channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5}\n"
	var jobs, spans strings.Builder
	for i := range craftfile.MaxJobs + 1 {
		fmt.Fprintf(&jobs, "  x%d: {channel: 7, on: {from: 860, to: 900}}\n", i)
		fmt.Fprintf(&spans, "{from: %d, to: %d}, ", 900+i*10, 905+i*10)
	}
	for _, file := range []string{
		// Each part of the file is a word instead of a group.
		"x",
		"receiver: {stored: x}\nlink: x\nchannels: x\narming: x\nsecond-switch: x\nmodes: x\njobs: x\nmotors: x\nbody: x\ncontrol: x\ncamera: x\n",
		"receiver: x\nsecond-switch: {on: x}\njobs: {a: x}\ncontrol: {stick-curve: {roll: x}, gains: {roll: x}}\n",
		"body: {inertia: x, arms: x, motor: x, propeller: x, drag: x, ground: x, pack: x}\ncontrol: {stick-curve: x}\n",

		channels + "receiver: {when-silent: sends-stored, frame-every: 20.5ms, frame-delay: 60 ms, frame-jitter: 60 ms}\n",
		channels + "receiver: {stored: {throttle: 988, mode: 988, channel 5: 988}}\n",
		channels + "receiver: {when-silent: sends-stored, stored: {throttle: 988, roll: 1500, pitch: 1500, yaw: 1500, arm: 988, a: 988}}\njobs: {a: {channel: 5, on: {from: 900, to: 950}}}\n",
		"channels: {throttle: 1, roll: 1, pitch: 3, yaw: 4, arm: 5}\narming: {by: sticks, on: {from: 900, to: 950}}\n",
		channels + "arming: {on: {from: 860, to: 2180}}\nsecond-switch: {on: {from: 950, to: 900}}\nmodes: {angle: {from: 900, to: 950}}\n",
		"channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5, mode: 6}\nmodes: {always: angle}\n",
		"channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5, mode: 6}\nmodes: {angle: {from: 900, to: 950}, rate: [" + spans.String() + "]}\n",
		channels + "jobs:\n  a/b: {channel: 7, on: {from: 860, to: 900}}\n" + jobs.String(),
		channels + "jobs:\n  abcdefghijklmnopqrstuvwxyz: {channel: 7, on: [{from: 860, to: 900}, {from: 880, to: 950}]}\n",
		channels + "jobs:\n  throttle: {channel: 7, on: {from: 860, to: 900}}\n  Throttle: {channel: 7, on: {from: 860, to: 900}}\n  ch7: {channel: 7, on: {from: 860, to: 900}}\n",
		channels + "body: {pack: {nominal: 17 V, resistance: 500 mohm}, propeller: {thrust: 1.2 N}}\ncontrol: {gains: {yaw: {proportional: 1 1/s, integral: 300 1/s2}}}\n",
	} {
		_, err := craftfile.Parse("bad.yaml", []byte(file))
		room.Error(t, err)
	}

	cfg := sim.Default()
	cfg.SlotTicks = 1
	_, err := craftfile.Filled("too fast", &cfg)
	room.Error(t, err)
	cfg = sim.Default()
	cfg.Arming.LeaveThrottle += pulse.Micros(1)
	_, err = craftfile.Filled("no file says so", &cfg)
	room.Error(t, err)

	room.Whole(t)
}

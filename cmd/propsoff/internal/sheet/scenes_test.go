package sheet

import (
	"propsoff/cmd/propsoff/internal/phrase"
	"strings"
	"testing"

	"propsoff/sim/pulse"
)

// scene is one situation of the bench, made by stepping a real one.
type scene struct {
	name string
	make func(t testing.TB) *stage
	// says are texts that must be on the sheet.
	says []string
}

// fullCraft asks for everything that a craft can ask for.
const fullCraft = `propsoff: craft 1
name: Everything asked for
link: {when-lost: sink}
channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5, mode: 6, second: 7}
second-switch: {on: {from: 1700, to: 2180}}
arming: {by: switch, on: {from: 1700, to: 2180}, only-self-levelling: yes, pack-limit: 14 V, camera-menu: refuses}
`

// gapCraft leaves gaps between its mode spans and sits in the middle of them.
const gapCraft = `propsoff: craft 1
name: A craft with gaps between its spans
receiver: {when-silent: repeats-last}
channels: {throttle: 3, roll: 1, pitch: 2, yaw: 4, arm: 8, mode: 5}
arming: {by: switch, on: {from: 1300, to: 1700}}
modes: {angle: {from: 950, to: 1200}, horizon: {from: 1400, to: 1600}, rate: {from: 1800, to: 2050}}
`

const longName = "Northern Moorland Works Desktop Transmitter, the Second Edition" // 63 letters

func ready(t testing.TB) *stage {
	cfg, name := shipped(t, "built-in")
	return newStage(t, cfg, name).on().wait(6000)
}

func sticksReady(t testing.TB) *stage {
	cfg, name := shipped(t, "teasel-by-sticks")
	return newStage(t, cfg, name).on().wait(6000)
}

var scenes = []scene{
	{"no radio", func(t testing.TB) *stage {
		cfg, name := shipped(t, "built-in")
		s := newStage(t, cfg, name).tell(pulse.Link, 1).tell(pulse.Power, 1).wait(3000)
		s.v.Driver, s.v.Next = Nobody, Demo
		return s
	}, []string{"DISARMED", "No radio is plugged in"}},
	{"no power", func(t testing.TB) *stage {
		cfg, name := shipped(t, "built-in")
		return newStage(t, cfg, name).tell(pulse.Plug, 1).tell(pulse.Link, 1).send().wait(500)
	}, []string{"DISARMED", "The craft has no power. Press P to connect its pack."}},
	{"just powered", func(t testing.TB) *stage {
		cfg, name := shipped(t, "built-in")
		return newStage(t, cfg, name).on().wait(700)
	}, []string{"DISARMED", "must stand still for"}},
	{"ready", ready, []string{"DISARMED", "Nothing refuses arming.", "To arm, press Space (arm switch on).", "The keyboard drives"}},
	{"ready by radio", func(t testing.TB) *stage {
		s := ready(t)
		s.v.Driver, s.v.DriverName, s.v.Next = Radio, "Moorland Desk 7", Keyboard
		return s
	}, []string{"To arm, move the arm switch on (channel 5 at 1600 µs or above).", "Moorland Desk 7 drives."}},
	{"demo", func(t testing.TB) *stage {
		s := ready(t)
		s.glide(0, 1300, 300)
		s.v.Driver, s.v.Next = Demo, Keyboard
		return s
	}, []string{"The demo pilot drives. Press any stick key (W A S D, ← ↑ ↓ →) to take over."}},
	{"refused with three", func(t testing.TB) *stage {
		return ready(t).glide(0, 1312, 200).tell(pulse.Tilt, 450).tell(pulse.Cable, 1).set(4, 2012).wait(300)
	}, []string{"DISARMED", "Throttle reads 1312 µs; bring it below 1000."}},
	{"one clearing", func(t testing.TB) *stage {
		return ready(t).glide(0, 1312, 200).tell(pulse.Tilt, 450).wait(500).tell(pulse.Tilt, 0).wait(180)
	}, []string{"The craft is tilted by 45°; set it down within 30° of level."}},
	{"refused with ten", func(t testing.TB) *stage {
		cfg, name := craft(t, fullCraft)
		s := newStage(t, cfg, name).on().wait(3000)
		s.tell(pulse.Link, 0).wait(600).tell(pulse.Link, 1)
		s.frame[5] = pulse.Missing
		s.set(4, 2012).set(0, 1400).set(6, 988).wait(300)
		s.tell(pulse.Tilt, 1700).tell(pulse.Cable, 1).tell(pulse.Menu, pulse.MenuCraft).tell(pulse.Pack, 13200).wait(120)
		s.tell(pulse.Power, 0).wait(20).tell(pulse.Power, 1).wait(200)
		return s
	}, []string{"DISARMED"}},
	{"armed and still", func(t testing.TB) *stage { return ready(t).set(4, 2012).wait(800) },
		[]string{"ARMED", "To disarm, press Space (arm switch off)."}},
	{"armed with throttle", func(t testing.TB) *stage {
		s := ready(t).set(4, 2012).wait(500).glide(0, 1480, 600).glide(1, 1800, 300).glide(3, 1300, 300).set(5, 1500).wait(300).glide(2, 1700, 400)
		return s.set(5, 2012).wait(200).glide(1, 1500, 300).wait(100)
	}, []string{"ARMED", "52 %"}},
	{"link lost", func(t testing.TB) *stage {
		return ready(t).set(4, 2012).wait(1500).glide(0, 1350, 500).wait(900).tell(pulse.Link, 0).wait(640)
	}, []string{"DISARMED", "Lost, silent for 0.6 s"}},
	{"link lost, held by the receiver", func(t testing.TB) *stage {
		cfg, name := craft(t, gapCraft)
		return newStage(t, cfg, name).on().wait(3000).set(7, 1500).wait(1000).glide(2, 1500, 300).tell(pulse.Link, 0).wait(900)
	}, []string{"ARMED", "repeats the last", "Good, the craft thinks; the radio is silent", "made up by the receiver"}},
	{"sinking", func(t testing.TB) *stage {
		cfg, name := craft(t, fullCraft)
		return newStage(t, cfg, name).on().wait(4000).set(6, 2012).set(4, 2012).wait(500).glide(0, 1600, 400).wait(300).tell(pulse.Link, 0).wait(1500)
	}, []string{"ARMED", "Sinking: the motors are cut in"}},
	{"link fresh", func(t testing.TB) *stage {
		return ready(t).tell(pulse.Link, 0).wait(900).tell(pulse.Link, 1).wait(300)
	}, []string{"DISARMED", "The link must stay clean for"}},
	{"by sticks, ready", sticksReady, []string{"To arm, hold S and D for 0.8 s (throttle low, yaw right)."}},
	{"by sticks, dwelling", func(t testing.TB) *stage { return sticksReady(t).set(3, 2012).wait(500) },
		[]string{"DISARMED", "The arming corner is held …"}},
	{"by sticks, spent", func(t testing.TB) *stage {
		return sticksReady(t).tell(pulse.Cable, 1).set(3, 2012).wait(1200)
	}, []string{"this try is used up"}},
	{"by sticks, disarming", func(t testing.TB) *stage {
		return sticksReady(t).set(3, 2012).wait(1000).set(3, 1500).wait(400).set(3, 988).wait(200)
	}, []string{"ARMED", "The disarming corner is held …"}},
	{"on cable", func(t testing.TB) *stage { return ready(t).tell(pulse.Cable, 1).wait(200) },
		[]string{"DISARMED", "The craft is plugged into a computer by its set-up cable; pull the cable out."}},
	{"upside down", func(t testing.TB) *stage { return ready(t).tell(pulse.Tilt, 1700).wait(400) },
		[]string{"Upside down, tilted by 170°."}},
	{"played", func(t testing.TB) *stage {
		s := ready(t).tell(pulse.Link, 0).tell(pulse.Tilt, 1700).wait(600)
		s.v.Driver, s.v.DriverName, s.v.Next = Played, "demo pilot", Nobody
		return s
	}, []string{"The radio is off.", "Playing demo pilot."}},
	{"played to its end", func(t testing.TB) *stage {
		s := ready(t)
		s.v.Driver, s.v.DriverName, s.v.Ended, s.v.Next = Played, "demo pilot", true, Keyboard
		return s
	}, []string{"What was played has ended. Press Tab to go on by keyboard.", "Played to its end: demo pilot. Tab: the keyboard drives."}},
	{"camera's menu", func(t testing.TB) *stage {
		cfg, name := craft(t, fullCraft)
		return newStage(t, cfg, name).on().wait(3000).tell(pulse.Menu, pulse.MenuCamera).wait(200)
	}, []string{"The camera's menu is open; leave it first."}},
	{"two radios", func(t testing.TB) *stage {
		s := ready(t)
		s.v.Driver, s.v.DriverName, s.v.Next = Radio, "Moorland Desk 7", Keyboard
		s.v.Radios, s.v.Reading, s.v.Choosing = []string{"Moorland Desk 7", longName}, 0, true
		return s
	}, []string{"2 radios plugged in: press a number", "Moorland Desk 7 (being read)"}},
	{"blunted", func(t testing.TB) *stage {
		s := ready(t)
		s.v.Driver, s.v.DriverName, s.v.Next, s.v.Blunted = Radio, "Moorland Desk 7", Keyboard, true
		s.v.Notices = []string{bluntedNotice}
		return s
	}, []string{"It is read with a blunted centre."}},
	{"long name", func(t testing.TB) *stage {
		s := ready(t)
		s.v.Driver, s.v.DriverName, s.v.Next, s.v.NextName = Keyboard, "", Radio, longName
		s.v.CraftName = longName
		s.v.Recording, s.v.CanRecord = "practice of the second of November, in the afternoon.take", true
		s.v.Radios, s.v.Reading = []string{longName, longName}, 1
		s.v.Notices = []string{strings.Repeat(longName+" ", 5), bluntedNotice, "third"}
		return s
	}, []string{longName}},
	{"recording", func(t testing.TB) *stage {
		s := ready(t)
		s.v.Recording, s.v.CanRecord = "/home/pilot/.local/share/propsoff/takes/2031-04-05-082011.take", true
		s.v.Notices = []string{phrase.RecordingFrom()}
		s.v.Sound.Caption = "♪ armed"
		return s
	}, []string{"recording to 2031-04-05-082011.take", "end recording"}},
	{"sixteen channels", func(t testing.TB) *stage {
		s := ready(t)
		for c := 6; c < pulse.Channels; c++ {
			s.frame[c] = pulse.Micros(900 + 80*c)
		}
		return s.send().wait(100)
	}, []string{"2100"}},
	{"busy margin", func(t testing.TB) *stage {
		s := ready(t)
		for range 9 {
			s.tell(pulse.Cable, 1).set(4, 2012).wait(60).tell(pulse.Cable, 0).set(4, 988).wait(60).tell(pulse.Nudge, 0).wait(40)
		}
		return s
	}, []string{"DISARMED"}},
	{"gap in the modes", func(t testing.TB) *stage {
		cfg, name := craft(t, gapCraft)
		return newStage(t, cfg, name).on().wait(3000).set(4, 1300).wait(300)
	}, []string{"rate, outside every span"}},
}

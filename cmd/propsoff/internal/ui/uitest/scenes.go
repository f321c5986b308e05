package uitest

import (
	"strings"
	"testing"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/sound"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/sim/pulse"
)

// Scene is one situation of the bench, made by stepping a real one.
type Scene struct {
	Name string
	Make func(t testing.TB) *Stage
	// says are texts that must be on the sheet.
	Says []string
}

// FullCraft asks for everything that a craft can ask for.
const FullCraft = `propsoff: craft 1
name: Everything asked for
link: {when-lost: sink}
channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5, mode: 6, second: 7}
second-switch: {on: {from: 1700, to: 2180}}
arming: {by: switch, on: {from: 1700, to: 2180}, only-self-levelling: yes, pack-limit: 14 V, camera-menu: refuses}
`

// GapCraft leaves gaps between its mode spans and sits in the middle of them.
const GapCraft = `propsoff: craft 1
name: A craft with gaps between its spans
receiver: {when-silent: repeats-last}
channels: {throttle: 3, roll: 1, pitch: 2, yaw: 4, arm: 8, mode: 5}
arming: {by: switch, on: {from: 1300, to: 1700}}
modes: {angle: {from: 950, to: 1200}, horizon: {from: 1400, to: 1600}, rate: {from: 1800, to: 2050}}
`

// LongName is a name that is longer than most, with 63 letters.
const LongName = "Northern Moorland Works Desktop Transmitter, the Second Edition"

// Ready is the built-in craft, on and ready to arm; the keyboard drives.
func Ready(t testing.TB) *Stage {
	cfg, name := Shipped(t, "built-in")
	return NewStage(t, cfg, name).On().Wait(6000)
}

// SticksReady is a craft that is armed by its sticks, on and ready for it.
func SticksReady(t testing.TB) *Stage {
	cfg, name := Shipped(t, "teasel-by-sticks")
	return NewStage(t, cfg, name).On().Wait(6000)
}

// Scenes are those of the desk bench.
var Scenes = []Scene{
	{"no radio", func(t testing.TB) *Stage {
		cfg, name := Shipped(t, "built-in")
		s := NewStage(t, cfg, name).Tell(pulse.Link, 1).Tell(pulse.Power, 1).Wait(3000)
		s.V.Driver, s.V.Next = ui.Nobody, ui.Demo
		return s
	}, []string{"DISARMED", "No radio is plugged in"}},
	{"no power", func(t testing.TB) *Stage {
		cfg, name := Shipped(t, "built-in")
		return NewStage(t, cfg, name).Tell(pulse.Plug, 1).Tell(pulse.Link, 1).Send().Wait(500)
	}, []string{"DISARMED", "The craft has no power. Press P to connect its pack."}},
	{"just powered", func(t testing.TB) *Stage {
		cfg, name := Shipped(t, "built-in")
		return NewStage(t, cfg, name).On().Wait(700)
	}, []string{"DISARMED", "must stand still for"}},
	{"ready", Ready, []string{"DISARMED", "Nothing refuses arming.", "To arm, press Space (arm switch on).", "The keyboard drives"}},
	{"ready by radio", func(t testing.TB) *Stage {
		s := Ready(t)
		s.V.Driver, s.V.DriverName, s.V.Next = ui.Radio, "Moorland Desk 7", ui.Keyboard
		return s
	}, []string{"To arm, move the arm switch on (channel 5 at 1600 µs or above).", "Moorland Desk 7 drives."}},
	{"demo", func(t testing.TB) *Stage {
		s := Ready(t)
		s.Glide(0, 1300, 300)
		s.V.Driver, s.V.Next = ui.Demo, ui.Keyboard
		return s
	}, []string{"The demo pilot drives. Press any stick key (W A S D, ← ↑ ↓ →) to take over."}},
	{"refused with three", func(t testing.TB) *Stage {
		return Ready(t).Glide(0, 1312, 200).Tell(pulse.Tilt, 450).Tell(pulse.Cable, 1).Set(4, 2012).Wait(300)
	}, []string{"DISARMED", "Throttle reads 1312 µs; bring it below 1000."}},
	{"one clearing", func(t testing.TB) *Stage {
		return Ready(t).Glide(0, 1312, 200).Tell(pulse.Tilt, 450).Wait(500).Tell(pulse.Tilt, 0).Wait(180)
	}, []string{"The craft is tilted by 45°; set it down within 30° of level."}},
	{"refused with ten", func(t testing.TB) *Stage {
		cfg, name := Craft(t, FullCraft)
		s := NewStage(t, cfg, name).On().Wait(3000)
		s.Tell(pulse.Link, 0).Wait(600).Tell(pulse.Link, 1)
		s.Frame[5] = pulse.Missing
		s.Set(4, 2012).Set(0, 1400).Set(6, 988).Wait(300)
		s.Tell(pulse.Tilt, 1700).Tell(pulse.Cable, 1).Tell(pulse.Menu, pulse.MenuCraft).Tell(pulse.Pack, 13200).Wait(120)
		s.Tell(pulse.Power, 0).Wait(20).Tell(pulse.Power, 1).Wait(200)
		return s
	}, []string{"DISARMED"}},
	{"armed and still", func(t testing.TB) *Stage { return Ready(t).Set(4, 2012).Wait(800) },
		[]string{"ARMED", "To disarm, press Space (arm switch off)."}},
	{"armed with throttle", func(t testing.TB) *Stage {
		s := Ready(t).Set(4, 2012).Wait(500).Glide(0, 1480, 600).Glide(1, 1800, 300).Glide(3, 1300, 300).Set(5, 1500).Wait(300).Glide(2, 1700, 400)
		return s.Set(5, 2012).Wait(200).Glide(1, 1500, 300).Wait(100)
	}, []string{"ARMED", "52 %"}},
	{"link-lost", func(t testing.TB) *Stage {
		return Ready(t).Set(4, 2012).Wait(1500).Glide(0, 1350, 500).Wait(900).Tell(pulse.Link, 0).Wait(640)
	}, []string{"DISARMED", "Lost, silent for 0.6 s"}},
	{"link lost, held by the receiver", func(t testing.TB) *Stage {
		cfg, name := Craft(t, GapCraft)
		return NewStage(t, cfg, name).On().Wait(3000).Set(7, 1500).Wait(1000).Glide(2, 1500, 300).Tell(pulse.Link, 0).Wait(900)
	}, []string{"ARMED", "repeats the last", "Good, the craft thinks; the radio is silent", "made up by the receiver"}},
	{"sinking", func(t testing.TB) *Stage {
		cfg, name := Craft(t, FullCraft)
		return NewStage(t, cfg, name).On().Wait(4000).Set(6, 2012).Set(4, 2012).Wait(500).Glide(0, 1600, 400).Wait(300).Tell(pulse.Link, 0).Wait(1500)
	}, []string{"ARMED", "Sinking: the motors are cut in"}},
	{"link-fresh", func(t testing.TB) *Stage {
		return Ready(t).Tell(pulse.Link, 0).Wait(900).Tell(pulse.Link, 1).Wait(300)
	}, []string{"DISARMED", "The link must stay clean for"}},
	{"by sticks, ready", SticksReady, []string{"To arm, hold S and D for 0.8 s (throttle low, yaw right)."}},
	{"by sticks, dwelling", func(t testing.TB) *Stage { return SticksReady(t).Set(3, 2012).Wait(500) },
		[]string{"DISARMED", "The arming corner is held …"}},
	{"by sticks, spent", func(t testing.TB) *Stage {
		return SticksReady(t).Tell(pulse.Cable, 1).Set(3, 2012).Wait(1200)
	}, []string{"this try is used up"}},
	{"by sticks, disarming", func(t testing.TB) *Stage {
		return SticksReady(t).Set(3, 2012).Wait(1000).Set(3, 1500).Wait(400).Set(3, 988).Wait(200)
	}, []string{"ARMED", "The disarming corner is held …"}},
	{"on cable", func(t testing.TB) *Stage { return Ready(t).Tell(pulse.Cable, 1).Wait(200) },
		[]string{"DISARMED", "The craft is plugged into a computer by its set-up cable; pull the cable out."}},
	{"upside down", func(t testing.TB) *Stage { return Ready(t).Tell(pulse.Tilt, 1700).Wait(400) },
		[]string{"Upside down, tilted by 170°."}},
	{"played", func(t testing.TB) *Stage {
		s := Ready(t).Tell(pulse.Link, 0).Tell(pulse.Tilt, 1700).Wait(600)
		s.V.Driver, s.V.DriverName, s.V.Next = ui.Played, "demo pilot", ui.Nobody
		return s
	}, []string{"The radio is off.", "Playing: demo pilot."}},
	{"played to its end", func(t testing.TB) *Stage {
		s := Ready(t)
		s.V.Driver, s.V.DriverName, s.V.Ended, s.V.Next = ui.Played, "demo pilot", true, ui.Keyboard
		return s
	}, []string{"What was played has ended. Press Tab to go on by keyboard.", "Played to its end: demo pilot. Tab: the keyboard drives."}},
	{"camera's menu", func(t testing.TB) *Stage {
		cfg, name := Craft(t, FullCraft)
		return NewStage(t, cfg, name).On().Wait(3000).Tell(pulse.Menu, pulse.MenuCamera).Wait(200)
	}, []string{"The camera's menu is open; leave it first."}},
	{"two radios", func(t testing.TB) *Stage {
		s := Ready(t)
		s.V.Driver, s.V.DriverName, s.V.Next = ui.Radio, "Moorland Desk 7", ui.Keyboard
		s.V.Radios, s.V.Reading, s.V.Choosing = []string{"Moorland Desk 7", LongName}, 0, true
		return s
	}, []string{"2 radios plugged in: press a number", "Moorland Desk 7 (being read)"}},
	{"blunted", func(t testing.TB) *Stage {
		s := Ready(t)
		s.V.Driver, s.V.DriverName, s.V.Next, s.V.Blunted = ui.Radio, "Moorland Desk 7", ui.Keyboard, true
		s.V.Notices = ui.Warnings(BluntedNotice)
		return s
	}, []string{"It is read with a blunted centre."}},
	{"long name", func(t testing.TB) *Stage {
		s := Ready(t)
		s.V.Driver, s.V.DriverName, s.V.Next, s.V.NextName = ui.Keyboard, "", ui.Radio, LongName
		s.V.CraftName = LongName
		s.V.Recording, s.V.CanRecord = "practice of the second of November, in the afternoon.take", true
		s.V.Radios, s.V.Reading = []string{LongName, LongName}, 1
		s.V.Notices = ui.Warnings(words.AsIs(strings.Repeat(LongName+" ", 5)), BluntedNotice, words.AsIs("third"))
		return s
	}, []string{LongName}},
	{"recording", func(t testing.TB) *Stage {
		s := Ready(t)
		s.V.Recording, s.V.CanRecord = "/home/pilot/.local/share/propsoff/takes/2031-04-05-082011.take", true
		s.V.Notices = ui.Warnings(words.T("notice.recording-from"))
		s.V.Sound.Caption = tell.SoundCaptions([]sound.Code{sound.Armed}, false)
		return s
	}, []string{"recording to 2031-04-05-082011.take", "end recording"}},
	{"sixteen channels", func(t testing.TB) *Stage {
		s := Ready(t)
		for c := 6; c < pulse.Channels; c++ {
			s.Frame[c] = pulse.Micros(900 + 80*c)
		}
		return s.Send().Wait(100)
	}, []string{"2100"}},
	{"busy margin", func(t testing.TB) *Stage {
		s := Ready(t)
		for range 9 {
			s.Tell(pulse.Cable, 1).Set(4, 2012).Wait(60).Tell(pulse.Cable, 0).Set(4, 988).Wait(60).Tell(pulse.Nudge, 0).Wait(40)
		}
		return s
	}, []string{"DISARMED"}},
	{"gap in the modes", func(t testing.TB) *Stage {
		cfg, name := Craft(t, GapCraft)
		return NewStage(t, cfg, name).On().Wait(3000).Set(4, 1300).Wait(300)
	}, []string{"rate, outside every span"}},
}

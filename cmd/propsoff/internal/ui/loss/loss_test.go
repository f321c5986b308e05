package loss_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/lossrun"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/loss"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/lossmap"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/vec"
)

// losing is a stage on which three crafts with three receivers do what the stage's own does.
type losing struct {
	*uitest.Stage
	crafts *lossrun.Set
}

// losses opens the sheet of three receivers on a stage.
func losses(s *uitest.Stage, stored lossrun.Stored) *losing {
	l := &losing{s, lossrun.New(s.P, stored)}
	loss.Of(s.V).Stored = stored
	for i := range loss.Of(s.V).Crafts {
		loss.Of(s.V).Crafts[i] = loss.Craft{Refusals: &ui.Refusals{}}
	}
	return l.run(60)
}

// run lets time pass for all four.
func (l *losing) run(ms int) *losing {
	for range ms {
		readings := append([]pulse.Reading(nil), l.Queue...)
		l.Wait(1)
		l.crafts.Step(readings)
		for i := range loss.Of(l.V).Crafts {
			c := &loss.Of(l.V).Crafts[i]
			p := l.crafts.Craft(i)
			p.Snapshot(&c.Snap)
			c.Run, c.Craft = l.crafts.Run(i), *p.Bench().Config()
			if c.Snap.Tick%16 == 0 || ms < 16 {
				c.Facts = l.Told.Of(p, l.Whose())
				l.Told.Back(&c.Facts)
				c.Refusals.Update(&c.Facts)
			}
			if c.Snap.In.Air && c.Snap.Tick%ui.TrailEvery == 0 {
				var last *ui.TrailPoint
				if n := len(c.Trail); n > 0 {
					last = &c.Trail[n-1]
				}
				c.Trail = append(c.Trail, ui.NextTrailPoint(last, &c.Snap))
			}
		}
	}
	l.Facts()
	l.Told.Back(&l.V.Facts)
	var ready []pulse.Reading
	if !loss.Of(l.V).Flown {
		ready = lossrun.Outside(l.Cfg)
	}
	loss.Of(l.V).Pilot = l.Told.Pilot(l.P, ready)
	return l
}

// put moves one channel, radio the radio's own switch.
func (l *losing) put(channel int8, us int) *losing { l.Set(channel, us); return l }
func (l *losing) radio(on int32) *losing           { l.Tell(pulse.Link, on); return l }

// stores is a craft whose receiver sends stored values of its own.
const stores = `propsoff: craft 1
name: Storer
receiver: {when-silent: sends-stored, stored: {throttle: 1400, roll: 1600, pitch: 1500, yaw: 1500, arm: 2000, mode: 1000}}
channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5, mode: 6}
`

func hovering(t testing.TB) *losing { return losses(uitest.Airborne(t, 8), lossrun.Disarming) }

func turningOnDesk(t testing.TB, stored lossrun.Stored) *losing {
	return losses(uitest.Ready(t).Set(4, 2012).Wait(500).Set(0, 1450).Wait(300), stored)
}

func lossScene(name string, make func(t testing.TB) *losing, says ...string) uitest.Scene {
	return uitest.Scene{Name: name, Make: func(t testing.TB) *uitest.Stage { return make(t).Stage }, Says: says}
}

var lossScenes = []uitest.Scene{
	lossScene("waiting on the desk", func(t testing.TB) *losing { return losses(uitest.Ready(t), lossrun.Disarming) },
		"RADIO ON", "falls silent", "repeats the last", "sends stored values", "no pulses", "hold", "preset", "Or press Enter"),
	lossScene("waiting in the air", hovering, "All three do the same. L: the radio goes off.", "they disarm the craft"),
	lossScene("radio off at first", func(t testing.TB) *losing {
		return losses(uitest.Ready(t).Tell(pulse.Link, 0).Wait(800), lossrun.ArmedLow)
	},
		"RADIO OFF", "L switches it on"),
	lossScene("nothing noticed yet", func(t testing.TB) *losing { return hovering(t).radio(0).run(150) },
		"It waits 0.24 s", "disarmed at once", "Nothing cuts", "silence limit"),
	lossScene("falling", func(t testing.TB) *losing { return hovering(t).radio(0).run(800) },
		"It noticed, and cut 0.24 s after the radio's last frame. It falls.", "silence limit: link lost"),
	lossScene("down", func(t testing.TB) *losing { return hovering(t).radio(0).run(6000) },
		"lies right below", "on the ground at", "unnoticed", "It flies on as it was told last"),
	lossScene("flown away", func(t testing.TB) *losing {
		l := hovering(t).put(1, 1750).run(700).radio(0).run(5000)
		l.V.Flight.Pace = ui.Pace{Paused: true, Slow: 10}
		return l
	}, "Time stands still"),
	lossScene("sinking", func(t testing.TB) *losing {
		return losses(uitest.HoverOf(t, uitest.Sinks), lossrun.ArmedLow).radio(0).run(2300)
	},
		"It noticed, and sinks", "sinks"),
	lossScene("sunk", func(t testing.TB) *losing {
		return losses(uitest.HoverOf(t, uitest.Sinks), lossrun.ArmedThrottle).radio(0).run(9000)
	},
		"sank, and cut 4.24 s after the radio's last frame"),
	lossScene("the file's own values", func(t testing.TB) *losing {
		return losses(uitest.HoverOf(t, stores), lossrun.OfFile).radio(0).run(3000)
	},
		"what the craft file says", "stays ARMED"),
	lossScene("armed and low", func(t testing.TB) *losing {
		l := losses(hovering(t).Stage, lossrun.ArmedLow)
		return l.radio(0).run(4000)
	}, "and lies right below, broken and still ARMED"),
	lossScene("back", func(t testing.TB) *losing { return hovering(t).radio(0).run(5000).radio(1).run(500) },
		"The link is only just there", "The arm switch is already on", "Throttle reads", "It obeys the radio again at once"),
	lossScene("being cured", func(t testing.TB) *losing {
		return hovering(t).radio(0).run(5000).radio(1).run(2500).put(0, 988).run(900).put(4, 988).run(250)
	}, "may be armed"),
	lossScene("armed again", func(t testing.TB) *losing {
		return hovering(t).radio(0).run(5000).radio(1).run(2500).put(0, 988).run(900).put(4, 988).run(1500).put(4, 2012).run(700)
	}, "Armed again,", "armed again"),
	lossScene("motors on the desk", func(t testing.TB) *losing { return turningOnDesk(t, lossrun.ArmedThrottle).radio(0).run(2000) },
		"motors stop after", "0.2", "Its motors do what they were told last", "An example: stored by somebody while flying."),
	lossScene("back on the desk", func(t testing.TB) *losing {
		return turningOnDesk(t, lossrun.Disarming).radio(0).run(2000).radio(1).run(300)
	},
		"To arm it again:"),
	lossScene("by sticks", func(t testing.TB) *losing {
		return losses(uitest.SticksReady(t).Set(3, 2012).Wait(1000).Set(3, 1500).Set(0, 1400).Wait(500), lossrun.Disarming).radio(0).run(1500)
	}, "disarming corner"),
	lossScene("not armed", func(t testing.TB) *losing { return losses(uitest.Ready(t), lossrun.Disarming).radio(0).run(1000) },
		"It was not armed, and stays so", "stood still"),
	lossScene("its own pilot", func(t testing.TB) *losing {
		l := hovering(t).run(10)
		l.V.Driver, l.V.DriverName, l.V.Next, l.V.NextName, loss.Of(l.V).Flown, loss.Of(l.V).Steady = ui.Played, lossrun.PilotName, ui.Radio, uitest.LongName, true, true
		return l
	}, "They hover. L: the radio goes off.", "stop the pilot", "radio off"),
	lossScene("played", func(t testing.TB) *losing {
		l := hovering(t).radio(0).run(2000)
		l.V.Driver, l.V.DriverName, l.V.Next = ui.Played, "a lesson", ui.Nobody
		return l
	}, "Only what is played can work the radio's switch."),
	lossScene("no power", func(t testing.TB) *losing {
		return losses(uitest.Ready(t).Tell(pulse.Power, 0).Wait(100), lossrun.Disarming)
	},
		"It has no power."),
	lossScene("on its side", func(t testing.TB) *losing {
		l := hovering(t).radio(0).run(5000).radio(1).run(1800)
		for i := range loss.Of(l.V).Crafts {
			c := &loss.Of(l.V).Crafts[i]
			c.Snap.Air.Body.Att = ui.TurnBy(vec.V{X: 1.5})
		}
		l.V.Notices = ui.Warnings(uitest.BluntedNotice, words.T("notice.no-radio"))
		return l
	}),
}

// mapped is the map of a craft with a receiver, worked out as far as some steps go.
func mapped(t testing.TB, craft string, way facts.OnLoss, stored lossrun.Stored, steps int, look func(*loss.Map)) *losing {
	l := losses(uitest.HoverOf(t, craft), stored)
	m := &loss.Map{Throttle: lossmap.Hover}
	m.Map, m.Craft = facts.LossMap(l.Cfg, way, stored)
	m.Work(steps)
	look(m)
	loss.Of(l.V).Map = m
	return l
}

var mapScenes = []uitest.Scene{
	lossScene("map", func(t testing.TB) *losing {
		return mapped(t, uitest.Sinks, facts.FallsSilent, lossrun.Disarming, math.MaxInt, func(m *loss.Map) { m.Wind = 2 })
	}, "Worst here", "Worst of all", "height when the link is lost, m", "climb then, m/s", "faster: it breaks"),
	lossScene("map of a receiver that repeats", func(t testing.TB) *losing {
		return mapped(t, uitest.Sinks, facts.RepeatsLast, lossrun.Disarming, 900_000, func(m *loss.Map) { m.Measure = lossmap.ByTurns })
	}, "repeats the last", "of 10,000 situations worked out"),
	lossScene("map of stored values", func(t testing.TB) *losing {
		return mapped(t, uitest.Sinks, facts.SendsStored, lossrun.Disarming, math.MaxInt, func(m *loss.Map) { m.Measure, m.Wind = lossmap.ByAway, 4 })
	}, "sends stored values", "how far away it comes down"),
	lossScene("no map", func(t testing.TB) *losing {
		return mapped(t, stores, facts.SendsStored, lossrun.OfFile, 1, func(*loss.Map) {})
	}, "does not stay level, so it has no map"),
	lossScene("the worst, played", func(t testing.TB) *losing {
		l := hovering(t).radio(0).run(1500)
		loss.Of(l.V).Played = words.T("loss-map.played", words.Args{"at": words.AsIs("12 m"), "so": words.Flag(false)})
		return l
	}, "The worst of the map: 12 m. Delete: begin again."),
}

// The three that were begun at the worst of the map hear no hand: the key of a radio that is silent there is not offered.
func TestNoRadioKeyWhereItReachesNothing(t *testing.T) {
	l := hovering(t).radio(0).run(1500)
	require.True(t, l.V.Shows(ui.SwitchRadio, ui.OnLoss))
	loss.Of(l.V).Played = words.AsIs("12 m")
	assert.False(t, l.V.Shows(ui.SwitchRadio, ui.OnLoss))
	assert.True(t, l.V.Shows("loss-anew", ui.OnLoss))
}

func TestTheMapInEveryScene(t *testing.T) { uitest.InEveryScene(t, "loss map", mapScenes, loss.Draw) }

// hampered are states in which most is to be said: what refuses, that no hand cures it, and what the craft must read.
var hampered = []uitest.Scene{
	lossScene("arm channel planted out", func(t testing.TB) *losing {
		return losses(uitest.Ready(t).Glide(0, 1312, 200).Plant(fault.ChannelOut, 5, 0).Wait(800), lossrun.Disarming)
	}, "Then, to arm, channel 5 must read"),
	lossScene("arm channel not sent", func(t testing.TB) *losing {
		s := uitest.Ready(t)
		s.Frame[4] = pulse.Missing
		return losses(s.Send().Wait(12_000), lossrun.Disarming)
	}, "channel 5 (arm) carries no pulse", "Or press Enter, and a pilot flies them."),
	lossScene("sticks bent", func(t testing.TB) *losing {
		s := uitest.SticksReady(t).Plant(fault.OffCentre, 1, 42).Wait(1500)
		s.V.Driver, s.V.DriverName = ui.Radio, uitest.LongName
		return losses(s, lossrun.Disarming)
	}, "throttle below 1000 µs and yaw at"),
	lossScene("sticks that do not reach", func(t testing.TB) *losing {
		return losses(uitest.SticksReady(t).Plant(fault.Reversed, 1, 0).Set(3, 2012).Wait(1500), lossrun.ArmedThrottle)
	}, "so that the craft reads throttle below"),
	lossScene("spent by sticks", func(t testing.TB) *losing {
		return losses(uitest.SticksReady(t).Tell(pulse.Cable, 1).Set(3, 2012).Wait(1200), lossrun.ArmedLow)
	}, "this try is used up"),
	lossScene("unplugged", func(t testing.TB) *losing {
		return losses(uitest.SticksReady(t).Tell(pulse.Plug, 0).Tell(pulse.Link, 0).Wait(1200), lossrun.ArmedLow)
	}, "The radio was silent already."),
	lossScene("a pilot who cannot arm", func(t testing.TB) *losing {
		s := uitest.Ready(t).Plant(fault.ChannelOut, 5, 0).Tell(pulse.Air, 1).Wait(9000)
		s.V.Driver, s.V.DriverName, loss.Of(s.V).Flown = ui.Played, lossrun.PilotName, true
		return losses(s, lossrun.Disarming)
	}, "The pilot cannot arm it. No link: frames come, but"),
	lossScene("a low link, repeated", func(t testing.TB) *losing {
		cfg, name := uitest.Craft(t, uitest.GapCraft)
		s := uitest.NewStage(t, cfg, name).On().Wait(3000).Plant(fault.RadioOff, 0, 0).Wait(900)
		return losses(s, lossrun.ArmedThrottle)
	}, "The radio was silent already."),
}

func TestLossInEveryHamperedState(t *testing.T) {
	uitest.InEveryScene(t, "loss hampered", hampered, loss.Draw)
}

// Nothing that is said on the sheet is cut off, in any state, at any size.
func TestNothingOnTheLossSheetIsCutOff(t *testing.T) {
	p := ink.NewPage(960, 600, 0, nil)
	for _, sc := range append(append(hampered, lossScenes...), mapScenes...) {
		s := sc.Make(t)
		for _, s.V.Class = range []bool{false, true} {
			for _, z := range append([]uitest.Size{{W: 1280, H: 800}}, uitest.Sizes...) {
				p.Reset(z.W, z.H, 0, nil)
				loss.Draw(p, s.V)
				for _, it := range p.Items() {
					if strings.HasPrefix(it.Name, "loss") || strings.HasPrefix(it.Name, "map-") || it.Name == "does" || it.Name == "time-to-come" {
						assert.False(t, strings.HasSuffix(it.Text, "…"), "%s, class %v, %vx%v: %q", sc.Name, s.V.Class, z.W, z.H, it.Text)
					}
				}
			}
		}
	}
}

func TestLossInEveryScene(t *testing.T) { uitest.InEveryScene(t, "loss", lossScenes, loss.Draw) }

// Each state word of the class view is as high as it is to be, and there are three of them, each of its own craft.
func TestLossForAClassShowsThreeStates(t *testing.T) {
	s := hovering(t).radio(0).run(3000)
	s.V.Class, s.V.Full = true, true
	for _, z := range uitest.Sizes {
		p := ink.NewPage(z.W, z.H, 0, nil)
		loss.Draw(p, s.V)
		var states []string
		for _, it := range p.Items() {
			if it.Name == "state" {
				states = append(states, it.Text)
				assert.GreaterOrEqual(t, ink.CapHeight(it.Size, it.Weight), 0.12*min(z.H, z.W*600/960))
			}
		}
		assert.Equal(t, []string{"DISARMED", "ARMED", "DISARMED"}, states, "%v", z)
		all := uitest.Texts(p)
		for _, want := range []string{"falls silent", "no pulses", "repeats the last", "hold", "sends stored values", "preset", "It noticed, and cut", "It cannot know"} {
			assert.Contains(t, all, want, "%v", z)
		}
	}
	assert.True(t, s.V.Snap.Tick > 0 && s.V.Config == s.Cfg, "the view is as it was")
}

// No key has two jobs on this sheet, none is one of the keyboard pilot's, which drives on it; and all are there to be pressed.
func TestLossHasAKeyForEverything(t *testing.T) {
	require.True(t, uitest.AllSheets().Flown(ui.OnLoss))
	s := hovering(t)
	keys := []ui.Action{ui.SwitchRadio, "loss-fly", "loss-stored", "loss-anew", ui.NextDriver, ui.ShowHelp}
	uitest.KeysAreThere(t, ui.OnLoss, loss.Draw, s.V, keys...)
	assert.False(t, s.V.Shows(ui.StepFlight, ui.OnLoss), "time runs")
	s.radio(0).run(100)
	assert.False(t, s.V.Shows("loss-stored", ui.OnLoss), "a receiver does not think of something else in the air")
	uitest.KeysAreThere(t, ui.OnLoss, loss.Draw, s.V, ui.SwitchRadio)
}

func BenchmarkLoss(b *testing.B) {
	s := hovering(b).radio(0).run(3000)
	p := ink.NewPage(1920, 1080, 0, nil)
	b.ReportAllocs()
	for b.Loop() {
		p.Reset(1920, 1080, 0, nil)
		loss.Draw(p, s.V)
	}
}

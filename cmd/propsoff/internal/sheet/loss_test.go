package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/lossrun"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/input/keyboard"
	"propsoff/sim/body"
	"propsoff/sim/fault"
	"propsoff/sim/pulse"
	"propsoff/sim/vec"
)

// losing is a stage on which three crafts with three receivers do what the stage's own does.
type losing struct {
	*stage
	crafts *lossrun.Set
}

// losses opens the sheet of three receivers on a stage.
func losses(s *stage, stored lossrun.Stored) *losing {
	l := &losing{s, lossrun.New(s.p, stored)}
	s.v.Loss.Stored = stored
	for i := range s.v.Loss.Crafts {
		s.v.Loss.Crafts[i] = LossCraft{Refusals: &Refusals{}}
	}
	return l.run(60)
}

// run lets time pass for all four.
func (l *losing) run(ms int) *losing {
	for range ms {
		readings := append([]pulse.Reading(nil), l.queue...)
		l.wait(1)
		l.crafts.Step(readings)
		for i := range l.v.Loss.Crafts {
			c := &l.v.Loss.Crafts[i]
			p := l.crafts.Craft(i)
			p.Snapshot(&c.Snap)
			c.Run, c.Config = l.crafts.Run(i), *p.Bench().Config()
			if c.Snap.Tick%16 == 0 || ms < 16 {
				c.Facts = l.told.Of(p, l.whose())
				l.told.Back(&c.Facts)
				c.Refusals.Update(&c.Facts)
			}
			if c.Snap.In.Air && c.Snap.Tick%TrailEvery == 0 {
				var last *TrailPoint
				if n := len(c.Trail); n > 0 {
					last = &c.Trail[n-1]
				}
				c.Trail = append(c.Trail, NextTrailPoint(last, &c.Snap))
			}
		}
	}
	l.facts()
	l.told.Back(&l.v.Facts)
	var ready []pulse.Reading
	if !l.v.Loss.Flown {
		ready = lossrun.Outside(l.cfg)
	}
	l.v.Loss.Pilot = l.told.Pilot(l.p, ready)
	return l
}

// put moves one channel, radio the radio's own switch.
func (l *losing) put(channel int8, us int) *losing { l.set(channel, us); return l }
func (l *losing) radio(on int32) *losing           { l.tell(pulse.Link, on); return l }

// sinks is a craft that sinks on a lost link.
const sinks = `propsoff: craft 1
name: Sinker
link: {when-lost: sink}
channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5, mode: 6}
modes: {angle: {from: 860, to: 1300}, horizon: {from: 1300, to: 1700}, rate: {from: 1700, to: 2180}}
`

// stores is a craft whose receiver sends stored values of its own.
const stores = `propsoff: craft 1
name: Storer
receiver: {when-silent: sends-stored, stored: {throttle: 1400, roll: 1600, pitch: 1500, yaw: 1500, arm: 2000, mode: 1000}}
channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5, mode: 6}
`

func hoverOf(t testing.TB, text string) *stage {
	cfg, name := craft(t, text)
	s := newStage(t, cfg, name).on().wait(3000)
	s.tell(pulse.Air, 1).tell(pulse.Propellers, pulse.PropellersValue(body.Default().Hand, true)).wait(4000)
	return s.set(4, 2012).wait(400).hold(8, 6000)
}

func hovering(t testing.TB) *losing { return losses(airborne(t, 8), lossrun.Disarming) }

func turningOnDesk(t testing.TB, stored lossrun.Stored) *losing {
	return losses(ready(t).set(4, 2012).wait(500).set(0, 1450).wait(300), stored)
}

func lossScene(name string, make func(t testing.TB) *losing, says ...string) scene {
	return scene{name, func(t testing.TB) *stage { return make(t).stage }, says}
}

var lossScenes = []scene{
	lossScene("waiting on the desk", func(t testing.TB) *losing { return losses(ready(t), lossrun.Disarming) },
		"RADIO ON", "falls silent", "repeats the last", "sends stored values", "no pulses", "hold", "preset", "Or press Enter"),
	lossScene("waiting in the air", hovering, "All three do the same. L: the radio goes off.", "they disarm the craft"),
	lossScene("radio off at first", func(t testing.TB) *losing { return losses(ready(t).tell(pulse.Link, 0).wait(800), lossrun.ArmedLow) },
		"RADIO OFF", "L switches it on"),
	lossScene("nothing noticed yet", func(t testing.TB) *losing { return hovering(t).radio(0).run(150) },
		"It waits 0.24 s", "disarmed at once", "Nothing cuts", "silence limit"),
	lossScene("falling", func(t testing.TB) *losing { return hovering(t).radio(0).run(800) },
		"It noticed, and cut after 0.22 s. It falls.", "silence limit: link lost"),
	lossScene("down", func(t testing.TB) *losing { return hovering(t).radio(0).run(6000) },
		"lies right below", "on the ground at", "unnoticed", "It flies on as it was told last"),
	lossScene("flown away", func(t testing.TB) *losing {
		l := hovering(t).put(1, 1750).run(700).radio(0).run(5000)
		l.v.Flight.Pace = Pace{Paused: true, Slow: 10}
		return l
	}, "Time stands still"),
	lossScene("sinking", func(t testing.TB) *losing { return losses(hoverOf(t, sinks), lossrun.ArmedLow).radio(0).run(2300) },
		"It noticed, and sinks", "sinks"),
	lossScene("sunk", func(t testing.TB) *losing { return losses(hoverOf(t, sinks), lossrun.ArmedThrottle).radio(0).run(9000) },
		"sank, and cut after"),
	lossScene("the file's own values", func(t testing.TB) *losing { return losses(hoverOf(t, stores), lossrun.OfFile).radio(0).run(3000) },
		"what the craft file says", "stays ARMED"),
	lossScene("armed and low", func(t testing.TB) *losing {
		l := losses(hovering(t).stage, lossrun.ArmedLow)
		return l.radio(0).run(4000)
	}, "and lies right below, still ARMED"),
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
		return losses(sticksReady(t).set(3, 2012).wait(1000).set(3, 1500).set(0, 1400).wait(500), lossrun.Disarming).radio(0).run(1500)
	}, "disarming corner"),
	lossScene("not armed", func(t testing.TB) *losing { return losses(ready(t), lossrun.Disarming).radio(0).run(1000) },
		"It was not armed, and stays so", "stood still"),
	lossScene("its own pilot", func(t testing.TB) *losing {
		l := hovering(t).run(10)
		l.v.Driver, l.v.DriverName, l.v.Next, l.v.NextName, l.v.Loss.Flown, l.v.Loss.Steady = Played, "the demonstration's own pilot", Radio, longName, true, true
		return l
	}, "They hover. L: the radio goes off.", "stop the pilot", "radio off"),
	lossScene("played", func(t testing.TB) *losing {
		l := hovering(t).radio(0).run(2000)
		l.v.Driver, l.v.DriverName, l.v.Next = Played, "a lesson", Nobody
		return l
	}, "What is played has the radio's switch. Watch."),
	lossScene("no power", func(t testing.TB) *losing { return losses(ready(t).tell(pulse.Power, 0).wait(100), lossrun.Disarming) },
		"It has no power."),
	lossScene("on its side", func(t testing.TB) *losing {
		l := hovering(t).radio(0).run(5000).radio(1).run(1800)
		for i := range l.v.Loss.Crafts {
			c := &l.v.Loss.Crafts[i]
			c.Run.Tipped = true
			c.Snap.Air.Body.Att = turnBy(vec.V{X: 1.5})
		}
		l.v.Notices = []string{bluntedNotice, phrase.NoRadio()}
		return l
	}),
}

// hampered are states in which most is to be said: what refuses, that no hand cures it, and what the craft must read.
var hampered = []scene{
	lossScene("arm channel planted out", func(t testing.TB) *losing {
		return losses(ready(t).glide(0, 1312, 200).plant(fault.ChannelOut, 5, 0).wait(800), lossrun.Disarming)
	}, "Then, to arm, channel 5 must read"),
	lossScene("arm channel not sent", func(t testing.TB) *losing {
		s := ready(t)
		s.frame[4] = pulse.Missing
		return losses(s.send().wait(12_000), lossrun.Disarming)
	}, "channel 5 (arm) carries no pulse", "Or press Enter, and a pilot flies them."),
	lossScene("sticks bent", func(t testing.TB) *losing {
		s := sticksReady(t).plant(fault.OffCentre, 1, 42).wait(1500)
		s.v.Driver, s.v.DriverName = Radio, longName
		return losses(s, lossrun.Disarming)
	}, "throttle below 1000 µs and yaw at"),
	lossScene("sticks that do not reach", func(t testing.TB) *losing {
		return losses(sticksReady(t).plant(fault.Reversed, 1, 0).set(3, 2012).wait(1500), lossrun.ArmedThrottle)
	}, "so that the craft reads throttle below"),
	lossScene("spent by sticks", func(t testing.TB) *losing {
		return losses(sticksReady(t).tell(pulse.Cable, 1).set(3, 2012).wait(1200), lossrun.ArmedLow)
	}, "this try is used up"),
	lossScene("unplugged", func(t testing.TB) *losing {
		return losses(sticksReady(t).tell(pulse.Plug, 0).tell(pulse.Link, 0).wait(1200), lossrun.ArmedLow)
	}, "The radio was silent already."),
	lossScene("a pilot who cannot arm", func(t testing.TB) *losing {
		s := ready(t).plant(fault.ChannelOut, 5, 0).tell(pulse.Air, 1).wait(9000)
		s.v.Driver, s.v.DriverName, s.v.Loss.Flown = Played, "the demonstration's own pilot", true
		return losses(s, lossrun.Disarming)
	}, "The pilot cannot arm it. No link: frames come, but"),
	lossScene("a low link, repeated", func(t testing.TB) *losing {
		cfg, name := craft(t, gapCraft)
		s := newStage(t, cfg, name).on().wait(3000).plant(fault.RadioOff, 0, 0).wait(900)
		return losses(s, lossrun.ArmedThrottle)
	}, "The radio was silent already."),
}

func TestLossInEveryHamperedState(t *testing.T) { inEveryScene(t, "loss hampered", hampered, Loss) }

// Nothing that is said on the sheet is cut off, in any state, at any size.
func TestNothingOnTheLossSheetIsCutOff(t *testing.T) {
	p := ink.NewPage(960, 600, 0, nil)
	for _, sc := range append(hampered, lossScenes...) {
		s := sc.make(t)
		for _, s.v.Class = range []bool{false, true} {
			for _, z := range append([]size{{1280, 800}}, sizes...) {
				p.Reset(z.w, z.h, 0, nil)
				Loss(p, s.v)
				for _, it := range p.Items() {
					if strings.HasPrefix(it.Name, "loss") || it.Name == "does" || it.Name == "time to come" {
						assert.False(t, strings.HasSuffix(it.Text, "…"), "%s, class %v, %vx%v: %q", sc.name, s.v.Class, z.w, z.h, it.Text)
					}
				}
			}
		}
	}
}

func TestLossInEveryScene(t *testing.T) { inEveryScene(t, "loss", lossScenes, Loss) }

// Each state word of the class view is as high as it is to be, and there are three of them, each of its own craft.
func TestLossForAClassShowsThreeStates(t *testing.T) {
	s := hovering(t).radio(0).run(3000)
	s.v.Class, s.v.Full = true, true
	for _, z := range sizes {
		p := ink.NewPage(z.w, z.h, 0, nil)
		Loss(p, s.v)
		var words []string
		for _, it := range p.Items() {
			if it.Name == "state" {
				words = append(words, it.Text)
				assert.GreaterOrEqual(t, ink.CapHeight(it.Size, it.Weight), 0.12*min(z.h, z.w*600/960))
			}
		}
		assert.Equal(t, []string{"DISARMED", "ARMED", "DISARMED"}, words, "%v", z)
		all := texts(p)
		for _, want := range []string{"falls silent", "no pulses", "repeats the last", "hold", "sends stored values", "preset", "It noticed, and cut after", "It cannot know"} {
			assert.Contains(t, all, want, "%v", z)
		}
	}
	assert.True(t, s.v.Snap.Tick > 0 && s.v.Config == s.cfg, "the view is as it was")
}

// No key has two jobs on this sheet, none is one of the keyboard pilot's, which drives on it; and all are there to be pressed.
func TestLossHasAKeyForEverything(t *testing.T) {
	taken := map[string]bool{}
	for _, k := range keyboard.Layout() {
		taken[k.Physical] = true
	}
	require.NotZero(t, OnFlown&OnLoss)
	s := hovering(t)
	p := ink.NewPage(960, 600, 0, nil)
	Loss(p, s.v)
	hits := map[string]string{}
	for _, h := range p.Hits() {
		hits[h.Name] = h.Key
	}
	for _, a := range Acts() {
		if a.On&OnLoss == 0 {
			continue
		}
		assert.False(t, taken[a.Physical], a.Physical)
		taken[a.Physical] = true
		if s.v.Shows(a, OnLoss) {
			assert.Equal(t, a.Physical, hits[a.Code], a.Code)
		}
	}
	for _, code := range []string{"radio-switch", "loss-fly", "loss-stored", "loss-anew", "flight-pause", "flight-slow"} {
		assert.Contains(t, hits, code)
	}
	assert.NotContains(t, hits, "flight-step", "time runs")
	s.radio(0).run(100)
	p.Reset(960, 600, 0, nil)
	Loss(p, s.v)
	for _, h := range p.Hits() {
		assert.NotEqual(t, "loss-stored", h.Name, "a receiver does not think of something else in the air")
	}
}

func TestTheHelpOfLossNamesItsKeys(t *testing.T) {
	s := hovering(t)
	s.v.HelpOf = OnLoss
	says := append([]string{}, phrase.Cautions()...)
	for _, a := range Acts() {
		if a.On&OnLoss != 0 {
			says = append(says, phrase.ActionHelp(a.Code))
		}
	}
	check(t, "help of loss", s.stage, Help, says...)
}

func BenchmarkLoss(b *testing.B) {
	s := hovering(b).radio(0).run(3000)
	p := ink.NewPage(1920, 1080, 0, nil)
	b.ReportAllocs()
	for b.Loop() {
		p.Reset(1920, 1080, 0, nil)
		Loss(p, s.v)
	}
}

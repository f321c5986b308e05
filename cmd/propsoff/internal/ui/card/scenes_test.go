package card_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/radioreach"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui/card"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// scene is one card; says are words that must stand on it.
type scene struct {
	name string
	make func(t testing.TB) card.Data
	says []string
	// bank must stand on the bank-card.
	bank []string
}

func cardCraft(t testing.TB, text string) *craftfile.File {
	f, err := craftfile.Parse("test.yaml", []byte(text))
	require.NoError(t, err)
	return f
}

// dated is the card of a craft and a radio, of a day.
func dated(f *craftfile.File, r handset.Radio, given bool) card.Data {
	c := card.Make(f, "crafts/my own.yaml", r, given)
	c.Date = time.Date(2031, time.April, 5, 12, 0, 0, 0, time.UTC)
	return c
}

func shippedCraft(t testing.TB, name string) *craftfile.File {
	_, text, ok := assets.Craft(name)
	require.True(t, ok)
	return cardCraft(t, string(text))
}

// busyCraft has a second switch and named jobs, one of which shares a channel.
const busyCraft = `propsoff: craft 1
name: Hedgerow 5
link: {when-lost: sink, sink-time: 4 s}
channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5, mode: 6, second: 7}
arming: {only-self-levelling: yes}
second-switch: {on: {from: 1300, to: 2180}}
modes: {angle: {from: 860, to: 1250}, horizon: {from: 1250, to: 1750}, rate: {from: 1750, to: 2180}}
motors: {at-low-throttle: idle}
jobs:
  finder sound: {channel: 8, on: {from: 1700, to: 2180}}
  lights: {channel: 6, on: {from: 1250, to: 2180}}
`

// measured makes a radio as it may have been learned.
func measured(name string, more ...handset.Control) handset.Radio {
	us := pulse.Micros
	stick := func(channel int8, job string, low, rest, high int, stays bool) handset.Control {
		return handset.Control{Channel: channel, Job: job, Source: fmt.Sprintf("axis %d", channel+1), Low: us(low), Rest: us(rest), High: us(high), Stays: stays, Noise: pulse.Eighths}
	}
	return handset.Radio{Name: name, StickMode: 2, Measured: true, Controls: append([]handset.Control{
		stick(0, "throttle", 990, 990, 2009, true), stick(1, "roll", 988, 1502, 2012, false),
		stick(2, "pitch", 991, 1499, 2010, false), stick(3, "yaw", 988, 1500, 2012, false),
	}, more...)}
}

// aSwitch makes a switch with n positions over the whole travel.
func aSwitch(channel int8, job string, side handset.Side, n int) handset.Control {
	c := handset.Control{Channel: channel, Job: job, Kind: handset.Switch, Side: side, Source: fmt.Sprintf("axis %d", channel+1)}
	for i := range n {
		c.Positions = append(c.Positions, handset.Position{Width: pulse.Low + pulse.Width(2*int(pulse.Travel)*i/(n-1)), Spread: pulse.Eighths})
	}
	return c
}

// wildCraft breaks what a craft with a switch can break.
const wildCraft = `propsoff: craft 1
name: Every fault at once
receiver: {when-silent: sends-stored, stored: {throttle: 1200, roll: 1500, pitch: 1500, yaw: 1500, arm: 2012, mode: 1750, second: 2012}}
channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5, mode: 6, second: 7}
second-switch: {on: {from: 1600, to: 2180}}
arming: {by: switch, on: {from: 1600, to: 2180}, low-throttle: 1100}
modes: {angle: {from: 1650, to: 1700}, horizon: {from: 1720, to: 1740}, rate: {from: 1900, to: 1950}}
jobs: {finder sound: {channel: 8, on: {from: 1700, to: 2180}}}
`

// wild is a card with twelve switches on which eleven rules are broken: seven by this craft, and four more that are made so.
func wild(t testing.TB) card.Data {
	var more []handset.Control
	for i := range 12 {
		job := map[int]string{0: "arm", 1: "mode", 2: "second", 3: "finder sound"}[i]
		if job == "" {
			job = fmt.Sprintf("channel %d", i+5)
		}
		k := aSwitch(int8(4+i), job, handset.Side(i%4), 2+i%5)
		k.Momentary, k.Called = i == 0, "the long one at the left"
		more = append(more, k)
	}
	c := dated(cardCraft(t, wildCraft), measured("Moorland Desk 7", more...), true)
	rep, err := facts.Prove(prove.Layout{Config: c.Config, Radio: c.Radio}, func(prove.Progress) bool { return false })
	require.NoError(t, err)
	broken := rep.Count(prove.Broken)
	require.Equal(t, 7, broken)
	for i := range rep.Results {
		if r := &rep.Results[i]; r.Outcome == prove.Holds && i%3 == 0 && broken < 11 {
			*r = prove.Result{Rule: r.Rule, Outcome: prove.Broken, Cause: prove.StoredSwitchOn, Value: int64(pulse.High)}
			broken++
		}
	}
	require.Equal(t, 11, broken)
	c.Proved, c.Like = &rep, &tell.Like{Craft: "every-fault.yaml", CraftWas: true, Radio: "moorland-desk-7.yaml", RadioWas: true}
	return c
}

var scenes = []scene{
	{"ideal", func(t testing.TB) card.Data {
		f := shippedCraft(t, "built-in")
		return dated(f, radioreach.Ideal(f), false)
	}, []string{"Teasel", "Teasel: a craft that comes with propsoff. Yours may differ: compare each line with it.", "Channels are what the craft hears; axes and buttons are counted as they come by USB.", "5 April 2031", "switches", "Values in µs. Ideal radio", "Each list has the switch's high end, the most µs, on top. Dashed on the drawing", "2012", "ARMED", "disarmed", "horizon, air mode", "Not proved: the situations of this layout were not searched",
		"With the throttle below 1000 µs, move the arm switch (1) from off to its high end, 2012 µs, to arm; moving it off again disarms at once, in flight too.",
		"Craft: 0.24 s after the last valid frame it cuts", "Back: after 1.2 s of clean link"}, []string{"ARM", "DISARM", "no radio learned, stick mode 2", "5 April 2031", "Radio silent?", "0.24 s later the motors stop", "Do not arm again before you know why.", "Layout not proved: not searched for this card.", "Teasel: a craft that comes with propsoff. Yours may differ: compare each line with it.", "fold"}},
	{"sticks", func(t testing.TB) card.Data {
		f := shippedCraft(t, "teasel-by-sticks")
		r := measured("Moorland Desk 7", aSwitch(5, "mode", handset.Right, 3))
		return dated(f, r, true)
	}, []string{"arm", "disarm", "Hold the throttle below 1000 µs and yaw fully right for 0.8 s to arm", "990 to 2009, stays"}, []string{"throttle low, yaw right, for 0.8 s", "throttle low, yaw left", "You: throttle low, yaw left."}},
	{"usual", func(t testing.TB) card.Data {
		f := shippedCraft(t, "built-in")
		arm := aSwitch(4, "arm", handset.Left, 2)
		arm.Called, arm.Source = "left rear toggle", "button 5"
		r := measured("Moorland Desk 7", arm, aSwitch(5, "mode", handset.Right, 3))
		return dated(f, r, true)
	}, []string{"left rear toggle", "channel 5, button 5", "Radio Moorland Desk 7.", "2012 µs"}, []string{"Arm switch: left rear toggle", "Moorland Desk 7, stick mode 2"}},
	{"placed", func(t testing.TB) card.Data {
		arm, mode, second := aSwitch(4, "arm", handset.Left, 2), aSwitch(5, "mode", handset.Right, 3), aSwitch(6, "second", handset.Left, 2)
		arm.Called = "left rear toggle"
		arm.Spot = handset.Spot{View: handset.OnShoulders, X: 90, Y: 700, Way: handset.GoesDown}
		mode.Spot = handset.Spot{View: handset.OnFace, X: 850, Y: 100, Way: handset.GoesRight}
		second.Spot = handset.Spot{View: handset.OnBack, X: 200, Y: 300, Way: handset.Pressed}
		r := measured("Moorland Desk 7", arm, mode, second)
		r.StickMode = 3
		c := dated(cardCraft(t, busyCraft), r, true)
		c.Whom = "Zoë Größe-Ångström"
		return c
	}, []string{"towards you", "away from you", "in the middle", "to the right", "to the left", "for Zoë Größe-Ångström"}, []string{"towards you", "away from you", "to the right", "second switch (3): in", "for Zoë Größe-Ångström", "3 things called out"}},
	{"busy", func(t testing.TB) card.Data {
		f := cardCraft(t, busyCraft)
		arm := aSwitch(4, "arm", handset.Left, 3)
		spring := aSwitch(7, "finder sound", handset.Right, 2)
		spring.Momentary = true
		knob := handset.Control{Channel: 8, Job: "channel 9", Kind: handset.Knob, Side: handset.Top, Low: pulse.Low, Rest: pulse.Low, High: pulse.High, Stays: true, Source: "axis 9"}
		r := measured("Moorland Desk 7", arm, aSwitch(5, "mode", handset.Right, 3), aSwitch(6, "second", handset.Left, 2), spring, knob)
		c := dated(f, r, true)
		rep := prove.Report{Situations: 537664, Standing: 348e6}
		for i := range prove.RuleCount {
			rep.Results = append(rep.Results, prove.Result{Rule: i, Outcome: prove.Holds, Searched: 537664})
		}
		c.Proved, c.Like = &rep, &tell.Like{Craft: "hedgerow-4.yaml", Radio: "an-older-desk.yaml", On: c.Date}
		return c
	}, []string{"Behaves like the craft of hedgerow-4.yaml with the radio of an-older-desk.yaml: proved 5 April 2031; how it flies was not compared.", "Hedgerow 5", "Craft file: my own.yaml.", "rate, air mode + lights", "finder sound", "channel 8, axis 8, springs back", "permits arming", "bars arming", "anywhere", "knob or slider",
		"Every situation was searched: 537,664 situations. No rule is broken.", "it sinks for 4 s", "carrying at most 90 % of its weight"}, []string{"Behaves like the craft of hedgerow-4.yaml with the radio of an-older-desk.yaml: proved 5 April 2031; how it flies was not compared.", "every rule holds", "it sinks for 4 s, then the motors stop; with the throttle low they stop without sinking."}},
	{"twelve", func(t testing.TB) card.Data {
		f := cardCraft(t, busyCraft)
		var more []handset.Control
		for i := range 12 {
			job := map[int]string{0: "arm", 1: "mode", 2: "second", 3: "finder sound"}[i]
			if job == "" {
				job = fmt.Sprintf("channel %d", i+5)
			}
			more = append(more, aSwitch(int8(4+i), job, handset.Side(i%4), 6))
		}
		return dated(f, measured("Moorland Desk 7", more...), true)
	}, []string{"12", "Channel 16", "switches, and what each position does"}, nil},
	{"stored", func(t testing.TB) card.Data {
		f := cardCraft(t, strings.Replace(busyCraft, "link: {", "receiver: {when-silent: sends-stored, stored: {throttle: 1200, roll: 1500, pitch: 1500, yaw: 1500, arm: 2012}}\nlink: {", 1))
		c := card.Make(f, "", measured("Moorland Desk 7", aSwitch(4, "arm", handset.Left, 2), aSwitch(5, "mode", handset.Left, 3), aSwitch(6, "second", handset.Left, 2)), true)
		c.Radio.StickMode = 1
		rep := prove.Report{Situations: 1234, Standing: 56789, Partial: true}
		for i := range prove.RuleCount {
			o := prove.Undecided
			if i%5 == 0 {
				o = prove.Broken
			} else if i%7 == 0 {
				o = prove.NotAsked
			}
			rep.Results = append(rep.Results, prove.Result{Rule: i, Outcome: o, Cause: prove.StoredSwitchOn, Value: int64(pulse.High)})
		}
		c.Proved = &rep
		return c
	}, []string{"sends stored values (preset)", "keep the arm channel at 2012 µs, in its span: an armed craft stays armed and nothing cuts: the motors go on, with the throttle at 1200 µs.", "rules are broken", "• ", "undecided", "so this answer is partial", "This radio has no control for finder sound."}, []string{"stays armed: the motors go on.", "Never reach in", "RULES BROKEN"}},
	{"sticks mode 1", func(t testing.TB) card.Data {
		f := shippedCraft(t, "teasel-by-sticks")
		f2 := cardCraft(t, strings.Replace(string(f.Text), "falls-silent ", "repeats-last ", 1))
		r := measured("Moorland Desk 7")
		r.StickMode = 1
		return dated(f2, r, true)
	}, []string{"repeats the last values (hold)", "Nothing cuts: the motors go on as they were last told. Sticks last seen in the arm corner can ARM a disarmed craft. Set the receiver to fall silent (no pulses).", "This radio has no control for the mode."}, []string{"it cannot notice", "Disarmed, it can ARM by itself.", "This radio has no control for the mode."}},
	{"never sinks", func(t testing.TB) card.Data {
		f := cardCraft(t, strings.Replace(busyCraft, "link: {", "receiver: {when-silent: sends-stored, stored: {throttle: 988, roll: 1500, pitch: 1500, yaw: 1500, arm: 988}}\nlink: {", 1))
		r := measured("Moorland Desk 7", aSwitch(4, "arm", handset.Left, 2), aSwitch(5, "mode", handset.Left, 3), aSwitch(6, "second", handset.Left, 2))
		r.Controls[2].Assumed, r.Controls[5].Assumed = true, true
		c := dated(f, r, true)
		c.NotProved, c.Searching = tell.CardNotProved(true), true
		return c
	}, []string{"outside its span: it is disarmed and the motors stop at once. It never sinks.", "Values in µs as measured, but for pitch and mode switch: full travel is taken for granted there. Radio Moorland Desk 7.",
		"Not proved yet: the situations of this layout were still being searched when this card was made.", "called out (finder sound: not sent by the radio; never sinks on a lost link; mode + lights: two jobs at once): see the layout sheet or “propsoff prove”"}, []string{"0.02 s later the motors stop", "Layout not proved: its search was still going on.", "Craft file: my own.yaml."}},
	{"wild", wild, []string{"12", "11 rules are broken", "springs back", "outside every span!"}, []string{"11 RULES BROKEN"}},
	{"all at the left", func(t testing.TB) card.Data {
		f := cardCraft(t, busyCraft)
		var more []handset.Control
		for i := range 12 {
			job := map[int]string{0: "arm", 1: "mode", 2: "second", 3: "finder sound"}[i]
			if job == "" {
				job = fmt.Sprintf("channel %d", i+5)
			}
			c := aSwitch(int8(4+i), job, handset.Left, 12)
			more = append(more, c)
		}
		c := dated(f, measured("Moorland Desk 7", more...), true)
		for i := range 60 {
			c.Jobs = append(c.Jobs, craftfile.Job{Name: fmt.Sprintf("extra job %d", i), Channel: int8(8 + i%8), Spans: []layout.Span{{Low: pulse.Micros(900 + 18*i), High: pulse.Micros(918 + 18*i)}}})
		}
		return c
	}, nil, nil},
	{"long", func(t testing.TB) card.Data {
		f := cardCraft(t, strings.Replace(busyCraft, "Hedgerow 5", strings.Repeat("Grosse blaue Libelle der Jugendgruppe ", 4), 1))
		var more []handset.Control
		for i := range 7 {
			job := map[int]string{0: "arm", 1: "mode", 2: "second", 3: "finder sound"}[i]
			if job == "" {
				job = fmt.Sprintf("channel %d", i+5)
			}
			c := aSwitch(int8(4+i), job, handset.Side(1+i%3), 3)
			c.Called = "the long switch with the red cap at the very back of the left shoulder, number " + fmt.Sprint(i)
			more = append(more, c)
		}
		return dated(f, measured(strings.Repeat("Moorland Desk Seven Deluxe ", 8), more...), true)
	}, nil, nil},
}

package sheet

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff/assets"
	"propsoff/cmd/propsoff/internal/fit"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim/craftfile"
	"propsoff/sim/handset"
	"propsoff/sim/layout"
	"propsoff/sim/prove"
	"propsoff/sim/pulse"
)

// cardScene is one card; says are words that must stand on it.
type cardScene struct {
	name string
	make func(t testing.TB) CardData
	says []string
}

func cardCraft(t testing.TB, text string) *craftfile.File {
	f, err := craftfile.Parse("test.yaml", []byte(text))
	require.NoError(t, err)
	return f
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

var cardScenes = []cardScene{
	{"ideal", func(t testing.TB) CardData {
		f := shippedCraft(t, "built-in")
		return NewCard(f, fit.Ideal(f), false, "5 April 2031")
	}, []string{"Teasel", "5 April 2031", "switches", "Values in µs. Ideal radio", "Up on every drawn switch is its high end", "2012", "ARMED", "disarmed", "horizon, air mode", "Not proved: nobody has searched",
		"With the throttle below 1000 µs, move the arm switch (1) from off to its top position, 2012 µs, to arm; moving it off again disarms at once, in flight too.",
		"Craft: 0.24 s after the last valid frame it cuts", "Back: after 1.2 s of clean link"}},
	{"sticks", func(t testing.TB) CardData {
		f := shippedCraft(t, "teasel-by-sticks")
		r := measured("Moorland Desk 7", aSwitch(5, "mode", handset.Right, 3))
		return NewCard(f, r, true, "5 April 2031")
	}, []string{"arm", "disarm", "Hold the throttle below 1000 µs and yaw fully right for 0.8 s to arm", "right side", "990 to 2009, stays"}},
	{"usual", func(t testing.TB) CardData {
		f := shippedCraft(t, "built-in")
		arm := aSwitch(4, "arm", handset.Left, 2)
		arm.Called, arm.Source = "left rear toggle", "button 5"
		r := measured("Moorland Desk 7", arm, aSwitch(5, "mode", handset.Right, 3))
		return NewCard(f, r, true, "5 April 2031")
	}, []string{"left side", "right side", "left rear toggle", "channel 5, button 5", "Radio Moorland Desk 7."}},
	{"busy", func(t testing.TB) CardData {
		f := cardCraft(t, busyCraft)
		arm := aSwitch(4, "arm", handset.Left, 3)
		spring := aSwitch(7, "finder sound", handset.Right, 2)
		spring.Momentary = true
		knob := handset.Control{Channel: 8, Job: "channel 9", Kind: handset.Knob, Side: handset.Top, Low: pulse.Low, Rest: pulse.Low, High: pulse.High, Stays: true, Source: "axis 9"}
		r := measured("Moorland Desk 7", arm, aSwitch(5, "mode", handset.Right, 3), aSwitch(6, "second", handset.Left, 2), spring, knob)
		c := NewCard(f, r, true, "5 April 2031")
		rep := prove.Report{Situations: 537664, Standing: 348e6}
		for i := range prove.RuleCount {
			rep.Results = append(rep.Results, prove.Result{Rule: i, Outcome: prove.Holds, Searched: 537664})
		}
		c.Prove(&rep)
		return c
	}, []string{"Hedgerow 5", "rate, air mode + lights", "finder sound", "channel 8, axis 8, springs back", "arming allowed", "arming refused", "anywhere", "knob or slider",
		"Every situation was searched: 537,664 situations. No rule is broken.", "power-up arms nothing", "holds, 537,664 situations", "it sinks for 4 s", "carrying at most 90 % of its weight"}},
	{"twelve", func(t testing.TB) CardData {
		f := cardCraft(t, busyCraft)
		var more []handset.Control
		for i := range 12 {
			job := map[int]string{0: "arm", 1: "mode", 2: "second", 3: "finder sound"}[i]
			if job == "" {
				job = fmt.Sprintf("channel %d", i+5)
			}
			more = append(more, aSwitch(int8(4+i), job, handset.Side(i%4), 6))
		}
		return NewCard(f, measured("Moorland Desk 7", more...), true, "5 April 2031")
	}, []string{"12", "Channel 16", "top or middle", "other switches"}},
	{"stored", func(t testing.TB) CardData {
		f := cardCraft(t, strings.Replace(busyCraft, "link: {", "receiver: {when-silent: sends-stored, stored: {throttle: 1200, roll: 1500, pitch: 1500, yaw: 1500, arm: 2012}}\nlink: {", 1))
		c := NewCard(f, measured("Moorland Desk 7", aSwitch(4, "arm", handset.Left, 2), aSwitch(5, "mode", handset.Left, 3), aSwitch(6, "second", handset.Left, 2)), true, "")
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
		c.Prove(&rep)
		return c
	}, []string{"sends stored values (preset)", "keep the arm channel at 2012 µs, in its span: an armed craft stays armed and nothing cuts: the motors go on, with the throttle at 1200 µs.", "BROKEN", "Store a value outside the span, or set the receiver to fall silent.", "undecided", "so this answer is partial", "No control of this radio carries finder sound."}},
	{"sticks mode 1", func(t testing.TB) CardData {
		f := shippedCraft(t, "teasel-by-sticks")
		f2 := cardCraft(t, strings.Replace(string(f.Text), "falls-silent ", "repeats-last ", 1))
		r := measured("Moorland Desk 7")
		r.StickMode = 1
		return NewCard(f2, r, true, "5 April 2031")
	}, []string{"repeats the last values (hold)", "Nothing cuts: the motors go on as they were last told. Sticks last seen in the arm corner can ARM a disarmed craft. Set the receiver to fall silent (no pulses).", "low", "No control of this radio carries mode."}},
	{"never sinks", func(t testing.TB) CardData {
		f := cardCraft(t, strings.Replace(busyCraft, "link: {", "receiver: {when-silent: sends-stored, stored: {throttle: 988, roll: 1500, pitch: 1500, yaw: 1500, arm: 988}}\nlink: {", 1))
		r := measured("Moorland Desk 7", aSwitch(4, "arm", handset.Left, 2), aSwitch(5, "mode", handset.Left, 3), aSwitch(6, "second", handset.Left, 2))
		r.Controls[2].Assumed, r.Controls[5].Assumed = true, true
		c := NewCard(f, r, true, "5 April 2031")
		c.NotProved = phrase.CardBeingProved("F8")
		return c
	}, []string{"outside its span: it is disarmed and the motors stop at once. It never sinks.", "Values in µs as measured, but for pitch and mode switch: full travel is taken for granted there. Radio Moorland Desk 7.",
		"Not proved yet: the situations of this layout are being searched (F8).", "called out: see the layout sheet (F6)"}},
	{"all at the left", func(t testing.TB) CardData {
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
		c := NewCard(f, measured("Moorland Desk 7", more...), true, "5 April 2031")
		for i := range 60 {
			c.Jobs = append(c.Jobs, craftfile.Job{Name: fmt.Sprintf("extra job %d", i), Channel: int8(8 + i%8), Spans: []layout.Span{{Low: pulse.Micros(900 + 18*i), High: pulse.Micros(918 + 18*i)}}})
		}
		return c
	}, nil},
	{"long", func(t testing.TB) CardData {
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
		return NewCard(f, measured(strings.Repeat("Moorland Desk Seven Deluxe ", 8), more...), true, "5 April 2031")
	}, nil},
}

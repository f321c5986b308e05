package tell

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// lossCraft is a craft with one way of arming, one receiver and one answer to a lost link.
func lossCraft(t *testing.T, by, receiver, link string) *craftfile.File {
	text := "propsoff: craft 1\nname: Loss\nreceiver: {" + receiver + "}\nlink: {" + link + "}\n"
	if by == "sticks" {
		text += "channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, mode: 6}\narming: {by: sticks}\nmodes: {angle: {from: 860, to: 1250}, horizon: {from: 1250, to: 1750}, rate: {from: 1750, to: 2180}}\n"
	} else {
		text += "channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5, mode: 6}\nmodes: {angle: {from: 860, to: 1250}, horizon: {from: 1250, to: 1750}, rate: {from: 1750, to: 2180}}\n"
	}
	f, err := craftfile.Parse("loss.yaml", []byte(text))
	require.NoError(t, err)
	return f
}

func TestTheCardSaysOnlyWhatThisCraftDoesWithThisReceiver(t *testing.T) {
	stored := func(throttle, yaw, arm string) string {
		s := "when-silent: sends-stored, stored: {throttle: " + throttle + ", roll: 1500, pitch: 1500, yaw: " + yaw + ", mode: 1000"
		if arm != "" {
			s += ", arm: " + arm
		}
		return s + "}"
	}
	const (
		falls   = "Receiver: it falls silent (no pulses)."
		repeats = "Receiver: it repeats the last values (hold)."
		sends   = "Receiver: it sends stored values (preset)."
		blind   = "Craft: it cannot know that the link is gone. Nothing cuts: the motors go on as they were last told. Set the receiver to fall silent (no pulses)."
		cut     = "Craft: 0.24 s after the last valid frame it cuts: the motors stop at once and it is disarmed."
		sinks   = "Craft: 0.24 s after the last valid frame it sinks for 4 s, level, carrying at most 90 % of its weight, then cuts, some 4 m below a hover, and falls from there. With the throttle low it cuts at once."
		off     = "Before you switch the radio on again, put the arm switch off: a disarmed craft that sees it on can arm at once."
		leave   = "Before you switch the radio on again, keep the sticks out of the arm corner: held there they arm the craft."
		unseen  = "Back: the craft never saw a loss and obeys the radio again at once. "
		onward  = " and nothing cuts: the motors go on, with the throttle at "
		pulses  = " Set the receiver to fall silent (no pulses)."
	)
	for _, c := range []struct {
		name, by, receiver, link string
		want                     []string
	}{
		{"cut, switch", "switch", "when-silent: falls-silent", "when-lost: cut", []string{falls, cut, "Back: after 1.2 s of clean link it can be armed again, once the arm switch has been off."}},
		{"cut, sticks", "sticks", "when-silent: falls-silent", "when-lost: cut", []string{falls, cut, "Back: after 1.2 s of clean link it can be armed again, once the arming corner has been left."}},
		{"sink, switch", "switch", "when-silent: falls-silent", "when-lost: sink, sink-time: 4 s", []string{falls, sinks,
			"Back: after 1.2 s of clean link a craft that still sinks obeys the radio again; one that is disarmed can be armed, once the arm switch has been off."}},
		{"sink, sticks", "sticks", "when-silent: falls-silent", "when-lost: sink, sink-time: 4 s", []string{falls, sinks,
			"Back: after 1.2 s of clean link a craft that still sinks obeys the radio again; one that is disarmed can be armed, once the arming corner has been left."}},
		{"repeats, switch", "switch", "when-silent: repeats-last", "when-lost: cut", []string{repeats, blind, "Back: it obeys the radio again at once. " + off}},
		{"repeats, sink", "switch", "when-silent: repeats-last", "when-lost: sink, sink-time: 4 s", []string{repeats, strings.Replace(blind, pulses, " It never sinks."+pulses, 1), "Back: it obeys the radio again at once. " + off}},
		{"repeats, sticks", "sticks", "when-silent: repeats-last", "when-lost: cut", []string{repeats, strings.Replace(blind, pulses, " Sticks last seen in the arm corner can ARM a disarmed craft."+pulses, 1), "Back: it obeys the radio again at once. " + leave}},
		{"stored off, switch", "switch", stored("988", "1500", "988"), "when-lost: cut", []string{sends,
			"Craft: the stored values take the arm channel to 988 µs, outside its span: it is disarmed and the motors stop at once.", unseen + off}},
		{"stored on, switch", "switch", stored("1200", "1500", "2012"), "when-lost: sink, sink-time: 4 s", []string{sends,
			"Craft: the stored values keep the arm channel at 2012 µs, in its span: an armed craft stays armed" + onward + "1200 µs. It never sinks." + pulses, unseen + off}},
		{"stored on and low, switch", "switch", stored("988", "1500", "2012"), "when-lost: cut", []string{sends,
			"Craft: the stored values keep the arm channel at 2012 µs, in its span: an armed craft stays armed" + " and nothing cuts, with the throttle at 988 µs. A disarmed craft can ARM by them." + pulses, unseen + off}},
		{"stored off, sticks", "sticks", stored("988", "988", ""), "when-lost: cut", []string{sends,
			"Craft: the stored values stand in the disarming corner: it is disarmed 0.42 s after the radio's last frame, and the motors stop.", unseen + leave}},
		{"stored off, sticks, sink", "sticks", stored("988", "988", ""), "when-lost: sink, sink-time: 4 s", []string{sends,
			"Craft: the stored values stand in the disarming corner: it is disarmed 0.42 s after the radio's last frame, and the motors stop. It never sinks.", unseen + leave}},
		{"stored off, switch, sink", "switch", stored("988", "1500", "988"), "when-lost: sink, sink-time: 4 s", []string{sends,
			"Craft: the stored values take the arm channel to 988 µs, outside its span: it is disarmed and the motors stop at once. It never sinks.", unseen + off}},
		{"stored at the edge, sticks", "sticks", stored("1010", "988", ""), "when-lost: cut", []string{sends,
			"Craft: the stored values stand at the edge of the disarming corner and begin no dwell there: a flying craft stays armed" + onward + "1010 µs." + pulses, unseen + leave}},
		{"stored on, sticks", "sticks", stored("1200", "1500", ""), "when-lost: cut", []string{sends,
			"Craft: the stored values keep the sticks out of the disarming corner: an armed craft stays armed" + onward + "1200 µs." + pulses, unseen + leave}},
		{"stored arm corner, sticks", "sticks", stored("988", "2012", ""), "when-lost: cut", []string{sends,
			"Craft: the stored values keep the sticks out of the disarming corner: an armed craft stays armed" + " and nothing cuts, with the throttle at 988 µs. A disarmed craft can ARM by them." + pulses, unseen + leave}},
	} {
		f := lossCraft(t, c.by, c.receiver, c.link)
		cfg := f.Config()
		assert.Equal(t, c.want, spokenAll(CardLoss(&cfg, nil)), c.name)
	}

	// Stored values without a pulse on a stick are like silence to the craft.
	f := lossCraft(t, "switch", stored("988", "1500", "2012"), "when-lost: cut")
	cfg := f.Config()
	cfg.Link.Stored[cfg.Layout.Yaw] = pulse.Missing
	got := spokenAll(CardLoss(&cfg, nil))
	assert.Equal(t, sends+" They leave a channel without a pulse that arming needs, so the craft takes them for silence.", got[0])
	assert.Equal(t, cut, got[1])
}

func TestAPositionIsSaidByItsHighEnd(t *testing.T) {
	at := func(values ...int) *handset.Control {
		c := &handset.Control{Kind: handset.Switch}
		for _, v := range values {
			c.Positions = append(c.Positions, handset.Position{Width: pulse.Micros(v)})
		}
		return c
	}
	span := func(low, high int) layout.Span { return layout.Span{Low: pulse.Micros(low), High: pulse.Micros(high)} }
	for _, c := range []struct {
		control *handset.Control
		span    layout.Span
		want    string
	}{
		{at(988, 2012), span(1600, 2180), "at its high end, 2012 µs"},
		{at(988, 2012), span(860, 1300), "at its low end, 988 µs"},
		{at(988, 1500, 2012), span(1300, 1700), "in its middle position, 1500 µs"},
		{at(988, 1500, 2012), span(1300, 2180), "at its middle or high end, 1500 or 2012 µs"},
		{at(988, 1200, 1400, 1600, 1800, 2012), span(1590, 1700), "in its position 4 of 6 from its low end, 1600 µs"},
		{at(988, 1200, 1400, 1600, 1800, 2012), span(1590, 2180), "in one of the 3 positions at its high end, 1600 to 2012 µs"},
		{at(988, 1200, 1400, 1600, 1800, 2012), span(860, 1300), "in one of the 2 positions at its low end, 988 to 1200 µs"},
		{at(988, 1500, 2012), span(860, 1700), "at its low end or middle, 988 or 1500 µs"},
		{at(988, 1200, 1400, 1600, 1800, 2012), span(1190, 1700), ""},
		{at(988, 1500), span(1600, 2180), ""},
		{at(988, 1500), span(860, 2180), ""},
		{&handset.Control{Kind: handset.Knob}, span(1600, 2180), ""},
		{nil, span(1600, 2180), ""},
	} {
		assert.Equal(t, c.want, spoken(cardPosition(c.control, c.span, false)))
		goes := c.want
		if goes != "" {
			goes = "to" + c.want[len("in"):] + "," // "in" or "at"
		}
		assert.Equal(t, goes, spoken(cardPosition(c.control, c.span, true)))
	}
}

// spokenAll are Texts in English, bothSpoken two.
func spokenAll(all []words.Text) (out []string) {
	for _, t := range all {
		out = append(out, spoken(t))
	}
	return out
}

func bothSpoken(a, b words.Text) (string, string) { return spoken(a), spoken(b) }

func TestABrokenRuleSaysWhatToSet(t *testing.T) {
	f := lossCraft(t, "switch", "when-silent: repeats-last", "when-lost: cut")
	l := prove.Layout{Config: f.Config()}
	why, set := bothSpoken(FindingParts(&l, &prove.Result{Rule: prove.LossStopsMotors, Outcome: prove.Broken, Cause: prove.HeldSwitch, Control: -1, Position: -1}))
	assert.Equal(t, "The receiver repeats the last values, arm switch on, so the craft cannot know that the radio is silent, and its motors go on.", why)
	assert.Equal(t, "Set the receiver to fall silent (no pulses).", set)
	// Every cause says why, and where something can be set, what.
	for c := range prove.CauseCount {
		for rule := range prove.RuleCount {
			why, set := bothSpoken(FindingParts(&l, &prove.Result{Rule: rule, Outcome: prove.Broken, Cause: c, Control: -1, Position: -1}))
			assert.True(t, strings.HasSuffix(why, "."), "%v %v: %q", rule, c, why)
			assert.True(t, set == "" || strings.HasSuffix(set, "."), "%v %v: %q", rule, c, set)
		}
	}
}

// A card of a radio that cannot arm the craft says that, and tells nobody how to arm it or how it is armed again.
func TestTheCardOfARadioThatCannotArm(t *testing.T) {
	for _, by := range []string{"switch", "sticks"} {
		for _, receiver := range []string{"when-silent: falls-silent", "when-silent: repeats-last"} {
			cfg := lossCraft(t, by, receiver, "when-lost: sink").Config()
			radio := handset.Radio{StickMode: 2}
			for c, job := range [...]string{"throttle", "roll", "pitch", "yaw", "arm", "mode"} {
				k := handset.Control{Channel: int8(c), Job: job, Low: pulse.Low, Rest: pulse.Centre, High: pulse.High}
				if c > 3 {
					k.Kind, k.Positions = handset.Switch, []handset.Position{{Width: pulse.Low}, {Width: pulse.High}}
				}
				radio.Controls = append(radio.Controls, k)
			}
			said := func() string {
				return spoken(words.Row(append(CardLoss(&cfg, &radio), CardArming(&cfg, &radio, 1, 2))...))
			}
			assert.NotContains(t, said(), "cannot arm")
			if by == "switch" {
				radio.Controls[4].Positions[1].Width = pulse.Micros(1598) + 1
				assert.Contains(t, said(), "This radio cannot arm this craft. No position of the arm switch lies in the arm span from 1600 µs; the nearest reads 1598 µs.")
			} else {
				radio.Controls[3].High = pulse.Micros(1900)
				assert.Contains(t, said(), "This radio cannot arm this craft. ")
				assert.Contains(t, said(), "1900 µs")
			}
			for _, not := range []string{"to arm", "can be armed", "armed again", "Before you switch", "can arm at once"} {
				assert.NotContains(t, said(), not)
			}
		}
	}
}

// Who does what the card says arms and disarms, and who keeps to what it says of the way back is not armed by a radio that is switched on
// again.
func TestWhoKeepsToTheCardArmsAndDisarms(t *testing.T) {
	number := regexp.MustCompile(`[\d.]+`)
	kept := 0
	for _, by := range []string{"switch", "sticks"} {
		for _, receiver := range []string{"when-silent: falls-silent", "when-silent: repeats-last", "when-silent: sends-stored, stored: {throttle: 988, roll: 1500, pitch: 1500, yaw: 1500, mode: 1000" + map[string]string{"switch": ", arm: 988", "sticks": ""}[by] + "}"} {
			for n, arm := range []layout.Span{{Low: pulse.Micros(1600), High: pulse.Highest}, {Low: pulse.Lowest, High: pulse.Micros(1300)}, {Low: pulse.Micros(1300), High: pulse.Micros(1700)}} {
				cfg := lossCraft(t, by, receiver, "when-lost: cut").Config()
				l := &cfg.Layout
				if cfg.Arming.OnlySelfLevelling = n == 1; n == 2 {
					l.Second, l.SecondSpan = 6, layout.Span{Low: pulse.Micros(1700), High: pulse.Highest}
				}
				radio := handset.Radio{StickMode: 2}
				for c := range int8(7) {
					k := handset.Control{Channel: c, Low: pulse.Low, Rest: pulse.Centre, High: pulse.High}
					if c > 3 {
						k.Kind, k.Positions = handset.Switch, []handset.Position{{Width: pulse.Low}, {Width: pulse.Centre}, {Width: pulse.High}}
					}
					radio.Controls = append(radio.Controls, k)
				}
				off := pulse.Low
				if l.Arm != layout.NoChannel {
					if l.ArmSpan = arm; arm.Contains(off) {
						off = pulse.High
					}
				}
				card := spoken(CardArming(&cfg, &radio, 1, 2))
				h := &readingHand{t: t, p: practice.New(cfg), lowest: pulse.Low, obeyed: map[string]bool{}}
				h.frame = pulse.Frame{pulse.Low, pulse.Centre, pulse.Centre, pulse.Centre, off, pulse.Low, pulse.Low}
				on := func(k pulse.Kind) pulse.Reading { return pulse.Reading{Kind: k, Value: 1} }
				h.step(2500, on(pulse.Plug), on(pulse.Link), on(pulse.Power), pulse.Reading{Kind: pulse.Controls, Frame: h.frame})
				before, after, _ := strings.Cut(card, "to arm; ")
				if _, second, is := strings.Cut(before, "second switch (2) "); is {
					second, _, _ = strings.Cut(second, " µs")
					h.to(l.Second, "to "+number.FindString(second)+" µs or above")
				}
				if by == "sticks" {
					h.obey("Hold throttle low and yaw fully right for " + regexp.MustCompile(`for ([\d.]+) s`).FindStringSubmatch(before)[1] + " s.")
				} else {
					_, to, _ := strings.Cut(before, "from off ")
					all := number.FindAllString(to, -1)
					width, err := strconv.ParseFloat(all[len(all)-1], 64)
					require.NoError(t, err, card)
					h.hold(l.Arm, pulse.Width(width*pulse.Eighths))
				}
				require.True(t, h.p.Bench().Armed(), card)
				if by == "sticks" {
					h.obey("Hold throttle low and yaw fully left for " + regexp.MustCompile(`for ([\d.]+) s disarms`).FindStringSubmatch(after)[1] + " s.")
					h.hold(l.Yaw, pulse.Centre)
				} else {
					require.Contains(t, after, "moving it off again disarms at once")
					h.hold(l.Arm, off)
				}
				require.False(t, h.p.Bench().Armed(), card)

				// The radio off, and on again with what the card asks for, or against it.
				for _, keeps := range []bool{true, false} {
					h.tell(pulse.Link, 0)
					h.step(3000)
					if back := spoken(CardLoss(&cfg, &radio)[2]); !keeps && strings.Contains(back, "efore you switch the radio on again") {
						kept++
						if by == "sticks" {
							h.frame[l.Yaw] = pulse.High
						} else {
							h.frame[l.Arm] = arm.Low + (min(arm.High, pulse.High)-arm.Low)/2
						}
					}
					h.step(3000, on(pulse.Link), pulse.Reading{Kind: pulse.Controls, Frame: h.frame})
					assert.Equal(t, !keeps && strings.Contains(spoken(CardLoss(&cfg, &radio)[2]), "efore you switch"), h.p.Bench().Armed(), "%s %v: %s", by, keeps, spoken(CardLoss(&cfg, &radio)[2]))
				}
			}
		}
	}
	assert.NotZero(t, kept)
}

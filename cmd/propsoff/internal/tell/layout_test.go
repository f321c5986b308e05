package tell

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/switches"
)

// saidInAll fails for a text that a language has no words for, or that two languages say alike though it has several words.
func saidInAll(t *testing.T, what string, text words.Text) {
	t.Helper()
	english := spoken(text)
	assert.NotEmpty(t, english, what)
	for _, tag := range words.Languages() {
		s := words.In(tag.String()).Say(text)
		assert.NotContains(t, s, "⟦", "%s in %s", what, tag)
		assert.NotContains(t, s, "  ", "%s in %s", what, tag)
		assert.False(t, tag != words.Languages()[0] && strings.Count(s, " ") > 2 && s == english, "%s: %q in %s", what, s, tag)
	}
}

// Everything that can be called out has one sentence, each with the numbers that it is about.
func TestEveryCalloutHasASentence(t *testing.T) {
	cfg := &sim.Config{}
	*cfg = sim.Default()
	span := switches.Span{Span: layout.Span{Low: pulse.Micros(1600), High: pulse.Micros(1750)}, Mode: layout.Horizon}
	s := &switches.Switch{Channel: 5, Jobs: []switches.Job{{Kind: switches.Mode, Spans: []switches.Span{span}}, {Kind: switches.Named, Name: "lights", Spans: []switches.Span{span}}}}
	p := &switches.Position{Width: pulse.Micros(1612), Noise: 24, HasMode: true, Mode: layout.Horizon, On: []int{0}, HasEdge: true, Margin: 101, Edge: pulse.Micros(1600)}
	f := &switches.Facts{Jobs: []craftfile.Job{{Name: "lights"}}}
	want := map[switches.Code]string{
		switches.NoSpan:       "No mode span holds this position, so the craft flies in rate.",
		switches.TwoJobs:      "Two jobs at one position: horizon, does not wake air mode; lights on.",
		switches.Narrow:       "Only 12 µs from the edge at 1600; leave 30 or more.",
		switches.NoisyFor:     "Only 4.2× its noise from the edge at 1600; leave 6× or more.",
		switches.Unreached:    "No position reaches the span of horizon (1600–1750).",
		switches.NeverArms:    "No position stands in the arm span (1600–1750), so this switch never arms.",
		switches.NeverDisarms: "Every position stands in the arm span (1600–1750), so this switch never disarms.",
		switches.NotSent:      "The radio sends nothing on channel 6, where the mode and lights should be.",
		switches.NoSwitch:     "A stick or knob carries this channel: it has no positions.",
		switches.Shared:       "The mode and lights share channel 6.",
		switches.Unused:       "No job uses this switch.",
		switches.ThrottleHigh: "The throttle goes no lower than 1012 µs and counts as low below 1000, so the craft never arms: lower the end of its travel in the radio.",
		switches.YawShort:     "Yaw goes no further left than 1012 µs; disarming by sticks needs 1064.75: lengthen its travel in the radio.",
		switches.StickUnsent:  "The radio sends nothing on channel 6 (mode).",
		switches.NeverSinks:   "The craft is set to sink on a lost link, and never does with this receiver: the stored values disarm it at once.",
	}
	cfg.Link.OnLoss, cfg.Arming.SinkSlots = link.SendsStored, 100
	for c := range cfg.Link.Stored {
		cfg.Link.Stored[c] = pulse.Low
	}
	seen := map[string]switches.Code{}
	for c := switches.NoSpan; c <= switches.NeverSinks; c++ {
		call := switches.Callout{Code: c, Channel: 5, At: pulse.Micros(1600)}
		if c >= switches.ThrottleHigh {
			call.At = pulse.Micros(1012)
		}
		got := spoken(CalloutAt(f, s, p, call)) + spoken(CalloutOf(s, call)) + spoken(CalloutCraft(call, cfg))
		assert.Equal(t, want[c], got, "code %d", c)
		assert.Zero(t, seen[got], "%d and %d are told alike", c, seen[got])
		seen[got] = c
	}
	call := switches.Callout{Code: switches.YawShort, At: pulse.Micros(1900)}
	assert.Equal(t, "Yaw goes no further right than 1900 µs; arming by sticks needs 1935.25: lengthen its travel in the radio.", spoken(CalloutCraft(call, cfg)))
}

func TestPositionsInWords(t *testing.T) {
	p := &switches.Position{Width: pulse.Micros(1612) + 7, Spread: 9, Noise: 9}
	assert.Equal(t, "1612 µs, spread 1.2", spoken(PositionValue(p, true)), "widths downwards, spreads upwards")
	assert.Equal(t, "1612 µs", spoken(PositionValue(p, false)))
	assert.Equal(t, "no edge to run over", spoken(PositionMargin(p, true)))
	edge := func(width, edge, margin pulse.Width) (value, from string) {
		p.Width, p.HasEdge, p.Edge, p.Margin = width, true, edge, margin
		return spoken(PositionValue(p, false)), spoken(PositionMargin(p, true))
	}
	value, from := edge(pulse.Micros(1610)+1, pulse.Micros(1600), 81)
	assert.Equal(t, "1610 µs; 10 µs from 1600, 9× noise", value+"; "+from)
	value, from = edge(pulse.Micros(1600)-1, pulse.Micros(1600), 1)
	assert.Equal(t, "1599.875 µs; 0.125 µs from 1600, 0.1× noise", value+"; "+from, "what is left is never shown as nothing")
	value, from = edge(pulse.Micros(1250)+5, pulse.Micros(1250), 6)
	assert.Equal(t, "1250.625 µs; 0.625 µs from 1250, 0.6× noise", value+"; "+from)
	value, from = edge(pulse.Micros(1688)+1, pulse.Micros(1700), 95)
	assert.Equal(t, "1688.125 µs; 11.875 µs from 1700, 10×", value+"; "+strings.TrimSuffix(from, " noise"), "whole ones would not add up")
	value, from = edge(pulse.Micros(1600), pulse.Micros(1600), 1)
	assert.Equal(t, "1600 µs; on 1600, 0.1× noise", value+"; "+from)
	assert.Equal(t, "Not possible: it runs backwards.", spoken(LayoutRefused(fmt.Errorf("edit: %w", &words.Problem{Text: words.AsIs("it runs backwards"), File: "f", Line: 2, Column: 3}))))
	assert.Contains(t, spoken(LayoutNotSaved("x.yaml", craftfile.ErrChanged)), "was changed by someone else")
	assert.Equal(t, "Not saved: no room left.", spoken(LayoutNotSaved("x.yaml", errors.New("no room left"))))
}

// A travel that is called out, set as it is said, is called out no more, and the craft arms.
func TestWhatIsCalledOutEndsAsItIsSaid(t *testing.T) {
	cfg := sim.Default()
	l := &cfg.Layout
	cfg.Arming.By, l.Arm, l.Mode = facts.ArmsBySticks, layout.NoChannel, layout.NoChannel
	cfg.Link.Needed = l.Needed()
	for _, c := range []struct {
		channel   int8
		low, high pulse.Width
		says      []string
	}{
		{l.Throttle, pulse.Micros(1012), pulse.High, []string{"lower the end of its travel in the radio"}},
		{l.Yaw, pulse.Micros(1100), pulse.High, []string{"Yaw goes no further left than 1100 µs", "lengthen its travel in the radio"}},
		{l.Yaw, pulse.Low, pulse.Micros(1900), []string{"Yaw goes no further right than 1900 µs", "lengthen its travel in the radio"}},
	} {
		r := handset.Radio{StickMode: 2, Measured: true}
		for k := range int8(4) {
			r.Controls = append(r.Controls, handset.Control{Channel: k, Kind: handset.Knob, Low: pulse.Low, Rest: pulse.Centre, High: pulse.High})
		}
		called := func() (all string) {
			for _, k := range switches.Look(&cfg, nil, &r).Callouts {
				all += spoken(CalloutCraft(k, &cfg)) + " "
			}
			return all
		}
		r.Controls[c.channel].Low, r.Controls[c.channel].High = c.low, c.high
		for _, says := range c.says {
			require.Contains(t, called(), says)
		}
		r.Controls[c.channel].Low, r.Controls[c.channel].High = pulse.Low, pulse.High
		assert.Empty(t, called())
	}

	// So it is told of sticks that never came far enough.
	for _, c := range []struct {
		yaw, throttle pulse.Width
		says          string
	}{
		{pulse.High, pulse.Micros(1003), "lower the end of its travel in the radio"},
		{pulse.Micros(1930), pulse.Low, "lengthen its travel to the right in the radio"},
		{pulse.Micros(1070), pulse.Low, "lengthen its travel to the left in the radio"},
	} {
		bench, log, told := sim.New(cfg), happening.Log{}, ""
		step := func(r ...pulse.Reading) {
			log.Reset()
			bench.Step(r, &log)
			for _, h := range log.All() {
				if h.Code == happening.TravelShort {
					told = spoken(Happening(h, &cfg))
				}
			}
		}
		var f pulse.Frame
		for k := range f {
			f[k] = pulse.Centre
		}
		hold := func(throttle, yaw pulse.Width, ms int) {
			f[l.Throttle], f[l.Yaw] = throttle, yaw
			step(pulse.Reading{Kind: pulse.Controls, Frame: f})
			for range ms {
				step()
			}
		}
		step(pulse.Reading{Kind: pulse.Plug, Value: 1}, pulse.Reading{Kind: pulse.Link, Value: 1}, pulse.Reading{Kind: pulse.Power, Value: 1})
		hold(c.throttle, pulse.Centre, 3000)
		left := c.yaw < pulse.Centre
		if left { // armed, to be disarmed
			hold(c.throttle, pulse.High, 1500)
			require.True(t, bench.Armed())
		}
		hold(c.throttle, c.yaw, 4000)
		require.Contains(t, told, c.says)
		require.Equal(t, left, bench.Armed())
		hold(pulse.Low, pulse.Centre, 500)
		hold(pulse.Low, map[bool]pulse.Width{true: pulse.Low, false: pulse.High}[left], 1500)
		assert.Equal(t, !left, bench.Armed(), told)
	}
}

// What a radio calls a control is said with what carries it.
func TestSwitchesAreCalledAsTheirPilotDoes(t *testing.T) {
	s := &switches.Switch{Channel: 4, Control: &handset.Control{Source: "axis 5", Momentary: true}, Jobs: []switches.Job{{Kind: switches.Arm}, {Kind: switches.Named, Name: "lights"}}}
	assert.Equal(t, "arm + lights", spoken(SwitchName(s)))
	assert.Equal(t, "channel 5, axis 5, springs back", spoken(SwitchFrom(s)))
	s.Control.Called, s.Control.Source = "left lever", "buttons 3, 4"
	assert.Equal(t, "left lever: arm + lights", spoken(SwitchName(s)))
	assert.Equal(t, "channel 5, buttons 3, 4, springs back", spoken(SwitchFrom(s)))
	assert.Equal(t, "Kanal 5, Knöpfe 3, 4, federt zurück", words.In("de").Say(SwitchFrom(s)))
	s.Control.Called, s.Jobs = "arm", s.Jobs[:1]
	assert.Equal(t, "arm", spoken(SwitchName(s)))
	s.Jobs, s.Control = nil, nil
	assert.Equal(t, "channel 5", spoken(SwitchName(s)))
}

// Whatever the keys of the layout sheet do, and however little, is said in every language.
func TestEveryLayoutKeyIsSaid(t *testing.T) {
	for _, code := range []string{"arm", "second", "job", "new", "type", "undo", "save", "other", "take", "back", "before", "after", "above", "below"} {
		saidInAll(t, code, LayoutKey(code, "lights", false))
		saidInAll(t, code, LayoutKey(code, "lights", true))
	}
	assert.Equal(t, "lights off", spoken(LayoutKey("job", "lights", true)))
	for _, code := range []string{"only-arm", "no-craft", "two-ends", "nothing", "undone", "same-name", "no-arm"} {
		saidInAll(t, code, LayoutNo(code))
	}
	for choice, options := range []int{2, 3, 2} {
		saidInAll(t, "choice", words.T([...]words.ID{"layout.choice-arming", "layout.choice-receiver", "layout.choice-loss"}[choice]))
		for o := range options {
			saidInAll(t, "option", LayoutOption(choice, o))
		}
	}
}

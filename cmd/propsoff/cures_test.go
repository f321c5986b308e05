package main

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/gestures"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// cure is something to set that a sentence on a broken rule names, and how a person does it.
type cure struct {
	says string
	do   func(l *prove.Layout, r *prove.Result)
}

// positions puts a switch with such positions on a channel, in the place of what is there.
func positions(l *prove.Layout, channel int8, job string, at ...pulse.Width) {
	c := handset.Control{Channel: channel, Job: job, Kind: handset.Switch, Low: pulse.Low, Rest: pulse.Low, High: pulse.High}
	for _, w := range at {
		c.Positions = append(c.Positions, handset.Position{Width: w})
	}
	all := append(slices.DeleteFunc(slices.Clone(l.Radio.Controls), func(k handset.Control) bool { return k.Channel == channel }), c)
	slices.SortFunc(all, func(a, b handset.Control) int { return int(a.Channel - b.Channel) })
	l.Radio.Controls = all
}

func control(l *prove.Layout, r *prove.Result) *handset.Control {
	l.Radio.Controls = slices.Clone(l.Radio.Controls)
	c := &l.Radio.Controls[r.Control]
	c.Positions = slices.Clone(c.Positions)
	return c
}

// missed is the span that a result is about, where it is about one that is not reached.
func missed(l *prove.Layout, r *prove.Result) *layout.Span {
	y := &l.Config.Layout
	switch r.Cause {
	case prove.ArmNeverOn:
		return &y.ArmSpan
	case prove.SecondNeverOn:
		return &y.SecondSpan
	case prove.ModeNoPosition, prove.ModeNoTravel:
		for i := range y.Spans[:y.SpanCount] {
			if y.Spans[i].Mode == r.Mode {
				return &y.Spans[i].Span
			}
		}
	}
	return nil
}

// travel gives a control its whole travel: to both ends, and where a span lies beyond them, into that.
func travel(l *prove.Layout, r *prove.Result) {
	c, low, high := control(l, r), pulse.Low, pulse.High
	if s := missed(l, r); s != nil {
		high = s.Low + (min(s.High, pulse.Highest)-s.Low)/2
	}
	if r.Cause == prove.GapAbove || r.Cause == prove.GapBelow { // into the spans that there are
		y := &l.Config.Layout
		low, high = max(low, y.Spans[0].Span.Low+80), min(high, y.Spans[y.SpanCount-1].Span.High-80)
	}
	c.Low, c.Rest, c.High = low, max(low, min(c.Rest, high)), high
	for i, n := 0, len(c.Positions); i < n; i++ {
		c.Positions[i].Width = low + (high-low)*pulse.Width(i)/pulse.Width(n-1)
	}
}

// moved moves a span to where a position stands, and the other spans of its channel out of its way.
func moved(l *prove.Layout, r *prove.Result) {
	y := &l.Config.Layout
	s := missed(l, r)
	if r.Cause == prove.ArmNeverOn || r.Cause == prove.SecondNeverOn {
		*s = layout.Span{Low: pulse.Micros(1800), High: pulse.Highest}
		return
	}
	edges := map[layout.Mode]layout.Span{layout.Angle: {Low: pulse.Lowest, High: pulse.Micros(1300)}, layout.Horizon: {Low: pulse.Micros(1300), High: pulse.Micros(1600)},
		layout.Rate: {Low: pulse.Micros(1600), High: pulse.Highest}}
	for i := range y.Spans[:y.SpanCount] {
		y.Spans[i].Span = edges[y.Spans[i].Mode]
	}
}

var cures = []cure{
	{"et the receiver to fall silent", func(l *prove.Layout, _ *prove.Result) {
		l.Config.Link.OnLoss, l.Config.Link.Stored = link.FallsSilent, pulse.Frame{}
	}},
	{"Store a value outside the span", func(l *prove.Layout, _ *prove.Result) { l.Config.Link.Stored[l.Config.Layout.Arm] = pulse.Low }},
	{"et its travel in the radio", travel},
	{"et the travel in the radio", travel},
	{"change the travel in the radio", travel},
	{"Move the span,", moved},
	{"Move the span's edge between two positions", func(l *prove.Layout, r *prove.Result) {
		at := control(l, r).Positions
		l.Config.Layout.ArmSpan = layout.Span{Low: at[0].Width + (at[1].Width-at[0].Width)/2, High: pulse.Highest}
	}},
	{"Move the edge farther from that position", func(l *prove.Layout, r *prove.Result) {
		if y := &l.Config.Layout; r.Rule == prove.ModeStays {
			y.Spans[1].Span.High, y.Spans[2].Span.Low = pulse.Micros(1880), pulse.Micros(1880)
		} else {
			y.ArmSpan.Low = pulse.Micros(1800)
		}
	}},
	{"Let the spans touch", func(l *prove.Layout, _ *prove.Result) {
		y := &l.Config.Layout
		for i := 1; i < int(y.SpanCount); i++ {
			y.Spans[i].Span.Low = y.Spans[i-1].Span.High
		}
	}},
	{"Let a span reach that far", func(l *prove.Layout, r *prove.Result) {
		y := &l.Config.Layout
		if first, last := &y.Spans[0].Span, &y.Spans[y.SpanCount-1].Span; pulse.Width(r.Value) < first.Low {
			first.Low = pulse.Width(r.Value) - 80
		} else {
			last.High = pulse.Width(r.Value) + 80
		}
	}},
	{"take a switch with more positions", func(l *prove.Layout, _ *prove.Result) {
		positions(l, l.Config.Layout.Mode, "mode", pulse.Low, pulse.Micros(1193), pulse.Micros(1398), pulse.Micros(1602), pulse.Micros(1700), pulse.High)
	}},
	{"Take a switch that stays", func(l *prove.Layout, r *prove.Result) { control(l, r).Momentary = false }},
	{"Give the channel a switch in the radio", func(l *prove.Layout, r *prove.Result) {
		positions(l, int8(r.Value-1), "mode", pulse.Low, pulse.Centre, pulse.High)
	}},
	{"Give the channel a control in the radio", func(l *prove.Layout, r *prove.Result) {
		job := codes.Job(&l.Config.Layout, int(r.Value-1))
		positions(l, int8(r.Value-1), job, pulse.Low, pulse.Centre, pulse.High)
	}},
	{"Turn the order of the modes round", func(l *prove.Layout, _ *prove.Result) {
		y := &l.Config.Layout
		for i, n := 0, int(y.SpanCount); i < n/2; i++ {
			y.Spans[i].Mode, y.Spans[n-1-i].Mode = y.Spans[n-1-i].Mode, y.Spans[i].Mode
		}
	}},
	{"Give a beginner a mode switch", modeSwitch},
	{"`always: angle`", func(l *prove.Layout, _ *prove.Result) { l.Config.Layout.FixedMode = layout.Angle }},
	{"Give angle or horizon a span that a position reaches", modeSwitch},
	{"Bring low-throttle to 1000 or below", func(l *prove.Layout, _ *prove.Result) {
		a := &l.Config.Arming
		a.LowThrottle, a.LeaveThrottle = pulse.Micros(1000), pulse.Micros(1020)
	}},
	{"Take another gesture", func(l *prove.Layout, r *prove.Result) {
		set := *l.Config.Gestures
		set.Patterns = slices.Clone(set.Patterns)
		yaw := &set.Patterns[r.Gesture].Parts[0].Zones[gestures.Yaw]
		*yaw = gestures.Low
		l.Config.Gestures = &set
	}},
	{"rm by switch", func(l *prove.Layout, _ *prove.Result) {
		a, y := &l.Config.Arming, &l.Config.Layout
		a.By, y.Arm, y.ArmSpan = arming.BySwitch, 4, layout.Span{Low: pulse.Micros(1600), High: pulse.Highest}
		l.Config.Link.Needed = y.Needed()
		positions(l, y.Arm, "arm", pulse.Low, pulse.High)
	}},
	{"Move the second switch's span", func(l *prove.Layout, _ *prove.Result) { l.Config.Layout.SecondSpan.Low = pulse.Micros(1850) }},
	{"Let the arm span reach to an end of the switch", func(l *prove.Layout, _ *prove.Result) { l.Config.Layout.ArmSpan.High = pulse.Highest }},
	{"Move the arm span to positions in which the control does not rest", func(l *prove.Layout, _ *prove.Result) {
		l.Config.Layout.ArmSpan = layout.Span{Low: pulse.Lowest, High: pulse.Micros(1400)}
	}},
	{"turning it round in the radio", func(l *prove.Layout, r *prove.Result) {
		c := control(l, r)
		c.Rest = 2*pulse.Centre - c.Rest
		for i := range c.Positions {
			c.Positions[i].Width = 2*pulse.Centre - c.Positions[i].Width
		}
		slices.Reverse(c.Positions)
	}},
	{"Put arming on a switch in the radio", func(l *prove.Layout, _ *prove.Result) {
		positions(l, l.Config.Layout.Arm, "arm", pulse.Low, pulse.High)
	}},
	{"Give each a switch of its own in the radio", func(l *prove.Layout, r *prove.Result) {
		if r.Cause == prove.ArmIsMode {
			modeSwitch(l, r)
			return
		}
		positions(l, int8(r.Value-1), codes.Job(&l.Config.Layout, int(r.Value-1)), pulse.Low, pulse.High)
	}},
	{"Put rate at an end of the switch", func(l *prove.Layout, _ *prove.Result) {
		for i := range l.Config.Layout.Spans[:l.Config.Layout.SpanCount] {
			s := &l.Config.Layout.Spans[i]
			if s.Mode != layout.Angle {
				s.Mode = layout.Horizon + layout.Rate - s.Mode
			}
		}
	}},
	{"Shorten the sinking time", func(l *prove.Layout, _ *prove.Result) { l.Config.Arming.SinkSlots = 100 }},
	{"Set sink-carries to 90 %", func(l *prove.Layout, _ *prove.Result) { l.Config.Flight.SinkCarries = 900 }},
	{"Set a silence limit of several frames", func(l *prove.Layout, _ *prove.Result) { l.Config.Link.SilenceSlots = 3 }},
	{"Shorten the silence limit", func(l *prove.Layout, _ *prove.Result) { l.Config.Link.SilenceSlots = 12 }},
	{"Set a clean time", func(l *prove.Layout, _ *prove.Result) { l.Config.Link.CleanSlots = 60 }},
	{"Set a still time", func(l *prove.Layout, _ *prove.Result) { l.Config.Arming.StillSlots = 100 }},
	{"Set a tilt limit well below 90 degrees", func(l *prove.Layout, _ *prove.Result) { l.Config.Arming.TiltLimitTenths = 300 }},
	{"Set each dwell to 0.2 s or longer", func(l *prove.Layout, _ *prove.Result) {
		a := &l.Config.Arming
		a.ArmDwell, a.DisarmDwell = max(a.ArmDwell, 10), max(a.DisarmDwell, 10)
	}},
	{"set at-low-throttle to still", func(l *prove.Layout, _ *prove.Result) { l.Config.Flight.AtLowThrottle = flight.StandStill }},
	{"Let air mode wake at a higher throttle", func(l *prove.Layout, _ *prove.Result) { l.Config.Flight.AirWake = pulse.ThrottleFull * 18 / 100 }},
	{"Put the mode on a switch of its own", modeSwitch},
	{"Take its spring out", func(l *prove.Layout, r *prove.Result) { control(l, r).Stays = true }},
}

// modeSwitch gives a craft that always flies in one mode a switch for two, angle first.
func modeSwitch(l *prove.Layout, _ *prove.Result) {
	y := &l.Config.Layout
	y.Mode, y.SpanCount = 5, 2
	y.Spans[0] = layout.ModeSpan{Mode: layout.Angle, Span: layout.Span{Low: pulse.Lowest, High: pulse.Micros(1700)}}
	y.Spans[1] = layout.ModeSpan{Mode: layout.Rate, Span: layout.Span{Low: pulse.Micros(1700), High: pulse.Highest}}
	positions(l, y.Mode, "mode", pulse.Low, pulse.Centre, pulse.High)
}

// What a sentence says to set against a broken rule, set, mends it: each way that it names by itself, once for each cause.
func TestWhatIsToBeSetMendsTheRule(t *testing.T) {
	type way struct {
		cause prove.Cause
		cure  int
	}
	done := map[way]bool{}
	for _, c := range append(slices.Clone(brokenLayouts), layoutCase{craft: "sticks", radio: "full"}, layoutCase{craft: "idles"}) {
		flags := &world.Named{Craft: layoutFile(c.craft, "craft")}
		if c.radio == "full" {
			flags.Gestures = layoutFile("arm-corner", "gestures")
		}
		if c.radio != "" {
			flags.Radio = layoutFile(c.radio, "radio")
		}
		craft, file, err := bareWorld().LoadFlown(flags)
		require.NoError(t, err)
		broken := facts.LayoutOf(craft.File, file, nil)
		report, err := facts.Prove(broken, nil)
		require.NoError(t, err)
		for i := range report.Results {
			r := &report.Results[i]
			if r.Outcome != prove.Broken && r.Outcome != prove.WithIt {
				continue
			}
			why, named := words.English().Say(tell.Finding(&broken, r)), 0
			for n := range cures {
				w := way{r.Cause, n}
				if !strings.Contains(why, cures[n].says) {
					continue
				}
				if named++; done[w] {
					continue
				}
				done[w] = true
				mended := broken
				cures[n].do(&mended, r)
				after, err := facts.Prove(mended, nil)
				require.NoError(t, err, why)
				assert.NotEqual(t, r.Outcome, after.Results[i].Outcome, "%s %s: %q, and %q is done:\n%s", c.craft, c.radio, why, cures[n].says, words.English().Say(tell.Finding(&mended, &after.Results[i])))
			}
			assert.True(t, named > 0 || r.Outcome == prove.WithIt, "%q says nothing that can be set", why)
		}
	}
	for n := range cures {
		assert.True(t, slices.ContainsFunc(slices.Collect(maps.Keys(done)), func(w way) bool { return w.cure == n }), "%q is said of no layout", cures[n].says)
	}
}

package switches_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/sim"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/switches"
)

func us(n float64) pulse.Width { return pulse.Width(n * pulse.Eighths) }

const head = "propsoff: craft 1\nname: x\n"

// lever is a switch of a radio; positions come as value, spread, value, spread … in µs.
func lever(channel int8, at ...float64) handset.Control {
	c := handset.Control{Channel: channel - 1, Kind: handset.Switch}
	for i := 0; i < len(at); i += 2 {
		c.Positions = append(c.Positions, handset.Position{Width: us(at[i]), Spread: us(at[i+1])})
	}
	return c
}

func look(t testing.TB, craft string, controls ...handset.Control) *switches.Facts {
	f, err := craftfile.Parse("x.yaml", []byte(head+craft))
	require.NoError(t, err)
	r := handset.Radio{Measured: true}
	for c := range int8(4) {
		r.Controls = append(r.Controls, handset.Control{Channel: c, Low: us(988), Rest: us(1500), High: us(2012)})
	}
	r.Controls = append(r.Controls, controls...)
	cfg := f.Config()
	return switches.Look(&cfg, f.More(), &r)
}

func onChannel(t testing.TB, f *switches.Facts, channel int8) *switches.Switch {
	for i := range f.Switches {
		if f.Switches[i].Channel == channel-1 {
			return &f.Switches[i]
		}
	}
	t.Fatalf("no switch on channel %d", channel)
	return nil
}

const plain = "channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5, mode: 6}\n"

// Margins worked out by hand. A span includes its low end and not its high end, so from inside the low edge is run over by
// one eighth more than the distance to it; from outside by the distance itself.
func TestMarginsByHand(t *testing.T) {
	for _, c := range []struct {
		craft        string
		at, spread   float64
		margin, edge float64 // µs
		times        int     // tenths of the noise
	}{
		{"on: {from: 1600, to: 2180}", 2012, 2, 412.125, 1600, 2060},      // 412.125 / 2 = 206.06
		{"on: {from: 1600, to: 2180}", 988, 0, 612, 1600, 6120},           // noise counts as 1 µs
		{"on: {from: 1600, to: 2180}", 1600, 1, 0.125, 1600, 1},           // on the edge: one eighth down leaves
		{"on: {from: 1600, to: 2180}", 1599.875, 1, 0.125, 1600, 1},       // below it: one eighth up enters
		{"on: {from: 1300, to: 1700}", 1500, 1.5, 200, 1700, 1333},        // 200 up, 200.125 down
		{"on: {from: 1300, to: 1700}", 1499, 1.5, 199.125, 1300, 1327},    // 199.125 down, 201 up
		{"on: {from: 1300, to: 1700}", 2012, 1, 312.125, 1700, 3121},      // the last width inside is 1699.875
		{"on: {from: 860, to: 1200}", 988, 4, 212, 1200, 530},             // the end of the pulse range is no edge
		{"on: {from: 1999.5, to: 2180}", 2012, 3.125, 12.625, 1999.5, 40}, // 12.625 / 3.125 = 4.04
	} {
		f := look(t, plain+"arming: {"+c.craft+"}\nmodes: {angle: {from: 860, to: 2180}}\n", lever(5, c.at, c.spread, c.at, c.spread), lever(6, 988, 1, 2012, 1))
		p := &onChannel(t, f, 5).Positions[0]
		name := fmt.Sprint(c.craft, " at ", c.at)
		require.True(t, p.HasEdge, name)
		assert.Equal(t, us(c.margin), p.Margin, name)
		assert.Equal(t, us(c.edge), p.Edge, name)
		assert.Equal(t, c.times, p.Times(), name)
		assert.False(t, onChannel(t, f, 6).Positions[0].HasEdge, "a span over the whole range has no edge")
	}
}

func TestWhatTheCraftDoesAtEachPosition(t *testing.T) {
	f := look(t, `channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5, second: 7, mode: 6}
second-switch: {on: {from: 1700, to: 2180}}
modes: {angle: {from: 860, to: 1250}, horizon: {from: 1400, to: 1600}}
motors: {air-mode-in: [horizon]}
jobs:
  lights: {channel: 6, on: [{from: 860, to: 1000}, {from: 1900, to: 2180}]}
  finder sound: {channel: 9, on: {from: 1500, to: 2180}}
`, lever(5, 988, 1, 2012, 1), lever(6, 988, 1, 1500, 1, 2012, 1), lever(7, 988, 1, 2012, 1), lever(9, 988, 1, 2012, 1), lever(10, 988, 1, 2012, 1))
	arm, mode, second, finder := onChannel(t, f, 5), onChannel(t, f, 6), onChannel(t, f, 7), onChannel(t, f, 9)
	assert.Equal(t, []layout.Place{layout.Outside, layout.Inside}, []layout.Place{arm.Positions[0].Arm, arm.Positions[1].Arm})
	assert.Equal(t, layout.NoJob, arm.Positions[0].Second)
	assert.Equal(t, []layout.Place{layout.Outside, layout.Inside}, []layout.Place{second.Positions[0].Second, second.Positions[1].Second})
	for i, want := range []struct {
		mode     layout.Mode
		gap, air bool
		on       []int
	}{{layout.Angle, false, false, []int{0}}, {layout.Horizon, false, true, nil}, {layout.Rate, true, false, []int{0}}} {
		p := mode.Positions[i]
		assert.True(t, p.HasMode)
		assert.Equal(t, want.mode, p.Mode)
		assert.Equal(t, want.gap, p.Gap)
		assert.Equal(t, want.air, p.Air)
		assert.Equal(t, want.on, p.On)
	}
	assert.False(t, arm.Positions[0].HasMode)
	assert.Equal(t, []int{1}, finder.Positions[1].On)
	assert.Nil(t, finder.Positions[0].On)
	assert.Equal(t, "lights", f.Jobs[0].Name)

	assert.Equal(t, 1, mode.Live(us(1600)))
	assert.Equal(t, 2, mode.Live(us(2180)))
	assert.Equal(t, -1, mode.Live(pulse.Missing))
	assert.Equal(t, 0, mode.Worst(), "12 µs from the lights' edge at 1000")
}

// said are all callouts, each as channel, position or job, and code.
func said(f *switches.Facts) (out []string) {
	for _, c := range f.Callouts {
		out = append(out, fmt.Sprintf("craft ch%d code %d at %v", c.Channel+1, c.Code, float64(c.At)/8))
	}
	for _, s := range f.Switches {
		for _, c := range s.Callouts {
			out = append(out, fmt.Sprintf("ch%d code %d job %d span %d", c.Channel+1, c.Code, c.Job, c.Span))
		}
		for i, p := range s.Positions {
			for _, c := range p.Callouts {
				out = append(out, fmt.Sprintf("ch%d position %d code %d job %d at %v", c.Channel+1, i, c.Code, c.Job, float64(c.At)/8))
			}
		}
	}
	return out
}

func TestCallouts(t *testing.T) {
	sound := []handset.Control{lever(5, 988, 1, 2012, 1), lever(6, 988, 1, 1500, 1, 2012, 1)}
	const modes = "modes: {angle: {from: 860, to: 1250}, horizon: {from: 1250, to: 1750}, rate: {from: 1750, to: 2180}}\n"
	for _, c := range []struct {
		name, craft string
		controls    []handset.Control
		want        []string
	}{
		{"sound", plain, sound, nil},
		{"gap in the modes", plain + "modes: {angle: {from: 860, to: 1250}, horizon: {from: 1250, to: 1400}, rate: {from: 1750, to: 2180}}\n", sound,
			[]string{"ch6 code 5 job 0 span 1", "ch6 position 1 code 1 job 0 at 0"}},
		{"two jobs at one position", plain + modes + "jobs: {lights: {channel: 6, on: {from: 1250, to: 1750}}}\n", sound,
			[]string{"ch6 code 10 job 0 span 0", "ch6 position 1 code 2 job 0 at 0"}},
		{"a job beside arming, apart", plain + modes + "jobs: {lights: {channel: 5, on: {from: 860, to: 1200}}}\n", sound, []string{"ch5 code 10 job 0 span 0"}},
		{"a job that is on while armed", plain + modes + "jobs: {lights: {channel: 5, on: {from: 1700, to: 2180}}}\n", sound,
			[]string{"ch5 code 10 job 0 span 0", "ch5 position 1 code 2 job 0 at 0"}},
		{"a span that no position reaches", plain + modes + "jobs: {lights: {channel: 9, on: [{from: 860, to: 1200}, {from: 1200, to: 1400}]}}\n",
			append(sound, lever(9, 988, 1, 2012, 1)), []string{"ch9 code 5 job 0 span 1"}},
		{"narrow", plain + modes, []handset.Control{lever(5, 988, 1, 1629.75, 1), sound[1]}, []string{"ch5 position 1 code 3 job 0 at 1600"}},
		{"just not narrow", plain + modes, []handset.Control{lever(5, 988, 1, 1629.875, 1), sound[1]}, nil},
		{"noisy", plain + modes, []handset.Control{lever(5, 988, 1, 1660, 10.125), sound[1]}, []string{"ch5 position 1 code 4 job 0 at 1600"}},
		{"just not too noisy", plain + modes, []handset.Control{lever(5, 988, 1, 1660, 10), sound[1]}, nil},
		{"never arms", plain + modes, []handset.Control{lever(5, 988, 1, 1500, 1), sound[1]}, []string{"ch5 code 6 job 0 span 0"}},
		{"never disarms", plain + modes, []handset.Control{lever(5, 1700, 1, 2012, 1), sound[1]}, []string{"ch5 code 7 job 0 span 0"}},
		{"not sent", plain + modes, sound[:1], []string{"ch6 code 8 job 0 span 0"}},
		{"a knob for the modes", plain + modes, []handset.Control{sound[0], {Channel: 5, Kind: handset.Knob}}, []string{"ch6 code 9 job 0 span 0"}},
		{"a switch without a job", plain + modes, append(sound[:2:2], lever(8, 988, 1, 2012, 1)), []string{"ch8 code 11 job 0 span 0"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := look(t, c.craft, c.controls...)
			assert.Equal(t, c.want, said(f))
			warnings := 0
			for _, w := range c.want {
				if w[4:11] != "code 10" && w[4:11] != "code 11" {
					warnings++
				}
			}
			assert.Equal(t, warnings, f.Warnings())
		})
	}
}

func TestCalloutsAboutTheSticks(t *testing.T) {
	f, err := craftfile.Parse("x.yaml", []byte(head+"channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4}\narming: {by: sticks}\nmodes: {always: angle}\n"))
	require.NoError(t, err)
	cfg := f.Config()
	stick := func(channel int8, low, high float64) handset.Control {
		return handset.Control{Channel: channel - 1, Low: us(low), High: us(high)}
	}
	for _, c := range []struct {
		controls []handset.Control
		want     []string
	}{
		{[]handset.Control{stick(1, 999.875, 2012), stick(2, 988, 2012), stick(3, 988, 2012), stick(4, 1064.75, 1935.25)}, nil},
		{[]handset.Control{stick(1, 1000, 2012), stick(2, 988, 2012), stick(3, 988, 2012), stick(4, 1064.875, 1935.125)},
			[]string{"craft ch1 code 12 at 1000", "craft ch4 code 13 at 1935.125", "craft ch4 code 13 at 1064.875"}},
		{[]handset.Control{stick(1, 988, 2012)}, []string{"craft ch2 code 14 at 0", "craft ch3 code 14 at 0", "craft ch4 code 14 at 0"}},
	} {
		assert.Equal(t, c.want, said(switches.Look(&cfg, nil, &handset.Radio{Controls: c.controls})))
	}
	// By switch yaw may be short; the throttle must get low all the same, or every arming is refused.
	cfg = sim.Default()
	got := said(switches.Look(&cfg, nil, &handset.Radio{Controls: []handset.Control{stick(1, 1003, 2012), stick(2, 988, 2012), stick(3, 988, 2012), stick(4, 1100, 1900), lever(5, 988, 1, 2012, 1), lever(6, 988, 1, 1500, 1, 2012, 1)}}))
	assert.Equal(t, []string{"craft ch1 code 12 at 1003"}, got)
}

// An ideal radio on the built-in craft has nothing to call out.
func TestTheBuiltInCraftIsSound(t *testing.T) {
	cfg := sim.Default()
	l := &cfg.Layout
	r := handset.Ideal([]handset.Want{{Channel: l.Throttle, Job: "throttle"}, {Channel: l.Roll}, {Channel: l.Pitch}, {Channel: l.Yaw},
		{Channel: l.Arm, Kind: handset.Switch}, {Channel: l.Mode, Kind: handset.Switch}})
	f := switches.Look(&cfg, nil, &r)
	assert.Empty(t, said(f))
	assert.Len(t, f.Switches, 2)
	assert.False(t, f.Measured)
}

// Spans made for positions hold those wanted and no other, and no position stands nearer to an edge than half the way to
// its neighbour, less what rounding to whole microseconds takes.
func TestTouchingSpans(t *testing.T) {
	positions := func(at ...float64) (out []switches.Position) {
		for _, w := range at {
			out = append(out, switches.Position{Width: us(w)})
		}
		return out
	}
	span := func(a, b float64) layout.Span { return layout.Span{Low: us(a), High: us(b)} }
	three := positions(988, 1500, 2012)
	assert.Equal(t, []layout.Span{span(1756, 2180)}, switches.Touching(three, []bool{false, false, true}))
	assert.Equal(t, []layout.Span{span(860, 1244), span(1756, 2180)}, switches.Touching(three, []bool{true, false, true}))
	assert.Equal(t, []layout.Span{span(1244, 2180)}, switches.Touching(three, []bool{false, true, true}))
	assert.Equal(t, []layout.Span{span(1500.125, 2180)}, switches.Touching(positions(1500, 1500.125), []bool{false, true}), "no room for a whole microsecond")
	assert.Equal(t, []layout.ModeSpan{{Mode: layout.Angle, Span: span(860, 1244)}, {Mode: layout.Rate, Span: span(1244, 2180)}},
		switches.Modes(three, []layout.Mode{layout.Angle, layout.Rate, layout.Rate}))

	rapid.Check(t, func(rt *rapid.T) {
		var at []switches.Position
		var want []bool
		w := pulse.Lowest + pulse.Width(rapid.IntRange(0, 800).Draw(rt, "first"))
		for w <= pulse.Highest && len(at) < 6 {
			at, want = append(at, switches.Position{Width: w}), append(want, rapid.Bool().Draw(rt, "want"))
			w += pulse.Width(rapid.IntRange(1, 3000).Draw(rt, "step"))
		}
		spans := switches.Touching(at, want)
		for i := range at {
			in := false
			for _, s := range spans {
				in = in || s.Contains(at[i].Width)
				m := s.Margin(at[i].Width)
				least := pulse.Width(pulse.Highest)
				for _, k := range []int{i - 1, i + 1} {
					if k >= 0 && k < len(at) {
						least = min(least, max(at[k].Width-at[i].Width, at[i].Width-at[k].Width)/2)
					}
				}
				if m < 0 {
					m = -m
				}
				if m < least-pulse.Eighths/2 {
					rt.Fatalf("%d eighths from an edge of %v, half way is %d", m, s, least)
				}
			}
			if in != want[i] {
				rt.Fatalf("position %v in %v: %v", at[i].Width, spans, in)
			}
		}
	})
}

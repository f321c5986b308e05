package craftfile_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

func builtIn(t testing.TB) string {
	_, text, ok := assets.Craft(assets.BuiltIn)
	require.True(t, ok)
	return string(text)
}

// The built-in file writes every default out, so it must give the very craft that the defaults give.
func TestBuiltInIsTheDefault(t *testing.T) {
	f, err := craftfile.Parse("teasel.yaml", []byte(builtIn(t)))
	require.NoError(t, err)
	assert.Equal(t, sim.Default(), f.Config())
	assert.Equal(t, "Teasel", f.Name)

	short, err := craftfile.Parse("short.yaml", []byte("propsoff: craft 1\nname: short\nchannels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5, mode: 6}\n"))
	require.NoError(t, err)
	assert.Equal(t, sim.Default(), short.Config(), "every field left out keeps its default")
}

func TestEveryShippedCraftIsSound(t *testing.T) {
	for _, name := range assets.Crafts() {
		file, text, ok := assets.Craft(name)
		require.True(t, ok)
		_, err := craftfile.Parse(file, text)
		assert.NoError(t, err, name)
	}
}

func TestEveryFieldIsRead(t *testing.T) {
	f, err := craftfile.Parse("full.yaml", []byte(`
propsoff: craft 1
name: full
receiver: {when-silent: sends-stored, frame-every: 9 ms, stored: {throttle: 988, roll: 1500, pitch: 1500.5, yaw: 1500, arm: 988, mode: 1200}}
link: {silence-limit: 100 ms, clean-time: 1s, when-lost: sink, sink-time: 2500ms, sink-carries: 82.5 %}
channels: {throttle: 3, roll: 1, pitch: 2, yaw: 4, arm: 16, second: 8, mode: 5}
arming: {by: switch, on: {from: 860, to: 1200}, low-throttle: 1040, only-self-levelling: yes, tilt-limit: 37.5 deg, still-time: 500 ms, pack-limit: 10.5 V, camera-menu: refuses}
second-switch: {on: {from: 1400, to: 1600}}
modes:
  angle: [{from: 860, to: 1000}, {from: 2000, to: 2180}]
  rate: {from: 1000, to: 1500}
motors: {at-low-throttle: idle, idle-speed: 7.5 %, air-mode-in: [rate], air-mode-wakes-at: 20 %}
`))
	require.NoError(t, err)
	c := f.Config()
	assert.Equal(t, uint16(9), c.SlotTicks)
	assert.Equal(t, link.SendsStored, c.Link.OnLoss)
	assert.Equal(t, pulse.Width(12004), c.Link.Stored[1])
	assert.Equal(t, pulse.Micros(988), c.Link.Stored[15])
	assert.Equal(t, uint16(12), c.Link.SilenceSlots, "100 ms in slots of 9, rounded up")
	assert.Equal(t, uint16(112), c.Link.CleanSlots)
	assert.Equal(t, uint16(278), c.Arming.SinkSlots)
	assert.Equal(t, uint16(1<<0|1<<1|1<<2|1<<3|1<<15), c.Link.Needed)
	assert.Equal(t, layout.Span{Low: pulse.Lowest, High: pulse.Micros(1200)}, c.Layout.ArmSpan)
	assert.Equal(t, layout.Span{Low: pulse.Micros(1400), High: pulse.Micros(1600)}, c.Layout.SecondSpan)
	assert.Equal(t, int8(3), c.Layout.SpanCount)
	assert.Equal(t, layout.Angle, c.Layout.ModeAt(pulse.Micros(2100)))
	assert.Equal(t, layout.Rate, c.Layout.ModeAt(pulse.Micros(1700)), "a gap")
	a := c.Arming
	assert.Equal(t, pulse.Micros(1040), a.LowThrottle)
	assert.Equal(t, pulse.Micros(1060), a.LeaveThrottle)
	assert.True(t, a.OnlySelfLevelling)
	assert.True(t, a.CameraMenuCounts)
	assert.Equal(t, int16(375), a.TiltLimitTenths)
	assert.Equal(t, uint16(10500), a.PackLimitMilliVolts)
	assert.Equal(t, uint16(56), a.StillSlots)
	assert.Equal(t, flight.Config{AtLowThrottle: flight.Idle, IdleSpeed: 750, AirModes: 1 << layout.Rate, AirWake: 1600, SinkCarries: 825}, c.Flight)

	n := f.Names()
	assert.Equal(t, map[string]int{"throttle": 2, "roll": 0, "pitch": 1, "yaw": 3, "arm": 15, "second": 7, "mode": 4}, n.Channel)
	assert.Equal(t, map[string]pulse.Width{"on": pulse.Low, "off": pulse.High}, n.Position["arm"], "a span at the low end is on when low")
	assert.Equal(t, map[string]pulse.Width{"on": pulse.Centre, "off": pulse.Low}, n.Position["second"])
	assert.Equal(t, pulse.Low, n.Position["mode"]["angle"])
}

func TestBySticks(t *testing.T) {
	_, text, ok := assets.Craft("teasel-by-sticks")
	require.True(t, ok)
	f, err := craftfile.Parse("x", text)
	require.NoError(t, err)
	c := f.Config()
	assert.Equal(t, arming.BySticks, c.Arming.By)
	assert.Equal(t, int8(layout.NoChannel), c.Layout.Arm)
	assert.Equal(t, uint16(0b1111), c.Link.Needed)
}

// with replaces the line of the built-in craft that begins with key (after blanks) and gives its number too.
func with(t *testing.T, key, line string) (string, int) {
	lines := strings.Split(builtIn(t), "\n")
	for i, l := range lines {
		if strings.HasPrefix(strings.TrimSpace(l), key) {
			lines[i] = line
			return strings.Join(lines, "\n"), i + 1
		}
	}
	t.Fatalf("no line %q", key)
	return "", 0
}

func TestBadFiles(t *testing.T) {
	for _, c := range []struct{ key, line, want string }{
		{"name:", "nam: Teasel", "did you mean"},
		{"by:", "  by: swich", "switch"},
		{"on: {from", "  on: {from: 2180, to: 1700}", "backwards"},
		{"on: {from", "  on: {from: 850, to: 1700}", "below 860"},
		{"on: {from", "  on: {from: 1700, to: 2181}", "above 2180"},
		{"on: {from", "  on: {from: 860, to: 2180}", "never be moved off"},
		{"low-throttle:", "  low-throttle: 900", "below 990"},
		{"low-throttle:", "  low-throttle: 2000", "above 1200"},
		{"on: {from", "  on: 1700", "the fields of the span must stand"},
		{"horizon:", "  horizon: {from: 1249, to: 1700}", "overlaps the one of angle at line"},
		{"channels:", "channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5, mode: 5}", "used twice, for arm and for mode"},
		{"channels:", "channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 17, mode: 5}", "above 16"},
		{"channels:", "channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, mode: 5}", "arm"},
		{"frame-every:", "  frame-every: 3 ms", "below"},
		{"frame-every:", "  frame-every: 20.5 ms", "whole milliseconds"},
		{"frame-every:", "  frame-every: 20", "has no unit"},
		{"when-lost:", "  when-lost: land", "cut"},
		{"only-self-levelling:", "  only-self-levelling: true", "yes"},
		{"propsoff:", "propsoff: craft 2", "craft 1"},
		{"when-silent:", "  when-silent: sends-stored", "none are given"},
		{"air-mode-in:", "  air-mode-in: rate", "list"},
	} {
		text, line := with(t, c.key, c.line)
		_, err := craftfile.Parse("bad.yaml", []byte(text))
		require.Error(t, err, c.line)
		assert.Contains(t, err.Error(), c.want, c.line)
		var all words.Problems
		require.True(t, errors.As(err, &all))
		hit := false
		for _, e := range all {
			hit = hit || e.File == "bad.yaml" && (e.Line == line || e.Line == line-1)
		}
		assert.True(t, hit, "%s: no error at line %d: %v", c.line, line, err)
	}
}

func TestAllErrorsAtOnce(t *testing.T) {
	_, err := craftfile.Parse("bad.yaml", []byte("propsoff: craft 1\nname: x\nchannels: {throttle: 1, roll: 1, pitch: 99, yaw: 4, arm: 5}\nmotrs: {}\n"))
	var all words.Problems
	require.True(t, errors.As(err, &all))
	assert.Len(t, all, 3, "%v", err)
}

func FuzzParse(f *testing.F) {
	for _, name := range assets.Crafts() {
		_, text, _ := assets.Craft(name)
		f.Add(text)
	}
	f.Add([]byte("a: &a [x, x]\nb: *a\n"))
	f.Add([]byte("propsoff: craft 1\narming: {by: sticks, on: {from: 1, to: 0}}\nchannels: []\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		file, err := craftfile.Parse("f", data)
		if err != nil {
			if file != nil {
				t.Fatal("a file beside an error")
			}
			return
		}
		// Whatever is accepted must run.
		cfg := file.Config()
		if cfg.SlotTicks < 4 || cfg.SlotTicks > 50 || cfg.Link.SilenceSlots == 0 {
			t.Fatalf("accepted a craft that cannot run: %+v", cfg)
		}
		b := sim.New(cfg)
		r := []pulse.Reading{{Kind: pulse.Power, Value: 1}, {Kind: pulse.Plug, Value: 1}, {Kind: pulse.Link, Value: 1}, {Kind: pulse.Controls}}
		for range 100 {
			b.Step(r, nil)
		}
		_ = file.Names()
	})
}

// A percentage is written one way: as in the file.
func TestAPercentageIsToldAsItIsWritten(t *testing.T) {
	_, err := craftfile.Parse("a.yaml", []byte("propsoff: craft 1\nreceiver: {frames-lost: 60 %}\n"))
	require.Error(t, err)
	assert.Contains(t, err.Error(), "`60 %` is above 50 %: write a value from 0 % to 50 %")
}

package radio

import (
	"testing"

	"propsoff.example/input"
	"propsoff.example/sim/pulse"

	"github.com/stretchr/testify/require"
)

func sevenAxes() input.Info {
	info := input.Info{Name: "Moorland Desk 7", Vendor: 0x1f4a, Product: 7, Serial: "A12", Port: "1-1.2", Buttons: 20}
	for i := range 7 {
		info.Axes = append(info.Axes, input.Axis{Code: i, Min: 0, Max: 4095})
	}
	for i := range 2 {
		info.Axes = append(info.Axes, input.Axis{Code: 16 + i, Min: -1, Max: 1, Hat: true})
	}
	return info
}

func eightJobs() input.Names {
	return input.Names{Channel: map[string]int{"roll": 0, "pitch": 1, "throttle": 2, "yaw": 3, "arm": 4, "mode": 5, "second": 7}}
}

const written = `propsoff: radio 1                 # what this file is, and its version
device: {name: "Moorland Desk 7", vendor: "1f4a", product: "0007", serial: "A12", port: "1-1.2"}
stick-mode: 2
controls:
  throttle: {axis: 3, scale: {988: 0, 1500: 2047.5, 2012: 4095}, reach: {low: 3, rest: 12, high: 4092}}
  roll:     {axis: 1, scale: {988: 4095, 1500: 2047.5, 2012: 0}}      # runs backwards: the scale says so
  pitch:    {axis: 2}             # scale left out: the device's own lowest, middle and highest
  yaw:      {axis: 4, scale: backwards}
  arm:      {button: 5}           # released 988, pressed 2012
  mode:     {buttons: [6, none, 8]}   # three positions
  channel 7: {axis: 9}
`

func mapper(t *testing.T, text string) *Mapper {
	t.Helper()
	info, names := sevenAxes(), eightJobs()
	f, err := Parse("radio.yaml", []byte(text), Known{&info, &names})
	require.NoError(t, err)
	m, err := NewMapper(f, info, names)
	require.NoError(t, err)
	return m
}

func press(buttons ...int) (raw input.Raw) {
	for _, b := range buttons {
		raw.Buttons[(b-1)/64] |= 1 << ((b - 1) % 64)
	}
	return raw
}

func TestMap(t *testing.T) {
	m := mapper(t, written)
	raw := press(5, 8)
	copy(raw.Axes[:], []int32{4095, 4095, 4095, 4095, 7, 7, 7, 1, 1})
	var f pulse.Frame
	f[15] = 5 // what was there before is gone
	m.Map(&raw, &f)
	hi, lo := pulse.High, pulse.Low
	require.Equal(t, pulse.Frame{lo, hi, hi, lo, hi, hi, hi}, f)

	raw = press()
	copy(raw.Axes[:], []int32{0, 0, 0, 0, 0, 0, 0, 0, 0})
	m.Map(&raw, &f)
	require.Equal(t, pulse.Frame{hi, lo, lo, hi, lo, pulse.Centre, pulse.Centre}, f, "none pressed: the middle")

	raw.Axes[1], raw.Axes[8] = 70000, -5
	m.Map(&raw, &f)
	require.Equal(t, hi, f[1], "what the device reports beyond its range is its end")
	require.Equal(t, lo, f[6])
}

func TestRowKeepsItsPosition(t *testing.T) {
	m := mapper(t, `propsoff: radio 1
controls:
  throttle: {axis: 1}
  roll: {axis: 2}
  pitch: {axis: 3}
  yaw: {axis: 4}
  mode: {buttons: [6, 7, 20]}
`)
	const mode = 5
	for _, c := range []struct {
		raw  input.Raw
		want pulse.Width
		why  string
	}{
		{press(), pulse.Missing, "never seen pressed: not known"},
		{press(7), pulse.Centre, "second position"},
		{press(), pulse.Centre, "kept"},
		{press(1), pulse.Centre, "another button means nothing"},
		{press(7, 20), pulse.Centre, "on the way: the last one stays while it is pressed"},
		{press(20), pulse.High, ""},
		{press(), pulse.High, "kept"},
		{press(6, 7), pulse.Low, "neither was last: the lowest"},
	} {
		var f pulse.Frame
		m.Map(&c.raw, &f)
		require.Equal(t, c.want, f[mode], c.why)
	}
	m.Forget()
	var f pulse.Frame
	raw := press()
	m.Map(&raw, &f)
	require.Equal(t, pulse.Missing, f[mode])
}

func TestAxisWithoutRangeIsMissing(t *testing.T) {
	info := sevenAxes()
	info.Axes[1].Max = info.Axes[1].Min
	f, err := Parse("radio.yaml", []byte(written), Known{})
	require.NoError(t, err)
	m, err := NewMapper(f, info, eightJobs())
	require.NoError(t, err)
	var frame pulse.Frame
	m.Map(&input.Raw{}, &frame)
	require.Equal(t, pulse.Missing, frame[1])
	require.Equal(t, pulse.Low, frame[2])
}

func TestJobsThatTheCraftLacksAreLeftOut(t *testing.T) {
	f, err := Parse("radio.yaml", []byte(written), Known{})
	require.NoError(t, err)
	names := input.Names{Channel: map[string]int{"throttle": 0, "roll": 1, "pitch": 2, "yaw": 3}}
	m, err := NewMapper(f, sevenAxes(), names)
	require.NoError(t, err)
	var frame pulse.Frame
	m.Map(&input.Raw{}, &frame)
	require.Equal(t, pulse.Frame{pulse.Low, pulse.High, pulse.Low, pulse.High, 0, 0, pulse.Centre}, frame)
}

func TestNewMapperSaysAllThatDoesNotFit(t *testing.T) {
	f, err := Parse("radio.yaml", []byte(written), Known{})
	require.NoError(t, err)
	info := sevenAxes()
	info.Axes, info.Buttons = info.Axes[:3], 5
	names := eightJobs()
	names.Channel["arm"] = 6
	_, err = NewMapper(f, info, names)
	require.EqualError(t, err, `axis 4 of yaw: this radio has 3 axes
button 6 of mode: this radio has 5 buttons
button 8 of mode: this radio has 5 buttons
arm and channel 7 are both channel 7 for this craft; keep one
axis 9 of channel 7: this radio has 3 axes`)
}

func TestMapAllocatesNothing(t *testing.T) {
	m := mapper(t, written)
	raw := press(6)
	var f pulse.Frame
	require.Zero(t, testing.AllocsPerRun(100, func() { m.Map(&raw, &f) }))
}

func BenchmarkMap(b *testing.B) {
	info, names := sevenAxes(), eightJobs()
	f, _ := Parse("radio.yaml", []byte(written), Known{})
	m, err := NewMapper(f, info, names)
	if err != nil {
		b.Fatal(err)
	}
	raw := press(6)
	var frame pulse.Frame
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		raw.Axes[2] = int32(i & 4095)
		m.Map(&raw, &frame)
	}
}

package radioreach

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/pulse"
)

func names(t *testing.T) input.Names {
	_, text, _ := assets.Craft(assets.BuiltIn)
	f, err := craftfile.Parse("craft.yaml", text)
	require.NoError(t, err)
	return f.Names()
}

func read(t *testing.T, controls string) *radio.File {
	f, err := radio.Parse("radio.yaml", []byte("propsoff: radio 1\ncontrols:\n  roll: {axis: 11}\n  pitch: {axis: 12}\n  yaw: {axis: 13}\n"+controls), radio.Known{})
	require.NoError(t, err)
	return &f
}

func on(t *testing.T, r *handset.Radio, job string) handset.Control {
	for _, c := range r.Controls {
		if c.Job == job {
			return c
		}
	}
	require.Fail(t, job)
	return handset.Control{}
}

func widths(c handset.Control) (out []pulse.Width) {
	for _, p := range c.Positions {
		out = append(out, p.Width)
	}
	return out
}

const throttle = "  throttle: {axis: 3, scale: {988: 0, 1500: 2047.5, 2012: 4095}, reach: {low: 3, rest: 12, high: 4092}, noise: 2}\n"

// Without a scale and without the device nobody knows which raw values mean 988 and 2012 µs. The ends that the file holds are
// taken for them, by proportion between, and nothing of it counts as measured.
func TestAnAxisWithoutAScaleIsTakenForGranted(t *testing.T) {
	for text, want := range map[string][]pulse.Width{
		"{axis: 6, positions: [{at: 0, spread: 4}, {at: 4095, spread: 4}]}":                                                  {pulse.Low, pulse.High},
		"{axis: 6, positions: [{at: 0}, {at: 1024}, {at: 4096}]}":                                                            {pulse.Low, pulse.Low + pulse.Travel/2, pulse.High},
		"{axis: 6, scale: backwards, positions: [{at: 4095}, {at: 0}]}":                                                      {pulse.Low, pulse.High},
		"{axis: 6, reach: {low: 0, rest: 1024, high: 4096}, positions: [{at: 1024}, {at: 3072}]}":                            {pulse.Low + pulse.Travel/2, pulse.High - pulse.Travel/2},
		"{axis: 6, reach: {low: -100, rest: 0, high: 100}, scale: backwards, positions: [{at: 100, spread: 1}, {at: -100}]}": {pulse.Low, pulse.High},
	} {
		r := Handset(read(t, throttle+"  channel 7: "+text+"\n"), nil, names(t))
		c := on(t, &r, "channel 7")
		assert.Equal(t, want, widths(c), text)
		assert.True(t, c.Assumed, text)
		assert.Zero(t, c.Noise, text)
		assert.Zero(t, c.Positions[0].Spread, text)
		assert.True(t, r.Measured)
		assert.False(t, on(t, &r, "throttle").Assumed)
		assert.True(t, on(t, &r, "roll").Assumed, "nothing was found of it")
	}
	// A stick: its ends by its reach, its rest by proportion.
	r := Handset(read(t, "  throttle: {axis: 3, reach: {low: 0, rest: 1024, high: 4096}}\n"), nil, names(t))
	c := on(t, &r, "throttle")
	assert.Equal(t, []pulse.Width{pulse.Low, pulse.Low + pulse.Travel/2, pulse.High}, []pulse.Width{c.Low, c.Rest, c.High})
	assert.True(t, c.Assumed)
	assert.False(t, r.Measured, "nothing of this radio was")
	// The device tells it.
	info := &input.Info{Axes: make([]input.Axis, 13)}
	for i := range info.Axes {
		info.Axes[i] = input.Axis{Min: -4096, Max: 12288}
	}
	r = Handset(read(t, throttle+"  channel 7: {axis: 6, positions: [{at: 0, spread: 4}, {at: 4096, spread: 4}]}\n"), info, names(t))
	c = on(t, &r, "channel 7")
	assert.Equal(t, []pulse.Width{pulse.Low + pulse.Travel/2, pulse.Centre}, widths(c))
	assert.False(t, c.Assumed)
	assert.NotZero(t, c.Positions[0].Spread)
	// Buttons send what they send, measured or not.
	r = Handset(read(t, throttle+"  arm: {button: 1}\n  mode: {buttons: [6, none, 8]}\n"), nil, names(t))
	assert.False(t, on(t, &r, "arm").Assumed)
	assert.False(t, on(t, &r, "mode").Assumed)
	// Positions that are one place, half a step apart, have no proportion.
	r = Handset(read(t, throttle+"  channel 7: {axis: 6, positions: [{at: 7}, {at: 7.5}]}\n"), nil, names(t))
	assert.Equal(t, []pulse.Width{pulse.Low, pulse.High}, widths(on(t, &r, "channel 7")))
}

// What a spring does comes from the file as it was read.
func TestTheThrottleOfTheReadmeStays(t *testing.T) {
	r := Handset(read(t, throttle), nil, names(t))
	assert.True(t, on(t, &r, "throttle").Stays)
	assert.False(t, on(t, &r, "roll").Stays)
}

// Where the pilot placed a control it sits; where the file does not say it, the place is guessed, and said to be.
func TestPlacesComeFromTheFileOrAreGuessed(t *testing.T) {
	r := Handset(read(t, throttle+"  arm: {button: 1, sits: {where: back, across: 100, down: 200, goes: left}}\n  mode: {button: 2, side: left}\n"), nil, names(t))
	assert.Equal(t, handset.Spot{View: handset.OnBack, X: 100, Y: 200, Way: handset.GoesLeft}, on(t, &r, "arm").Spot)
	mode := on(t, &r, "mode").Spot
	assert.True(t, mode.Guessed)
	assert.Less(t, mode.X, int16(500), "its side was said")
	assert.Zero(t, on(t, &r, "throttle").Spot)
	for _, s := range []handset.Spot{{View: handset.OnFace, X: 1, Y: 2, Way: handset.Pressed}, {View: handset.OnShoulders, X: 3, Y: 4, Way: handset.TurnsBack}, {View: handset.OnBack, Y: 1000, Way: handset.GoesUp}} {
		assert.Equal(t, s, spot(SpotOf(s)), "there and back")
		s.Guessed = true
		assert.Zero(t, SpotOf(s), "a guess is not kept")
	}
}

// One piece of the radio on several channels is one control of the radio; what is turned sends the same turned round the centre. Which of them
// counts as the one that is moved does not depend on the order in the file.
func TestOneControlOnSeveralChannels(t *testing.T) {
	r := Handset(read(t, throttle+"  mode: {axis: 5, scale: {988: 0, 1500: 1000, 2012: 2000}, reach: {low: 0, rest: 0, high: 2000}, positions: [{at: 0, spread: 20}, {at: 500, spread: 20}, {at: 2000, spread: 20}]}\n"+
		"  arm: {moves-with: mode, turned: yes}\n  channel 9: {moves-with: mode}\n  channel 10: {moves-with: throttle, turned: yes}\n"), nil, names(t))
	us := pulse.Micros
	arm, mode, nine, ten := on(t, &r, "arm"), on(t, &r, "mode"), on(t, &r, "channel 9"), on(t, &r, "channel 10")
	assert.Zero(t, arm.Same, "channel 5 comes first")
	assert.Equal(t, []int{5, 5}, []int{mode.Same, nine.Same})
	assert.True(t, mode.Turned && nine.Turned)
	assert.Equal(t, []pulse.Width{us(988), us(1756), us(2012)}, widths(arm))
	assert.Equal(t, []pulse.Width{us(988), us(1244), us(2012)}, widths(mode))
	assert.Equal(t, widths(mode), widths(nine))
	assert.Equal(t, arm.Positions[0].Spread, mode.Positions[2].Spread)
	assert.Equal(t, []int{1}, []int{ten.Same})
	down := on(t, &r, "throttle")
	assert.Equal(t, []pulse.Width{2*pulse.Centre - down.High, 2*pulse.Centre - down.Low}, []pulse.Width{ten.Low, ten.High})
	assert.Equal(t, handset.Stick, ten.Kind, "it is the stick")
	for i := range r.Controls {
		assert.True(t, r.SameFits(i), r.Controls[i].Job)
	}
}

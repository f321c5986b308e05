package wayplay_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/wayplay"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// throttleUp is a way on which arming is refused because the throttle is up, by hand: pack in, three seconds, arm switch on.
func throttleUp(throttle pulse.Width) *prove.Way {
	f := pulse.Frame{}
	for i := range f {
		f[i] = pulse.Low
	}
	l := sim.Default().Layout
	f[l.Roll], f[l.Pitch], f[l.Yaw], f[l.Throttle] = pulse.Centre, pulse.Centre, pulse.Centre, throttle
	on := f
	on[l.Arm] = pulse.High
	off := on
	off[l.Arm] = pulse.Low
	return &prove.Way{Final: 5000, Readings: []pulse.Reading{
		{Kind: pulse.Plug, Value: 1}, {Kind: pulse.Link, Value: 1}, {Kind: pulse.Power, Value: 1}, {Kind: pulse.Controls, Frame: f},
		{At: 3_000_000, Kind: pulse.Controls, Frame: on}, {At: 4_000_000, Kind: pulse.Controls, Frame: off},
	}}
}

func TestWhatRefusedAndWhatDisarmedIsNoted(t *testing.T) {
	p := wayplay.New(sim.Default(), throttleUp(pulse.Centre), 2000)
	p.To(p.Ends())
	h, refused := p.Refused()
	require.True(t, refused)
	assert.True(t, facts.Set(h.A).Has(facts.ThrottleUp))
	assert.False(t, facts.Set(h.A).Has(facts.OffFirst), "that comes of it")
	_, disarmed := p.Disarmed()
	assert.False(t, disarmed)

	p = wayplay.New(sim.Default(), throttleUp(pulse.Low), 2000)
	p.To(3500)
	assert.True(t, p.Facts().Snap.Armed)
	p.To(p.Ends())
	cut, disarmed := p.Disarmed()
	require.True(t, disarmed)
	assert.Equal(t, int32(happening.BySwitch), cut.A)
	assert.False(t, p.Facts().Snap.Armed)

	p.To(3500) // back: from the beginning again
	assert.True(t, p.Facts().Snap.Armed)
	_, disarmed = p.Disarmed()
	assert.False(t, disarmed)
	assert.Equal(t, int64(3500), p.Ms())
	assert.Equal(t, pulse.High, p.Sent()[sim.Default().Layout.Arm])

	p = wayplay.New(sim.Default(), throttleUp(pulse.Centre), 4500)
	p.To(p.Ends())
	_, refused = p.Refused()
	assert.False(t, refused, "that was before")
}

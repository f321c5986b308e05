package fault_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// sound is a layout that nothing is wrong with: the built-in craft with times of a few slots, and a radio with full travel.
func sound() prove.Layout {
	cfg := sim.Default()
	cfg.SlotTicks = 4
	cfg.Link.SilenceSlots, cfg.Link.CleanSlots = 3, 4
	cfg.Arming.StillSlots, cfg.Arming.SinkSlots = 3, 0
	return prove.Layout{Config: cfg, Radio: handset.Ideal([]handset.Want{
		{Channel: 0, Job: "throttle"}, {Channel: 1, Job: "roll"}, {Channel: 2, Job: "pitch"}, {Channel: 3, Job: "yaw"},
		{Channel: 4, Job: "arm", Kind: handset.Switch}, {Channel: 5, Job: "mode", Kind: handset.Switch},
	})}
}

// bend is a layout with a fault planted: the craft by Craft, the radio by taking each control to each of its places.
func bend(l prove.Layout, r pulse.Reading) prove.Layout {
	rest := pulse.Frame{pulse.Low, pulse.Centre, pulse.Centre, pulse.Centre, pulse.Low, pulse.Low}
	s := state(controls(rest), r)
	s.Craft(&l.Config.Link, &l.Config.Layout)
	at := func(channel int8, w *pulse.Width) {
		f := rest
		f[channel] = *w
		c := controls(f)
		s.Take(&c, 5)
		f, _ = s.Frame(5)
		*w = f[channel]
	}
	for i := range l.Radio.Controls {
		c := &l.Radio.Controls[i]
		at(c.Channel, &c.Low)
		at(c.Channel, &c.Rest)
		at(c.Channel, &c.High)
		for p := range c.Positions {
			at(c.Channel, &c.Positions[p].Width)
		}
	}
	return l
}

// broken are the rules that a search finds broken, each with its cause.
func broken(t *testing.T, l prove.Layout) (out []string) {
	t.Helper()
	rep, err := prove.Search(l, prove.Options{})
	require.NoError(t, err)
	require.False(t, rep.Partial)
	for _, r := range rep.Results {
		if r.Outcome == prove.Broken {
			out = append(out, r.Rule.Code()+": "+r.Cause.Code())
		}
	}
	return out
}

// A fault that a search of the layout could know of breaks exactly the rules that it should; one that it could not breaks none.
func TestProveFindsFaults(t *testing.T) {
	require.Empty(t, broken(t, sound()))
	line := func(r prove.Rule, c prove.Cause) string { return r.Code() + ": " + c.Code() }
	for name, c := range map[string]struct {
		plant pulse.Reading
		want  []string
	}{
		"a gap between the modes": {plant(t, fault.ModeGap, 100, 0), []string{
			line(prove.EveryModeReached, prove.ModeNoPosition), line(prove.NoModeGap, prove.GapBetween)}},
		"the receiver repeats the last": {plant(t, fault.Receiver, 1, 0), []string{
			line(prove.LossStopsMotors, prove.HeldSwitch), line(prove.LinkBackNeverArms, prove.HeldSwitch), line(prove.SilenceStopsSoon, prove.HeldSwitch)}},
		"the receiver sends what was stored": {plant(t, fault.Receiver, 2, 0), []string{
			line(prove.LinkBackNeverArms, prove.StoredSwitchOff)}},
		"the throttle ends at 1012":      {plant(t, fault.ShortTravel, 1, 1012), []string{line(prove.CanArm, prove.ThrottleNeverLow)}},
		"the arm switch is stuck":        {plant(t, fault.Stuck, 5, 0), []string{line(prove.CanArm, prove.ArmNeverOn)}},
		"no pulse on the arm channel":    {plant(t, fault.ChannelOut, 5, 0), []string{line(prove.CanArm, prove.NeverPulse), line(prove.CanDisarm, prove.NeverPulse)}},
		"the throttle is 60 µs too high": {plant(t, fault.OffCentre, 1, 60), []string{line(prove.CanArm, prove.ThrottleNeverLow)}},
		"the mode switch is reversed":    {plant(t, fault.Reversed, 6, 0), []string{line(prove.PowerUpLevels, prove.RateAtRest)}},
		"roll is reversed":               {plant(t, fault.Reversed, 2, 0), nil},
		"the radio is off":               {plant(t, fault.RadioOff, 0, 0), nil},
		"the cable is in":                {plant(t, fault.CableIn, 0, 0), nil},
	} {
		t.Run(name, func(t *testing.T) {
			assert.ElementsMatch(t, c.want, broken(t, bend(sound(), c.plant)))
		})
	}
}

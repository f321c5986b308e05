package practice_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/link"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// A practice that leaps from slot to slot comes to the same as one that steps every millisecond, whatever hands, link, pack and
// instructor do: the same armed or not, the same refusals, the same happenings of arming and link in the same slots.
func TestLeapsComeToWhatStepsComeTo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cfg := sim.Default()
		cfg.Link.OnLoss = link.OnLoss(rapid.IntRange(0, 2).Draw(t, "receiver"))
		cfg.Link.Stored = pulse.Frame{pulse.Low, pulse.Centre, pulse.Centre, pulse.Centre, pulse.Low, pulse.Low}
		cfg.Arming.SinkSlots = uint16(rapid.SampledFrom([]int{0, 50}).Draw(t, "sinks"))
		if rapid.Bool().Draw(t, "by sticks") {
			cfg.Arming.By, cfg.Layout.Arm = arming.BySticks, -1
			cfg.Link.Needed = cfg.Layout.Needed()
		}
		a := practice.New(cfg)
		var b practice.Practice
		a.CopyTo(&b)
		frame := pulse.Frame{pulse.Low, pulse.Centre, pulse.Centre, pulse.Centre, pulse.Low, pulse.Low}
		now := start()
		slots := func(p *practice.Practice) (out []happening.Happening) {
			for _, h := range p.Happenings() {
				if h.Code <= happening.Mode || h.Code == happening.Settled {
					out = append(out, h)
				}
			}
			return out
		}
		for range rapid.IntRange(1, 25).Draw(t, "deeds") {
			for range rapid.IntRange(1, 70).Draw(t, "slots") {
				var one, two []happening.Happening
				for {
					a.Step(now)
					one = append(one, slots(a)...)
					if len(now) > 0 {
						b.Leap(now)
						two = append(two, slots(&b)...)
						now = nil
					}
					if a.Tick() >= b.Tick() {
						break
					}
				}
				b.Leap(nil)
				two = append(two, slots(&b)...)
				for a.Tick() < b.Tick() {
					a.Step(nil)
					one = append(one, slots(a)...)
				}
				require.Equal(t, b.Tick(), a.Tick())
				require.Equal(t, one, two)
				s, u := a.Bench().State(), b.Bench().State()
				require.Equal(t, s.Slot, u.Slot)
				if !s.In.Powered { // what trembles in the meantime reaches nobody
					s.In.Sent, u.In.Sent = pulse.Frame{}, pulse.Frame{}
				}
				require.Equal(t, s.In, u.In)
				require.Equal(t, a.Bench().Refusals(), b.Bench().Refusals())
			}
			c := rapid.IntRange(0, 5).Draw(t, "channel")
			frame[c] = rapid.SampledFrom([]pulse.Width{pulse.Low, pulse.Centre, pulse.High, 0, pulse.Micros(1400)}).Draw(t, "to")
			on := int32(rapid.IntRange(0, 1).Draw(t, "on"))
			now = []pulse.Reading{rapid.SampledFrom([]pulse.Reading{
				{Kind: pulse.Controls, Frame: frame}, {Kind: pulse.Controls, Frame: frame}, {Kind: pulse.Link, Value: on}, {Kind: pulse.Power, Value: on},
				{Kind: pulse.Cable, Value: on}, {Kind: pulse.Tilt, Value: on * 450}, {Kind: pulse.Nudge},
				faulty(t, fault.Noisy, 5, 40), faulty(t, fault.Dropouts, 300, 700), faulty(t, fault.Receiver, on+1, 0), {Kind: pulse.Instructor, Value: fault.Lift(fault.Dropouts)},
			}).Draw(t, "deed")}
		}
		assert.Greater(t, a.Tick(), int64(0))
	})
}

package practice_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/sim"
	"propsoff.example/sim/body"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// outside is a practice on the air bench, armed, with hands that wave to and fro.
func outside() (*practice.Practice, []pulse.Reading) {
	p := practice.New(sim.Default())
	rs := append(start(), pulse.Reading{Kind: pulse.Air, Value: 1},
		pulse.Reading{Kind: pulse.Propellers, Value: pulse.PropellersValue(body.Default().Hand, true)})
	p.Step(rs)
	for range 2500 {
		p.Step(nil)
	}
	rs[3].Frame[4] = pulse.High
	p.Step(rs[3:4])
	for range 100 {
		p.Step(nil)
	}
	return p, rs[3:4]
}

// wave moves the sticks of tick i, by integers, the same on every machine.
func wave(f *pulse.Frame, i int) {
	saw := func(period, size int) pulse.Width {
		return pulse.Width((i%period*4/period*2 - 3) * size * pulse.Eighths / 3)
	}
	f[0] = pulse.Micros(1400) + pulse.Width(i/700%2*110*pulse.Eighths)
	f[1], f[2], f[3] = pulse.Centre+saw(1300, 90), pulse.Centre+saw(1700, 80), pulse.Centre+saw(2900, 60)
	f[5] = pulse.Low + pulse.Width(i/4000%3)*pulse.Travel
}

func TestFlightDigestIsTheSameOnEveryMachine(t *testing.T) {
	p, one := outside()
	var s sim.Snapshot
	highest := 0.0
	for i := range 30000 {
		wave(&one[0].Frame, i)
		p.Step(one)
		p.Snapshot(&s)
		highest = max(highest, -s.Air.Body.Pos.Z)
	}
	assert.True(t, s.Armed && highest > 1 && s.Air.Wreck == 0, "it flew to %v m", highest)
	assert.Less(t, math.Abs(s.Air.Body.Att.Norm()-1), 1e-12)
	// Written down once on amd64. arm, arm64 and wasm must give the same.
	assert.Equal(t, fmt.Sprintf("%#x", flightDigest), fmt.Sprintf("%#x", p.Digest()))
}

const flightDigest = uint64(0xce7b7363cb556bdc)

func TestFlightAllocatesNothing(t *testing.T) {
	p, one := outside()
	var s sim.Snapshot
	i := 0
	assert.Zero(t, testing.AllocsPerRun(5000, func() {
		i++
		wave(&one[0].Frame, i)
		p.Step(one)
		p.Snapshot(&s)
	}))
}

// BenchmarkFlight is one millisecond of everything with the craft in the air, for 1, 3 and 30 crafts. They begin anew every half minute, or
// their packs would be empty in the middle of it and they would lie on the ground.
func BenchmarkFlight(b *testing.B) {
	for _, n := range []int{1, 3, 30} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			all := make([]*practice.Practice, n)
			var one []pulse.Reading
			for k := range all {
				all[k], one = outside()
			}
			from := all[0].Bench().State()
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				if i %= 30_000; i == 0 {
					for _, p := range all {
						p.Bench().Restore(from)
					}
				}
				wave(&one[0].Frame, i)
				for _, p := range all {
					p.Step(one)
				}
			}
			b.ReportMetric(1e6/(float64(b.Elapsed().Nanoseconds())/float64(b.N)), "×real-time")
		})
	}
}

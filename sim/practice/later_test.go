package practice_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/sim"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// A practice that was moved in time goes on as it would have: moved back, it is the same to the last bit.
func TestLaterIsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cfg := sim.Default()
		cfg.Transit.Delay = uint16(rapid.IntRange(0, 60).Draw(t, "delay"))
		by := rapid.Int64Range(0, 100_000).Draw(t, "by")
		p := practice.New(cfg)
		p.Step(start())
		walk := func(most int, also *practice.Practice) {
			for range rapid.IntRange(0, most).Draw(t, "readings") {
				r := anything(t)
				if d, _ := pulse.InstructorOf(r.Value); r.Kind == pulse.Instructor && (d == fault.Noisy || d == fault.Gusts) {
					continue // what chance makes of the tick
				}
				rs := []pulse.Reading{r}
				for range rapid.IntRange(1, 150).Draw(t, "ticks") {
					p.Step(rs)
					if also != nil {
						also.Step(rs)
					}
					rs = nil
				}
			}
		}
		walk(30, nil)
		var q practice.Practice
		p.CopyTo(&q)
		q.Later(by)
		require.Equal(t, p.Tick()+by, q.Tick())
		walk(30, &q)
		q.Later(-by)
		was, now := p.Bench().State(), q.Bench().State()
		if was.Rest == 0 { // nothing came since power-up, so nothing counts from a tick
			now.RestSince = was.RestSince
		}
		if was.LastValid == (pulse.Frame{}) {
			now.LastValidTick = was.LastValidTick
		}
		require.Equal(t, was, now)
		require.Equal(t, *p.Faults(), *q.Faults())
	})
}

package facts

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/sim"
	"propsoff.example/sim/stop"
)

// At its worst a craft goes farther the later the hand comes (in others it may brake by itself meanwhile); the worst is beyond the half of all; what is told of one reaction is what its run comes to.
func TestALateHandLetsItGoFarther(t *testing.T) {
	cfg := sim.Default()
	var a AlarmCurve
	steps := 1
	for a.Step(&cfg) {
		steps++
	}
	assert.True(t, a.Known())
	assert.Less(t, steps, 200)
	last := AlarmPoint{}
	for _, p := range a.Points() {
		assert.Greater(t, p.Farthest, p.Half)
		assert.GreaterOrEqual(t, p.Farthest, last.Farthest)
		last = p
	}
	m := AlarmAfter(&cfg, 600)
	assert.InDelta(t, a.Points()[2].Half, m.Half, 1e-9)
	assert.GreaterOrEqual(t, m.Goes, a.Points()[2].Farthest-1e-9, "its own worst is sought")
	o := stop.Curve(&cfg, m.Worst, []int64{600}, nil)[0]
	assert.Equal(t, [2]float64{o.Goes, o.Touch}, [2]float64{m.Goes, m.Touch})
	assert.Equal(t, o.Stands, m.Stands)
}

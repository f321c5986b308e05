package flight_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/sim/body"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/vec"
)

// at is a craft in rate with air mode awake, its throttle at a fraction.
func at(throttle float64) *craft {
	f := hovering()
	f.in.Mode, f.in.AirAwake = layout.Rate, true
	f.in.Throttle, f.in.Base = throttle, 0.09+0.91*throttle
	f.run(0.5)
	return f
}

// A stick that is pushed to its end turns the craft as fast as the curve says and no faster, however long the motors fell short on the
// way, and one that is let go leaves it where it came to rest.
func TestNothingWindsUp(t *testing.T) {
	for _, throttle := range []float64{0, 0.1, 0.35, 0.6, 0.85, 1} {
		for axis := range 3 {
			f := at(throttle)
			f.body.Pack = body.Pack{}
			stick := []*float64{&f.in.Roll, &f.in.Pitch, &f.in.Yaw}[axis]
			rate := func() float64 { return []float64{f.s.Spin.X, -f.s.Spin.Y, f.s.Spin.Z}[axis] / flight.Degree }
			full := f.c.Curve[axis].Full / flight.Degree
			*stick = 1
			most := 0.0
			for range 800 {
				f.step()
				most = max(most, rate())
			}
			t.Logf("throttle %.2f, axis %d: %.1f of %.0f at most, then %.1f", throttle, axis, most, full, rate())
			limit := 1.005
			if throttle < 0.2 { // it falls as it turns, into air that its loops know nothing of
				limit = 1.025
			}
			assert.Less(t, most, limit*full, "throttle %v, axis %d", throttle, axis)
			*stick = 0
			f.run(1)
			start, worst := f.s.Att, 0.0
			for range 6000 {
				f.step()
				off := start.Conj().Mul(f.s.Att)
				worst = max(worst, 2*math.Asin(min(vec.V{X: off.X, Y: off.Y, Z: off.Z}.Norm(), 1))/flight.Degree)
			}
			t.Logf("   in 6 s it drifts %.3f°", worst)
			assert.Less(t, worst, 0.15, "throttle %v, axis %d", throttle, axis)
		}
	}
}

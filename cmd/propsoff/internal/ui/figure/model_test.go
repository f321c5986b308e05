package figure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/sim"
	"propsoff.example/sim/vec"
)

// Seen from behind, a bank to the right brings the right motors down; from above, north is up and a nose to the east points right;
// from the side the nose is at the right, and nose up is up.
func TestViewsShowWhatIs(t *testing.T) {
	cfg := sim.Default()
	right, left := 1, 0
	for _, c := range []struct {
		att        vec.Q
		eye        func(float64) Eye
		facing     float64
		name       string
		holds      func(m *model) bool
		isNotAfter vec.Q // the other way round must not hold
	}{
		{ui.TurnBy(vec.V{X: 0.5}), EyeBehind, 0, "bank", func(m *model) bool {
			return m.at(m.motorAt(right)).Y > m.at(m.motorAt(left)).Y+0.5 && m.at(m.motorAt(right)).X > m.at(m.motorAt(left)).X
		}, ui.TurnBy(vec.V{X: -0.5})},
		{ui.TurnBy(vec.V{Y: 0.5}), EyeBeside, 0, "nose up", func(m *model) bool {
			return m.at(vec.V{X: 1}).Y < m.at(vec.V{X: -1}).Y-0.5 && m.at(vec.V{X: 1}).X > m.at(vec.V{X: -1}).X
		}, ui.TurnBy(vec.V{Y: -0.5})},
		{ui.TurnBy(vec.V{Z: math.Pi / 2}), func(float64) Eye { return EyeAbove }, 0, "nose east", func(m *model) bool {
			return m.at(vec.V{X: 1}).X > 0.9
		}, ui.TurnBy(vec.V{Z: -math.Pi / 2})},
		{vec.Q{W: 1}, func(float64) Eye { return EyeAbove }, 0, "nose north", func(m *model) bool { return m.at(vec.V{X: 1}).Y < -0.9 }, ui.TurnBy(vec.V{Z: math.Pi})},
		{ui.TurnBy(vec.V{Z: 2}), EyeBehind, 2, "from behind whatever the heading", func(m *model) bool {
			return m.at(m.motorAt(right)).X > 0.9 && m.near(vec.V{X: -1}) > 0.9
		}, ui.TurnBy(vec.V{Z: 2 + math.Pi})},
	} {
		var s sim.Snapshot
		f := Flying{snap: &s, cfg: &cfg}
		s.Air.Body.Att = c.att
		m := f.model(c.eye(c.facing), 1)
		assert.True(t, c.holds(&m), c.name)
		s.Air.Body.Att = c.isNotAfter
		m = f.model(c.eye(c.facing), 1)
		assert.False(t, c.holds(&m), "%s: the other way round", c.name)
	}
}

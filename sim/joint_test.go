package sim

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/body"
	"propsoff.example/sim/pulse"
)

// A body that hangs in its middle turns as a free one in weightless space does: the motion about the mass centre does not ask how that moves
// (Goldstein, Classical Mechanics, 1.2; from memory). Bit for bit where nothing that the air does depends on how fast the middle moves, and with
// all that where the free one is heavy beyond measure.
func TestTheJointAgainstAFreeBody(t *testing.T) {
	for _, still := range []bool{true, false} {
		cfg := Default()
		own := cfg.Body
		own.Weightless = true
		if still {
			cfg.Body.Idle, cfg.Body.RotorDrag, cfg.Body.Drag1, cfg.Body.Drag2 = 0, 0, 0, 0
			own = cfg.Body
			own.Weightless = true
		} else {
			own.Mass = 1e18
		}
		b := New(cfg)
		b.s.In = Inputs{Air: true, Hung: true, Powered: true, Hands: cfg.Body.Turns}
		b.s.Slot.Arming.Armed = true
		b.s.Air.Body = body.Standing(&cfg.Body)
		b.s.Air.Body.Pos.Z = -StandHigh
		place, free := b.s.Air.Body.Pos, b.s.Air.Body
		own.Hand, cfg.Body.Hand = cfg.Body.Turns, cfg.Body.Turns
		most := 0.0
		for i := range 20_000 {
			in := body.Input{On: true}
			for k := range in.Command {
				in.Command[k] = 0.45 + 0.05*math.Sin(float64(i)*0.003*float64(k+1)+float64(k))
			}
			craft := cfg.Body
			b.swing(&craft, &in)
			free = body.Step(&own, free, &in, step)
			on := &b.s.Air.Body
			require.Equal(t, place, on.Pos)
			require.Zero(t, on.Vel)
			if still {
				require.Equal(t, free.Att, on.Att)
				require.Equal(t, free.Spin, on.Spin)
			}
			require.InDelta(t, 0, on.Att.Plus(-1, free.Att).Norm(), 1e-12)
			most = max(most, on.Spin.Norm())
		}
		assert.Greater(t, most, 3.0, "it turned fast")
		assert.Equal(t, int32(pulse.OnStand), b.s.In.Bench())
	}
}

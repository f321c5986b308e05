package bench_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui/bench"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
)

// On a bench that stands nothing is to be drawn once the chart holds nothing but rest; and a stick that moves changes neither the craft
// nor the keys.
func TestAStillBenchStands(t *testing.T) {
	for _, z := range []uitest.Size{{W: 960, H: 600}, {W: 1280, H: 800}, {W: 1366, H: 768}} {
		s := uitest.Ready(t).Wait(12_000)
		before, now := ink.NewPage(z.W, z.H, 0, nil), ink.NewPage(z.W, z.H, 0, nil)
		bench.Draw(before, s.V)
		for range 150 {
			s.Wait(7)
			now.Reset(z.W, z.H, 0, nil)
			bench.Draw(now, s.V)
			require.Empty(t, now.Since(before, nil), "%v at %d", z, s.V.Snap.Tick)
			before, now = now, before
		}
		s.Set(s.Cfg.Layout.Roll, 1700).Wait(40)
		now.Reset(z.W, z.H, 0, nil)
		bench.Draw(now, s.V)
		parts := now.Since(before, nil)
		assert.NotEmpty(t, parts)
		for _, it := range now.Items() {
			if it.Group != "craft" && it.Group != "keys" {
				continue
			}
			for _, r := range parts {
				assert.False(t, r.Meets(it.Box), "%v: %s %s in %v", z, it.Group, it.Name, r)
			}
		}
	}
}

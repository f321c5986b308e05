package facts

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/hover"
)

// At the throttle that is told for it a shipped craft hovers: for three seconds it neither climbs nor comes down by 0.2 m/s (ours).
func TestItHoversAtTheThrottleThatIsTold(t *testing.T) {
	for _, name := range []string{"built-in", "teasel", "teasel-by-sticks"} {
		_, text, ok := assets.Craft(name)
		require.True(t, ok)
		f, err := craftfile.Parse(name, text)
		require.NoError(t, err)
		cfg := f.Config()
		told := HoverThrottle(&cfg)
		p := hover.At(cfg, hover.High, true)
		s := p.Bench().State()
		s.In.Sent = s.LastValid
		s.In.Sent[cfg.Layout.Throttle] = told
		if l := &cfg.Layout; l.Arm >= 0 {
			s.In.Sent[l.Arm] = l.ArmSpan.Low
		}
		p.Bench().Restore(s)
		for range 3000 {
			p.Step(nil)
			now := p.Bench().State()
			require.True(t, now.Slot.Arming.Armed, name)
			if !assert.InDelta(t, 0, now.Air.Body.Vel.Z, 0.2, "%s at %v, tick %d", name, told, now.Tick) {
				break
			}
		}
	}
}

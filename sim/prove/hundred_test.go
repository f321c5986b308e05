package prove

import (
	"flag"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var hundred = flag.Bool("hundred", false, "search a layout of more than 100 million situations")

// TestHundredMillion searches sticks that hold the craft armed while it sinks for longer than a craft file may say, within 16 GB. It takes
// half a minute of one processor and 3 GB, so scripts/long alone asks for it.
func TestHundredMillion(t *testing.T) {
	if !*hundred {
		t.Skip("-hundred")
	}
	l := bySticks().second().with(func(m *made) { m.Config.Arming.SinkSlots = 3000 })
	began := busy(t)
	rep, err := Search(l.Layout, Options{MostBytes: 12 << 30})
	require.NoError(t, err)
	d := busy(t) - began
	t.Logf("%d situations, %.1f bytes each, %v of the processors, %.2f million a second", rep.Situations, float64(rep.Bytes)/float64(rep.Situations), d, float64(rep.Situations)/1e6/d.Seconds())
	assert.False(t, rep.Partial)
	assert.Greater(t, rep.Situations, uint64(100_000_000))
	assert.Less(t, float64(rep.Bytes)/float64(rep.Situations), 24.0)
}

package threemodes

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// There are none on the desk bench; outside they are the same three until the craft is changed or comes in again. That each flies as the
// pilot's own does in its mode is tested where they go along (live).
func TestTheThreeAreThereOutsideOnly(t *testing.T) {
	own := practice.New(sim.Default())
	own.Step([]pulse.Reading{{Kind: pulse.Link, Value: 1}, {Kind: pulse.Power, Value: 1}})
	var c Crafts
	assert.Empty(t, c.Turn(own, false))
	own.Step([]pulse.Reading{{Kind: pulse.Air, Value: 1}})
	first := slices.Clone(c.Turn(own, false))
	require.Len(t, first, Number)
	for i, p := range first {
		cfg := p.Craft()
		assert.Equal(t, Modes()[i], cfg.Layout.FixedMode)
		assert.Equal(t, own.Tick(), p.Tick(), "from where the pilot's own is")
	}
	own.Step(nil)
	c.Step(nil)
	assert.Equal(t, first, c.Turn(own, false))
	assert.Same(t, first[0], c.Turn(own, false)[0])
	assert.Equal(t, own.Tick(), first[0].Tick())
	changed := c.Turn(own, true)
	assert.NotSame(t, first[0], changed[0])
	own.Step([]pulse.Reading{{Kind: pulse.Air}})
	assert.Empty(t, c.Turn(own, false))
	own.Step([]pulse.Reading{{Kind: pulse.Air, Value: 1}})
	again := c.Turn(own, false)
	require.Len(t, again, Number)
	assert.Equal(t, own.Tick(), again[2].Tick(), "they begin anew")
}

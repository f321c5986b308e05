package playback

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input/take"
	"propsoff.example/sim"
)

func TestATakeWithoutACraftAsksForOne(t *testing.T) {
	w := bare()
	_, err := readPart(w, &world.Named{}, "a.take", &take.Settings{Model: sim.Model})
	require.ErrorContains(t, err, "the take carries no craft file; give one by --craft FILE")
	_, err = readPart(w, &world.Named{Craft: "teasel"}, "a.take", &take.Settings{Model: sim.Model})
	assert.NoError(t, err)
}

package comfort

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestTextInPercent(t *testing.T) {
	for factor, want := range map[float64]int{1: 100, 1.25: 125, 0.85: 85, 2.25: 225, 0.1: 50, 40: 300, 0: 0, -1: 0} {
		assert.Equal(t, want, percent(factor), "%v", factor)
	}
	assert.Zero(t, percent(math.NaN()))
	assert.Zero(t, percent(math.Inf(1)))
}

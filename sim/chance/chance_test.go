package chance_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"propsoff.example/sim/chance"
)

// The first numbers of the seed 1234567, as they are published with implementations of SplitMix64 in many languages (from memory).
func TestPublishedSequence(t *testing.T) {
	for n, want := range []uint64{6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431, 16408922859458223821} {
		assert.Equal(t, want, chance.At(1234567, uint64(n)))
	}
}

// The deviate's first four moments are the binomial's (textbook: variance n/4, kurtosis 3 − 2/n), each within 4.5 of its standard error
// (for a normal deviate √(2/N) of the variance, √(24/N) of the kurtosis), and neighbours have nothing in common.
func TestNormalHasItsMoments(t *testing.T) {
	const n = 1 << 20
	x := make([]float64, n)
	for i := range x {
		x[i] = chance.Normal(chance.At(3, uint64(i)))
	}
	within := 4.5 / math.Sqrt(n)
	assert.InDelta(t, 0, stat.Mean(x, nil), within)
	assert.InDelta(t, 1, stat.Variance(x, nil), within*math.Sqrt2)
	assert.InDelta(t, 0, stat.Skew(x, nil), within*math.Sqrt(6))
	assert.InDelta(t, -2./64, stat.ExKurtosis(x, nil), within*math.Sqrt(24))
	for apart := 1; apart <= 5; apart++ {
		assert.InDelta(t, 0, stat.Correlation(x[apart:], x[:n-apart], nil), within, "%d apart", apart)
	}
	assert.Equal(t, -8., chance.Normal(0))
	assert.Equal(t, 8., chance.Normal(math.MaxUint64))
}

// Every number below n comes as often as another: the chi-squared test (textbook), at one in 10,000.
func TestBelowIsEven(t *testing.T) {
	for _, n := range []uint64{2, 3, 26, 10000} {
		draws := 200 * n
		seen := make([]float64, n)
		for i := range draws {
			seen[chance.Below(chance.At(n, i), n)]++
		}
		even := make([]float64, n)
		for i := range even {
			even[i] = float64(draws) / float64(n)
		}
		assert.Less(t, stat.ChiSquare(seen, even), distuv.ChiSquared{K: float64(n - 1)}.Quantile(1-1e-4), "below %d", n)
	}
	assert.Zero(t, chance.Below(math.MaxUint64, 1))
}

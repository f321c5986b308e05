package tidylater

import (
	"runtime"
	"runtime/debug"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// percent is what is set now.
func percent() int {
	now := debug.SetGCPercent(usual)
	debug.SetGCPercent(now)
	return now
}

// The first collection is put off, and no other.
func TestOnlyTheFirstIsPutOff(t *testing.T) {
	defer debug.SetGCPercent(debug.SetGCPercent(usual))
	Begin()
	require.Equal(t, first, percent())
	require.Eventually(t, func() bool { runtime.GC(); return percent() == usual }, time.Minute, time.Millisecond)
}

// What was settled stays.
func TestWhatWasSettledStays(t *testing.T) {
	defer debug.SetGCPercent(debug.SetGCPercent(usual))
	for _, settled := range []int{-1, 50, 2 * first} {
		debug.SetGCPercent(settled)
		Begin()
		assert.Equal(t, settled, percent())
	}
}

package live

import (
	"os"
	"os/exec"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/threemodes"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// An hour of practice with hands that never rest, looked at sixty times a second as a window does, must not make the
// program grow: under 1 MB an hour, and the Go runtime as a whole under 20 MB, also after a flight of four. It is measured in
// a process of its own, because other tests leave theirs larger.
func TestMemoryStaysWhereItIs(t *testing.T) {
	if testing.Short() {
		t.Skip("an hour of practice takes seconds")
	}
	const alone = "PROPSOFF_MEMORY_ALONE"
	if os.Getenv(alone) == "" {
		self, err := os.Executable()
		require.NoError(t, err)
		cmd := exec.Command(self, "-test.run", "^TestMemoryStaysWhereItIs$", "-test.v")
		cmd.Env = append(os.Environ(), alone+"=1")
		out, err := cmd.CombinedOutput()
		t.Log(string(out))
		require.NoError(t, err)
		require.Contains(t, string(out), "grown by")
		return
	}
	b := newBench(t, nil)
	var snap sim.Snapshot
	var seen uint64
	var notes []happening.Happening
	chart := make([]Point, 0, 2048)
	minutes := func(n int) {
		for i := range n * 60 * 60 {
			b.clock.run(16_667)
			b.hands.put(controls(b.at(), frame(988+i%800, i/300%2 == 1)))
			b.Turn()
			b.Snapshot(&snap)
			chart = b.Chart(chart[:0])
			notes, seen = b.Happenings(notes[:0], seen)
		}
	}
	heap := func() (m runtime.MemStats) {
		runtime.GC()
		runtime.ReadMemStats(&m)
		return m
	}
	minutes(2)
	before := heap()
	minutes(60)
	after := heap()
	grown := int64(after.HeapAlloc) - int64(before.HeapAlloc)
	t.Logf("Go runtime: %.1f MB in all, heap %.2f MB, grown by %d kB in an hour; %d happenings", float64(after.Sys)/1e6, float64(after.HeapAlloc)/1e6, grown/1000, seen)
	assert.Less(t, grown, int64(1e6))
	assert.Less(t, after.Sys, uint64(20e6))
	for _, r := range outside()[:2] {
		b.Desk().Put(r.Kind, r.Value)
	}
	three := b.Begin(&threemodes.Crafts{})
	minutes(1)
	flown := heap()
	t.Logf("after a minute of four in the air: Go runtime %.1f MB, heap %.2f MB", float64(flown.Sys)/1e6, float64(flown.HeapAlloc)/1e6)
	assert.True(t, snap.In.Air && three.Craft(0) != nil)
	assert.Less(t, flown.Sys, uint64(25e6)) // the runtime takes 4 MB at a time, and now and then one piece more
	assert.Greater(t, seen, uint64(300), "something must have happened in that hour")
	assert.Equal(t, pulse.Channels, len(snap.In.Sent))
}

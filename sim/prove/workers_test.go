package prove

import (
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/prove/explore"
)

// However many workers there are, a search comes to the same report, to the last step of each way.
func TestWorkersReportTheSame(t *testing.T) {
	rows := 0
	everyLayout(func(name string, l *made) {
		if rows++; raceDetector && rows%4 != 0 {
			return
		}
		one, err := Search(l.Layout, Options{Workers: 1})
		require.NoError(t, err)
		for _, n := range []int{2, 5} {
			rep, err := Search(l.Layout, Options{Workers: n, grain: 1})
			require.NoError(t, err)
			assert.Equal(t, one, rep, "%s, %d workers", name, n)
		}
	})
}

// The same on a layout that is searched once more, and stopped on the way.
func TestWorkersReportTheSameOfALargeLayout(t *testing.T) {
	for _, o := range []Options{{}, {MostBytes: 3 << 20}, {Progress: func(p Progress) bool { return p.Situations > 300_000 }}} {
		o.Workers = 1
		one, err := Search(bySwitch().hold().Layout, o)
		require.NoError(t, err)
		o.Workers = 3
		rep, err := Search(bySwitch().hold().Layout, o)
		require.NoError(t, err)
		assert.Equal(t, one, rep)
	}
}

// A bench that comes to states without a number is searched by the first worker alone, from there on.
func TestWorkersLeaveOddStatesToTheFirst(t *testing.T) {
	report := func(workers int) (*space, uint64, uint64) {
		l := quickSwitch()
		x, w := walkBy(t, l, question{}, noWatch, func(x *space) { x.c.still++ }, explore.Options{Workers: workers, Grain: 1})
		for p := range uint32(w.Found()) {
			var s situation
			x.c.unpack(w.Key(p), &s) // each number of a state is one that the first knows
		}
		return x, w.Found(), w.Edges()
	}
	x, found, edges := report(1)
	require.NotEmpty(t, x.c.odd)
	for _, n := range []int{2, 5} {
		y, f, e := report(n)
		assert.Equal(t, found, f)
		assert.Equal(t, edges, e)
		assert.Equal(t, x.c.odd, y.c.odd)
		assert.Equal(t, x.found, y.found)
		assert.Equal(t, x.doubtful, y.doubtful)
	}
}

// Two searches beside each other share nothing.
func TestSearchesBesideEachOther(t *testing.T) {
	l := quickSticks().Layout
	one, err := Search(l, Options{Workers: 1})
	require.NoError(t, err)
	var reports [2]Report
	var wait sync.WaitGroup
	for i := range reports {
		wait.Add(1)
		go func() {
			defer wait.Done()
			reports[i], _ = Search(l, Options{Workers: 2, grain: 1})
		}()
	}
	wait.Wait()
	for i := range reports {
		assert.Equal(t, one, reports[i])
	}
}

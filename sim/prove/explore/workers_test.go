package explore_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/sim/prove/explore"
)

// many makes a problem one that workers can share. What it counts is taken back where a round did not count.
type many struct {
	explore.Space
	stop func()
	// at is the key at which somebody asks to stop, 0 for none. counted and kept count situations.
	at            uint64
	counted, kept uint64
	copies        *[]*many
}

func (m *many) Copy(_ *explore.Marks, stop func()) explore.Shared {
	c := &many{Space: m.Space, stop: stop, at: m.at}
	*m.copies = append(*m.copies, c)
	return c
}

func (m *many) Alone() bool { return false }

func (m *many) Share() {
	for _, c := range append([]*many{m}, *m.copies...) {
		c.kept = c.counted
	}
}

func (m *many) Kept(counts bool) {
	if !counts {
		m.counted = m.kept
	}
}

func (m *many) Expand(key uint64, place uint32, at explore.Cost, out []explore.Edge) []explore.Edge {
	m.counted++
	if m.at != 0 && key == m.at {
		m.stop()
		return out
	}
	return m.Space.Expand(key, place, at, out)
}

// explored walks a problem with so many workers, who take few situations at a time, and gives how many situations they counted together.
func explored(p explore.Space, workers int, stopAt uint64, starts ...uint64) (*explore.Walk, explore.End, uint64) {
	w := explore.New(explore.Options{Workers: workers, Grain: 2})
	for _, k := range starts {
		w.Begin(k)
	}
	m := &many{Space: p, stop: w.Stop, at: stopAt, copies: new([]*many)}
	end := w.Run(m)
	all := m.counted
	for _, c := range *m.copies {
		all += c.counted
	}
	return w, end, all
}

// same fails where two walks differ in anything that can be asked of them.
func same(t require.TestingT, a, b *explore.Walk) {
	require.Equal(t, a.Found(), b.Found())
	require.Equal(t, a.Edges(), b.Edges())
	require.Equal(t, a.Open(), b.Open())
	require.Equal(t, a.Layers(), b.Layers())
	for p := range uint32(a.Found()) {
		if a.Key(p) != b.Key(p) {
			require.Equal(t, a.Key(p), b.Key(p), "place %d", p)
		}
	}
	for p := uint32(0); p < uint32(a.Found()); p += 1 + uint32(a.Found())/200 {
		require.Equal(t, a.Path(p), b.Path(p))
	}
}

// However many workers there are, the same situations are found in the same order by the same ways.
func TestWorkersFindTheSame(t *testing.T) {
	for name, p := range map[string]struct {
		explore.Space
		start uint64
	}{
		"sliding puzzle": {problem(slides), goal(8)},
		"chain":          {chain{last: 20_000}, 0},
	} {
		one, end, all := explored(p, 1, 0, p.start)
		require.Equal(t, explore.Complete, end)
		require.Equal(t, one.Found(), all)
		for _, n := range []int{2, 5} {
			w, end, all := explored(p, n, 0, p.start)
			require.Equal(t, explore.Complete, end, name)
			require.Equal(t, one.Found(), all, name)
			same(t, one, w)
		}
	}
}

// A Space that asks to stop does so at the same situation, whichever worker comes to it first, and nothing counts that others did by then.
func TestWorkersStopAtTheSame(t *testing.T) {
	whole, _, _ := explored(problem(slides), 1, 0, goal(8))
	for _, place := range []uint32{3, 700, 12_345, 20_000} {
		one, end, counted := explored(problem(slides), 1, whole.Key(place), goal(8))
		require.Equal(t, explore.Enough, end)
		for _, n := range []int{2, 5} {
			w, end, all := explored(problem(slides), n, whole.Key(place), goal(8))
			require.Equal(t, explore.Enough, end)
			require.Equal(t, counted, all)
			same(t, one, w)
		}
	}
}

func TestWorkersOnAnyGraph(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 200).Draw(t, "nodes")
		spread := rapid.SampledFrom([]uint64{1, 7, 600, 1 << 20, 0x9e3779b97f4a7c15}).Draw(t, "how far keys lie apart")
		key := func(i int) uint64 { return uint64(i) * spread }
		g := graph{}
		for i := range n {
			for range rapid.IntRange(0, 12).Draw(t, "steps") {
				g[key(i)] = append(g[key(i)], explore.Edge{To: key(rapid.IntRange(0, n-1).Draw(t, "to")), Costs: rapid.Bool().Draw(t, "costs")})
			}
		}
		one, _, _ := explored(g, 1, 0, key(0), key(n/2))
		w, _, _ := explored(g, rapid.IntRange(2, 5).Draw(t, "workers"), 0, key(0), key(n/2))
		same(t, one, w)
	})
}

package explore_test

import (
	"container/heap"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/sim/prove/explore"
)

// graph is a made-up problem: for each node, where its free and its costing steps lead to.
type graph map[uint64][]explore.Edge

func (g graph) Expand(key uint64, _ uint32, _ explore.Cost, out []explore.Edge) []explore.Edge {
	return append(out, g[key]...)
}

type entry struct {
	key uint64
	explore.Cost
}

type entries []entry

func (q entries) Len() int           { return len(q) }
func (q entries) Less(i, j int) bool { return q[i].Cost.Less(q[j].Cost) }
func (q entries) Swap(i, j int)      { q[i], q[j] = q[j], q[i] }
func (q *entries) Push(x any)        { *q = append(*q, x.(entry)) }
func (q *entries) Pop() any {
	n := len(*q) - 1
	x := (*q)[n]
	*q = (*q)[:n]
	return x
}

// nearest is the plain twin: Dijkstra's algorithm with a heap and a map.
func nearest(g graph, starts []uint64) map[uint64]explore.Cost {
	out := map[uint64]explore.Cost{}
	q := &entries{}
	for _, s := range starts {
		heap.Push(q, entry{key: s})
	}
	for q.Len() > 0 {
		e := heap.Pop(q).(entry)
		if _, seen := out[e.key]; seen {
			continue
		}
		out[e.key] = e.Cost
		for _, to := range g[e.key] {
			c := explore.Cost{Moves: e.Moves, Time: e.Time + 1}
			if to.Costs {
				c.Moves++
			}
			heap.Push(q, entry{to.To, c})
		}
	}
	return out
}

func TestAgainstDijkstra(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 60).Draw(t, "nodes")
		spread := rapid.SampledFrom([]uint64{1, 7, 600, 1 << 20, 0x9e3779b97f4a7c15}).Draw(t, "how far keys lie apart")
		key := func(i int) uint64 { return uint64(i) * spread }
		g := graph{}
		for i := range n {
			for range rapid.IntRange(0, 4).Draw(t, "steps") {
				g[key(i)] = append(g[key(i)], explore.Edge{To: key(rapid.IntRange(0, n-1).Draw(t, "to")), Costs: rapid.Bool().Draw(t, "costs")})
			}
		}
		starts := []uint64{key(0), key(n / 2)}
		want := nearest(g, starts)
		w := explore.New(explore.Options{})
		for _, s := range starts {
			w.Begin(s)
		}
		if end := w.Run(g); end != explore.Complete {
			t.Fatalf("end %d", end)
		}
		if int(w.Found()) != len(want) || w.Open() != 0 {
			t.Fatalf("%d found, %d open; %d there are", w.Found(), w.Open(), len(want))
		}
		before := explore.Cost{}
		for p := range uint32(w.Found()) {
			c := w.Cost(p)
			if c != want[w.Key(p)] || c.Less(before) {
				t.Fatalf("key %x: cost %v, want %v, after %v", w.Key(p), c, want[w.Key(p)], before)
			}
			before = c
			path := w.Path(p)
			if path[len(path)-1] != p || w.Cost(path[0]) != (explore.Cost{}) {
				t.Fatalf("path %v", path)
			}
			for i := 1; i < len(path); i++ {
				a, b := w.Cost(path[i-1]), w.Cost(path[i])
				step := explore.Edge{To: w.Key(path[i]), Costs: b.Moves > a.Moves}
				ok := b.Time == a.Time+1 && b.Moves-a.Moves <= 1
				found := false
				for _, e := range g[w.Key(path[i-1])] {
					found = found || e == step
				}
				if !ok || !found {
					t.Fatalf("path %v: step %d", path, i)
				}
			}
		}
	})
}

// chain is a long problem: key k leads to k+1 for nothing, and to 2k at a cost.
type chain struct {
	last uint64
	at   func(w uint64)
}

func (c chain) Expand(key uint64, _ uint32, _ explore.Cost, out []explore.Edge) []explore.Edge {
	if c.at != nil {
		c.at(key)
	}
	if key < c.last {
		out = append(out, explore.Edge{To: key + 1}, explore.Edge{To: min(2*key+1, c.last), Costs: true})
	}
	return out
}

func TestEnds(t *testing.T) {
	const n = 300_000
	w := explore.New(explore.Options{})
	w.Begin(0)
	require.Equal(t, explore.Complete, w.Run(chain{last: n}))
	require.EqualValues(t, n+1, w.Found())

	w = explore.New(explore.Options{MostBytes: 1 << 20})
	w.Begin(0)
	require.Equal(t, explore.Full, w.Run(chain{last: n}))
	require.Less(t, w.Found(), uint64(n))
	require.Less(t, w.Peak(), int64(2<<20))

	asked := 0
	w = explore.New(explore.Options{Every: 1000, Progress: func(w *explore.Walk, at explore.Cost) bool {
		asked++
		return at.Time >= 10_000
	}})
	w.Begin(0)
	require.Equal(t, explore.Interrupted, w.Run(chain{last: n}))
	require.Equal(t, 11, asked)

	w = explore.New(explore.Options{})
	w.Begin(0)
	require.Equal(t, explore.Enough, w.Run(chain{last: n, at: func(k uint64) {
		if k == 5000 {
			w.Stop()
		}
	}}))
	require.NotZero(t, w.Open())

	w = explore.New(explore.Options{})
	require.Equal(t, explore.Complete, w.Run(chain{last: n}), "nowhere to begin is the end")
}

func BenchmarkSlidingPuzzle(b *testing.B) {
	found := uint64(0)
	for range b.N {
		w, _ := walk(b, problem(slides), goal(8))
		found = w.Found()
	}
	b.ReportMetric(float64(found)*float64(b.N)/b.Elapsed().Seconds(), "situations/s")
}

package explore_test

import (
	"math/bits"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/prove/explore"
)

// problem is a Space in which every step costs one move.
type problem func(key uint64, to func(uint64))

func (p problem) Expand(key uint64, _ uint32, _ explore.Cost, out []explore.Edge) []explore.Edge {
	p(key, func(k uint64) { out = append(out, explore.Edge{To: k, Costs: true}) })
	return out
}

// walk walks all of a problem and gives the sizes of its layers.
func walk(t testing.TB, p explore.Space, starts ...uint64) (*explore.Walk, []int) {
	w := explore.New(explore.Options{})
	for _, k := range starts {
		w.Begin(k)
	}
	require.Equal(t, explore.Complete, w.Run(p))
	var sizes []int
	for i, l := range w.Layers() {
		end := uint32(w.Found())
		if i+1 < len(w.Layers()) {
			end = w.Layers()[i+1].First
		}
		require.EqualValues(t, i, l.Moves, "a problem of moves only has one layer a move")
		sizes = append(sizes, int(end-l.First))
	}
	return w, sizes
}

// slides makes the moves of the 3x3 sliding puzzle: 9 fields of 4 bits, field 0 lowest; 0 is the blank.
func slides(board uint64, to func(uint64)) {
	b := 0
	for board>>(4*b)&15 != 0 {
		b++
	}
	swap := func(o int) {
		v := board >> (4 * o) & 15
		to(board&^(15<<(4*o)) | v<<(4*b))
	}
	if b%3 > 0 {
		swap(b - 1)
	}
	if b%3 < 2 {
		swap(b + 1)
	}
	if b > 2 {
		swap(b - 3)
	}
	if b < 6 {
		swap(b + 3)
	}
}

// goal is the solved board with the blank at a field.
func goal(blank int) uint64 {
	board, v := uint64(0), uint64(1)
	for f := range 9 {
		if f != blank {
			board |= v << (4 * f)
			v++
		}
	}
	return board
}

func TestSlidingPuzzle(t *testing.T) {
	for _, c := range []struct {
		source string
		blank  int
		layers []int
	}{
		{"OEIS A089473", 8, []int{1, 2, 4, 8, 16, 20, 39, 62, 116, 152, 286, 396, 748, 1024, 1893, 2512, 4485, 5638, 9529, 10878, 16993, 17110, 23952, 20224, 24047, 15578, 14560, 6274, 3910, 760, 221, 2}},
		{"OEIS A089474", 4, []int{1, 4, 8, 8, 16, 32, 60, 72, 136, 200, 376, 512, 964, 1296, 2368, 3084, 5482, 6736, 11132, 12208, 18612, 18444, 24968, 19632, 22289, 13600, 11842, 4340, 2398, 472, 148}},
		{"OEIS A089483", 1, []int{1, 3, 5, 10, 14, 28, 42, 80, 108, 202, 278, 524, 726, 1348, 1804, 3283, 4193, 7322, 8596, 13930, 14713, 21721, 19827, 25132, 18197, 18978, 9929, 7359, 2081, 878, 126, 2}},
	} {
		w, layers := walk(t, problem(slides), goal(c.blank))
		assert.Equal(t, c.layers, layers, c.source)
		assert.EqualValues(t, 181440, w.Found(), "9!/2")
		assert.EqualValues(t, 483840, w.Edges(), "each blank in a corner has 2 slides, at a side 3, in the middle 4")
		for _, far := range []uint32{uint32(w.Found() - 1), 1000, 0} {
			path := w.Path(far)
			require.Len(t, path, int(w.Cost(far).Moves)+1)
			for i := 1; i < len(path); i++ {
				ok := false
				slides(w.Key(path[i-1]), func(k uint64) { ok = ok || k == w.Key(path[i]) })
				require.True(t, ok, "each step of a path is a slide")
			}
		}
	}
}

// Water jugs of 3 and 5 litres: 16 pairs can be reached, 97 … steps are made, 4 litres stand at depth 6.
func TestWaterJugs(t *testing.T) {
	const a, b = 3, 5
	w, layers := walk(t, problem(func(k uint64, to func(uint64)) {
		x, y := k>>8, k&255
		pair := func(x, y uint64) { to(x<<8 | y) }
		pair(a, y)
		pair(x, b)
		pair(0, y)
		pair(x, 0)
		p := min(x, b-y)
		pair(x-p, y+p)
		p = min(y, a-x)
		pair(x+p, y-p)
	}), 0)
	assert.Equal(t, []int{1, 2, 3, 2, 2, 2, 2, 2}, layers)
	assert.EqualValues(t, 16, w.Found())
	assert.EqualValues(t, 96, w.Edges(), "six actions in each of 16; the published 97 counts the beginning")
	for p := range uint32(w.Found()) {
		if y := w.Key(p) & 255; y == 4 {
			assert.EqualValues(t, 6, w.Cost(p).Moves)
			return
		}
	}
	t.Error("4 litres were not reached")
}

// Peterson's mutual exclusion, two processes of four steps: 20 situations, layers 1 2 3 4 5 4 1, both critical in none.
func TestPeterson(t *testing.T) {
	// bits: pc of process 0 (0 idle, 1 flag set, 2 waits, 3 critical) 0-1, of process 1 2-3, turn 4; the flag is pc > 0.
	both := 0
	w, layers := walk(t, problem(func(k uint64, to func(uint64)) {
		if k&15 == 15 {
			both++
		}
		for p := range uint64(2) {
			o := 1 - p
			pc := k >> (2 * p) & 3
			set := func(pc uint64) uint64 { return k&^(3<<(2*p)) | pc<<(2*p) }
			switch pc {
			case 0:
				to(set(1))
			case 1:
				to(set(2)&^16 | o<<4)
			case 2:
				if k>>(2*o)&3 == 0 || k>>4&1 == p {
					to(set(3))
				}
			case 3:
				to(set(0))
			}
		}
	}), 0)
	assert.Equal(t, []int{1, 2, 3, 4, 5, 4, 1}, layers)
	assert.EqualValues(t, 20, w.Found())
	assert.Zero(t, both)
}

// Dining philosophers (think, hold left, eat; both are put down at once): (1+√2)^n + (1−√2)^n situations, one deadlock.
func TestDiningPhilosophers(t *testing.T) {
	want := map[int]int{2: 6, 3: 14, 4: 34, 5: 82, 6: 198, 7: 478, 8: 1154, 10: 6726}
	for n, count := range want {
		var dead []uint64
		w, _ := walk(t, problem(func(k uint64, to func(uint64)) {
			at := func(i int) uint64 { return k >> (2 * ((i + n) % n)) & 3 } // 0 thinks, 1 holds left, 2 eats
			steps := 0
			set := func(i int, v uint64) {
				steps++
				to(k&^(3<<(2*i)) | v<<(2*i))
			}
			for i := range n {
				// the left fork of i is the right one of i−1, who has it while eating; i's right fork is the left one of i+1
				switch at(i) {
				case 0:
					if at(i-1) != 2 {
						set(i, 1)
					}
				case 1:
					if at(i+1) == 0 {
						set(i, 2)
					}
				case 2:
					set(i, 0)
				}
			}
			if steps == 0 {
				dead = append(dead, k)
			}
		}), 0)
		assert.EqualValues(t, count, w.Found(), "n = %d", n)
		all := uint64(0)
		for i := range n {
			all |= 1 << (2 * i)
		}
		assert.Equal(t, []uint64{all}, dead, "the one deadlock is all holding left")
		if n == 5 {
			assert.EqualValues(t, 265, w.Edges())
		}
	}
}

// Tower of Hanoi: 3^n situations, 2^n − 1 moves from tower to tower.
func TestHanoi(t *testing.T) {
	const n = 8
	w, _ := walk(t, problem(func(k uint64, to func(uint64)) {
		top := [3]int{n, n, n}
		for d := n - 1; d >= 0; d-- {
			top[k>>(2*d)&3] = d
		}
		for a := range 3 {
			for b := range 3 {
				if top[a] < top[b] {
					to(k&^(3<<(2*top[a])) | uint64(b)<<(2*top[a]))
				}
			}
		}
	}), 0)
	assert.EqualValues(t, 6561, w.Found())
	for p := range uint32(w.Found()) {
		if w.Key(p) == 0xaaaa { // all on the third tower
			assert.EqualValues(t, 255, w.Cost(p).Moves)
			assert.Len(t, w.Path(p), 256)
			return
		}
	}
	t.Error("the third tower was not reached")
}

// Missionaries and cannibals, 3 and 3, a boat for 2: 16 safe situations, 11 crossings.
func TestMissionaries(t *testing.T) {
	key := func(m, c, boat int) uint64 { return uint64(m | c<<2 | boat<<4) }
	w, _ := walk(t, problem(func(k uint64, to func(uint64)) {
		m, c, boat := int(k&3), int(k>>2&3), int(k>>4)
		sign := 1 - 2*boat // boat 1: on the first bank, people leave it
		for _, p := range [][2]int{{1, 0}, {2, 0}, {0, 1}, {0, 2}, {1, 1}} {
			m2, c2 := m+sign*p[0], c+sign*p[1]
			if m2 < 0 || m2 > 3 || c2 < 0 || c2 > 3 || m2 > 0 && m2 < c2 || m2 < 3 && 3-m2 < 3-c2 {
				continue
			}
			to(key(m2, c2, 1-boat))
		}
	}), key(3, 3, 1))
	assert.EqualValues(t, 16, w.Found())
	last := uint32(w.Found() - 1)
	for p := range uint32(w.Found()) {
		if w.Key(p) == key(0, 0, 0) {
			assert.EqualValues(t, 11, w.Cost(p).Moves)
			return
		}
	}
	t.Errorf("nobody crossed; last %x", w.Key(last))
}

// Dijkstra's EWD840 termination ring: 302 distinct situations for three nodes, 1566 for four (TLA+ Examples repository,
// specifications/ewd840/manifest.json, distinctStates). Every activity, colour and token place is a beginning; the token
// begins black.
func TestEWD840(t *testing.T) {
	for n, want := range map[int]int{3: 302, 4: 1566} {
		// bits: active 0..n-1, black n..2n-1, token place 2n.., token black above it
		tokenAt, tokenBlack := 2*n, 2*n+3
		p := problem(func(k uint64, to func(uint64)) {
			active := func(i int) bool { return k>>i&1 == 1 }
			black := func(i int) bool { return k>>(n+i)&1 == 1 }
			tpos, tblack := int(k>>tokenAt&7), k>>tokenBlack&1 == 1
			bit := func(b bool) uint64 { return uint64(map[bool]int{true: 1}[b]) }
			token := func(k uint64, pos int, black bool) uint64 {
				return k&^(7<<tokenAt|1<<tokenBlack) | uint64(pos)<<tokenAt | bit(black)<<tokenBlack
			}
			if tpos == 0 && (tblack || black(0)) { // begins a round: the token is white, so is node 0
				to(token(k, n-1, false) &^ (1 << n))
			}
			if tpos > 0 && (!active(tpos) || black(tpos) || tblack) {
				to(token(k, tpos-1, tblack || black(tpos)) &^ (1 << (n + tpos)))
			}
			for i := range n {
				if !active(i) {
					continue
				}
				for j := range n {
					if j != i { // a message wakes j; one to a higher number blackens the sender
						m := k | 1<<j
						if j > i {
							m |= 1 << (n + i)
						}
						to(m)
					}
				}
				to(k &^ (1 << i)) // falls idle
			}
		})
		var starts []uint64
		for ab := range uint64(1) << (2 * n) {
			for pos := range uint64(n) {
				starts = append(starts, ab|pos<<tokenAt|1<<tokenBlack)
			}
		}
		w, _ := walk(t, p, starts...)
		assert.EqualValues(t, want, w.Found(), "n = %d", n)
	}
}

// 2x2x2 cube with one corner fixed, turns of three faces: OEIS A079761 (a half turn is one move) and A079762 (two).
func TestCube(t *testing.T) {
	if testing.Short() {
		t.Skip("3,674,160 situations twice")
	}
	half := []int{1, 9, 54, 321, 1847, 9992, 50136, 227536, 870072, 1887748, 623800, 2644}
	quarter := []int{1, 6, 27, 120, 534, 2256, 8969, 33058, 114149, 360508, 930588, 1350852, 782536, 90280, 276}
	for _, c := range []struct {
		halves bool
		layers []int
	}{{true, half}, {false, quarter}} {
		w, layers := walk(t, cube{c.halves}, cubeKey([7]uint8{0, 1, 2, 3, 4, 5, 6}, [7]uint8{}))
		assert.Equal(t, c.layers, layers)
		assert.EqualValues(t, 3674160, w.Found())
		per := float64(w.Peak()) / float64(w.Found())
		t.Logf("%.1f bytes a situation", per)
		assert.Less(t, per, 24.0)
	}
}

type cube struct{ halves bool }

// cycles of the seven free corners under a quarter turn of each of three faces that meet opposite the fixed corner, and
// the twist that each corner takes with it.
var (
	cubeCycle = [3][4]uint8{{0, 1, 2, 3}, {0, 3, 6, 4}, {0, 4, 5, 1}}
	cubeTwist = [3][4]uint8{{0, 0, 0, 0}, {1, 2, 1, 2}, {2, 1, 2, 1}}
)

func (c cube) Expand(key uint64, _ uint32, _ explore.Cost, out []explore.Edge) []explore.Edge {
	perm, twist := cubeOf(key)
	for f := range 3 {
		p, o := perm, twist
		for n := 1; n <= 3; n++ {
			p0, o0 := p, o
			for i, from := range cubeCycle[f] {
				to := cubeCycle[f][(i+1)%4]
				p[to], o[to] = p0[from], (o0[from]+cubeTwist[f][i])%3
			}
			if n != 2 || c.halves {
				out = append(out, explore.Edge{To: cubeKey(p, o), Costs: true})
			}
		}
	}
	return out
}

// cubeKey numbers a cube: the permutation of seven by its rank, times 729 twists of six of them.
func cubeKey(perm, twist [7]uint8) uint64 {
	rank, used := uint64(0), uint(0)
	for i, p := range perm {
		rank = rank*uint64(7-i) + uint64(p) - uint64(bits.OnesCount(used&(1<<p-1)))
		used |= 1 << p
	}
	for _, o := range twist[:6] {
		rank = rank*3 + uint64(o)
	}
	return rank
}

func cubeOf(key uint64) (perm, twist [7]uint8) {
	sum := uint8(0)
	for i := 5; i >= 0; i-- {
		twist[i] = uint8(key % 3)
		sum += twist[i]
		key /= 3
	}
	twist[6] = (18 - sum) % 3
	var digit [7]uint8
	for i := 6; i >= 0; i-- {
		digit[i] = uint8(key % uint64(7-i))
		key /= uint64(7 - i)
	}
	free := []uint8{0, 1, 2, 3, 4, 5, 6}
	for i, d := range digit {
		perm[i] = free[d]
		free = append(free[:d], free[d+1:]...)
	}
	return perm, twist
}

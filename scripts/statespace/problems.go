package main

import (
	"fmt"
	"math/bits"
	"strings"

	"propsoff/sim/prove/explore"
)

// problem is one graph, for both sides.
type problem struct {
	name string
	// found is how many situations there are.
	found uint64
	// space and start are it for the explorer; model is it in the model checker's language.
	space explore.Space
	start uint64
	model string
}

func problems() []problem {
	return []problem{
		{"3x3 sliding puzzle", 181440, puzzle{}, boardKey([9]uint8{1, 2, 3, 4, 5, 6, 7, 8, 0}), puzzleModel()},
		dials(5, 16),
		dials(6, 11),
	}
}

// puzzle is the 3x3 sliding puzzle; its key is the rank of the permutation of nine fields.
type puzzle struct{}

func (puzzle) Expand(key uint64, _ uint32, _ explore.Cost, out []explore.Edge) []explore.Edge {
	b, blank := boardOf(key)
	slide := func(to int) {
		b[blank], b[to] = b[to], 0
		out = append(out, explore.Edge{To: boardKey(b), Costs: true})
		b[to], b[blank] = b[blank], 0
	}
	if blank%3 > 0 {
		slide(blank - 1)
	}
	if blank%3 < 2 {
		slide(blank + 1)
	}
	if blank > 2 {
		slide(blank - 3)
	}
	if blank < 6 {
		slide(blank + 3)
	}
	return out
}

func boardKey(b [9]uint8) uint64 {
	rank, used := uint64(0), uint(0)
	for i, v := range b {
		rank = rank*uint64(9-i) + uint64(v) - uint64(bits.OnesCount(used&(1<<v-1)))
		used |= 1 << v
	}
	return rank
}

func boardOf(key uint64) (b [9]uint8, blank int) {
	var digit [9]uint64
	for i := uint64(1); i <= 9; i++ {
		digit[9-i] = key % i
		key /= i
	}
	const left = 0x876543210 // the values still free, four bits each
	free := uint64(left)
	for i, d := range digit {
		v := free >> (4 * d) & 15
		free = free&(1<<(4*d)-1) | free>>(4*d+4)<<(4*d)
		b[i] = uint8(v)
		if v == 0 {
			blank = i
		}
	}
	return b, blank
}

func puzzleModel() string {
	var m strings.Builder
	m.WriteString("byte b[9]; byte z;\nactive proctype p() {\n  d_step { b[0]=1; b[1]=2; b[2]=3; b[3]=4; b[4]=5; b[5]=6; b[6]=7; b[7]=8; b[8]=0; z=8 };\n  do\n")
	for _, s := range [][2]string{{"z%3 > 0", "z-1"}, {"z%3 < 2", "z+1"}, {"z > 2", "z-3"}, {"z < 6", "z+3"}} {
		fmt.Fprintf(&m, "  :: d_step { %s -> b[z] = b[%s]; z = %s; b[z] = 0 }\n", s[0], s[1], s[1])
	}
	m.WriteString("  od\n}\n")
	return m.String()
}

// turned is a row of dials, each of which is turned by one to either side: timers and positions, without any meaning.
type turned struct {
	dials, places int
	width         uint
}

func dials(n, places int) problem {
	found := uint64(1)
	for range n {
		found *= uint64(places)
	}
	var m strings.Builder
	fmt.Fprintf(&m, "byte d[%d];\nactive proctype p() {\n  do\n", n)
	for i := range n {
		fmt.Fprintf(&m, "  :: d_step { d[%d] = (d[%d]+1) %% %d }\n  :: d_step { d[%d] = (d[%d]+%d) %% %d }\n", i, i, places, i, i, places-1, places)
	}
	m.WriteString("  od\n}\n")
	return problem{fmt.Sprintf("%d dials of %d places", n, places), found, turned{n, places, uint(bits.Len(uint(places - 1)))}, 0, m.String()}
}

func (t turned) Expand(key uint64, _ uint32, _ explore.Cost, out []explore.Edge) []explore.Edge {
	mask := uint64(1)<<t.width - 1
	for i := range t.dials {
		at := uint(i) * t.width
		v := key >> at & mask
		for _, by := range [2]uint64{1, uint64(t.places - 1)} {
			out = append(out, explore.Edge{To: key&^(mask<<at) | (v+by)%uint64(t.places)<<at, Costs: true})
		}
	}
	return out
}

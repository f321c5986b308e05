package explore

import "math/bits"

// A set of keys with two marks for each. Keys that differ only in their low 9 bits stand in one line of 128 bytes, so a
// problem whose low bits are densely used pays about a byte a situation; a problem of scattered keys pays up to a line each.
const (
	lineBits  = 9
	lineWords = 2 << (lineBits - 6) // word 2i holds mark "settled" of 64 keys, word 2i+1 mark "queued"
	slabLines = 512
	nearLines = 256
	hashBy    = 0x9e3779b97f4a7c15 // 2^64 over the golden ratio
)

type line [lineWords]uint64

type slab [slabLines]line

type slot struct {
	id uint64
	at uint32 // number of the line + 1, 0 for an empty slot
}

type near struct {
	id   uint64
	line uint32 // as in slot
}

type set struct {
	table []slot
	shift uint
	lines uint32
	slabs []*slab
	room  room[slab]
	// near are the lines used last, because the successors of neighbours are neighbours.
	near [nearLines]near
}

func newSet() *set {
	s := new(set)
	s.table, s.shift = make([]slot, 1<<10), 64-10
	return s
}

// bytes is what the set takes.
func (s *set) bytes() int64 {
	return int64(len(s.table))*16 + int64(len(s.slabs))*slabLines*lineWords*8
}

// marks gives the two words in which the marks of key stand.
func (s *set) marks(key uint64) *[2]uint64 { return s.words(s.lineOf(key), key) }

// lineOf gives the number of the line of key, made where there was none; like those of slots, it counts from 1.
func (s *set) lineOf(key uint64) uint32 {
	id := key >> lineBits
	n := &s.near[(id^id>>8)%nearLines]
	if n.line == 0 || n.id != id {
		n.id, n.line = id, s.number(id)
	}
	return n.line
}

// words gives the two words of a line in which the marks of key stand.
func (s *set) words(line uint32, key uint64) *[2]uint64 {
	return (*[2]uint64)(s.numbered(line - 1)[key>>6&(1<<(lineBits-6)-1)*2:])
}

// find gives the line of id, nil where there is none.
func (s *set) find(id uint64) *line {
	if n := s.known(id); n != 0 {
		return s.numbered(n - 1)
	}
	return nil
}

// known gives the number of the line of id, 0 where there is none.
func (s *set) known(id uint64) uint32 {
	mask := uint64(len(s.table) - 1)
	for i := id * hashBy >> s.shift; s.table[i].at != 0; i = (i + 1) & mask {
		if s.table[i].id == id {
			return s.table[i].at
		}
	}
	return 0
}

// line gives the line of id, made where there was none.
func (s *set) line(id uint64) *line { return s.numbered(s.number(id) - 1) }

// number gives the number of the line of id, made where there was none.
func (s *set) number(id uint64) uint32 {
	mask := uint64(len(s.table) - 1)
	i := id * hashBy >> s.shift
	for s.table[i].at != 0 {
		if s.table[i].id == id {
			return s.table[i].at
		}
		i = (i + 1) & mask
	}
	if int(s.lines)%slabLines == 0 {
		s.slabs = append(s.slabs, s.room.take())
	}
	s.lines++
	s.table[i] = slot{id, s.lines}
	if int(s.lines)*8 > len(s.table)*5 {
		s.grow()
	}
	return s.lines
}

func (s *set) numbered(n uint32) *line { return &s.slabs[n/slabLines][n%slabLines] }

func (s *set) grow() {
	old := s.table
	s.table = make([]slot, 2*len(old))
	large(s.table)
	s.shift = uint(64 - bits.TrailingZeros(uint(len(s.table))))
	mask := uint64(len(s.table) - 1)
	for _, e := range old {
		if e.at == 0 {
			continue
		}
		i := e.id * hashBy >> s.shift
		for s.table[i].at != 0 {
			i = (i + 1) & mask
		}
		s.table[i] = e
	}
}

package prove

// shelves keep runs of words that never change, one after another and none across two shelves, so that keeping one more moves nothing.
type shelves struct {
	full [][]uint64
	last []uint64
}

const (
	shelfBits = 15
	shelf     = 1 << shelfBits
)

// keep keeps a run, and gives the number under which it is found again; 0 where there is no room.
func (s *shelves) keep(run []uint64) uint32 {
	if len(run) >= shelf || len(s.full) >= mostBunches/shelf {
		return 0
	}
	if len(s.last)+len(run) > cap(s.last) {
		s.last = make([]uint64, 1, shelf) // nobody has number 0
		s.full = append(s.full, s.last[:shelf])
	}
	at := (len(s.full)-1)<<shelfBits | len(s.last)
	s.last = append(s.last, run...)
	return uint32(at)
}

// from gives a run, and all that comes after it on its shelf.
func (s *shelves) from(number uint32) []uint64 {
	return s.full[number>>shelfBits][number&(shelf-1):]
}

package learn

// shake tells an axis that trembles from one that moves: for a while, the values of each short time lie where those of the
// time before lay.
type shake struct {
	low, top   int32 // of the newest whole part
	lowN, topN int32 // of the part that goes on
	count      int   // of its values
	since      int64
	alike      int  // parts in a row that lie where the one before did
	said       bool // what was found has been said
}

const (
	shakeFor   = 50_000 // of one part, in µs
	shakeParts = 4      // so many parts alike are no hand
	shakeLeast = 3      // values in a part
)

func newShake(v int32, at int64) shake {
	return shake{low: v, top: v, lowN: v, topN: v, since: at, said: true}
}

// feed takes a value; what it gives is over how many raw values the axis trembles, 0 where it does not or nothing new is
// known.
func (s *shake) feed(v int32, at int64) int64 {
	swing := int64(0)
	if at-s.since >= shakeFor {
		swing = s.part()
		s.low, s.top = s.lowN, s.topN
		s.lowN, s.topN, s.count, s.since = v, v, 0, at
	}
	s.lowN, s.topN = min(s.lowN, v), max(s.topN, v)
	s.count++
	return swing
}

// part compares the part that has ended with the one before.
func (s *shake) part() int64 {
	low, top := min(s.low, s.lowN), max(s.top, s.topN)
	all, was, is := int64(top)-int64(low), int64(s.top)-int64(s.low), int64(s.topN)-int64(s.lowN)
	apart := abs64(int64(s.low) + int64(s.top) - int64(s.lowN) - int64(s.topN)) // twice the distance of the middles
	if s.count < shakeLeast || all == 0 || 10*min(was, is) < 6*all || 2*apart > all {
		s.alike = 0
		return 0
	}
	if s.alike++; s.alike < shakeParts {
		return 0
	}
	return all
}

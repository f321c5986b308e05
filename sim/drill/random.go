package drill

// stream is a sequence of numbers that a seed and two counters decide: SplitMix64 (Steele, Lea & Flood 2014, "Fast splittable
// pseudorandom number generators"; constants from memory, held by a published value in a test).
type stream uint64

func random(seed, attempt, purpose uint64) stream {
	s := stream(seed)
	a := s.next()
	s = stream(a ^ attempt<<8 ^ purpose)
	return s
}

func (s *stream) next() uint64 {
	*s += 0x9e3779b97f4a7c15
	z := uint64(*s)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// below gives a number from 0 to n−1, n at least 1. The lean towards low numbers is under n in 2⁶⁴.
func (s *stream) below(n uint64) uint64 { return s.next() % n }

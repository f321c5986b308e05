package drill

import "propsoff.example/sim/chance"

// stream is a sequence of numbers that a seed and two counters decide.
type stream struct{ seed, drawn uint64 }

func random(seed, attempt, purpose uint64) stream {
	return stream{seed: chance.At(seed, 0) ^ attempt<<8 ^ purpose}
}

func (s *stream) next() uint64 {
	s.drawn++
	return chance.At(s.seed, s.drawn-1)
}

// below gives a number from 0 to n−1, n at least 1. The lean towards low numbers is under n in 2⁶⁴.
func (s *stream) below(n uint64) uint64 { return s.next() % n }

package facts

import "testing"

// What the facts of a picture cost, over situations of every kind.
func BenchmarkFacts(b *testing.B) {
	var all []*situation
	for seed := range uint64(200) {
		all = append(all, newSituation(seed+1))
	}
	var t Teller
	b.ReportAllocs()
	b.ResetTimer()
	for i := range b.N {
		s := all[i%len(all)]
		_ = t.Of(s.p, s.whose)
	}
}

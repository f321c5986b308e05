package house_test

import (
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/sim"
	"propsoff.example/sim/practice"
)

// beside fills dst with the crafts that go along with the pilot's own, and reports false where none do.
func beside(l *live.Loop, dst []sim.Snapshot) (there bool) {
	for _, b := range l.Companions() {
		there = b.Look(func(i int, p *practice.Practice) { p.Snapshot(&dst[i]) }) || there
	}
	return there
}

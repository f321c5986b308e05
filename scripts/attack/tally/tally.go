//go:build linux

// Package tally counts what an attack tried and what failed, by kind, with an example of each.
package tally

import (
	"cmp"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
	"sync"
)

// Tally is for several goroutines at once. The zero value is ready.
type Tally struct {
	mu     sync.Mutex
	tried  map[string]int
	peaks  map[string]int64
	failed map[Kind]*failure
}

// Kind is what went wrong, and where.
type Kind struct{ What, Where string }

type failure struct {
	count   int
	example string
}

// Tried counts one try.
func (t *Tally) Tried(what string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.tried == nil {
		t.tried = map[string]int{}
	}
	t.tried[what]++
}

// Peak notes how much memory a run of a kind took.
func (t *Tally) Peak(kind string, bytes int64) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.peaks == nil {
		t.peaks = map[string]int64{}
	}
	t.peaks[kind] = max(t.peaks[kind], bytes)
}

// Fail counts one failure; the first of a kind is kept as its example.
func (t *Tally) Fail(k Kind, example string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.failed == nil {
		t.failed = map[Kind]*failure{}
	}
	f := t.failed[k]
	if f == nil {
		f = &failure{example: example}
		t.failed[k] = f
	}
	f.count++
}

// Failed is how often something failed, anywhere or of one kind.
func (t *Tally) Failed(match func(Kind) bool) (n int) {
	t.mu.Lock()
	defer t.mu.Unlock()
	for k, f := range t.failed {
		if match(k) {
			n += f.count
		}
	}
	return n
}

// Of matches failures of these kinds.
func Of(what ...string) func(Kind) bool {
	return func(k Kind) bool { return slices.Contains(what, k.What) }
}

// Any matches every failure.
func Any(Kind) bool { return true }

// Count is how much was tried.
func (t *Tally) Count(what string) int {
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.tried[what]
}

// Table writes every kind of failure, the most frequent first within each.
func (t *Tally) Table(w io.Writer) {
	t.mu.Lock()
	defer t.mu.Unlock()
	kinds := slices.SortedFunc(maps.Keys(t.failed), func(a, b Kind) int {
		return cmp.Or(cmp.Compare(a.What, b.What), cmp.Compare(t.failed[b].count, t.failed[a].count), cmp.Compare(a.Where, b.Where))
	})
	for _, k := range kinds {
		fmt.Fprintf(w, "%5d  %-28s %-24s %s\n", t.failed[k].count, k.What, k.Where, t.failed[k].example)
	}
}

// Peaks is the most memory by kind, in MB.
func (t *Tally) Peaks() string {
	t.mu.Lock()
	defer t.mu.Unlock()
	var out []string
	for _, k := range slices.Sorted(maps.Keys(t.peaks)) {
		out = append(out, fmt.Sprintf("%s %d", k, t.peaks[k]/1_000_000))
	}
	return strings.Join(out, ", ")
}

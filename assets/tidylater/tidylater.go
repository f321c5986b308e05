// Package tidylater puts off the first collection of garbage: it costs a process that is soon over more than it gives back.
package tidylater

import (
	"runtime"
	"runtime/debug"
)

// usual is how far Go lets the heap grow before it collects, in percent of what lives on it, where nobody has said otherwise; first is how far
// until the first time: to 64 MB, as it reckons with 4 MB at least (ours).
const (
	usual = 100
	first = 1600
)

// Begin does it for this process, unless whoever started it has settled the matter (GOGC). After the first time all is as usual.
func Begin() {
	if was := debug.SetGCPercent(first); was != usual {
		debug.SetGCPercent(was)
		return
	}
	runtime.AddCleanup(new(*byte), func(percent int) { debug.SetGCPercent(percent) }, usual)
}

// Package comfort knows what a person has asked of every program on the system: less motion, more contrast, larger text, a dark ground.
//
// There is one file for each way of asking. The browser tells of the system that it is on, a Linux desktop tells by its portal, Windows by its own
// settings; what else there is tells nothing, and then nothing is wished. Nobody waits for the answer: what is wished is taken when it is known.
package comfort

import (
	"context"
	"math"
	"sync/atomic"
)

// Wishes are what a person has asked of every program. The zero value asks for nothing.
type Wishes struct {
	// LessMotion: nothing is to move for its own sake.
	LessMotion bool
	// MoreContrast: text is to stand out more than usual.
	MoreContrast bool
	// Dark: the ground is to be dark.
	Dark bool
	// Text is the size of text in percent of the usual one, 0 where the system does not say.
	Text int
}

// Watch begins to ask the system, until the context ends, and gives what tells at any time what is wished as far as it is known.
func Watch(ctx context.Context) (now func() Wishes) {
	var known atomic.Pointer[Wishes]
	known.Store(new(Wishes))
	follow(ctx, func(w Wishes) { known.Store(&w) })
	return func() Wishes { return *known.Load() }
}

// The bounds of a size of text, in percent (ours; those of what a person chooses here).
const leastText, mostText = 50, 300

// percent is a factor of the usual size of text in percent; 0 for one that is none.
func percent(factor float64) int {
	if !(factor > 0) || math.IsInf(factor, 1) {
		return 0
	}
	return int(math.Round(min(max(100*factor, leastText), mostText)))
}

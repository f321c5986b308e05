// Package spoken turns what the bench and a drill do into sentences to be heard: one for each change, none while nothing changes.
//
// It is for whoever listens in the place of looking: a terminal with --plain, and assistive technology behind the window. Each sentence comes from
// facts and tell, as those of the sheets do, so it holds where it is said. Times are the practice's own ticks, so the same practice
// says the same.
package spoken

import "propsoff.example/assets/words"

// Say is given each sentence. urgent: it is to be heard at once, over whatever is being said.
type Say func(t words.Text, urgent bool)

const (
	// mostAtOnce is how many changes of one thing are said as they come; one more is allowed after each refillEvery, in ms (ours).
	mostAtOnce  = 3
	refillEvery = 2000
	// steadyFor is how long a thing that has changed too often must stand before it is said again, in ms (ours).
	steadyFor = 1000
	// settleFor is how long what comes and goes with a trembling hand must stand before it is said at all, in ms (ours).
	settleFor = 300
)

// steady is one thing that may change: what is said of it, and when. Ticks that run back begin it anew.
type steady struct {
	told, now int64 // what was said, and what is so, each as a number of the thing's own
	text      words.Text
	since     int64 // from when it has been so
	spent     int   // how many of mostAtOnce are used up, reckoned at spentAt
	spentAt   int64
	wild      bool // it was said that it changes too often
}

// set notes how the thing stands at a tick, and what is to be said of that.
func (s *steady) set(tick, now int64, text words.Text) {
	if now != s.now || tick < s.since {
		s.since = tick
	}
	s.now, s.text = now, text
}

// verdict is what is to be said of a thing now.
type verdict uint8

const (
	nothing  verdict = iota
	change           // it is another: its text
	tooOften         // that it changes too often to be told
)

// due tells what is to be said at a tick, of a thing that must have stood for some ms, and takes it for said.
func (s *steady) due(tick, settle int64) verdict {
	if s.told == s.now && !s.wild {
		return nothing
	}
	if tick < s.spentAt {
		s.spent, s.spentAt = 0, tick
	}
	if n := int((tick - s.spentAt) / refillEvery); n > 0 {
		s.spent, s.spentAt = max(s.spent-n, 0), s.spentAt+int64(n)*refillEvery
	}
	stood := tick - s.since
	switch {
	case s.wild && stood >= steadyFor:
	case s.wild || stood < settle:
		return nothing
	case s.spent >= mostAtOnce:
		s.wild = true
		return tooOften
	}
	if s.spent == 0 {
		s.spentAt = tick
	}
	s.told, s.wild = s.now, false
	s.spent++
	return change
}

// quietly takes for said how the thing stands.
func (s *steady) quietly() { s.told, s.wild = s.now, false }

package takes

import (
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/input/take"
	"propsoff.example/sim/happening"
)

// table is how a model that is no more numbered what it told. It never changes.
type table struct {
	// codes are the names of happenings by their number, for a take that does not carry them; refusals those of refusals by their bit.
	codes, refusals []string
}

// tables are those of the models before today's, by number. Model 2 told what model 1 told, and had one refusal more.
var tables = map[int]*table{
	1: {codes: codesOfOne, refusals: refusalsOfTwo[:13]},
	2: {codes: codesOfOne, refusals: refusalsOfTwo},
}

var (
	codesOfOne = []string{
		"", "armed", "disarmed", "refused", "link-lost", "link-back", "link-clean", "sinking", "control-back", "mode", "air-mode", "settled",
		"power", "cable", "transmitter", "plug", "tilt", "nudged", "menu", "pack-volts", "travel-short", "readings-lost", "slept", "bench",
		"propellers", "took-off", "touched-down", "tipped-over", "stick-mode", "gesture", "gesture-missed", "menu-mark", "menu-value",
		"menu-left", "instructor",
	}
	refusalsOfTwo = []string{
		"throttle-up", "off-first", "second-switch-off", "not-self-levelling", "no-link", "link-too-fresh", "channel-missing",
		"not-yet-still", "tilted", "on-cable", "menu-open", "pack-low", "propellers-unchecked", "being-set-up",
	}
)

// recorded is a happening of a take in today's numbers, as far as today has one for it.
func recorded(s *take.Settings, e *take.Entry) happening.Happening {
	h := happening.Happening{Tick: e.Tick, Code: happening.Code(e.Code), A: e.A, B: e.B}
	t := tables[s.Model]
	names := s.Codes
	if len(names) == 0 && t != nil {
		names = t.codes
	}
	if n := int(e.Code); n < len(names) {
		code, ok := codes.CodeOf(names[n])
		if !ok {
			code = 0 // told as a number that means nothing any more
		}
		h.Code = code
	}
	if t == nil || h.Code != happening.Refused {
		return h
	}
	var set facts.Set
	for n, word := range t.refusals {
		if r, ok := codes.RefusalOf(word); ok && e.A>>n&1 == 1 {
			set = set.With(r, true)
		}
	}
	h.A = int32(set)
	return h
}

// alike reports whether a happening of an older take is one of today's of the same name: a refusal that is no more counts as the one that
// came in its place, and what only today's tells of it is no difference.
func alike(s *take.Settings, was, now *take.Entry) bool {
	h := recorded(s, was)
	if h.Code != happening.Refused {
		return false
	}
	var set facts.Set
	for r := range facts.RefusalCount {
		if facts.Set(h.A).Has(r) {
			set = set.With(r.Today(), true)
		}
	}
	return set == facts.Set(now.A)
}

package phrase

import (
	"strconv"
	"strings"

	"propsoff/sim/handset"
	"propsoff/sim/prove"
	"propsoff/sim/pulse"
)

// ProveTitle heads what is searched.
func ProveTitle() string { return "prove: every situation that this layout can come into" }

// RulesTitle heads the list of rules.
func RulesTitle() string { return "rules, and what was found" }

// Unlisted counts the lines of a list, each a what, for which there is no room, above and below those shown.
func Unlisted(what string, above, below int) string {
	switch {
	case above == 0:
		return "… and " + count(below, what) + " below"
	case below == 0:
		return "… and " + count(above, what) + " above"
	}
	return "… and " + count(above, what) + " above, " + strconv.Itoa(below) + " below"
}

// FindingTitle heads the rule that is looked at.
func FindingTitle() string { return "the rule looked at" }

// MovedTitle heads what the search moves.
func MovedTitle() string { return "what the search moves, one movement at a time" }

// MovedLeft counts the lines for which there is no room.
func MovedLeft(n int) string { return "… and " + strconv.Itoa(n) + " more" }

// Moved lists what the search moves: each control with its places, then what is not the radio's.
func Moved(l *prove.Layout) []string {
	var out []string
	for i := range l.Radio.Controls {
		c := &l.Radio.Controls[i]
		s := capital(ControlName(c)) + ", channel " + strconv.Itoa(int(c.Channel)+1) + ": "
		if c.Kind != handset.Switch {
			out = append(out, s+Micros(c.Low)+" to "+Micros(c.High)+" µs")
			continue
		}
		var at []string
		for n := range c.Positions {
			at = append(at, ControlAt(c, n, c.Positions[n].Width))
		}
		out = append(out, s+strings.Join(at, ", "))
	}
	return append(out, "Radio off and on, the craft's pack, its set-up cable (which stands for all of the craft's own refusals), a nudge; and time passes.")
}

// StepsLeft counts the steps for which there is no room.
func StepsLeft(n int) string { return "… and " + count(n, "step") + " more" }

// Outcome is the word for what was found of a rule. begun is false before the first search.
func Outcome(o prove.Outcome, begun bool) string {
	switch {
	case !begun:
		return "to be searched"
	case o == prove.Holds:
		return "holds"
	case o == prove.Broken:
		return "BROKEN"
	case o == prove.WithIt:
		return "comes with sticks" // the one arming method that brings findings along
	case o == prove.NotAsked:
		return "not asked"
	}
	return "undecided"
}

// Whole writes a number with a comma between thousands: "537,664".
func Whole(n uint64) string {
	s := strconv.FormatUint(n, 10)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}

// About writes a large number in words that can be read: "537,664", "348 million", "1.2 billion".
func About(n float64) string {
	for _, u := range []struct {
		of   float64
		word string
	}{{1e15, "million billion"}, {1e12, "thousand billion"}, {1e9, "billion"}, {1e6, "million"}} {
		switch v := n / u.of; {
		case v >= 100:
			return Whole(uint64(v+0.5)) + " " + u.word
		case v >= 1:
			return strings.TrimSuffix(strconv.FormatFloat(v, 'f', 1, 64), ".0") + " " + u.word
		}
	}
	return Whole(uint64(n + 0.5))
}

// SituationsStand says how many situations were searched and how many they stand for.
func SituationsStand(n uint64, standing float64) string {
	s := Whole(n) + " situations"
	if n == 1 {
		s = "1 situation"
	}
	if standing >= float64(n)+0.5 {
		s += ", standing for " + About(standing) + " with each position of each switch counted by itself"
	}
	return s
}

// Progress says how far a search is: it goes by movements first.
func Progress(p prove.Progress) string {
	return "Searching: " + SituationsStand(p.Situations, 0) + " so far, up to " + count(p.Movements, "movement") + " from the beginning."
}

// Verdict is what a search came to, in a sentence or two.
func Verdict(r *prove.Report) string {
	broken, with, open := 0, 0, 0
	for i := range r.Results {
		switch r.Results[i].Outcome {
		case prove.Broken:
			broken++
		case prove.WithIt:
			with++
		case prove.Undecided:
			open++
		}
	}
	s := "Every situation was searched: " + SituationsStand(r.Situations, r.Standing) + ". "
	if r.Partial {
		s = "Stopped before the end, so this answer is partial: " + SituationsStand(r.Situations, r.Standing) + ". "
	}
	var parts []string
	if broken > 0 {
		parts = append(parts, are(broken, "rule")+" broken")
	}
	if open > 0 {
		parts = append(parts, are(open, "rule")+" undecided")
	}
	switch {
	case len(parts) > 0:
		s += capital(strings.Join(parts, ", ")) + "."
	case r.Partial:
		s += "No broken rule was found so far."
	default:
		s += "No rule is broken."
	}
	if broken == 0 && open > 0 {
		s += " None was found broken so far."
	}
	if with > 0 {
		s += " " + capital(count(with, "finding")) + " come" + third(with) + " with this arming method."
	}
	return s
}

func are(n int, noun string) string {
	if n == 1 {
		return "1 " + noun + " is"
	}
	return count(n, noun) + " are"
}

func third(n int) string {
	if n == 1 {
		return "s"
	}
	return ""
}

// WayTitle heads the way of a result: what it is, how many movements it takes, and how long.
func WayTitle(r *prove.Result) string {
	s := "the shortest way there: "
	switch {
	case r.Outcome == prove.WithIt:
		s = "how it comes about: "
	case isTry(r.Rule):
		s = "a try that does not get there: "
	case r.Way.Movements == 0:
		s = "no movements lead here: "
	}
	return s + count(r.Way.Movements, "movement") + ", " + Seconds(r.Way.Ms)
}

// ControlName is what a person calls a control: "throttle", "arm switch", "channel 7 switch", with the pilot's own name for it.
func ControlName(c *handset.Control) string {
	name := c.Job
	switch c.Kind {
	case handset.Switch:
		name += " switch"
	case handset.Knob:
		name += " knob"
	}
	if c.Called != "" && c.Called != c.Job {
		name += " (" + c.Called + ")"
	}
	return name
}

// ControlAt says where a control stands: a switch by its position, a stick by direction, each with its width.
func ControlAt(c *handset.Control, position int, w pulse.Width) string {
	at := " (" + Micros(w) + " µs)"
	if !w.Valid() {
		at = " (no pulse)"
	}
	if c.Kind == handset.Switch {
		return PositionWord(position, len(c.Positions)) + at
	}
	return stickWord(c, w) + at
}

// PositionWord names position i (from 0) of a switch with n positions, from the low end.
func PositionWord(i, n int) string {
	switch {
	case i < 0 || i >= n:
		return "somewhere"
	case n <= 3 && i == 0:
		return "low"
	case n <= 3 && i == n-1:
		return "high"
	case n == 3:
		return "middle"
	}
	return "position " + strconv.Itoa(i+1) + " of " + strconv.Itoa(n)
}

// ends are the words for the low and the high end of a stick (common practice: the signs of the four stick channels).
var ends = map[string][2]string{"throttle": {"down", "up"}, "roll": {"left", "right"}, "pitch": {"back", "forward"}, "yaw": {"left", "right"}}

// stickWord says where a stick or knob stands in the words of the hand.
func stickWord(c *handset.Control, w pulse.Width) string {
	e, ok := ends[c.Job]
	if !ok {
		e = [2]string{"low", "high"}
	}
	switch {
	case w <= c.Low:
		return "fully " + e[0]
	case w >= c.High:
		return "fully " + e[1]
	case w == c.Rest:
		return "at rest"
	case w < pulse.Centre-pulse.Travel/8:
		return "most of the way " + e[0]
	case w > pulse.Centre+pulse.Travel/8:
		return "most of the way " + e[1]
	}
	return "in the middle"
}

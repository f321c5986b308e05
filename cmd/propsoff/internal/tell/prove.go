package tell

import (
	"math"

	"propsoff/assets/words"
	"propsoff/sim/handset"
	"propsoff/sim/prove"
)

// UnlistedRules counts the rules for which there is no room, above and below those shown.
func UnlistedRules(above, below int) words.Text {
	switch {
	case above == 0:
		return words.T("prove.unlisted-below", words.Args{"n": words.Count(below)})
	case below == 0:
		return words.T("prove.unlisted-above", words.Args{"n": words.Count(above)})
	}
	return words.T("prove.unlisted-both", words.Args{"n": words.Count(above), "below": words.Whole(below)})
}

// Moved lists what the search moves: each control with its places, then what is not the radio's.
func Moved(l *prove.Layout) []words.Text {
	var out []words.Text
	for i := range l.Radio.Controls {
		c := &l.Radio.Controls[i]
		name, channel := ControlName(c), ChannelNumber(int(c.Channel))
		if c.Kind != handset.Switch {
			out = append(out, words.T("prove.moved-stick", words.Args{"name": name, "channel": channel, "low": Micros(c.Low), "high": Micros(c.High)}))
			continue
		}
		var at []words.Text
		for n := range c.Positions {
			at = append(at, ControlAt(c, n, c.Positions[n].Width))
		}
		out = append(out, words.T("prove.moved-switch", words.Args{"name": name, "channel": channel, "places": words.Listed(at...)}))
	}
	return append(out, words.T("prove.moved-rest"))
}

// StepsLeft counts the steps for which there is no room.
func StepsLeft(n int) words.Text { return words.T("prove.steps-left", words.Args{"n": words.Count(n)}) }

// Outcome is the word for what was found of a rule. begun is false before the first search.
func Outcome(o prove.Outcome, begun bool) words.Text {
	if !begun {
		return words.T("outcome.to-be-searched")
	}
	return words.Of("outcome", o.Code())
}

// About is a large number in words that can be read: "537,664", "348 million", "1.2 billion".
func About(n float64) words.Value {
	for _, u := range [...]struct {
		of   float64
		word words.ID
	}{{1e15, "prove.million-billions"}, {1e12, "prove.thousand-billions"}, {1e9, "prove.billions"}, {1e6, "prove.millions"}} {
		switch v := n / u.of; {
		case v >= 100:
			return words.T(u.word, words.Args{"n": words.Grouped(v + 0.5), "one": words.Flag(false)})
		case v >= 1:
			tenths := int64(math.Round(v * 10))
			return words.T(u.word, words.Args{"n": words.Fixed{N: tenths, Places: 1}, "one": words.Flag(tenths == 10)})
		}
	}
	return words.Grouped(n + 0.5)
}

// SituationsStand says how many situations were searched and how many they stand for.
func SituationsStand(n uint64, standing float64) words.Text {
	many := words.T("prove.situations", words.Args{"n": words.Grouped(n), "one": words.Flag(n == 1)})
	if standing < float64(n)+0.5 {
		return many
	}
	return words.T("prove.standing", words.Args{"situations": many, "many": About(standing)})
}

// Progress says how far a search is: it goes by movements first.
func Progress(p prove.Progress) words.Text {
	return words.T("prove.searching", words.Args{"situations": SituationsStand(p.Situations, 0), "n": words.Count(p.Movements)})
}

// Verdict is what a search came to, in a sentence or two.
func Verdict(r *prove.Report) words.Text {
	broken, open, with := r.Count(prove.Broken), r.Count(prove.Undecided), r.Count(prove.WithIt)
	searched := words.Args{"situations": SituationsStand(r.Situations, r.Standing)}
	said := []words.Text{words.T("prove.searched", searched)}
	if r.Partial {
		said[0] = words.T("prove.stopped", searched)
	}
	var parts []words.Text
	if broken > 0 {
		parts = append(parts, words.T("prove.rules-broken", words.Args{"n": words.Count(broken)}))
	}
	if open > 0 {
		parts = append(parts, words.T("prove.rules-open", words.Args{"n": words.Count(open)}))
	}
	switch {
	case len(parts) > 0:
		said = append(said, words.T("prove.sentence", words.Args{"what": words.Listed(parts...)}))
	case r.Partial:
		said = append(said, words.T("prove.none-broken-yet"))
	default:
		said = append(said, words.T("prove.none-broken"))
	}
	if broken == 0 && open > 0 {
		said = append(said, words.T("prove.none-of-these"))
	}
	if with > 0 {
		said = append(said, words.T("prove.comes-with", words.Args{"n": words.Count(with)}))
	}
	return words.Row(said...)
}

// NotSearched says why there was no search.
func NotSearched(why words.Text) words.Text {
	return words.T("prove.not-searched", words.Args{"why": why})
}

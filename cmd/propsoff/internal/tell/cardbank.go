package tell

import (
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/prove"
)

// CardStand says where a switch stands at its positions from first to last, counted from its low end, as its pilot moves it: "away from you".
// Where nobody has said which way it goes, or it has too many positions for that, the values stand for it.
func CardStand(c *handset.Control, first, last int) words.Text {
	n := len(c.Positions)
	end := words.Text{}
	switch {
	case last == n-1:
		end = SeatWay(c.Spot, false)
	case first == 0:
		end = SeatWay(c.Spot, true)
	}
	middle := words.Text{}
	if n == 3 && first <= 1 && last >= 1 {
		middle = words.T("card.middle")
	}
	switch {
	case first == 0 && last == n-1:
		return words.T("card.anywhere")
	case first == last && !end.Empty():
		return end
	case first == last && !middle.Empty():
		return middle
	case !end.Empty() && !middle.Empty():
		return words.Or(middle, end)
	case first == last:
		return Width(c.Positions[first].Width)
	}
	return words.T("card.values", words.Args{"low": Micros(c.Positions[first].Width), "high": Width(c.Positions[last].Width)})
}

// CardCannotArm says that this radio cannot arm the craft; empty where it can.
func CardCannotArm(cfg *sim.Config, r *handset.Radio) words.Text {
	if _, never := facts.NeverArms(cfg, r); never {
		return words.T("card.cannot-arm")
	}
	return words.Text{}
}

// CardFirst says what must be so before the craft is armed. second is the number of the second switch on the card, 0 for none.
func CardFirst(cfg *sim.Config, r *handset.Radio, second int) words.Text {
	first := []words.Text(nil)
	if !facts.BySticks(cfg) {
		first = append(first, words.T("card.first-throttle"))
	}
	if cfg.Arming.OnlySelfLevelling {
		first = append(first, words.T("card.first-mode", words.Args{"modes": LevellingModes()}))
	}
	if cfg.Layout.Second != layout.NoChannel {
		first = append(first, words.T("card.first-second", words.Args{"n": cardNumber(second), "at": cardOn(r.On(cfg.Layout.Second), cfg.Layout.SecondSpan)}))
	}
	if len(first) == 0 {
		return words.Text{}
	}
	return words.T("card.first", words.Args{"all": words.Listed(first...)})
}

// cardOn says where a switch stands whose positions lie in a span.
func cardOn(c *handset.Control, span layout.Span) words.Text {
	if c != nil && c.Kind == handset.Switch {
		first, last, n := -1, -1, 0
		for i := range c.Positions {
			if span.Contains(c.Positions[i].Width) {
				if first < 0 {
					first = i
				}
				last, n = i, n+1
			}
		}
		if n > 0 && n == last-first+1 {
			return CardStand(c, first, last)
		}
	}
	return spanStands(span)
}

// CardHold says how sticks arm a craft, or disarm it.
func CardHold(cfg *sim.Config, arms bool) words.Text {
	dwell := cfg.Arming.DisarmDwell
	if arms {
		dwell = cfg.Arming.ArmDwell
	}
	return words.T("card.hold", words.Args{"arms": words.Flag(arms), "dwell": slots(cfg, dwell)})
}

// CardLost says in short what a craft in the air does when the radio falls silent, and what its pilot does then.
func CardLost(cfg *sim.Config) (craft, pilot words.Text) {
	q := facts.Silence(cfg)
	sticks := words.Flag(facts.BySticks(cfg))
	pilot = words.T("card.lost-pilot", words.Args{"sticks": sticks, "unseen": words.Flag(q.Disarmed == facts.Never)})
	arms := words.Text{}
	if q.Arms != facts.Never {
		arms = words.T("card.lost-arms")
	}
	switch {
	case q.Disarmed == facts.Never:
		return words.Row(words.T("card.lost-unseen", words.Args{"hold": words.Flag(cfg.Link.OnLoss == facts.RepeatsLast), "on": words.Flag(cfg.Link.Stored[cfg.Layout.Throttle] >= cfg.Arming.LowThrottle)}), arms), pilot
	case q.Sinks != facts.Never && q.Sinks < q.Disarmed:
		return words.Row(words.T("card.lost-sinks", words.Args{"after": Seconds(q.Sinks), "time": Seconds(q.Disarmed - q.Sinks)}), arms), pilot
	}
	return words.Row(words.T("card.lost-cuts", words.Args{"after": Seconds(q.Disarmed)}), arms), pilot
}

// CardCraft says whose craft a card tells of: one that ships, or the pilot's own, in which file, empty for not known.
func CardCraft(craft string, shipped bool, file string) words.Text {
	switch {
	case shipped:
		return words.T("card.craft-shipped", words.Args{"craft": words.Quote(craft)})
	case file != "":
		return words.T("card.craft-file", words.Args{"file": words.Quote(file)})
	}
	return words.Text{}
}

// CardProof is in one line what a search with a radio came to. day is when, the zero time for not said. Where there is no report, searching tells
// whether one is still under way. It names no key: paper has none.
func CardProof(r *prove.Report, with *handset.Radio, day time.Time, searching bool) words.Text {
	if r == nil {
		return words.T("card.proof-none", words.Args{"searching": words.Flag(searching)})
	}
	on := words.Text{}
	if !day.IsZero() {
		on = Day(day)
	}
	switch r.Verdict() {
	case prove.AllHold:
		return words.T("card.proof-holds", words.Args{"day": on, "with": words.Flag(r.Count(prove.WithIt) > 0),
			"unasked": words.Flag(r.Count(prove.NotAsked) > 0), "assumed": words.Flag(len(assumed(with)) > 0)})
	case prove.SomeBroken:
		return words.T("card.proof-broken", words.Args{"n": words.Count(r.Count(prove.Broken))})
	}
	return words.T("card.proof-open")
}

package tell

import (
	"propsoff/assets/words"
	"propsoff/sim"
	"propsoff/sim/happening"
)

// HappeningOf is one line of the record of a model as a sentence: what an older model did another way is told as that one did it.
func HappeningOf(model int, h happening.Happening, cfg *sim.Config) words.Text {
	if model == 1 {
		switch {
		case h.Code == happening.Sinking:
			return words.T("model.one-sinking", words.Args{"time": Seconds(int64(h.A))})
		case h.Code == happening.Disarmed && happening.Cause(h.A) == happening.BySwitch: // by a hand or by the receiver: it did not tell them apart
			return words.T("model.one-by-switch")
		case h.Code == happening.Disarmed && happening.Cause(h.A) == happening.BySticks:
			return words.T("model.one-by-sticks")
		}
	}
	return Happening(h, cfg)
}

// OlderModel is said of a take that was recorded with an older model than today's.
func OlderModel(model, today int) words.Text { return words.T("model.older", models(model, today)) }

// PlayedOlder is said in the window, where only what today's model does can be seen.
func PlayedOlder(model, today int) words.Text {
	return words.T("model.played-older", models(model, today))
}

// FlownOlder is said where an older take's hands are flown through the air bench.
func FlownOlder(model, today int) words.Text {
	return words.T("model.flown-older", models(model, today))
}

// NewerModel refuses a take of a model that this program does not know.
func NewerModel(name string, model, today int) *words.Problem {
	return words.Wrong("model.newer", models(model, today)).In(name)
}

func models(model, today int) words.Args {
	return words.Args{"model": words.Whole(model), "today": words.Whole(today)}
}

// ModelChanged is the first happening that an older take and today's model do not share. was and now are sentences that say nothing where
// there is nothing. What differs in numbers that no sentence shows is not told as the same sentence twice.
func ModelChanged(tick int64, was, now words.Text) words.Text {
	if english := words.English(); english.Say(was) == english.Say(now) {
		return words.T("model.changed-numbers", words.Args{"at": Clock(tick), "was": was})
	}
	return words.T("model.changed", words.Args{"at": Clock(tick), "was": was, "now": now})
}

// Differs is said in the window of a take of today's model whose replay came to something else.
func Differs(how words.Text) words.Text { return words.T("model.differs", words.Args{"how": how}) }

// PlayedThrough sums up an older take: how long, how many of its happenings today's model brought about too, and whether all.
func PlayedThrough(ticks int64, model, compared int, same bool) words.Text {
	of := words.Args{"model": words.Whole(model), "time": Clock(ticks)}
	switch {
	case same && compared == 0:
		return words.T("model.through-empty", of)
	case compared == 0:
		return words.T("model.through-first", of)
	}
	of["n"] = words.Count(compared)
	if same {
		return words.T("model.through-same", of)
	}
	return words.T("model.through-changed", of)
}

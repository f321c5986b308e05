package phrase

import (
	"strconv"

	"propsoff/sim"
	"propsoff/sim/happening"
)

// HappeningOf is one line of the record of a model as a sentence: what an older model did another way is told as that one did it.
func HappeningOf(model int, h happening.Happening, cfg *sim.Config) string {
	if model == 1 {
		switch {
		case h.Code == happening.Sinking:
			return "The craft sinks: level, throttle fading to idle over " + Seconds(int64(h.A)) + "."
		case h.Code == happening.Disarmed && happening.Cause(h.A) == happening.BySwitch: // by a hand or by the receiver: it did not tell them apart
			return "Disarmed: the arm channel left its span."
		case h.Code == happening.Disarmed && happening.Cause(h.A) == happening.BySticks:
			return "Disarmed: throttle and yaw stood in the disarming corner."
		}
	}
	return Happening(h, cfg)
}

// OlderModel is said of a take that was recorded with an older model than today's.
func OlderModel(model, today int) string {
	return "This take was recorded with model " + strconv.Itoa(model) + " of the bench, and today's is model " + strconv.Itoa(today) +
		". What happened then is told as it was recorded; the same hands, played again, may bring something else about."
}

// PlayedOlder is said in the window, where only what today's model does can be seen.
func PlayedOlder(model, today int) string {
	return "This take was recorded with model " + strconv.Itoa(model) + " of the bench. Here today's model " + strconv.Itoa(today) +
		" plays the same hands; \"propsoff run\" tells what happened then."
}

// FlownOlder is said where an older take's hands are flown through the air bench.
func FlownOlder(model, today int) string {
	return "The take was recorded with model " + strconv.Itoa(model) + " of the bench; its hands are flown by today's model " + strconv.Itoa(today) + "."
}

// ModelChanged is the first happening that an older take and today's model do not share. was and now are sentences, empty where there is
// nothing.
func ModelChanged(tick int64, was, now string) string {
	nothing := func(s string) string {
		if s == "" {
			return "nothing"
		}
		return "\"" + s + "\""
	}
	s := "The model has changed: at " + Clock(tick) + " the take tells " + nothing(was)
	if was == now {
		return s + ", and so does today's model, but with other numbers."
	}
	return s + ", today's model " + nothing(now) + "."
}

// Differs is said in the window of a take of today's model whose replay came to something else.
func Differs(how string) string {
	return "This take does not replay to what was recorded: " + how + "."
}

// NewerModel refuses a take of a model that this program does not know.
func NewerModel(name string, model, today int) string {
	return name + ": this take was recorded with model " + strconv.Itoa(model) + " of the bench, and this propsoff knows models up to " + strconv.Itoa(today) +
		": use a newer propsoff"
}

// PlayedThrough sums up an older take: how long, how many of its happenings today's model brought about too, and whether all.
func PlayedThrough(ticks int64, model, compared int, same bool) string {
	s := "Told as recorded with model " + strconv.Itoa(model) + ", " + Clock(ticks) + "; played through today's model, "
	switch {
	case same && compared == 0:
		return s + "nothing happens either."
	case same && compared == 1:
		return s + "the one happening comes out the same."
	case same:
		return s + "all " + count(compared, "happening") + " come out the same."
	case compared == 0:
		return s + "the first happening comes out another way: the model has changed."
	case compared == 1:
		return s + "1 happening comes out the same, then one does not: the model has changed."
	}
	return s + count(compared, "happening") + " come out the same, then one does not: the model has changed."
}

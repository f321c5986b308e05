package tell

import (
	"math"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/mark"
)

// HandOf names an axis and the mode in which it was led; yaw asks for a rate in each.
func HandOf(axis mark.Axis, mode layout.Mode) words.Text {
	if axis == mark.Yaw {
		return JobName(codes.Axis(axis))
	}
	return words.T("hand-measured.of", words.Args{"axis": JobName(codes.Axis(axis)), "mode": Mode(mode)})
}

// Millis is a time of the hand, in ms with its unit.
func Millis(ms int32) words.Text {
	return words.T("hand-measured.millis", words.Args{"n": words.Whole(ms)})
}

// HandDelay says the delay, the one number to watch, and nothing where it was not measured.
func HandDelay(h *mark.Hand) words.Text {
	if !h.Measured {
		return words.Text{}
	}
	return words.T("hand-measured.delay", words.Args{"time": Millis(h.DelayMS)})
}

// HandWithin says between what the delay lies, and what it was the time before, where was is not nil.
func HandWithin(h, was *mark.Hand) words.Text {
	before := words.Text{}
	if was != nil {
		before = words.T("hand-measured.before", words.Args{"time": Millis(was.DelayMS)})
	}
	return words.Row(words.T("hand-measured.within", words.Args{"from": words.Whole(max(h.DelayMS-h.DelayWithin, 0)), "to": Millis(h.DelayMS + h.DelayWithin)}), before)
}

// HandKeepsUp says the crossover, and how much of the movement was noise.
func HandKeepsUp(h *mark.Hand) words.Text {
	return words.T("hand-measured.keeps-up", words.Args{"swings": rounded(float64(h.Crossover)/1000/(2*math.Pi), 1), "crossover": handHundredths(h.Crossover),
		"within": handHundredths(h.CrossoverWithin), "noise": HandNoise(h)})
}

// HandNoise is how much of the movement had nothing to do with the mark, as a part of a hundred.
func HandNoise(h *mark.Hand) words.Text { return Percent(int(h.Noise+5) / 10) }

// HandSentence says all of it in one sentence, as a list of runs has it.
func HandSentence(h *mark.Hand) words.Text {
	if h.Axis == mark.NoAxis {
		return words.Text{}
	}
	return words.T("hand-measured.sentence", words.Args{"of": HandOf(h.Axis, h.Mode), "measured": words.Flag(h.Measured), "from": words.Whole(max(h.DelayMS-h.DelayWithin, 0)),
		"to": Millis(h.DelayMS + h.DelayWithin), "time": Millis(h.DelayMS), "crossover": handHundredths(h.Crossover), "noise": HandNoise(h)})
}

// handHundredths is a number of thousandths with two decimals.
func handHundredths(n int32) words.Fixed {
	return words.Fixed{N: nearest(int64(n), 10), Places: 2, Least: 2}
}

// HandCrossover is the crossover in rad/s.
func HandCrossover(h *mark.Hand) words.Text { return Plain(handHundredths(h.Crossover)) }

// HandLeft says how long the mark still wanders, in ticks.
func HandLeft(ticks int64) words.Text {
	return words.T("hand-measured.left", words.Args{"time": Seconds((max(ticks, 0) + 999) / 1000 * 1000)})
}

// HandOver is one axis in one mode over days: the first delay and the last one, in ms, with half the interval of the last.
type HandOver struct {
	Axis                mark.Axis
	Mode                layout.Mode
	First, Last, Within int32
	Days                int
}

// Sentence says how it went.
func (o *HandOver) Sentence() words.Text {
	return words.T("hand-measured.over-days", words.Args{"of": HandOf(o.Axis, o.Mode), "last": Millis(o.Last), "within": Millis(o.Within), "first": Millis(o.First),
		"several": words.Flag(o.Days > 1), "faster": words.Flag(o.Last < o.First), "slower": words.Flag(o.Last > o.First)})
}

// HandColumns head the table of measured delays.
func HandColumns() []words.Text {
	return words.Each("report.column", "stick", "day", "delay", "within", "crossover", "noise")
}

package phrase

import (
	"cmp"
	"slices"

	"propsoff/cmd/propsoff/internal/lossrun"
	"propsoff/sim/happening"
)

// LossNumbers is how many numbers LossNumber has.
const LossNumbers = 4

// LossNumber is a number of a craft: 0 when its motors stopped, 1 when it reached the ground, 2 its speed there, 3 how far from where
// the radio went off. Number 0 alone counts on the desk bench.
func LossNumber(i int, c LossCraft) (name, value string) {
	r, s := c.Run, c.Snap
	name = [LossNumbers]string{"motors stop after", "on the ground after", "speed at the ground", "found"}[i]
	down := r.Down != lossrun.NotYet
	switch {
	case r.Phase == lossrun.Waiting:
		value = "–"
	case i == 0 && r.Stopped != lossrun.NotYet:
		value = hundredths(r.Stopped - r.Off)
	case i == 0 && r.Turns.Now():
		value = "they turn"
	case i == 0:
		value = "stood still"
	case !down && s.Air.Flying:
		value = [LossNumbers]string{"", "in the air", "–", "–"}[i]
	case !down && r.Before.Flying:
		value = "–"
	case !down:
		value = [LossNumbers]string{"", "stood there", "–", "–"}[i]
	case i == 1:
		value = hundredths(r.Down - r.Off)
	case i == 2:
		value = Speed(r.Speed)
	default:
		value = found(r.Away)
	}
	return name, value
}

// LossMark is one line of a craft's time: ms since the radio went off, what happened, and how much it matters where there is no
// room for all. Still to come is what has not happened yet.
type LossMark struct {
	Ms     int64
	Text   string
	Weight int
	ToCome bool
}

// At is the time of a mark; what was before the radio went off says so in its text.
func (m *LossMark) At() string { return hundredths(max(m.Ms, -m.Ms)) }

// sinceOff writes a time since the radio went off; what was before is said to be.
func sinceOff(ms int64) string {
	if ms < 0 {
		return hundredths(-ms) + " before"
	}
	return hundredths(ms)
}

// LossMarks are what happened to a craft since the radio's last frame, in order; what happened in the same millisecond is one.
func LossMarks(c LossCraft) []LossMark {
	r, s := c.Run, c.Snap
	if r.Phase == lossrun.Waiting {
		return nil
	}
	var out []LossMark
	add := func(tick int64, weight int, text string) {
		if ms, ok := r.Since(tick); ok {
			out = append(out, LossMark{Ms: ms, Text: text, Weight: weight})
		}
	}
	before := "before: the radio's last frame"
	if r.Last == r.Off {
		before = "the radio's last frame"
	}
	add(r.Last, 2, before)
	add(r.Off, 3, "radio off")
	switch {
	case r.Lost == r.Limit:
		add(r.Limit, 9, "silence limit: link lost")
	case r.Back != lossrun.NotYet && r.Back < r.Limit:
	case s.Tick >= r.Limit:
		add(r.Limit, 5, "silence limit, unnoticed")
	default:
		add(r.Limit, 5, "silence limit")
		out[len(out)-1].ToCome = true
	}
	if r.Lost != r.Limit {
		add(r.Lost, 9, "link lost")
	}
	add(r.Sinking, 9, "sinks")
	if r.Cause == happening.ByLinkLoss || r.Cause == happening.BySinkEnd {
		add(r.Disarmed, 9, "cuts")
	} else {
		add(r.Disarmed, 9, "disarmed")
	}
	add(r.ByItself, 10, "ARMED by itself")
	add(r.Stopped, 9, "motors stop")
	add(r.Down, 9, "on the ground at "+Speed(r.Speed))
	add(r.Back, 8, "radio back")
	add(r.Clean, 6, "link clean")
	add(r.Free, 7, "may be armed")
	add(r.Again, 9, "armed again")
	slices.SortStableFunc(out, func(a, b LossMark) int { return cmp.Compare(a.Ms, b.Ms) })
	merged := out[:0]
	for _, m := range out {
		if n := len(merged); n > 0 && merged[n-1].Ms == m.Ms {
			last := &merged[n-1]
			last.Text, last.Weight = last.Text+", "+m.Text, max(last.Weight, m.Weight)
			continue
		}
		merged = append(merged, m)
	}
	return merged
}

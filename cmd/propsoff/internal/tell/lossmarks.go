package tell

import (
	"cmp"
	"slices"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/lossrun"
	"propsoff/sim/happening"
)

// LossNumbers is how many numbers LossNumber has.
const LossNumbers = 4

// LossNumber is a number of a craft: 0 when its motors stopped, 1 when it reached the ground, 2 its speed there, 3 how far from where
// the radio went off. Number 0 alone counts on the desk bench.
func LossNumber(i int, c LossCraft) (name, value words.Text) {
	name = words.T([LossNumbers]words.ID{"loss.motors-after", "loss.ground-after", "loss.ground-speed", "loss.found"}[i])
	return name, orDash(lossValue(i, c))
}

// orDash is what there is to say, and a dash where there is nothing.
func orDash(t words.Text) words.Text {
	if t.Empty() {
		return words.AsIs("–")
	}
	return t
}

// lossValue is the value of LossNumber; it says nothing where there is none yet, or never will be.
func lossValue(i int, c LossCraft) words.Text {
	r := c.Run
	down := r.Down != lossrun.NotYet
	switch {
	case r.Phase == lossrun.Waiting:
	case i == 0 && r.Stopped != lossrun.NotYet:
		return lossTime(r.Stopped - r.Off)
	case i == 0:
		return words.T("loss.motors", words.Args{"turn": words.Flag(r.Turns.Now())})
	case down && i == 1:
		return lossTime(r.Down - r.Off)
	case down && i == 2:
		return Speed(r.Speed)
	case down:
		return found(r.Away)
	case i == 1 && c.Snap.Air.Flying:
		return words.T("loss.in-the-air")
	case i == 1 && !r.Before.Flying:
		return words.T("loss.stood-there")
	}
	return words.Text{}
}

// LossMark is one line of a craft's time: ms since the radio went off, what happened, and how much it matters where there is no
// room for all. Still to come is what has not happened yet.
type LossMark struct {
	Ms     int64
	Text   words.Text
	Weight int
	ToCome bool
}

// At is the time of a mark; what was before the radio went off says so in its text.
func (m *LossMark) At() words.Text { return lossTime(max(m.Ms, -m.Ms)) }

// LossMarks are what happened to a craft since the radio's last frame, in order; what happened in the same millisecond is one.
func LossMarks(c LossCraft) []LossMark {
	r, s := c.Run, c.Snap
	if r.Phase == lossrun.Waiting {
		return nil
	}
	var out []LossMark
	add := func(tick int64, weight int, text words.Text) {
		if ms, ok := r.Since(tick); ok {
			out = append(out, LossMark{Ms: ms, Text: text, Weight: weight})
		}
	}
	add(r.Last, 2, words.T("loss.mark-last", words.Args{"before": words.Flag(r.Last != r.Off)}))
	add(r.Off, 3, words.T("loss.mark-off"))
	switch {
	case r.Lost == r.Limit:
		add(r.Limit, 9, words.T("loss.mark-limit-lost"))
	case r.Back != lossrun.NotYet && r.Back < r.Limit:
	case s.Tick >= r.Limit:
		add(r.Limit, 5, words.T("loss.mark-limit-unnoticed"))
	default:
		add(r.Limit, 5, words.T("loss.mark-limit"))
		out[len(out)-1].ToCome = true
	}
	if r.Lost != r.Limit {
		add(r.Lost, 9, words.T("loss.mark-lost"))
	}
	add(r.Sinking, 9, words.T("loss.mark-sinks"))
	add(r.Disarmed, 9, words.T("loss.mark-disarmed", words.Args{"cut": words.Flag(r.Cause == happening.ByLinkLoss || r.Cause == happening.BySinkEnd)}))
	add(r.ByItself, 10, words.T("loss.mark-armed-by-itself"))
	add(r.Stopped, 9, words.T("loss.mark-motors-stop"))
	add(r.Down, 9, words.T("loss.mark-ground", words.Args{"speed": Speed(r.Speed)}))
	add(r.Back, 8, words.T("loss.mark-back"))
	add(r.Clean, 6, words.T("loss.mark-clean"))
	add(r.Free, 7, words.T("loss.mark-free"))
	add(r.Again, 9, words.T("loss.mark-again"))
	slices.SortStableFunc(out, func(a, b LossMark) int { return cmp.Compare(a.Ms, b.Ms) })
	merged := out[:0]
	for _, m := range out {
		if n := len(merged); n > 0 && merged[n-1].Ms == m.Ms {
			last := &merged[n-1]
			last.Text, last.Weight = words.Listed(last.Text, m.Text), max(last.Weight, m.Weight)
			continue
		}
		merged = append(merged, m)
	}
	return merged
}

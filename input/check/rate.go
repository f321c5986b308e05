package check

import (
	"slices"

	"propsoff.example/input"
)

// rate finds how often a radio reports while a control moves: it reports changes only, so that pauses say nothing. Where an
// axis goes on in one direction by two steps or more at each report no report was left out for want of a change: the median
// of the intervals is the radio's own; where it goes by single steps the shorter intervals bound it.
type rate struct {
	way   [input.MaxAxes]int8 // of the last report: −2, −1, 0, 1, 2
	sure  intervals
	bound intervals
}

// intervals are the last 256, in µs.
type intervals struct {
	all  [256]int64
	n    int
	next int
}

func (v *intervals) add(d int64) {
	v.all[v.next] = d
	v.next = (v.next + 1) % len(v.all)
	v.n = min(v.n+1, len(v.all))
}

// at is the interval below which so many quarters of all lie.
func (v *intervals) at(quarters int) int64 {
	sorted := slices.Clone(v.all[:v.n])
	slices.Sort(sorted)
	return sorted[min(v.n*quarters/4, v.n-1)]
}

// feed takes a report gap µs after the last; broken: readings are missing before it.
func (r *rate) feed(now, last *input.Raw, axes int, gap int64, broken bool) {
	var sure, bound bool
	for i := range min(axes, input.MaxAxes) {
		d := now.Axes[i] - last.Axes[i]
		w := int8(min(max(d, -2), 2))
		if broken {
			w = 0
		}
		was := r.way[i]
		r.way[i] = w
		if w > 0 && was > 0 || w < 0 && was < 0 {
			bound = true
			sure = sure || w*was == 4
		}
	}
	if broken || gap > movingGap || gap <= 0 {
		return
	}
	if sure {
		r.sure.add(gap)
	}
	if bound {
		r.bound.add(gap)
	}
}

// period is the time between two reports in µs, as far as it is known.
func (r *rate) period() int64 {
	if r.sure.n >= fewReports {
		return r.sure.at(2)
	}
	return usualPeriod
}

// perSecond is the rate in thousandths of one a second. bound: it is at least that.
func (r *rate) perSecond() (value int64, bound, known bool) {
	switch {
	case r.sure.n >= fewReports:
		return 1_000_000_000 / r.sure.at(2), false, true
	case r.bound.n >= fewReports:
		return 1_000_000_000 / r.bound.at(1), true, true
	}
	return 0, false, false
}

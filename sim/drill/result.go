package drill

import "slices"

// Run is one run of a drill, as a logbook keeps it.
type Run struct {
	// Drill is Config.Code, Day the day number (whole days of any calendar, counted by the caller), Seed that of Begin.
	Drill string
	Day   int32
	Seed  uint64
	// Learned: what counts as learned was reached. Broken off: the pupil left before the end; then it counts neither way.
	Learned, BrokenOff bool
	Tries              []Try
}

// Summary is what the tries of one drill come to. Times are in µs and are those of right tries only; 0 where there is none.
type Summary struct {
	// Counted is every try but void ones; the rest of the counts add up to it.
	Counted, Right, Wrong, TooLate, FalseStarts, Anticipated int
	Void                                                     int
	// Timed is how many times there are. Median is their median, Spread the median of the distances from it (median absolute
	// deviation, not scaled; F. R. Hampel 1974, from memory), Fastest and Slowest the ends.
	Timed                            int
	Median, Spread, Fastest, Slowest int64
	// Uncertain is the greatest uncertainty of one of them.
	Uncertain int64
	// Trend is how much longer each try took than the one before: the median of the slopes between every two (Theil 1950, Sen 1968,
	// from memory), of very many the latest. Below 0 is faster. 0 where there are fewer than three times.
	Trend int64
}

// Summarise counts tries, in the order in which they were made.
func Summarise(tries []Try) Summary {
	var s Summary
	var at, times []int64
	for i := range tries {
		t := &tries[i]
		switch t.Verdict {
		case Void:
			s.Void++
			continue
		case Right:
			s.Right++
			if t.Reaction >= 0 {
				at, times = append(at, int64(s.Counted)), append(times, int64(t.Reaction)*1000)
				s.Uncertain = max(s.Uncertain, int64(t.Uncertain)*1000)
			}
		case Wrong:
			s.Wrong++
		case TooLate:
			s.TooLate++
		case FalseStart:
			s.FalseStarts++
		case Anticipated:
			s.Anticipated++
		}
		s.Counted++
	}
	if s.Timed = len(times); s.Timed == 0 {
		return s
	}
	s.Fastest, s.Slowest = slices.Min(times), slices.Max(times)
	s.Median, s.Spread = Median(times), Spread(times)
	if s.Timed > 2 {
		from := max(0, s.Timed-mostTrend)
		s.Trend = Slope(at[from:], times[from:])
	}
	return s
}

// mostTrend is how many of the latest times a trend is made of (ours): between every two there is a slope.
const mostTrend = 400

// Median is the middle of values, for an even number of them the mean of the two in the middle, rounded down. 0 for none.
func Median(values []int64) int64 {
	v := slices.Clone(values)
	slices.Sort(v)
	n := len(v)
	switch {
	case n == 0:
		return 0
	case n%2 == 1:
		return v[n/2]
	}
	return (v[n/2-1] + v[n/2]) >> 1
}

// Spread is the median of the distances of values from their median.
func Spread(values []int64) int64 {
	m := Median(values)
	d := make([]int64, len(values))
	for i, v := range values {
		d[i] = max(v-m, m-v)
	}
	return Median(d)
}

// Slope is the median of the slopes between every two points with different x, each rounded towards 0; 0 where there is none.
func Slope(x, y []int64) int64 {
	var all []int64
	for i := range x {
		for j := range i {
			if x[i] != x[j] {
				all = append(all, (y[i]-y[j])/(x[i]-x[j]))
			}
		}
	}
	return Median(all)
}

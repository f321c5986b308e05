package drill

import "slices"

// Run is one run of a drill, as a logbook keeps it.
type Run struct {
	// Drill is Config.Code, Day the number of the day (whole days in any calendar, counted by the caller), Seed the one given to Begin.
	Drill string
	Day   int32
	Seed  uint64
	// Learned: what counts as learned was reached. BrokenOff: the pupil left before the end; then the run counts neither way.
	Learned, BrokenOff bool
	Tries              []Try
}

// Summary is what the tries of one drill come to. Times are in µs and those of right tries only; 0 where there are none.
type Summary struct {
	// Counted is the number of tries without the void ones, which Void counts; the rest of the counts add up to it.
	Counted, Right, Wrong, TooLate, FalseStarts, Anticipated int
	Void                                                     int
	// Timed is how many times were measured. Median is their median, Spread the median of the distances from it (median absolute
	// deviation, not scaled; F. R. Hampel 1974, from memory), Fastest and Slowest the least and the greatest.
	Timed                            int
	Median, Spread, Fastest, Slowest int64
	// Uncertain is the greatest uncertainty of any of them.
	Uncertain int64
	// Trend is how much longer each try took than the one before: the median of the slopes between every two (Theil 1950, Sen 1968,
	// from memory), where there are very many of the latest ones. Below 0 the pupil gets faster. 0 where there are fewer than three times.
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

// mostTrend is how many of the latest times a trend takes in (ours): there is a slope between every two, so the work grows with the square.
const mostTrend = 400

// Median is the middle of the values; of an even number the mean of the two in the middle, rounded down. 0 for none.
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

// Spread is the median of the values' distances from their median; 0 for none.
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

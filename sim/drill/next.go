package drill

// The boxes of the scheme that brings drills back. All drills begin in the first; one that was learned when it was due moves on by a box,
// one that was failed goes back to the first. That is S. Leitner's, "So lernt man lernen" (1972); the days 1, 2, 4, 8, 16 between two times in a box are
// those given for it by B. Settles and B. Meeder, "A trainable spaced repetition model for language learning" (ACL 2016, § 2.3), who let
// a failed card go to a shorter box. Both from memory. Whether gaps grow or stay alike matters little (Latimier et al. 2021: g = 0.034).
const (
	Boxes = 5
	// MasteredFrom is the box from which a drill counts as mastered: it was learned on three days, with a gap after each (ours).
	MasteredFrom = 3
)

// Gap is how many days pass before a drill in this box (1 to Boxes) comes back.
func Gap(box uint8) int32 {
	if box < 1 {
		return 0
	}
	return 1 << (min(box, Boxes) - 1)
}

// Card is how one drill stands with a pupil.
type Card struct {
	// Box is 0 until the drill is first run, then 1 to Boxes. Due is the day on which it comes back.
	Box uint8
	Due int32
	// Last is the day of the last run, Failed whether that run was not learned.
	Last   int32
	Failed bool
	// Runs and Learned count runs that were not broken off. Times is how often it was learned when it was due: each moved it on by a box.
	Runs, Learned uint16
}

// Mastered reports whether the drill has reached the box MasteredFrom.
func (c *Card) Mastered() bool { return c.Box >= MasteredFrom }

// After gives the card after a run on a day. A drill that is learned again before it is due stays where it is: many runs on one day
// count as one.
func (c Card) After(day int32, learned bool) Card {
	first := c.Box == 0
	c.Last, c.Failed = day, !learned
	c.Runs = min(c.Runs+1, 1<<15)
	switch {
	case !learned:
		c.Box, c.Due = 1, day+Gap(1)
	case first:
		c.Box, c.Due = 1, day+Gap(1)
	case day >= c.Due:
		c.Box = min(c.Box+1, Boxes)
		c.Due = day + Gap(c.Box)
	}
	if learned {
		c.Learned = min(c.Learned+1, 1<<15)
	}
	return c
}

// Cards gives a card for each drill of a course, in its order, after these runs, which are in order of time.
func Cards(course []string, runs []Run) []Card {
	cards := make([]Card, len(course))
	for i := range runs {
		if runs[i].BrokenOff {
			continue
		}
		for k, code := range course {
			if code == runs[i].Drill {
				cards[k] = cards[k].After(runs[i].Day, runs[i].Learned)
			}
		}
	}
	return cards
}

// Reason says why a drill is next.
type Reason uint8

// The reasons.
const (
	NoneLeft    Reason = iota // everything is done for today
	ComesBack                 // it is due
	IsNew                     // it was never run
	FailedToday               // it was failed today, and others have been run since
)

// newADay is how many drills are met for the first time on one day (ours: the course takes four days at least).
const newADay = 8

// Next chooses the drill to run on a day, as an index into the course (−1 with NoneLeft): first what is due, the longest overdue first,
// of equals the one in the lower box, and of those by the seed; then what is new, in the order of the course; then what was failed today,
// the one failed longest ago first. The runs are all those of the pupil, in order of time.
func Next(course []string, runs []Run, day int32, seed uint64) (int, Reason) {
	cards := Cards(course, runs)
	best, r := -1, random(seed, uint64(uint32(day)), 4)
	var bestLot uint64
	for i := range cards {
		c := &cards[i]
		lot := r.next()
		if c.Box == 0 || c.Due > day {
			continue
		}
		if best < 0 {
			best, bestLot = i, lot
			continue
		}
		b := &cards[best]
		if c.Due < b.Due || c.Due == b.Due && (c.Box < b.Box || c.Box == b.Box && lot < bestLot) {
			best, bestLot = i, lot
		}
	}
	if best >= 0 {
		return best, ComesBack
	}
	met := 0
	for k, code := range course {
		if cards[k].Box > 0 && firstDay(code, runs) == day {
			met++
		}
	}
	if met < newADay {
		for i := range cards {
			if cards[i].Box == 0 {
				return i, IsNew
			}
		}
	}
	return failedToday(course, cards, runs, day)
}

// firstDay is the day of a drill's first run.
func firstDay(code string, runs []Run) int32 {
	for i := range runs {
		if runs[i].Drill == code && !runs[i].BrokenOff {
			return runs[i].Day
		}
	}
	return -1
}

// failedToday is the drill whose last run failed today and lies furthest back.
func failedToday(course []string, cards []Card, runs []Run, day int32) (int, Reason) {
	best, bestAt := -1, 0
	for k, code := range course {
		if !cards[k].Failed || cards[k].Last != day {
			continue
		}
		at := 0
		for i := range runs {
			if runs[i].Drill == code && !runs[i].BrokenOff {
				at = i
			}
		}
		if best < 0 || at < bestAt {
			best, bestAt = k, at
		}
	}
	if best < 0 {
		return -1, NoneLeft
	}
	return best, FailedToday
}

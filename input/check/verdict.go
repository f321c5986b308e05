package check

import "propsoff.example/sim/pulse"

// thousandths is a width in thousandths of a µs.
func thousandths(w pulse.Width) int64 { return int64(w) * 125 }

// lowVerdict says what the low end is worth as far as it was seen.
func (c *control) lowVerdict() Verdict { v, _, _ := c.lowEnd(); return v }

func (c *control) highVerdict() Verdict { v, _, _ := c.highEnd(); return v }

func (c *control) lowEnd() (Verdict, Why, Cure) {
	w := c.low.best
	switch {
	case !w.Valid() && w < pulse.Centre:
		return Fails, NoPulse, LessLow
	case c.Job == "throttle" && w >= c.lowMark:
		return Fails, NeverLow, MoreLow
	case c.form == Stick && w > pulse.FullyLow:
		return Fails, CornerMissed, MoreLow
	case c.Job == "throttle" && w > c.lowMark-LowMargin:
		return Warns, NearlyLow, MoreLow
	case w > pulse.Low+EndSlack:
		return Warns, NotFully, MoreLow
	case w < pulse.Low-EndSlack:
		return Warns, BeyondTravel, LessLow
	}
	return Passes, NoWhy, NoCure
}

func (c *control) highEnd() (Verdict, Why, Cure) {
	w := c.high.best
	switch {
	case !w.Valid() && w > pulse.Centre:
		return Fails, NoPulse, LessHigh
	case c.form == Stick && w < pulse.FullyHigh:
		return Fails, CornerMissed, MoreHigh
	case w < pulse.High-EndSlack:
		return Warns, NotFully, MoreHigh
	case w > pulse.High+EndSlack:
		return Warns, BeyondTravel, LessHigh
	}
	return Passes, NoWhy, NoCure
}

// items appends what is to be said of control i.
func (c *control) items(dst []Item, i int, whole bool) []Item {
	add := func(it Item) { it.Control = i; dst = append(dst, it) }
	if c.form == Stick {
		it := Item{Kind: Direction, Verdict: c.corner, Known: c.corner != Waiting, Value: thousandths(c.cornerAt), Limit: thousandths(pulse.FullyHigh), Side: AtLeast}
		if c.corner == Passes && c.cornerAt < pulse.FullyHigh { // the right way, but short: the travel says so
			it.Limit = thousandths(pulse.Centre)
		}
		if c.corner == Fails {
			it.Why, it.Cure = WrongWay, TurnRound
		}
		add(it)
	}
	if c.form != Switch {
		add(c.endItem(LowEnd))
		add(c.endItem(HighEnd))
	}
	if c.sprung() {
		add(c.centreItem())
		add(c.middleItem())
	}
	if c.form == Switch {
		add(c.placesItem())
	}
	if c.perRaw > 0 {
		add(c.noiseItem())
	}
	add(c.jumpsItem(whole))
	return dst
}

func (c *control) endItem(k Kind) Item {
	it := Item{Kind: k, Unit: Micros}
	e, v := &c.low, Waiting
	var why Why
	var cure Cure
	if k == LowEnd {
		if e.settled {
			v, why, cure = c.lowEnd()
		}
		it.Limit, it.Side = thousandths(pulse.Low+EndSlack), AtMost
		switch {
		case why == BeyondTravel:
			it.Limit, it.Side = thousandths(pulse.Low-EndSlack), AtLeast
		case why == NoPulse:
			it.Limit, it.Side = thousandths(pulse.Lowest), AtLeast
		case c.Job == "throttle":
			it.Limit, it.Side = thousandths(c.lowMark), Below
			if why == NearlyLow {
				it.Limit, it.Side = thousandths(c.lowMark-LowMargin), AtMost
			}
		case why == CornerMissed:
			it.Limit = thousandths(pulse.FullyLow)
		}
	} else {
		if e = &c.high; e.settled {
			v, why, cure = c.highEnd()
		}
		it.Limit, it.Side = thousandths(pulse.High-EndSlack), AtLeast
		switch why {
		case BeyondTravel:
			it.Limit, it.Side = thousandths(pulse.High+EndSlack), AtMost
		case NoPulse:
			it.Limit, it.Side = thousandths(pulse.Highest), AtMost
		case CornerMissed:
			it.Limit = thousandths(pulse.FullyHigh)
		}
	}
	it.Known, it.Value = e.has, thousandths(e.best)
	it.Verdict, it.Why, it.Cure = v, why, cure
	return it
}

func (c *control) centreItem() Item {
	off := c.restAt - pulse.Centre
	it := Item{Kind: Centre, Known: c.hasRest, Value: thousandths(off), Limit: thousandths(CentrePass)}
	if c.hasRest {
		it.Verdict = graded(int64(abs(off)), int64(CentrePass), int64(CentreWarn))
	}
	if it.Verdict > Passes {
		it.Why, it.Cure = Drifts, TrimBack
	}
	return it
}

func (c *control) middleItem() Item {
	it := Item{Kind: DeadZone, Known: c.cross.count >= crossings, Value: thousandths(c.cross.flat), Limit: thousandths(FlatPass)}
	switch {
	case c.blunted:
		it.Known, it.Value = true, thousandths(2*BluntedHides)
		it.Verdict, it.Why, it.Cure = Warns, MiddleHidden, ReadOtherwise
	case it.Known:
		it.Verdict = graded(int64(c.cross.flat), int64(FlatPass), int64(FlatWarn))
		if it.Verdict > Passes {
			it.Why, it.Cure = MiddleDead, NoDeadZone
		}
	}
	return it
}

func (c *control) placesItem() Item {
	it := Item{Kind: Positions, Unit: Places, Known: true, Value: int64(c.seenPlaces()), Limit: int64(len(c.widths)), Side: AtLeast}
	moved := func(v Verdict, off pulse.Width) {
		it.Verdict, it.Why, it.Cure = v, PositionMoved, LearnAgain
		it.Unit, it.Value, it.Limit, it.Side = Micros, thousandths(off), thousandths(PositionPass), AtMost
	}
	switch {
	case len(c.strays) > 0:
		off := pulse.Highest
		for _, w := range c.widths { // how far the first is from its nearest
			off = min(off, abs(w-c.strays[0]))
		}
		moved(Fails, off)
	case it.Value < it.Limit:
	case c.farOff > PositionPass:
		moved(Warns, c.farOff)
	default:
		it.Verdict = Passes
	}
	return it
}

func (c *control) noiseItem() Item {
	pass := int64(NoisePass)
	if lsb := int64(c.perRaw * 510); lsb > pass { // between two steps of a coarse axis there is nothing to choose
		pass = lsb
	}
	it := Item{Kind: Noise, Known: c.hasRest, Value: c.noise, Limit: pass}
	if c.hasRest {
		it.Verdict = graded(c.noise, pass, max(NoiseWarn, pass))
	}
	if it.Verdict > Passes {
		it.Why, it.Cure = Trembles, Steady
	}
	return it
}

// jumpsItem counts leaps. They are told at once; that there are none, once the control was taken everywhere.
func (c *control) jumpsItem(whole bool) Item {
	n := c.steps
	least := max(JumpLeast, pulse.Width(c.noise*8*pulse.Eighths/1000))
	for _, j := range c.jumps {
		if j > least {
			n++
		}
	}
	it := Item{Kind: Jumps, Unit: Times, Known: true, Value: int64(n)}
	if n > 0 || whole && c.done() {
		it.Verdict = graded(int64(n), 0, JumpsWarn)
	}
	if it.Verdict > Passes {
		it.Why, it.Cure = Leaps, Steady
	}
	return it
}

// graded is the verdict of a value that passes up to pass and warns up to warn.
func graded(v, pass, warn int64) Verdict {
	switch {
	case v <= pass:
		return Passes
	case v <= warn:
		return Warns
	}
	return Fails
}

// radioItems appends what is to be said of the radio as a whole; rest: everything else is settled.
func (c *Checker) radioItems(dst []Item, rest bool) []Item {
	drop := Item{Kind: Dropouts, Control: -1, Unit: Times, Known: true, Value: int64(c.lost + c.gone)}
	switch {
	case c.gone > 0:
		drop.Verdict, drop.Why, drop.Cure = Fails, PlugLoose, FirmPlug
	case c.lost > 0:
		drop.Verdict, drop.Why, drop.Cure = graded(int64(c.lost), 0, LostWarn), ReadingsMiss, LessBusy
	case rest:
		drop.Verdict = Passes
	}
	it := Item{Kind: Rate, Control: -1, Unit: PerSecond, Limit: RatePass * 1000, Side: AtLeast}
	it.Value, it.Bound, it.Known = c.rate.perSecond()
	switch {
	case !it.Known:
	case it.Value >= RatePass*1000:
		it.Verdict = Passes
	case it.Bound: // it may be faster: a quicker stroke will tell
	case it.Value >= RateWarn*1000:
		it.Verdict = Warns
	default:
		it.Verdict = Fails
	}
	if it.Verdict > Passes {
		it.Why, it.Cure = StaleReports, FasterReports
	}
	return append(dst, drop, it)
}

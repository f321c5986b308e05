package tell

import (
	"math"
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// CardSwitch names a switch or knob by what it is for.
func CardSwitch(job string) words.Text {
	if job == "second" {
		return words.T("card.second-switch")
	}
	return words.T("card.switch", words.Args{"job": JobName(job)})
}

// CardSource says in small print what carries a control.
func CardSource(c *handset.Control) words.Text {
	var channel, kind words.Text
	if c.Job != "channel "+strconv.Itoa(int(c.Channel)+1) {
		channel = ChannelNumber(int(c.Channel))
	}
	switch {
	case c.Momentary:
		kind = words.T("card.springs-back")
	case c.Kind == handset.Knob:
		kind = words.T("card.knob")
	}
	return words.Listed(channel, carriedBy(c.Source), kind)
}

// CardValue is where a position reads: one value, or the lowest and highest of some that do the same.
func CardValue(low, high pulse.Width) words.Text {
	to := words.Value(words.Text{})
	if low != high {
		to = Micros(high)
	}
	return words.T("card.value", words.Args{"low": Micros(low), "high": to})
}

// CardTravel says how far a stick goes; nil: the radio has no such control.
func CardTravel(c *handset.Control) words.Text {
	if c == nil {
		return words.T("card.no-stick")
	}
	return words.T("card.travel", words.Args{"low": Micros(c.Low), "high": Micros(c.High), "stays": words.Flag(c.Stays)})
}

// CardAbsent names the jobs of the craft that no control of the radio carries.
func CardAbsent(jobs []string) words.Text {
	var all []words.Text
	for _, j := range jobs {
		all = append(all, jobSaid(j))
	}
	return words.T("card.absent", words.Args{"jobs": words.Or(all...)})
}

// CardMotors says what the motors of an armed craft do at low throttle, and when air mode wakes.
func CardMotors(cfg *sim.Config) words.Text {
	f := &cfg.Flight
	idles := words.Flag(f.AtLowThrottle == flight.Idle)
	motors := words.T("card.motors", words.Args{"idles": idles, "speed": shareOf(int64(f.IdleSpeed), flight.FullSpeed)})
	var modes []words.Text
	for _, m := range facts.WakeAir(cfg) {
		modes = append(modes, Mode(m))
	}
	if len(modes) == 0 {
		return motors
	}
	return words.Row(motors, words.T("card.air-mode", words.Args{"throttle": shareOf(int64(f.AirWake), pulse.ThrottleFull), "modes": words.Or(modes...), "idles": idles}))
}

// shareOf is a share of a whole with at most one decimal.
func shareOf(v, whole int64) words.Text { return Tenths((v*1000 + whole/2) / whole) }

// CardNotProved is said where no search was over. It names no key: it is printed.
func CardNotProved(searching bool) words.Text {
	if searching {
		return words.T("card.being-proved")
	}
	return words.T("card.not-proved")
}

// CardProgress says how far the search of a layout is, by the share that was searched of all that is known of so far. unsaid: nothing that was found
// is known, so a card that is saved now says so.
func CardProgress(done float64, unsaid bool) words.Text {
	return words.T("card.searching", words.Args{"share": Percent(int(100 * done)), "unsaid": words.Flag(unsaid)})
}

// CardSignParts are what is signed for.
func CardSignParts() []words.Text {
	return words.Each("card.signed", "arming", "disarming", "modes", "loss")
}

// FileEnding refuses the ending of a file's name that is to say what to write.
func FileEnding(path string, endings []string) words.Text {
	return words.T("refused.ending", words.Args{"path": words.Quote(path), "endings": words.Or(words.AsAre(endings...)...)})
}

// CardNoPaper names the sizes of paper.
func CardNoPaper(name string, known []string) words.Text {
	return words.T("card.no-paper", words.Args{"paper": words.Quote(name), "known": words.Or(words.AsAre(known...)...)})
}

// CardNoSize names the cards that there are.
func CardNoSize(name string, known []string) words.Text {
	return words.T("card.no-size", words.Args{"size": words.Quote(name), "known": words.Or(words.AsAre(known...)...)})
}

// CardArming is the arming rule in one sentence. arm and second are the numbers of the switches on the card, 0 for none.
func CardArming(cfg *sim.Config, r *handset.Radio, arm, second int) words.Text {
	if why, never := facts.NeverArms(cfg, r); never {
		cause, set := causeParts(&prove.Layout{Config: *cfg, Radio: *r}, &why, why.Cause)
		return words.Row(words.T("card.cannot-arm"), cause, set)
	}
	return cardArms(cfg, r, arm, second)
}

// CardVerdict is what a search came to. The card counts the situations that were searched and not those that they stand
// for, which would have to be explained.
func CardVerdict(r *prove.Report) words.Text {
	one := *r
	one.Standing = 0
	return Verdict(&one)
}

// cardArms is how a craft is armed that the radio can arm. arm and second are the numbers of the switches on the card, 0 for none.
func cardArms(cfg *sim.Config, r *handset.Radio, arm, second int) words.Text {
	l, a := &cfg.Layout, &cfg.Arming
	also := words.Text{}
	if l.Second != layout.NoChannel {
		at := cardPosition(r.On(l.Second), l.SecondSpan, false)
		if at.Empty() {
			at = spanStands(l.SecondSpan)
		}
		also = words.T("card.second-at", words.Args{"n": cardNumber(second), "at": at})
	}
	limit, level := Exact(a.LowThrottle), words.Text{}
	if a.OnlySelfLevelling {
		level = LevellingModes()
	}
	if facts.BySticks(cfg) {
		return words.T("card.arm-by-sticks", words.Args{"limit": limit, "level": level, "second": also, "dwell": slots(cfg, a.ArmDwell), "disarm": slots(cfg, a.DisarmDwell)})
	}
	to := cardPosition(r.On(l.Arm), l.ArmSpan, true)
	if to.Empty() {
		to = spanInto(l.ArmSpan)
	}
	return words.T("card.arm-by-switch", words.Args{"limit": limit, "level": level, "second": also, "n": cardNumber(arm), "to": to})
}

// cardNumber points to a switch of the card; it says nothing of 0.
func cardNumber(n int) words.Text {
	if n == 0 {
		return words.Text{}
	}
	return words.AsIs(strconv.Itoa(n))
}

// cardPosition says which positions of a switch lie in a span, by its high end, the one of most µs: "in its high end, 2012 µs", or where it is
// to go to, then closed by a comma where the language has one. It says nothing where no position lies there or all
// do, or where they do not lie side by side at one end and are more than two.
func cardPosition(c *handset.Control, span layout.Span, to bool) words.Text {
	if c == nil || c.Kind != handset.Switch {
		return words.Text{}
	}
	n := len(c.Positions)
	var in []int
	for i := range c.Positions {
		if span.Contains(c.Positions[i].Width) {
			in = append(in, i)
		}
	}
	k := len(in)
	if k == 0 || k == n {
		return words.Text{}
	}
	first, last := in[0], in[k-1]
	low, high := Micros(c.Positions[first].Width), Micros(c.Positions[last].Width)
	goes, top := words.Flag(to), words.Flag(last == n-1)
	switch {
	case k == 1 && (first == 0 || first == n-1):
		return words.T("card.at-end", words.Args{"to": goes, "top": top, "width": low})
	case k == 1 && n == 3:
		return words.T("card.at-middle", words.Args{"to": goes, "width": low})
	case k == 1:
		return words.T("card.at-number", words.Args{"to": goes, "i": words.Whole(first + 1), "n": words.Whole(n), "width": low})
	case k == 2 && n == 3:
		return words.T("card.at-two", words.Args{"to": goes, "top": top, "low": low, "high": high})
	case first == n-k, last == k-1:
		return words.T("card.at-some", words.Args{"to": goes, "top": top, "k": words.Whole(k), "low": low, "high": high})
	}
	return words.Text{}
}

// CardLoss says what this receiver and this craft do when the radio falls silent, and what when it comes back: of the
// receiver, of the craft, of the way back. r is the radio, nil for any.
func CardLoss(cfg *sim.Config, r *handset.Radio) []words.Text {
	q := facts.Silence(cfg)
	does, trade := OnLoss(cfg.Link.OnLoss)
	repeats := cfg.Link.OnLoss == facts.RepeatsLast
	partly := cfg.Link.OnLoss == facts.SendsStored && q.Lost != facts.Never && !q.ByValues()
	receiver := words.T("card.receiver", words.Args{"does": does, "trade": trade, "partly": words.Flag(partly)})
	_, unarmed := facts.NeverArms(cfg, r)
	switch {
	case repeats:
		return []words.Text{receiver, cardBlind(cfg, &q), words.Row(words.T("card.back-at-once"), cardLeave(cfg, unarmed))}
	case q.Lost == facts.Never:
		return []words.Text{receiver, cardStored(cfg, &q), words.Row(words.T("card.back-unseen"), cardLeave(cfg, unarmed))}
	case q.ByValues():
		return []words.Text{receiver, cardStored(cfg, &q), cardBack(cfg, unarmed)}
	}
	return []words.Text{receiver, cardCuts(cfg, &q), cardBack(cfg, unarmed)}
}

// cardBlind is said of a craft whose receiver repeats the last values.
func cardBlind(cfg *sim.Config, q *facts.Quiet) words.Text {
	arms := words.Text{}
	if q.Arms != facts.Never {
		arms = words.T("card.corner-arms")
	}
	return words.Row(words.T("card.blind"), cardNeverSinks(cfg, q), arms, words.T("prove-set.fall-silent"))
}

// cardNeverSinks is said of a craft that is to sink and never does with its receiver.
func cardNeverSinks(cfg *sim.Config, q *facts.Quiet) words.Text {
	if !q.NeverSinks(cfg) {
		return words.Text{}
	}
	return words.T("card.never-sinks")
}

// cardCuts is said of a craft that notices the lost link.
func cardCuts(cfg *sim.Config, q *facts.Quiet) words.Text {
	if q.Sinks == facts.Never {
		return words.T("card.cuts", words.Args{"after": Seconds(q.Lost)})
	}
	falls := words.Text{} // how far below a hover it cuts, by the model
	if s, ok := facts.SinkFromHover(cfg); ok && s.Falls >= 0.5 {
		falls = unit("metres", words.Whole(math.Round(s.Falls)))
	}
	return words.T("card.sinks", words.Args{"after": Seconds(q.Lost), "time": Seconds(q.Disarmed - q.Sinks), "how": sinks(cfg), "falls": falls})
}

// cardLeave says what to do before the radio is switched on again. unarmed: this radio cannot arm the craft.
func cardLeave(cfg *sim.Config, unarmed bool) words.Text {
	if unarmed {
		return words.Text{}
	}
	return words.T("card.leave", words.Args{"sticks": words.Flag(facts.BySticks(cfg))})
}

// cardBack says what a craft that saw the loss does when the radio is heard again.
func cardBack(cfg *sim.Config, unarmed bool) words.Text {
	clean := slots(cfg, cfg.Link.CleanSlots)
	if unarmed {
		return words.T("card.back-good", words.Args{"clean": clean})
	}
	return words.T("card.back", words.Args{"clean": clean, "sinks": words.Flag(cfg.Arming.SinkSlots > 0), "sticks": words.Flag(facts.BySticks(cfg))})
}

// cardStored says what stored values that are no silence to the craft make it do.
func cardStored(cfg *sim.Config, q *facts.Quiet) words.Text {
	l, f := &cfg.Layout, &cfg.Link.Stored
	arm := words.Text{} // where they take the arm channel, by switch
	if !facts.BySticks(cfg) {
		arm = Width(f[l.Arm])
	}
	never := cardNeverSinks(cfg, q)
	if q.ByValues() {
		return words.Row(words.T("card.stored-disarms", words.Args{"arm": arm, "after": disarmedAfter(cfg, q)}), never)
	}
	throttle := f[l.Throttle]
	arms := words.Text{}
	if q.Arms != facts.Never {
		arms = words.T("card.stored-arms")
	}
	stays := words.T("card.stored-stays", words.Args{
		"arm": arm, "edge": words.Flag(q.Ends != facts.Never), "flying": onlyFlying(q),
		"on":       words.Flag(throttle >= cfg.Arming.LowThrottle), // below that motors may stand still, yet it stays armed
		"throttle": Width(throttle),
	})
	return words.Row(stays, never, arms, words.T("prove-set.fall-silent"))
}

// neverSinks says why a craft that is to sink never does with its receiver; it says nothing where it sinks, or is not to.
func neverSinks(cfg *sim.Config) words.Text {
	q := facts.Silence(cfg)
	switch {
	case !q.NeverSinks(cfg):
		return words.Text{}
	case q.ByValues():
		return words.T("never-sinks.disarmed", words.Args{"after": disarmedAfter(cfg, &q)})
	case cfg.Link.OnLoss == facts.RepeatsLast:
		return words.T("never-sinks.repeated")
	}
	return words.T("never-sinks.stored")
}

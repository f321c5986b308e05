package tell

import (
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/input/check"
)

// CheckAt is how long a check has gone on, in tenths of a second.
func CheckAt(us int64) words.Text { return unit("seconds", rounded(float64(us)/1e6, 1)) }

// CheckName is what a control is called in the check: what the pilot calls it, else its job.
func CheckName(c *check.Control) words.Text {
	switch {
	case c.Called != "":
		return words.AsIs(c.Called)
	case c.Job == "arm", c.Job == "second", c.Job == "mode":
		return SwitchOfJob(c.Job)
	}
	return JobName(c.Job)
}

// CheckTag is the shortest name of a control, for beneath its drawing.
func CheckTag(c *check.Control) words.Text {
	if c.Called != "" {
		return words.AsIs(c.Called)
	}
	if n, ok := strings.CutPrefix(c.Job, "channel "); ok {
		return words.T("check.channel-tag", words.Args{"n": words.Quote(n)})
	}
	return JobName(c.Job)
}

// CheckOf names what an item is about: a control, or the radio as a whole.
func CheckOf(v *check.View, it *check.Item) words.Text {
	if it.Control < 0 {
		return words.T("check.the-radio")
	}
	return CheckName(&v.Controls[it.Control])
}

// CheckItem names an item of the check.
func CheckItem(k check.Kind) words.Text { return words.Of("check-item", k.Code()) }

// CheckVerdict is a verdict in one word.
func CheckVerdict(v check.Verdict) words.Text { return words.Of("check-verdict", v.Code()) }

// CheckValue is what was measured; "–" where nothing was yet. A width is rounded down, so that a shown 999 is low; what must
// stay small is rounded up.
func CheckValue(it *check.Item) words.Text {
	if it.Known && it.Unit == check.Micros {
		return unit("micros", checkWidth(it))
	}
	return checkCounted(it)
}

// checkWidth is a measured width without its unit.
func checkWidth(it *check.Item) words.Value {
	size := words.Fixed{N: (max(it.Value, -it.Value) + 99) / 100, Places: 1}
	switch {
	case it.Kind == check.Direction, it.Kind == check.LowEnd, it.Kind == check.HighEnd:
		return words.Whole(it.Value / 1000)
	case it.Value < 0:
		return words.T("unit.minus", words.Args{"n": size})
	case it.Kind == check.Centre && it.Value > 0:
		return words.T("check.plus", words.Args{"n": size})
	}
	return size
}

// checkCounted is a measured value that is no width, and what stands for one that is not known.
func checkCounted(it *check.Item) words.Text {
	switch {
	case !it.Known:
		return words.T("check.unknown")
	case it.Unit == check.Places:
		return checkPart(int(it.Value), int(it.Limit))
	case it.Unit == check.PerSecond:
		return words.T("check.per-second", words.Args{"n": words.Whole(it.Value / 1000), "bound": words.Flag(it.Bound)})
	}
	return checkTimes(it.Value)
}

func checkPart(some, all int) words.Text {
	return words.T("check.part", words.Args{"n": words.Whole(some), "all": words.Whole(all)})
}

func checkTimes(n int64) words.Text {
	if n == 0 {
		return words.T("check.times-none")
	}
	return words.T("check.times", words.Args{"n": words.Count(n)})
}

// CheckLimit is what the measured value is held against.
func CheckLimit(it *check.Item) words.Text {
	n := words.Value(words.Fixed{N: it.Limit, Places: 3})
	switch it.Unit {
	case check.Places:
		return words.T("check.limit-all", words.Args{"n": words.Whole(it.Limit)})
	case check.Times:
		return checkTimes(it.Limit)
	case check.Micros:
		n = unit("micros", n)
	}
	return words.Of("check-limit", it.Side.Code(), words.Args{"n": n})
}

// CheckAsk is what to do now, in one sentence.
func CheckAsk(v *check.View) words.Text {
	if v.Ask == check.AskMove {
		return checkMove(&v.Controls[v.Control])
	}
	return words.Of("check-ask", v.Ask.Code())
}

func checkMove(c *check.Control) words.Text {
	name := CheckName(c)
	if c.Form == check.Switch {
		seen := 0
		for _, p := range c.Places {
			if p.Seen {
				seen++
			}
		}
		return words.T("check.move-switch", words.Args{"name": name, "part": checkPart(seen, len(c.Places))})
	}
	low, high := ends(c.Job)
	to := words.Args{"name": name, "low": words.Of("check.way", low), "high": words.Of("check.way", high)}
	switch {
	case c.Sprung && c.MissThrough && (!c.MissLow || !c.MissHigh):
		return words.T("check.move-through", words.Args{"name": name})
	case c.MissLow && c.MissHigh:
		return words.T("check.move-both", to)
	case c.MissHigh:
		return words.T("check.move-high", to)
	case c.MissLow:
		return words.T("check.move-low", to)
	case c.Sprung:
		return words.T("check.let-go", words.Args{"name": name})
	}
	return words.T("check.bring-low", to)
}

// CheckWhy says why it matters that an item warns or fails; nothing for what passes.
func CheckWhy(w check.Why) words.Text {
	if w == check.NoWhy {
		return words.Text{}
	}
	return words.Of("check-why", w.Code())
}

// CheckCure says what to set in the radio, or what else to do.
func CheckCure(v *check.View, it *check.Item) words.Text {
	if it.Cure == check.NoCure {
		return words.Text{}
	}
	job := ""
	if it.Control >= 0 {
		job = v.Controls[it.Control].Job
	}
	low, high := ends(job)
	return words.Of("check-cure", it.Cure.Code(), words.Args{"name": CheckOf(v, it), "low": words.Of("check.at", low), "high": words.Of("check.at", high)})
}

// CheckVerdictOf says in one line what one item came to: "throttle, low end: fails. 1012 µs; must be below 1000 µs."
func CheckVerdictOf(v *check.View, it *check.Item) words.Text {
	came, value := words.Text{}, CheckValue(it)
	switch {
	case it.Verdict == check.Waiting:
		came = words.T("check.came-not-whole")
	case it.Unit == check.Places && it.Verdict == check.Passes:
		came = words.T("check.came-all", words.Args{"n": words.Whole(it.Limit)})
	case it.Verdict == check.Passes:
		came = words.T("check.came", words.Args{"value": value})
	default:
		came = words.T("check.came-must", words.Args{"value": value, "limit": CheckLimit(it)})
	}
	return words.Row(words.T("check.verdict", words.Args{"of": CheckOf(v, it), "item": CheckItem(it.Kind), "verdict": CheckVerdict(it.Verdict)}), came)
}

// CheckSum says what the check came to so far.
func CheckSum(v *check.View) words.Text {
	var parts []words.Text
	if n := v.Count[check.Fails]; n > 0 {
		parts = append(parts, words.T("check.sum-fails", words.Args{"n": words.Count(n)}))
	}
	if n := v.Count[check.Warns]; n > 0 {
		parts = append(parts, words.T("check.sum-warns", words.Args{"n": words.Count(n)}))
	}
	if v.Settled && len(parts) == 0 {
		return words.T("check.sum-good", words.Args{"n": words.Whole(len(v.Items))})
	}
	parts = append(parts, words.T("check.sum-passes", words.Args{"n": words.Count(v.Count[check.Passes])}))
	if !v.Settled {
		parts = append(parts, words.T("check.sum-waits", words.Args{"n": words.Count(v.Count[check.Waiting])}))
	}
	return words.T("check.sum", words.Args{"settled": words.Flag(v.Settled), "parts": words.And(parts...)})
}

// CheckNeedsRadio says what to do where no radio drives that could be checked: how many are plugged in, the key that lets one drive, which says
// nothing where none does.
func CheckNeedsRadio(playing bool, radios int, key words.Text) words.Text {
	switch {
	case playing:
		return words.T("check.needs-end")
	case radios > 0:
		return words.T("check.needs-driver", words.Args{"key": key})
	}
	return words.T("check.needs-radio")
}

// CheckColumn heads a column of the table of controls: 0 control, 1 low end, 2 high end, 3 rest, 4 noise, 5 jumps, 6 verdict.
func CheckColumn(i int) words.Text {
	return [...]words.Text{words.T("check.column-control"), CheckItem(check.LowEnd), CheckItem(check.HighEnd), words.T("check.column-rest"),
		CheckItem(check.Noise), CheckItem(check.Jumps), words.T("check.column-verdict")}[i]
}

// CheckFindings heads the list of what warns or fails.
func CheckFindings(n int) words.Text {
	if n == 0 {
		return words.T("check.findings-none")
	}
	return words.T("check.findings", words.Args{"n": words.Count(n)})
}

// CheckShort is what was measured for a narrow column, its unit left out where the heading has it.
func CheckShort(it *check.Item) words.Text {
	s := checkCounted(it)
	if it.Known && it.Unit == check.Micros {
		s = words.T("check.plain", words.Args{"n": checkWidth(it)})
	}
	value := words.Args{"value": s}
	switch {
	case it.Kind == check.Positions && it.Unit == check.Places:
		return words.T("check.seen", value)
	case it.Kind == check.Positions:
		return words.T("check.off-by", value)
	case it.Kind == check.Dropouts:
		return words.T("check.lost", value)
	}
	return s
}

// CheckMust is what the measured value must be; nothing for what passes.
func CheckMust(it *check.Item) words.Text {
	if it.Verdict == check.Passes && it.Unit == check.Places {
		return words.Text{}
	}
	return words.T("check.must", words.Args{"limit": CheckLimit(it)})
}

// CheckSeen says in how many of its positions a switch was seen.
func CheckSeen(seen, all int) words.Text {
	return words.T("check.seen", words.Args{"value": checkPart(seen, all)})
}

package tell

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/pulse"
)

// boundCodes are the words of the bounds of a flown task in message ids.
var boundCodes = [drill.Bounds]string{
	drill.OfHeight: "height", drill.OfNorth: "north", drill.OfEast: "east", drill.OfDistance: "distance", drill.OfSpeed: "speed", drill.OfClimb: "climb",
	drill.OfLean: "lean", drill.OfBank: "bank", drill.OfNose: "nose",
}

// noseCodes are the words of where a nose may point, in quarter turns to the right.
var noseCodes = [4]string{"away", "right", "towards-you", "left"}

// flownValue is a number of a bound with its unit.
func flownValue(b drill.Bound, v int32) words.Text {
	switch b {
	case drill.OfSpeed, drill.OfClimb:
		return Speed(float64(v) / 1000)
	case drill.OfLean, drill.OfBank, drill.OfNose:
		return Degrees(int(v))
	}
	return Length(float64(v) / 1000)
}

// flewAt is what a craft had of a bound, as exactly as it matters.
func flewAt(b drill.Bound, v int32) words.Text {
	switch b {
	case drill.OfLean, drill.OfBank, drill.OfNose:
		return wholeDegrees(float64(v) / 10)
	case drill.OfHeight, drill.OfNorth, drill.OfEast, drill.OfDistance:
		return Metres(float64(v) / 1000)
	}
	return flownValue(b, v)
}

// span says from where to where a number of a bound may be.
func span(b drill.Bound, s drill.Span) words.Text {
	var from, to words.Text
	if s.Low != drill.NoLow {
		from = flownValue(b, s.Low)
	}
	if s.High != drill.NoHigh {
		to = flownValue(b, s.High)
	}
	return words.T("drill.span", words.Args{"from": from, "to": to})
}

// flownTask says how a craft is to fly, as half a sentence.
func flownTask(t *drill.Task) words.Text {
	var all []words.Text
	for b := range drill.Bounds {
		s := t.Spans[b]
		args := words.Args{"span": span(b, s), "mark": words.Flag(t.Mark != [2]int32{})}
		switch square := t.Has(drill.OfNorth) && t.Has(drill.OfEast); {
		case !t.Has(b) || b == drill.OfEast && square:
		case b == drill.OfNorth && square:
			all = append(all, words.T("drill.over-square"))
		case b == drill.OfNose:
			all = append(all, words.Of("drill.nose", noseCodes[t.Nose/900&3]))
		case b == drill.OfBank && s.Low == drill.NoLow:
			args["span"], args["left"] = span(b, drill.Span{Low: -s.High, High: drill.NoHigh}), words.Flag(true)
			all = append(all, words.Of("drill.fly", boundCodes[b], args))
		default:
			args["left"] = words.Flag(false)
			all = append(all, words.Of("drill.fly", boundCodes[b], args))
		}
	}
	return words.And(all...)
}

// flownWant says what of the flight a want asks for; nothing for a want about something else.
func flownWant(w *drill.Want) words.Text {
	switch w.Kind {
	case drill.Flies:
		return flownTask(&w.Task)
	case drill.Leaves:
		return words.T("drill.leaves", words.Args{"task": flownTask(&w.Task)})
	case drill.TouchesDown:
		s := drill.Span{Low: w.A, High: w.B}
		if s.Low == 0 {
			s.Low = drill.NoLow
		}
		if s.Low == drill.NoLow && s.High == drill.NoHigh {
			return words.Of("drill.happens", "touched-down")
		}
		return words.T("drill.touches-down", words.Args{"span": span(drill.OfSpeed, s)})
	}
	return words.Text{}
}

// flew says what a craft did not keep to, as half a sentence.
func flew(d *drill.Did) words.Text {
	side := "-low"
	if d.Side > 0 {
		side = "-high"
	}
	under, at := false, d.Flew // behind the start, left of it, leaning to the left: said in words, not by a minus
	switch d.Bound {
	case drill.OfNorth, drill.OfEast, drill.OfBank:
		under, at = at < 0, max(at, -at)
	}
	return words.Of("drill.flew", boundCodes[d.Bound]+side, words.Args{"at": flewAt(d.Bound, at), "under": words.Flag(under)})
}

// flewDid says how the craft flew in a try that was not right; nothing where that is not what was wrong.
func flewDid(d *drill.Did) words.Text {
	time := Seconds(max(nearest(d.By, 100), 1) * 100)
	switch d.Kind {
	case drill.DidFly:
		return words.T("drill.did-fly", words.Args{"flew": flew(d)})
	case drill.DidLeave:
		return words.T("drill.did-leave", words.Args{"flew": flew(d), "time": time})
	case drill.DidBriefly:
		return words.T("drill.did-briefly", words.Args{"time": time})
	case drill.DidTouch:
		return words.T("drill.did-touch", words.Args{"at": flewAt(drill.OfSpeed, d.Flew)})
	}
	return words.Text{}
}

// FlownFigures are what a craft has now of height, climb and speed along the ground, as far as a case asks for them.
func FlownFigures(c *drill.Case, f *drill.Flown) (all []words.Text) {
	for _, b := range [...]drill.Bound{drill.OfHeight, drill.OfClimb, drill.OfSpeed} {
		if c.Asks()>>b&1 == 0 {
			continue
		}
		v := [...]int32{drill.OfHeight: max(f.Height, 0), drill.OfClimb: f.Climb, drill.OfSpeed: f.Along}[b]
		all = append(all, words.Of("drill.figure", boundCodes[b], words.Args{"at": flewAt(b, max(v, -v)), "down": words.Flag(v <= -50)})) // less is said as 0.0
	}
	return all
}

// DrillHandsOver says at which throttle a craft that is flown there for the pupil is handed over.
func DrillHandsOver(craft *sim.Config) words.Text {
	from, to := drill.HoverSpan(craft)
	percent := func(w pulse.Width) words.Text {
		return Percent((w.ThrottleFraction()*100 + pulse.ThrottleFull/2) / pulse.ThrottleFull)
	}
	return words.T("drill.hands-over", words.Args{"from": percent(from), "to": percent(to)})
}

// DrillWait says what they do until the call comes.
func DrillWait(c *drill.Case) words.Text {
	args := words.Args{"unannounced": words.Flag(c.WaitHigh > c.WaitLow)}
	if c.Flown() {
		return words.T("drill.fly-wait", args)
	}
	return words.T("drill.wait", args)
}

// AlarmTitle says what the curve of an alarm shows, or with all what each line of it is too.
func AlarmTitle(all bool) words.Text {
	return words.T("drill.alarm-title", words.Args{"all": words.Flag(all)})
}

// AlarmMeans says what a reaction to an alarm in the air means; drawn: a curve beneath has it as a dot.
func AlarmMeans(m *facts.AlarmMeans, drawn bool) words.Text {
	return words.T("drill.alarm-means", words.Args{"drawn": words.Flag(drawn), "after": Seconds(nearest(m.After, 10) * 10), "stands": Seconds(nearest(m.Stands, 10) * 10), "half": Metres(m.Half),
		"goes": Metres(m.Goes), "touch": Speed(m.Touch), "height": Metres(m.Worst.Height), "along": Speed(m.Worst.Along), "climb": Speed(m.Worst.Climb)})
}

package tell

import (
	"strings"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/codes"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim/drill"
	"propsoff/sim/drill/drillfile"
	"propsoff/sim/happening"
	"propsoff/sim/layout"
)

// DrillText is a text of a drill's file, by the drill's code word, and CourseText one of a course: those that ship are told in the reader's
// language.
func DrillText(code, text string) words.Text { return words.Shipped("drills/"+code, text) }

func CourseText(code, text string) words.Text { return words.Shipped("courses/"+code, text) }

// stickZones are the messages of where a stick stands.
var stickZones = [drill.Zones]words.ID{drill.Gone: "drill.zone-gone", drill.Down: "drill.zone-down", drill.Low: "drill.zone-low", drill.Below: "drill.zone-below",
	drill.Middle: "drill.zone-middle", drill.Above: "drill.zone-above", drill.High: "drill.zone-high"}

// WantSentence says what must be so, or must follow, as a short sentence without a full stop.
func WantSentence(w drill.Want) words.Text {
	if w.For > 0 {
		return words.T("drill.want-for", words.Args{"want": drillWant(&w), "time": Seconds(int64(w.For))})
	}
	return words.T("drill.want", words.Args{"want": drillWant(&w)})
}

// happens are the messages of what happens of which a drill may speak by its happening (drillfile.Happenings).
var happens = map[happening.Code]words.ID{
	happening.LinkLost: "drill.link-lost", happening.LinkBack: "drill.link-back", happening.LinkClean: "drill.link-clean",
	happening.Sinking: "drill.sinking", happening.Settled: "drill.settled", happening.AirMode: "drill.air-mode",
	happening.TravelShort: "drill.travel-short", happening.TookOff: "drill.took-off", happening.TouchedDown: "drill.touched-down",
	happening.TippedOver: "drill.tipped-over", happening.Nudged: "drill.nudged", happening.GestureNear: "drill.gesture-missed",
}

// eitherWants are the messages of wants that are one thing or the other: of A 0, and of any other A.
var eitherWants = map[drill.WantKind][2]words.ID{
	drill.Armed: {"drill.disarmed", "drill.armed"}, drill.Motors: {"drill.motors-still", "drill.motors-turn"}, drill.Power: {"drill.pack-out", "drill.pack-in"},
	drill.Cable: {"drill.cable-out", "drill.cable-in"}, drill.Level: {"drill.craft-tilted", "drill.craft-level"},
	drill.Checked: {"drill.unchecked", "drill.checked"}, drill.Flying: {"drill.on-ground", "drill.in-air"},
	drill.MenuLeft: {"drill.menu-put-back", "drill.menu-kept"},
}

// plainWants are the messages of wants that are one thing, whatever A is.
var plainWants = map[drill.WantKind]words.ID{drill.Ready: "drill.ready", drill.Refused: "drill.refused", drill.Gesture: "drill.gesture",
	drill.MenuValue: "drill.menu-value", drill.Answer: "drill.answer"}

// drillWant is a want in words, as half a sentence.
func drillWant(w *drill.Want) words.Text {
	if either, ok := eitherWants[w.Kind]; ok {
		return words.T(either[min(uint32(w.A), 1)])
	}
	if plain, ok := plainWants[w.Kind]; ok {
		return words.T(plain)
	}
	on := words.Args{"on": words.Flag(w.A != 0)}
	switch w.Kind {
	case drill.Refuses:
		return words.T("drill.refuses", words.Args{"why": drillReasons(w.A)})
	case drill.OnlyThose:
		return words.T("drill.only-those", words.Args{"why": drillReasons(w.A)})
	case drill.Clear:
		return words.T("drill.cured", words.Args{"why": drillReasons(w.A)})
	case drill.DisarmedBy:
		return words.T("drill.disarmed-by", words.Args{"why": words.Or(ofSet(w.A, 1, happening.CauseCount, Cause)...)})
	case drill.Link:
		return words.T("drill.link", words.Args{"is": words.Or(ofSet(w.A, facts.NeverHeard, facts.Good+1, LinkWord)...)})
	case drill.Mode:
		return words.T("drill.mode", words.Args{"mode": Mode(layout.Mode(w.A))})
	case drill.Stick:
		zone := func(z drill.Zone) words.Text { return words.T(stickZones[z]) }
		return words.T("drill.stick", words.Args{"job": JobDirection(int(w.A)), "at": words.Or(ofSet(w.B, drill.Gone, drill.Zones, zone)...)})
	case drill.ArmSwitch:
		return words.T("drill.arm-switch", on)
	case drill.SecondSwitch:
		return words.T("drill.second-switch", on)
	case drill.Transmitter:
		return words.T("drill.radio", on)
	case drill.ModeSwitch:
		return words.T("drill.mode-switch", words.Args{"mode": Mode(layout.Mode(w.A))})
	case drill.Menu:
		return words.T("drill.menu", words.Args{"menu": Menu(int(w.A))})
	case drill.Happens:
		return words.T(happens[happening.Code(w.A)])
	}
	return words.T("drill.something-else")
}

// ofSet tells each of a set of bits, of those from first to before end.
func ofSet[N ~uint8 | ~int](set int32, first, end N, tell func(N) words.Text) []words.Text {
	var out []words.Text
	for n := first; n < end; n++ {
		if set>>n&1 == 1 {
			out = append(out, tell(n))
		}
	}
	return out
}

// drillReasons are refusals in the past.
func drillReasons(set int32) words.Text {
	var all []words.Text
	for _, code := range codes.Why(facts.Set(set)) {
		all = append(all, words.Of("reason", code))
	}
	return words.And(all...)
}

// tryEnds are the messages of why a try ended as it did, where nothing more is to be told.
var tryEnds = map[drill.Why]words.ID{drill.CameLate: "drill.came-late", drill.ActedBefore: "drill.acted-before", drill.UnderHundred: "drill.under-hundred",
	drill.NotShown: "drill.not-shown", drill.Slept: "drill.slept"}

// TryWhy says why a try ended as it did, and nothing where it was right.
func TryWhy(t drill.Try, w *drillfile.Words, cfg *drill.Config) words.Text {
	c := &cfg.Cases[min(int(t.Case), len(cfg.Cases)-1)]
	want := func(all []drill.Want, own []string) words.Args {
		n, text := int(t.Number), words.T("drill.something")
		switch {
		case n < len(own) && own[n] != "":
			text = DrillText(cfg.Code, own[n])
		case n < len(all):
			text = WantSentence(all[n])
		}
		return words.Args{"want": text}
	}
	switch t.Why {
	case drill.NeverSeen:
		return words.T("drill.never-seen", want(c.Nevers, w.Nevers))
	case drill.WrongAnswer:
		if n := int(t.Number); n < len(w.Choices) {
			return words.T("drill.wrong-answer", words.Args{"choice": DrillText(cfg.Code, w.Choices[n]), "open": words.Flag(!strings.HasSuffix(w.Choices[n], "."))})
		}
		return words.T("drill.wrong-answer-unnamed")
	case drill.OutOfOrder:
		return words.T("drill.out-of-order", want(c.Wants, w.Wants))
	case drill.StillMissing:
		return words.T("drill.still-missing", want(c.Wants, w.Wants))
	case drill.BrokeBefore:
		until := c.Wants
		if n := len(c.Before); n > 0 {
			until = c.Before[n-1].Until
		}
		return words.T("drill.broke-before", want(until, nil))
	}
	return words.T(tryEnds[t.Why])
}

// DrillReads says that a drill file is right.
func DrillReads(path string, name words.Text, cases int) words.Text {
	return words.T("drill.reads", words.Args{"path": words.Quote(path), "name": name, "n": words.Count(cases)})
}

// CourseReads says that a course file and all its drills are right.
func CourseReads(path string, name words.Text, drills int) words.Text {
	return words.T("drill.course-reads", words.Args{"path": words.Quote(path), "name": name, "n": words.Count(drills)})
}

// CourseWithout names a course; unfit is how many of its drills name gestures that there are not.
func CourseWithout(name words.Text, unfit int) words.Text {
	if unfit == 0 {
		return name
	}
	return words.T("drill.course-without", words.Args{"name": name, "n": words.Whole(unfit)})
}

// DrillsUnfit says which drills are left out, by their code words.
func DrillsUnfit(unfit []string) words.Text {
	return words.T("drill.unfit", words.Args{"codes": words.Listed(words.AsAre(unfit...)...)})
}

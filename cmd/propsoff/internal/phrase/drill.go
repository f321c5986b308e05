package phrase

import (
	"strings"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim/drill"
	"propsoff/sim/drill/drillfile"
	"propsoff/sim/happening"
	"propsoff/sim/layout"
)

// zoneWords say where a stick stands.
var zoneWords = [drill.Zones]string{drill.Gone: "without a pulse", drill.Down: "below the low mark", drill.Low: "at its low end", drill.Below: "below the middle",
	drill.Middle: "in the middle", drill.Above: "above the middle", drill.High: "at its high end"}

// WantSentence says what must be so, or must follow, as a short sentence without a full stop.
func WantSentence(w drill.Want, cfg *drill.Config) string {
	s := wantText(&w)
	if w.For > 0 {
		s += ", for " + Seconds(int64(w.For))
	}
	return capital(s)
}

// happensWords say that something happens of which a drill may speak by its happening (drillfile.Happenings).
var happensWords = map[happening.Code]string{
	happening.LinkLost: "the link is lost", happening.LinkBack: "the link comes back", happening.LinkClean: "the link is good again",
	happening.Sinking: "the craft begins to sink", happening.Settled: "the craft has stood still for long enough", happening.AirMode: "air mode wakes",
	happening.TravelShort: "a stick stops short of the corner", happening.TookOff: "the craft takes off", happening.TouchedDown: "the craft touches down",
	happening.TippedOver: "the craft tips over", happening.Nudged: "the craft is nudged", happening.GestureNear: "a gesture is nearly made, and missed",
}

// wantText is a want in words.
func wantText(w *drill.Want) string {
	pick := func(on, off string) string {
		if w.A != 0 {
			return on
		}
		return off
	}
	set := facts.Set(w.A)
	switch w.Kind {
	case drill.Armed:
		return pick("armed", "disarmed")
	case drill.Ready:
		return "nothing refuses arming"
	case drill.Refuses:
		return "arming is refused: " + list(whys(set, 0), "and")
	case drill.OnlyThose:
		return "one thing refuses: " + list(whys(set, 0), "and")
	case drill.Clear:
		return "put right: " + list(whys(set, 0), "and")
	case drill.Refused:
		return "arming was tried and refused"
	case drill.DisarmedBy:
		var by []string
		for c := happening.Cause(1); c < happening.CauseCount; c++ {
			if w.A>>c&1 == 1 {
				by = append(by, causeSentence(c))
			}
		}
		return "disarmed: " + list(by, "or")
	case drill.Link:
		var is []string
		for p := facts.NeverHeard; p <= facts.Good; p++ {
			if w.A>>p&1 == 1 {
				is = append(is, LinkWord(p))
			}
		}
		return "the link is " + list(is, "or")
	case drill.Mode:
		return "the craft flies in " + Mode(layout.Mode(w.A))
	case drill.Motors:
		return pick("the motors turn", "the motors stand still")
	case drill.Stick:
		var at []string
		for z := drill.Gone; z < drill.Zones; z++ {
			if w.B>>z&1 == 1 {
				at = append(at, zoneWords[z])
			}
		}
		return jobDirections[w.A&3] + " " + list(at, "or")
	case drill.ArmSwitch:
		return "arm switch " + onOff(w.A != 0)
	case drill.SecondSwitch:
		return "second switch " + onOff(w.A != 0)
	case drill.ModeSwitch:
		return "mode switch on " + Mode(layout.Mode(w.A))
	case drill.Transmitter:
		return "radio " + onOff(w.A != 0)
	case drill.Power:
		return pick("pack connected", "pack disconnected")
	case drill.Cable:
		return pick("set-up cable in", "set-up cable out")
	case drill.Level:
		return pick("craft level", "craft tilted")
	case drill.Menu:
		return "menu: " + Menu(int(w.A))
	case drill.Checked:
		return pick("propellers checked", "propellers not checked")
	case drill.Flying:
		return pick("in the air", "on the ground")
	case drill.Happens:
		return happensWords[happening.Code(w.A)]
	case drill.Gesture:
		return "the gesture is made"
	case drill.MenuValue:
		return "the value is set in the menu"
	case drill.MenuLeft:
		return pick("the menu is left and the changes are kept", "the menu is left and the changes are put back")
	case drill.Answer:
		return "the right answer is chosen"
	}
	return "something else"
}

// TryWhy says why a try ended as it did; empty where it was right.
func TryWhy(t drill.Try, w *drillfile.Words, cfg *drill.Config) string {
	c := &cfg.Cases[min(int(t.Case), len(cfg.Cases)-1)]
	want := func(all []drill.Want, own []string) string {
		n := int(t.Number)
		if n < len(own) && own[n] != "" {
			return own[n]
		}
		if n < len(all) {
			return WantSentence(all[n], cfg)
		}
		return "something"
	}
	switch t.Why {
	case drill.NeverSeen:
		return "This must not happen: " + uncapital(want(c.Nevers, w.Nevers)) + "."
	case drill.WrongAnswer:
		if n := int(t.Number); n < len(w.Choices) {
			return "Not so: " + uncapital(strings.TrimSuffix(w.Choices[n], ".")) + "."
		}
		return "Not that one."
	case drill.OutOfOrder:
		return "Too early, before its turn: " + uncapital(want(c.Wants, w.Wants)) + "."
	case drill.StillMissing:
		return "The time is up, and this is still to come: " + uncapital(want(c.Wants, w.Wants)) + "."
	case drill.CameLate:
		return "All of it came, but too late."
	case drill.BrokeBefore:
		until := c.Wants
		if n := len(c.Before); n > 0 {
			until = c.Before[n-1].Until
		}
		return "Something was moved before it began; this should have stayed: " + uncapital(want(until, nil)) + "."
	case drill.ActedBefore:
		return "It was begun before the call came."
	case drill.UnderHundred:
		return "Under a tenth of a second: no hand is so fast, so it was a guess."
	case drill.NotShown:
		return "The call was not seen to be shown, so this does not count."
	case drill.Slept:
		return "The program did not run for a moment, so this does not count."
	}
	return ""
}

func uncapital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}

// DrillReads says that a drill file is right.
func DrillReads(path, name string, cases int) string {
	s := path + ": right. \"" + name + "\", "
	if cases == 1 {
		return s + "1 case."
	}
	return s + Whole(uint64(cases)) + " cases."
}

// CourseReads says that a course file and all its drills are right.
func CourseReads(path, name string, drills int) string {
	s := path + ": right. \"" + name + "\", a course of "
	if drills == 1 {
		return s + "1 drill."
	}
	return s + Whole(uint64(drills)) + " drills, each of them right."
}

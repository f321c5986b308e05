package tell

import (
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/gestures"
	"propsoff.example/gestures/menu"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
)

// DrillText is a text of a drill's file, by the drill's code word; those that ship are told in the reader's language.
func DrillText(code, text string) words.Text { return words.Shipped("drills/"+code, text) }

// CourseText is a text of a course's file, by the course's code word.
func CourseText(code, text string) words.Text { return words.Shipped("courses/"+code, text) }

// stickZones are the messages of where a stick stands.
var stickZones = [drill.Zones]words.ID{drill.Gone: "drill.zone-gone", drill.Down: "drill.zone-down", drill.Low: "drill.zone-low", drill.Below: "drill.zone-below",
	drill.Middle: "drill.zone-middle", drill.Above: "drill.zone-above", drill.High: "drill.zone-high"}

// stickEnds are the words of the ends of the sticks that spring back, low and high.
var stickEnds = [drill.Jobs][2]string{drill.Roll: {"left", "right"}, drill.Pitch: {"back", "forward"}, drill.Yaw: {"left", "right"}}

// StickZones says where a stick stands, or is to stand, by a set of zones.
func StickZones(j drill.Job, set int32) words.Text {
	if j == drill.Throttle && set == 1<<drill.Zones-1<<drill.Low {
		return words.T("drill.zone-raised")
	}
	if set>>drill.Low&1 == 1 { // whoever is told of the end needs no mark besides
		set &^= 1 << drill.Down
	}
	ends := map[drill.Zone]string{drill.Low: stickEnds[j][0], drill.High: stickEnds[j][1]}
	return words.Or(ofSet(set, drill.Gone, drill.Zones, func(z drill.Zone) words.Text {
		if end := ends[z]; end != "" {
			return words.T("control.fully", words.Args{"end": words.Of("control.end", end)})
		}
		return words.T(stickZones[z])
	})...)
}

// WantSentence says what must be so, or must follow, as a short sentence without a full stop.
func WantSentence(w drill.Want) words.Text {
	time := words.Text{}
	if w.For > 0 {
		time = Seconds(int64(w.For))
	}
	return words.T("drill.want", words.Args{"want": drillWant(&w), "time": time})
}

// wantMessages are the messages of wants by their kind, but for Happens.
var wantMessages = map[drill.WantKind]words.ID{
	drill.Armed: "drill.armed", drill.Ready: "drill.ready", drill.Refuses: "drill.refuses", drill.OnlyThose: "drill.only-those", drill.Clear: "drill.cured",
	drill.Refused: "drill.refused", drill.DisarmedBy: "drill.disarmed-by", drill.Link: "drill.link", drill.Mode: "drill.mode", drill.Motors: "drill.motors",
	drill.Stick: "drill.stick", drill.ArmSwitch: "drill.arm-switch", drill.SecondSwitch: "drill.second-switch", drill.ModeSwitch: "drill.mode-switch",
	drill.Transmitter: "drill.radio", drill.Power: "drill.pack", drill.Cable: "drill.cable", drill.Level: "drill.level", drill.Menu: "drill.menu",
	drill.Checked: "drill.checked", drill.Flying: "drill.flying", drill.Gesture: "drill.gesture", drill.MenuValue: "drill.menu-value",
	drill.HoverThrottle: "drill.hover-throttle", drill.MenuLeft: "drill.menu-left", drill.Answer: "drill.answer", drill.Followed: "drill.followed",
}

// drillWant is a want in words, as half a sentence.
func drillWant(w *drill.Want) words.Text {
	if w.Kind == drill.Happens {
		return words.Of("drill.happens", codes.Code(happening.Code(w.A)))
	}
	if t := flownWant(w); !t.Empty() {
		return t
	}
	id, ok := wantMessages[w.Kind]
	if !ok {
		return words.T("drill.something-else")
	}
	return words.T(id, words.Args{
		"on": words.Flag(w.A != 0), "why": drillReasons(w.A), "mode": Mode(layout.Mode(w.A)), "menu": Menu(int(w.A)), "job": JobDirection(int(w.A)),
		"at": StickZones(drill.Throttle+drill.Job(w.A&3), w.B), "is": words.Or(ofSet(w.A, facts.NeverHeard, facts.Good+1, LinkWord)...),
		"cause": words.Or(ofSet(w.A, 1, happening.CauseCount, Cause)...),
	})
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

// TryWhy says why a try ended as it did, and nothing where it was right.
func TryWhy(t drill.Try, w *drillfile.Words, cfg *drill.Config) words.Text {
	if t.Why == 0 {
		return words.Text{}
	}
	c := &cfg.Cases[min(int(t.Case), len(cfg.Cases)-1)]
	n, wants, own := int(t.Number), c.Wants, w.Wants
	switch {
	case t.Why == drill.NeverSeen:
		wants, own = c.Nevers, w.Nevers
	case t.Why == drill.BrokeBefore && len(c.Before) > 0:
		wants, own = c.Before[len(c.Before)-1].Until, nil
	case t.Why == drill.BrokeBefore:
		own = nil
	}
	want, choice, open := words.T("drill.something"), words.Text{}, false
	switch {
	case n < len(own) && own[n] != "":
		want = DrillText(cfg.Code, own[n])
	case n < len(wants):
		want = WantSentence(wants[n])
	}
	if n < len(w.Choices) {
		choice, open = DrillText(cfg.Code, w.Choices[n]), !strings.HasSuffix(w.Choices[n], ".")
	}
	why := codes.WhyCode(t.Why)
	if t.Why == drill.NeverSeen && n < len(wants) && wants[n].Kind == drill.Leaves && (n >= len(own) || own[n] == "") {
		why, want = "left-bounds", flownTask(&wants[n].Task)
	}
	return words.Of("drill.why", why, words.Args{"want": want, "choice": choice, "open": words.Flag(open)})
}

// DrillCame says what was right of a try that ended with something still to come, by the set of what came; nothing where nothing did.
func DrillCame(t drill.Try, c *drill.Case, done uint32) words.Text {
	var all []words.Text
	for i := range c.Wants {
		if done>>i&1 == 1 {
			w := c.Wants[i]
			if w.Kind == drill.DisarmedBy { // however it was done
				w = drill.Want{Kind: drill.Armed}
			}
			all = append(all, drillWant(&w))
		}
	}
	if t.Why != drill.StillMissing || len(all) == 0 {
		return words.Text{}
	}
	return words.T("drill.came", words.Args{"wants": words.And(all...)})
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
	return words.T("drill.course-without", words.Args{"name": name, "n": words.Count(unfit)})
}

// DrillStands says in a few words how a drill stands on a day.
func DrillStands(c *drill.Card, day int32) words.Text {
	switch {
	case c.Box == 0:
		return words.T("drill.stands-new")
	case c.Failed && c.Last == day:
		return words.T("drill.stands-failed-today")
	case c.Failed:
		return words.T("drill.stands-failed")
	case c.Due <= day:
		return words.T("drill.stands-due")
	case c.Mastered():
		return words.T("drill.stands-mastered")
	}
	return words.T("drill.stands-due-in", words.Args{"n": words.Count(c.Due - day)})
}

// nextDrills are the messages of why a drill is next.
var nextDrills = [...]words.ID{drill.NoneLeft: "drill.next-none", drill.ComesBack: "drill.next-back", drill.IsNew: "drill.next-new", drill.FailedToday: "drill.next-failed"}

// DrillNext says which drill is next and why.
func DrillNext(name words.Text, why drill.Reason) words.Text {
	return words.T(nextDrills[why], words.Args{"name": name})
}

// drillHeadings are the messages of the heading over what is asked for.
var drillHeadings = [...]words.ID{drill.Starting: "drill.heading-first", drill.Preparing: "drill.heading-first", drill.Settling: "drill.heading-rest", drill.Waiting: "drill.heading-ready",
	drill.Running: "drill.heading-now", drill.Resting: "drill.heading-verdict", drill.Looking: "drill.heading-verdict", drill.Over: "drill.heading-over"}

// DrillHeading is the heading over what is asked for in a case, which is nil when the run is over.
func DrillHeading(p drill.Phase, verdict drill.Verdict, c *drill.Case) words.Text {
	return words.T(drillHeadings[p], words.Args{"verdict": VerdictWord(verdict), "flown": words.Flag(c != nil && c.Flown())})
}

// VerdictWord is a verdict in a word or two, and nothing where there is none.
func VerdictWord(v drill.Verdict) words.Text {
	if v == 0 {
		return words.Text{}
	}
	return words.Of("verdict", codes.VerdictCode(v))
}

// DrillLimit says how long there is from the call on, or how long a mark lasts.
func DrillLimit(c *drill.Case) words.Text {
	if c.Mark.On() {
		return words.T("hand-measured.lasts", words.Args{"time": Seconds(c.Mark.Ticks()), "counts": Seconds(int64(c.Mark.Seconds) * 1000)})
	}
	return words.T("drill.limit", words.Args{"time": Seconds(int64(c.Within))})
}

// DrillAsks says what counts as learned.
func DrillAsks(cfg *drill.Config) words.Text {
	if cfg.InARow > 0 {
		return words.T("drill.asks-row", words.Args{"n": words.Count(cfg.InARow)})
	}
	return words.T("drill.asks-of", words.Args{"n": words.Count(cfg.Right), "of": words.Whole(cfg.Of)})
}

// DrillSum says what tries came to.
func DrillSum(s drill.Summary) words.Text {
	if s.Counted == 0 {
		return words.T("drill.sum-none")
	}
	var early, guessed, median, spread, uncertain, trend words.Text
	if s.FalseStarts > 0 {
		early = words.T("drill.sum-early", words.Args{"n": words.Count(s.FalseStarts)})
	}
	if s.Anticipated > 0 {
		guessed = words.T("drill.sum-guessed", words.Args{"n": words.Whole(s.Anticipated)})
	}
	if s.Timed > 0 {
		median, uncertain = inSeconds(s.Median), Clock((s.Uncertain+999)/1000)
	}
	if s.Timed > 2 {
		spread, trend = inSeconds(s.Spread), drillTrend(nearest(s.Trend, 1000))
	}
	return words.T("drill.sum", words.Args{"right": words.Whole(s.Right), "counted": words.Whole(s.Counted), "early": early, "guessed": guessed,
		"median": median, "spread": spread, "uncertain": uncertain, "trend": trend})
}

// drillTrend says by how much each try is slower than the one before; nothing for a change that is none in the digits that are shown.
func drillTrend(ms int64) words.Text {
	if ms == 0 {
		return words.Text{}
	}
	return words.T("drill.sum-trend", words.Args{"faster": words.Flag(ms < 0), "time": Clock(max(ms, -ms))})
}

// nearest is how many of a unit a number comes to, to the nearest.
func nearest(n, unit int64) int64 {
	if n < 0 {
		return -nearest(-n, unit)
	}
	return (n + unit/2) / unit
}

// hundredth is a hundredth of a second in µs: the last digit of inHundredths.
const hundredth = 10_000

// inHundredths is a time in µs as a number of seconds with two decimals, and inSeconds has the unit too.
func inHundredths(us int64) words.Fixed {
	return words.Fixed{N: nearest(us, hundredth), Places: 2, Least: 2}
}

func inSeconds(us int64) words.Text { return unit("seconds", inHundredths(us)) }

// DrillOver says what a run came to. c is how the drill stands after it, nil where results are not kept.
func DrillOver(learned, brokenOff bool, c *drill.Card, day int32) words.Text {
	switch {
	case brokenOff:
		return words.T("drill.over-left")
	case learned && c == nil:
		return words.T("drill.over-not-kept")
	case learned:
		return words.T("drill.over-learned", words.Args{"n": words.Count(c.Due - day)})
	case c == nil:
		return words.T("drill.over-again")
	}
	return words.T("drill.over-not-yet", words.Args{"n": words.Count(c.Due - day)})
}

// DrillOtherHand is said where something else than the pupil's own hand came into a drill, by its code word.
func DrillOtherHand(code string) words.Text {
	if code == "" {
		return words.Text{}
	}
	return words.Of("drill.came-in", code)
}

// DrillHands is whose hands and gestures a drill is told for: the stick mode, and whether the gestures are those that ship.
type DrillHands struct {
	StickMode uint8
	Shipped   bool
	// Up, Down and Gentle are the keys of the throttle, where keys drive.
	Up, Down, Gentle words.Text
}

// DrillKeys says how keys move the throttle a little; nothing where they do not drive, or nothing flies.
func DrillKeys(c *drill.Case, h DrillHands) words.Text {
	if h.Gentle.Empty() || !c.Flown() {
		return words.Text{}
	}
	return words.T("drill.keys", words.Args{"up": h.Up, "down": h.Down, "gentle": h.Gentle})
}

// DrillAbout is what a drill is for, with how its one gesture is made and its menu moved by this pupil's sticks.
func DrillAbout(d *drillfile.Drill, h DrillHands) words.Text {
	about, moves := DrillText(d.Config.Code, d.About), movesOf(&d.Config.Cases[0])
	for i := range d.Config.Cases {
		if movesOf(&d.Config.Cases[i]) != moves {
			return about // each case has its own, and says it when the try is over
		}
	}
	return words.Row(about, moves.text(h))
}

// DrillAfter is what is told after a try of a case: with how its gesture is made, where that is all that it wants.
func DrillAfter(d *drillfile.Drill, n int, h DrillHands) words.Text {
	after := DrillText(d.Config.Code, d.Cases[n].After)
	if len(d.Config.Cases[n].Wants) > 1 {
		return after
	}
	return words.Row(after, movesOf(&d.Config.Cases[n]).text(h))
}

// drillMoves is the gesture that is all a case wants, or the menu in which it wants something; the zero value is neither.
type drillMoves struct {
	set     *gestures.Config
	gesture int32
	menu    *menu.Tree
}

func movesOf(c *drill.Case) drillMoves {
	g, menus := c.Craft.Gestures, c.Craft.Menus
	for _, w := range c.Wants {
		switch {
		case w.Kind == drill.Gesture && g != nil && len(c.Wants) == 1:
			return drillMoves{set: g, gesture: w.A}
		case w.Kind == drill.MenuValue && menus != nil:
			return drillMoves{menu: &menus.Menus[menus.MenuOf(int(w.A))]}
		}
	}
	return drillMoves{}
}

// text says how that gesture is made or that menu is moved.
func (m drillMoves) text(h DrillHands) words.Text {
	switch {
	case m.menu != nil:
		return words.T("goggles.recipe", words.Args{"two": words.Flag(m.menu.Way == menu.TwoSticks), "throttle": words.Flag(throttleOnRight(h.StickMode))})
	case m.set == nil:
		return words.Text{}
	}
	how := GestureRecipe(m.set, &m.set.Patterns[m.gesture], h.StickMode)
	if h.Shipped {
		return words.Row(how, GestureYours(words.Text{}))
	}
	return how
}

package phrase

import (
	"regexp"
	"strconv"
	"strings"
	"time"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim"
	"propsoff/sim/flight"
	"propsoff/sim/handset"
	"propsoff/sim/layout"
	"propsoff/sim/prove"
	"propsoff/sim/pulse"
)

// CardTitle is what the printed page is.
func CardTitle() string { return "Switch card" }

// CardFileTitle stands in the particulars of the file.
func CardFileTitle(craft string) string { return "Switch card of " + craft }

// CardFileAbout stands in the particulars of the file.
func CardFileAbout(radio string, given bool) string {
	of := "an ideal radio"
	if given {
		of = "the radio " + radio
	}
	return "Every control of " + of + ", its positions, and what the craft does at each."
}

// CardUp says once how the switches are drawn.
func CardUp() string {
	return "Up on every drawn switch is its high end, the most µs; the lever itself may point another way on your radio."
}

// CardPlace heads the switches of one side of the radio. Of those whose side was not told, knobs says that there are knobs
// among them, others that there are switches whose side was told.
func CardPlace(s handset.Side, knobs, others bool) string {
	switch s {
	case handset.Left:
		return "left side"
	case handset.Right:
		return "right side"
	case handset.Top:
		return "top or middle"
	}
	what := "switches"
	if knobs {
		what = "switches and knobs"
	}
	if others {
		return "other " + what
	}
	return what
}

// CardSwitch names a switch or knob by what it is for.
func CardSwitch(job string) string {
	if job == "second" {
		return "Second switch"
	}
	return capital(job)
}

// CardSource says in small print what carries a control.
func CardSource(c *handset.Control) string {
	var parts []string
	if n := "channel " + strconv.Itoa(int(c.Channel)+1); n != c.Job {
		parts = append(parts, n)
	}
	if c.Source != "" {
		parts = append(parts, c.Source)
	}
	switch {
	case c.Momentary:
		parts = append(parts, "springs back")
	case c.Kind == handset.Knob:
		parts = append(parts, "knob or slider")
	}
	return strings.Join(parts, ", ")
}

// CardNothing is said of a position where the craft does nothing.
func CardNothing() string { return "nothing" }

// CardArmed is said of the positions of an arm switch.
func CardArmed(on bool) string {
	if on {
		return "ARMED"
	}
	return "disarmed"
}

// CardSecond is said of the positions of a second switch.
func CardSecond(on bool) string {
	if on {
		return "arming allowed"
	}
	return "arming refused"
}

// CardMode is said of a position of the mode switch. gap: no span of the craft file holds it.
func CardMode(m layout.Mode, air, gap bool) string {
	s := Mode(m)
	if air {
		s += ", air mode"
	}
	if gap {
		s += ": outside every span!"
	}
	return s
}

// CardValue is where a position reads: one value, or the lowest and highest of some that do the same.
func CardValue(low, high pulse.Width) string {
	if low == high {
		return Micros(low)
	}
	return Micros(low) + "–" + Micros(high)
}

// CardMorePositions counts the positions for which there is no room.
func CardMorePositions(n int) string { return "… " + count(n, "more position") }

// CardStick names the direction of a stick: across or up and down, its job and channel.
func CardStick(up bool, job string, channel int) string {
	arrow := "↔ "
	if up {
		arrow = "↕ "
	}
	return arrow + job + ", channel " + strconv.Itoa(channel+1)
}

// CardTravel says how far a stick goes; nil: the radio has no such control.
func CardTravel(c *handset.Control) string {
	switch {
	case c == nil:
		return "not on this radio"
	case c.Stays:
		return Micros(c.Low) + " to " + Micros(c.High) + ", stays"
	}
	return Micros(c.Low) + " to " + Micros(c.High)
}

// CardCorner names a corner of the stick that arms or disarms.
func CardCorner(arms bool) string { return Corner(arms) }

// CardLow marks the bottom of the throttle.
func CardLow() string { return "low" }

// CardAbsent names the jobs of the craft that no control of the radio carries.
func CardAbsent(jobs []string) string {
	return "No control of this radio carries " + list(jobs, "or") + "."
}

// CardArmingTitle heads how the craft is armed.
func CardArmingTitle() string { return "to arm and disarm" }

var withUnit = regexp.MustCompile(`(\d) (µs|s|%)`)

// Unbroken keeps each number and its unit on one line.
func Unbroken(s string) string { return withUnit.ReplaceAllString(s, "$1\u00a0$2") }

// CardMotors says what the motors of an armed craft do at low throttle, and when air mode wakes.
func CardMotors(cfg *sim.Config) string {
	f := &cfg.Flight
	s := "Once armed, the motors stand still until the throttle rises"
	if f.AtLowThrottle == flight.Idle {
		s = "Once armed, the motors turn at " + percent(int64(f.IdleSpeed), flight.FullSpeed) + " of full speed, also with the throttle down"
	}
	var modes []string
	for _, m := range facts.WakeAir(cfg) {
		modes = append(modes, Mode(m))
	}
	if len(modes) == 0 {
		return s + "."
	}
	s += ". Air mode wakes past " + percent(int64(f.AirWake), pulse.ThrottleFull) + " throttle in " + list(modes, "or")
	if f.AtLowThrottle == flight.Idle {
		return s + "."
	}
	return s + "; then they turn until it is disarmed."
}

// percent writes a share of a whole with at most one decimal.
func percent(v, whole int64) string { return fixed((v*1000+whole/2)/whole, 1) + " %" }

// CardProvedTitle heads what was proved.
func CardProvedTitle() string { return "what was proved" }

// CardNotProved is said where nobody searched. key is the one that opens the search in the window; empty for a card that is made
// in the terminal.
func CardNotProved(key string) string {
	s := "Not proved: nobody has searched the situations of this layout. "
	if key == "" {
		return s + "\"propsoff prove\" searches them; \"propsoff card --prove\" puts the result here."
	}
	return s + "Press " + key + " in the window to search them, and the card says what was found."
}

// CardBeingProved is said while a search is under way.
func CardBeingProved(key string) string {
	return "Not proved yet: the situations of this layout are being searched (" + key + "). Save the card once that is done, and it says what was found."
}

// CardCannotBeProved is said of a layout that cannot be searched.
func CardCannotBeProved(why string) string { return "Not proved. " + NotSearched(why) }

// CardVerdict is what a search came to. The card counts the situations that were searched and not those that they stand
// for, which would have to be explained.
func CardVerdict(r *prove.Report) string {
	one := *r
	one.Standing = 0
	return Verdict(&one)
}

// CardWhy says why a rule is broken, and of that what to set alone; where nothing can be set the two are the same.
func CardWhy(l *prove.Layout, r *prove.Result) (why, set string) {
	why = Finding(l, r)
	if _, rest, ok := strings.Cut(why, ". "); ok {
		return why, rest
	}
	return why, why
}

// CardToSet says once what to set against all that is broken.
func CardToSet(all []string) string { return "What to set: " + strings.Join(all, " ") }

// CardOutcome says what was found of a rule, and for one that holds against how much it was held.
func CardOutcome(r *prove.Result) string {
	s := Outcome(r.Outcome, true)
	if r.Outcome == prove.Holds {
		s += ", " + strings.TrimPrefix(HeldAgainst(r.Rule, r.Searched), "held against ")
	}
	return s
}

// CardRest sums up the rules for which there is no room.
func CardRest(n int) string { return "… and " + count(n, "rule") + " more that hold" }

// CardWarnings counts what the layout sheet calls out.
func CardWarnings(n int) string {
	if n == 1 {
		return "One thing about this layout is called out: see the layout sheet (F6) before you rely on this card."
	}
	return strconv.Itoa(n) + " things about this layout are called out: see the layout sheet (F6) before you rely on this card."
}

// CardSign asks for the test on the real craft to be signed.
func CardSign() string { return "Tested on the craft, propellers off:" }

// CardSignParts are what is signed for.
func CardSignParts() []string { return []string{"arming", "disarming", "modes", "link loss"} }

// CardSignNames are what goes before the lines to write on.
func CardSignNames() []string { return []string{"by", "on"} }

// CardDate is the date as it stands on the card.
func CardDate(date string) string {
	if date == "" {
		return "no date"
	}
	return date
}

// CardPreviewTitle heads the page on the screen.
func CardPreviewTitle(paper string) string { return "the card as it will be printed on " + paper }

// CardHow says what the sheet of the card is for.
func CardHow() string {
	return "One page to hang up: every control of the radio, its positions, and what the craft does at each. It is saved as a PDF file, to be printed at full size."
}

// CardWhere says where the card will be saved.
func CardWhere(folder string) string { return "It will be saved into " + folder + "." }

// CardSaved says where the card was saved.
func CardSaved(path string) string { return "Saved: " + path }

// CardNotSaved says why it was not.
func CardNotSaved(why string) string { return "The card could not be saved: " + why }

// CardEnding says which endings of file names there are.
func CardEnding(path string, endings []string) string {
	return path + ": the ending of the file name says what to write; end it in " + list(endings, "or")
}

// CardNoPaper names the sizes of paper.
func CardNoPaper(name string, known []string) string {
	return "--paper " + name + ": there is no such paper; choose " + list(known, "or")
}

// CardTwoRadios is said where both flags for a radio are given.
func CardTwoRadios() string {
	return "--radio and --device: give one of the two, the radio file or the radio that is plugged in"
}

// CardNoDate says how a date is written.
func CardNoDate(text string) string {
	return "--date " + text + ": write a date as 2031-04-05, or none"
}

// CardNone is said where there is no craft to make a card of.
func CardNone() string { return "There is no craft file to make a card of." }

// CardTurnTo says which paper the key turns to.
func CardTurnTo(paper string) string {
	if paper == "" {
		return "other paper"
	}
	return "paper " + paper
}

// CardLook says what the key for looking closer does: part of so many is shown now, 0 for the whole page.
func CardLook(part, parts int) string {
	switch {
	case part == 0:
		return "closer"
	case part >= parts:
		return "whole page"
	}
	return "further down"
}

// CardDay writes a day as it stands on the card: "5 April 2031".
func CardDay(t time.Time) string { return t.Format("2 January 2006") }

// CardDayAsked is a day as it is written after --date.
const CardDayAsked = "2006-01-02"

// CardNotLearned is said of a radio that has no radio file yet.
func CardNotLearned(name string) string {
	return name + " has not been learned yet: learn it by \"propsoff learn\" or in the window, or give a radio file by --radio FILE"
}

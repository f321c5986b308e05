package tell

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// Line is one refusal that stands now.
type Line struct {
	Refusal facts.Refusal
	Group   facts.Group
	Text    words.Text
}

// Lines are the refusals that stand now as sentences, in their groups and order.
func Lines(f *facts.Facts) []Line {
	var out []Line
	for _, x := range f.Refusals() {
		out = append(out, Line{Refusal: x.Refusal, Group: x.Refusal.Group(), Text: Sentence(x, f)})
	}
	return out
}

// silentFor is how long a link has been silent, in tenths of a second; nothing where it is not: a single frame late is no news.
func silentFor(s *sim.Snapshot) words.Text {
	if s.SilentMillis < 100 {
		return words.Text{}
	}
	return Seconds(s.SilentMillis / 100 * 100)
}

// Link says how the craft judges the link, with the times that matter.
func Link(f *facts.Facts) words.Text {
	s := &f.Snap
	silent := silentFor(s)
	switch {
	case !s.In.Powered:
		return words.T("link.no-power")
	case s.Link == facts.NeverHeard:
		return words.T("link.never")
	case s.Link == facts.Lost:
		return words.T("link.lost", words.Args{"silent": silent})
	case !silent.Empty():
		return words.T("link.silent", words.Args{"silent": silent})
	case s.Link == facts.Fresh:
		return words.T("link.fresh", words.Args{"left": left(s.CleanLeftMillis)})
	}
	return words.T("link.good")
}

// judgedLink is Link, which may be no more than what the craft thinks.
func judgedLink(f *facts.Facts) words.Text {
	if f.Hearing == facts.ItsReceiver {
		return words.T("link.thinks", words.Args{"link": Link(f)})
	}
	return Link(f)
}

// State is the bench in one line: armed or not, dwelling, sinking, mode, link.
func State(f *facts.Facts) words.Text {
	s := &f.Snap
	return words.Clauses(words.Listed(Armed(s.Armed), stateGoesOn(f)),
		words.T("state.mode", words.Args{"mode": Mode(s.Mode), "air": words.Flag(s.AirAwake)}), words.T("state.link", words.Args{"link": judgedLink(f)}))
}

// stateGoesOn is what is on its way from one state to the other, nothing for nothing.
func stateGoesOn(f *facts.Facts) words.Text {
	s := &f.Snap
	switch {
	case s.Sinking:
		return words.T("state.sinking", words.Args{"sinks": words.Flag(f.Place() == happening.Free), "left": left(s.SinkLeftMillis)})
	case s.DwellIs == sim.DwellingToArm:
		return words.T("state.arming-corner")
	case s.DwellIs == sim.DwellingToDisarm:
		return words.T("state.disarming-corner")
	case s.DwellIs == sim.DwellingSpent:
		return words.T("state.corner-spent")
	}
	return words.Text{}
}

// Countdown is what runs down or fills at present, as a sentence and as a share 0 … 1; false where nothing does.
func Countdown(f *facts.Facts) (text words.Text, share float64, ok bool) {
	s, cfg := &f.Snap, &f.Craft
	slot := int(cfg.SlotTicks)
	part := func(leftMillis int, slots uint16) float64 {
		if slots == 0 {
			return 1
		}
		return 1 - float64(leftMillis)/float64(int(slots)*slot)
	}
	sinking := placed(f.Place())
	clean, still, held := words.Args{"left": left(s.CleanLeftMillis)}, words.Args{"left": left(s.StillLeftMillis)}, float64(s.Dwell)/1000
	switch {
	case !s.In.Powered:
		return words.Text{}, 0, false
	case s.Sinking && s.Link == facts.Fresh && s.CleanLeftMillis < s.SinkLeftMillis:
		sinking["left"] = clean["left"]
		return words.T("countdown.control-back", sinking), part(s.CleanLeftMillis, cfg.Link.CleanSlots), true
	case s.Sinking:
		sinking["left"] = left(s.SinkLeftMillis)
		return words.T("countdown.cut", sinking), part(s.SinkLeftMillis, cfg.Arming.SinkSlots), true
	case s.DwellIs == sim.DwellingToArm:
		return words.T("countdown.arming-corner"), held, true
	case s.DwellIs == sim.DwellingToDisarm:
		return words.T("countdown.disarming-corner"), held, true
	case s.Armed:
		return words.Text{}, 0, false
	case s.Link == facts.Fresh && s.CleanLeftMillis >= s.StillLeftMillis:
		return words.T("countdown.clean", clean), part(s.CleanLeftMillis, cfg.Link.CleanSlots), true
	case s.StillLeftMillis > 0:
		return words.T("countdown.still", still), part(s.StillLeftMillis, cfg.Arming.StillSlots), true
	}
	return words.Text{}, 0, false
}

// Standing is mode, motors and propellers in one short line.
func Standing(s *sim.Snapshot, cfg *sim.Config) words.Text {
	if !s.In.Powered {
		return words.T("state.no-power")
	}
	return words.T("state.standing", words.Args{"mode": Mode(s.Mode), "air": words.Flag(s.AirAwake), "motors": Motor(s.Motor[0], cfg.Flight.IdleSpeed), "fitted": ifAny(fitted(s.In.Hands))})
}

// fitted is how many motors have a propeller.
func fitted(hands [flight.Motors]int8) (n int) {
	for _, hand := range hands {
		if hand != 0 {
			n++
		}
	}
	return n
}

// CraftTitle heads the drawings of the craft; an empty name is left out.
func CraftTitle(s *sim.Snapshot, name string) words.Text {
	return words.T("sheet.craft", words.Args{"name": words.Quote(name), "fitted": ifAny(fitted(s.In.Hands))})
}

// WhySentence stands above the refusals, or in their place.
func WhySentence(f *facts.Facts, any bool) words.Text {
	switch {
	case f.Hearing == facts.NoPower:
		return words.T("state.refuses-nothing")
	case f.Snap.Armed:
		return WhatDisarms(f)
	case !any && f.ArmOn():
		return words.T("state.nothing-else-refuses")
	case !any:
		return words.T("state.nothing-refuses")
	}
	return words.Text{}
}

// LinkLine is the craft's judgement of the link in a few words.
func LinkLine(f *facts.Facts) words.Text {
	return words.T("link.line", words.Args{"link": judgedLink(f)})
}

// ReceiversWay says what the receiver does when the radio goes silent, with the trade's word beside it; where an instructor planted another
// receiver that is for the pupil to find out.
func ReceiversWay(f *facts.Facts) words.Text {
	if f.ReceiverHidden {
		return words.T("receiver.way-hidden")
	}
	ours, trade := OnLoss(f.Craft.Link.OnLoss)
	return words.T("receiver.way", words.Args{"ours": ours, "trade": trade})
}

// The short lines of class view, which is read from the back of a room.

// ClassLink is the link in one short line.
func ClassLink(f *facts.Facts) words.Text {
	return words.T("class.link", words.Args{"link": judgedLink(f)})
}

// ClassMode is the mode in one short line.
func ClassMode(s *sim.Snapshot) words.Text {
	return words.T("class.mode", words.Args{"mode": Mode(s.Mode), "air": words.Flag(s.AirAwake)})
}

// ClassWhy stands above the refusals or in their place.
func ClassWhy(f *facts.Facts, any bool) words.Text {
	if f.Snap.Armed && f.Reaches() {
		return words.T("disarms.refusals-not")
	}
	return WhySentence(f, any)
}

// Does says in at most sixteen letters what the key of an action does now. on tells how its thing stands; next is the
// value it goes to, for those that go through several.
func Does(code string, on bool, next int) words.Text {
	args := words.Args{"on": words.Flag(on), "zero": words.Flag(next == 0), "one": words.Flag(next == 1), "two": words.Flag(next == 2), "three": words.Flag(next == 3), "n": words.Whole(next)}
	if code == "tilt" { // the others would have it said for nothing, for every key of every picture
		args["tilt"] = Degrees(next)
	}
	return words.Of("key", code, args)
}

// AsSystem says that the sheet is as the system says again, and which theme that is now, by its place in ink.Themes.
func AsSystem(theme int) words.Text {
	return words.T("notice.as-system", words.Args{"zero": words.Flag(theme == 0), "one": words.Flag(theme == 1), "two": words.Flag(theme == 2)})
}

// KeyHelp says on the help sheet what the key of an action does; language is what the next language of the sheets calls itself.
func KeyHelp(code, language string) words.Text {
	return words.Of("help", code, words.Args{"name": words.Quote(language)})
}

// Corner names the side of the stick that arms, and the one that disarms.
func Corner(arms bool) words.Text {
	return words.T("sheet.corner", words.Args{"arms": words.Flag(arms)})
}

// Position is a position of a switch that is on or off.
func Position(on bool) words.Text { return words.T("sheet.position", words.Args{"on": words.Flag(on)}) }

// SpanWords is a span as it stands beside a position. The ends of the pulse range are no ends.
func SpanWords(s layout.Span) words.Text {
	low, high := Exact(s.Low), Exact(s.High)
	switch {
	case s.Low <= pulse.Lowest && s.High >= pulse.Highest:
		return words.T("sheet.span-anywhere")
	case s.Low <= pulse.Lowest:
		return words.T("sheet.span-below", words.Args{"high": high})
	case s.High >= pulse.Highest:
		return words.T("sheet.span-from", words.Args{"low": low})
	}
	return words.T("sheet.span", words.Args{"low": low, "high": high})
}

// CraftStands says how the craft stands and what hangs on it.
func CraftStands(s *sim.Snapshot) words.Text {
	c := &s.In.Craft
	tilt := words.Args{"tilt": Degrees(int(c.TiltTenths))}
	how := []words.Text{words.T("sheet.stands-level")}
	switch {
	case c.TiltTenths > 900:
		how[0] = words.T("sheet.stands-upside-down", tilt)
	case c.TiltTenths > 0:
		how[0] = words.T("sheet.stands-tilted", tilt)
	}
	if c.Cable {
		how = append(how, words.T("sheet.stands-cable"))
	}
	switch c.Menu {
	case pulse.MenuCraft:
		how = append(how, words.T("sheet.stands-menu"))
	case pulse.MenuCamera:
		how = append(how, words.T("sheet.stands-camera-menu"))
	}
	if !s.In.Powered {
		how = append(how, words.T("sheet.stands-no-power"))
	}
	return words.T("sheet.stands", words.Args{"how": words.Clauses(how...)})
}

// AndMore counts what there is no room for, at the end of a list.
func AndMore(n int) words.Text { return words.T("sheet.more", words.Args{"n": words.Whole(n)}) }

// Unlisted counts what there is no room for above and below the rows of a list.
func Unlisted(above, below int) words.Text {
	return words.T("sheet.unlisted", words.Args{"above": ifAny(above), "below": ifAny(below)})
}

// NoSwitch says of a key that the craft has no switch (arm, second, mode) for it.
func NoSwitch(job string) words.Text { return words.Of("help-sheet", "no-"+job+"-switch") }

var helpHeadings = [...]words.ID{
	"help-sheet.group-sticks", "help-sheet.group-switches", "help-sheet.group-bench", "help-sheet.group-questions", "help-sheet.group-start",
	"help-sheet.group-sheet", "help-sheet.group-drives", "help-sheet.group-sheets", "help-sheet.group-air", "help-sheet.group-window", "help-sheet.group-on-bench",
}

// HelpHeading heads a group of keys: 0 sticks, 1 switches, 2 bench, 3 questions, 4 cautions, 5 another sheet, 6 who drives, 7 sheets,
// 8 the air bench, 9 the window, 10 what works on the bench alone.
func HelpHeading(group int) words.Text { return words.T(helpHeadings[group]) }

package phrase

import (
	"strconv"
	"strings"

	"propsoff/input/check"
)

// CheckTitle heads the controls check.
func CheckTitle() string { return "controls check: every control full and free" }

// CheckName is what a control is called in the check: what the pilot calls it, else its job.
func CheckName(c *check.Control) string {
	if c.Called != "" {
		return c.Called
	}
	switch c.Job {
	case "arm", "second", "mode":
		return c.Job + " switch"
	}
	return c.Job
}

// CheckTag is the shortest name of a control, for beneath its drawing.
func CheckTag(c *check.Control) string {
	if c.Called != "" {
		return c.Called
	}
	if n, ok := strings.CutPrefix(c.Job, "channel "); ok {
		return "ch. " + n
	}
	return c.Job
}

// CheckOf names what an item is about: a control, or the radio as a whole.
func CheckOf(v *check.View, it *check.Item) string {
	if it.Control < 0 {
		return "the radio"
	}
	return CheckName(&v.Controls[it.Control])
}

// CheckItem names an item of the check.
func CheckItem(k check.Kind) string {
	return [check.KindCount]string{
		check.Direction: "direction", check.LowEnd: "low end", check.HighEnd: "high end", check.Centre: "off centre", check.DeadZone: "dead zone",
		check.Positions: "positions", check.Noise: "noise", check.Jumps: "jumps", check.Dropouts: "lost readings", check.Rate: "rate of reports",
	}[k]
}

// CheckVerdict is a verdict in one word.
func CheckVerdict(v check.Verdict) string {
	return [check.VerdictCount]string{check.Waiting: "waits", check.Passes: "passes", check.Warns: "warns", check.Fails: "fails"}[v]
}

// CheckValue is what was measured; "–" where nothing was yet. A width is rounded down, so that a shown 999 is low; what must
// stay small is rounded up.
func CheckValue(it *check.Item) string {
	if !it.Known {
		return "–"
	}
	switch {
	case it.Kind == check.Direction, it.Kind == check.LowEnd, it.Kind == check.HighEnd:
		return strconv.FormatInt(it.Value/1000, 10) + " µs"
	case it.Unit == check.Places:
		return strconv.FormatInt(it.Value, 10) + " of " + strconv.FormatInt(it.Limit, 10)
	case it.Unit == check.Times:
		return oftenOf(it.Value)
	case it.Unit == check.PerSecond:
		s := strconv.FormatInt(it.Value/1000, 10) + " a second"
		if it.Bound {
			s = "at least " + s
		}
		return s
	case it.Value < 0:
		return "−" + fixed((-it.Value+99)/100, 1) + " µs"
	case it.Kind == check.Centre && it.Value > 0:
		return "+" + fixed((it.Value+99)/100, 1) + " µs"
	}
	return fixed((it.Value+99)/100, 1) + " µs"
}

func oftenOf(n int64) string {
	switch n {
	case 0:
		return "none"
	case 1:
		return "once"
	}
	return strconv.FormatInt(n, 10) + " times"
}

// CheckLimit is what the measured value is held against.
func CheckLimit(it *check.Item) string {
	n := fixed(it.Limit, 3) + " µs"
	switch it.Unit {
	case check.Places:
		return "all " + strconv.FormatInt(it.Limit, 10)
	case check.Times:
		return oftenOf(it.Limit)
	case check.PerSecond:
		n = fixed(it.Limit, 3)
	}
	switch it.Side {
	case check.AtLeast:
		return "at least " + n
	case check.Below:
		return "below " + n
	}
	return "at most " + n
}

// CheckAsk is what to do now, in one sentence.
func CheckAsk(v *check.View) string {
	switch v.Ask {
	case check.AskAnything:
		return "Move any stick a little, so that the radio is heard."
	case check.AskPlug:
		return "The radio is unplugged: plug it in again, and the check goes on."
	case check.AskCorners:
		return "Push both sticks to the top right for a moment: all four must stand at maximum."
	case check.AskMove:
		return checkMove(&v.Controls[v.Control])
	case check.AskRest:
		return "Let go of everything for two seconds: what is off centre or trembles shows now."
	case check.AskQuick:
		return "Move a stick from end to end, quickly, a few times: how often the radio reports shows only while something moves."
	}
	return "Every control was taken everywhere and back."
}

func checkMove(c *check.Control) string {
	name := CheckName(c)
	if c.Form == check.Switch {
		seen := 0
		for _, p := range c.Places {
			if p.Seen {
				seen++
			}
		}
		return "Take " + name + " through all its positions and wait a moment at each: " + strconv.Itoa(seen) + " of " + strconv.Itoa(len(c.Places)) + " seen."
	}
	low, high := wayTo(c.Job)
	switch {
	case c.Sprung && c.MissThrough && (!c.MissLow || !c.MissHigh):
		return "Move " + name + " from one end to the other and back, through the middle without a stop, and let it go."
	case c.MissLow && c.MissHigh:
		return "Move " + name + " " + high + " and wait a moment, then " + low + ", wait again, and bring it back."
	case c.MissHigh:
		return "Now move " + name + " " + high + ", and wait a moment."
	case c.MissLow:
		return "Now move " + name + " " + low + ", and wait a moment."
	case c.Sprung:
		return "Now let " + name + " go."
	}
	return "Now bring " + name + " " + low + "."
}

// wayTo are the words for the way to a control's low and high end.
func wayTo(job string) (low, high string) {
	switch job {
	case "throttle":
		return "down to its stop", "up to its stop"
	case "yaw", "roll":
		return "left to its stop", "right to its stop"
	case "pitch":
		return "back to its stop", "forward to its stop"
	}
	return "to its low end", "to its high end"
}

// CheckWhy says why it matters that an item warns or fails.
func CheckWhy(w check.Why) string {
	return [check.WhyCount]string{
		check.WrongWay:      "The craft would go the other way than the stick.",
		check.NeverLow:      "A craft arms only with the throttle low; like this it never is, and by sticks it could not be disarmed either.",
		check.NearlyLow:     "It is low by a hair: a little noise, and the craft refuses to arm.",
		check.CornerMissed:  "It never gets fully to this end: what is done with sticks in a corner (arming, disarming, menus) may not work, and the craft never gives all it can.",
		check.NotFully:      "It stops a little short of full travel, so the craft never gives quite all it can.",
		check.BeyondTravel:  "It goes beyond full travel; the craft may take the far end for something else.",
		check.NoPulse:       "Its end is so far out that the craft no longer takes it for a value, and counts the channel as missing.",
		check.Drifts:        "With the stick let go the craft still banks or turns.",
		check.Trembles:      "The craft trembles with it, and near the edge of a span it would switch to and fro.",
		check.MiddleDead:    "Small corrections round the middle do nothing; then the craft answers all at once.",
		check.MiddleHidden:  "The computer, not the radio, hides small movements round the middle from this program. A real craft would see them.",
		check.PositionMoved: "It stands where the radio file does not have it, so what the switch layout says of it may be wrong.",
		check.Leaps:         "No hand moves like this: the craft obeys every leap.",
		check.PlugLoose:     "The radio was away for a moment: practice breaks off, and the craft on the bench counts the link as lost.",
		check.ReadingsMiss:  "Moments of what you did are missing here. It is no fault of the radio in the air.",
		check.StaleReports:  "Between two reports the craft on the bench flies on with what you did before.",
	}[w]
}

// CheckCure says what to set in the radio, or what else to do.
func CheckCure(v *check.View, it *check.Item) string {
	name, low, high := "it", "at its low end", "at its high end"
	if it.Control >= 0 {
		c := &v.Controls[it.Control]
		name = CheckName(c)
		switch c.Job {
		case "throttle":
			low, high = "at the bottom", "at the top"
		case "yaw", "roll":
			low, high = "on the left", "on the right"
		case "pitch":
			low, high = "at the back", "at the front"
		}
	}
	switch it.Cure {
	case check.TurnRound:
		return "In the radio, reverse the channel of " + name + ", so that it reads about 2012 " + high + "."
	case check.MoreLow:
		return "In the radio, set the end point (travel) of " + name + " further out, so that it reads about 988 " + low + "."
	case check.MoreHigh:
		return "In the radio, set the end point (travel) of " + name + " further out, so that it reads about 2012 " + high + "."
	case check.LessLow:
		return "In the radio, set the end point (travel) of " + name + " closer in, so that it reads about 988 " + low + "."
	case check.LessHigh:
		return "In the radio, set the end point (travel) of " + name + " closer in, so that it reads about 2012 " + high + "."
	case check.TrimBack:
		return "In the radio, set the trim of " + name + " to zero, and the shift of its middle too, so that it reads 1500 when let go; then calibrate the sticks."
	case check.Steady:
		return "Calibrate the sticks in the radio and check again; if it stays, " + name + " is worn or dirty: have it cleaned or changed before you fly."
	case check.NoDeadZone:
		return "In the radio, set the dead zone of " + name + " to nothing, where it has one; if it stays, the stick is worn."
	case check.ReadOtherwise:
		return "Nothing to set in the radio: give yourself the right to read the radio's event device, as the README says, and plug it in again."
	case check.LearnAgain:
		return "Learn this radio again, so that its file has the switch where it really stands."
	case check.FirmPlug:
		return "Take another USB cable or port, and see that nothing pulls at the plug."
	case check.LessBusy:
		return "Close other programs, or plug the radio in without a hub, and check again."
	case check.FasterReports:
		return "Where the radio lets you choose how often it reports by USB, choose more; else plug it in without a hub."
	}
	return ""
}

// CheckVerdictOf says in one line what one item came to: "throttle, low end: fails. 1012 µs; must be below 1000 µs."
func CheckVerdictOf(v *check.View, it *check.Item) string {
	s := CheckOf(v, it) + ", " + CheckItem(it.Kind) + ": " + CheckVerdict(it.Verdict) + ". "
	if it.Verdict == check.Waiting {
		return s + "Not seen whole."
	}
	if it.Unit == check.Places && it.Verdict == check.Passes {
		return s + "All " + strconv.FormatInt(it.Limit, 10) + " seen."
	}
	value := CheckValue(it)
	if it.Verdict == check.Passes {
		return s + capital(value) + "."
	}
	return s + capital(value) + "; must be " + CheckLimit(it) + "."
}

// CheckSum says what the check came to so far.
func CheckSum(v *check.View) string {
	bad := []string{}
	if n := v.Count[check.Fails]; n > 0 {
		bad = append(bad, counted(n, "item fails", "items fail"))
	}
	if n := v.Count[check.Warns]; n > 0 {
		bad = append(bad, counted(n, "warns", "warn"))
	}
	good := counted(v.Count[check.Passes], "passes", "pass")
	switch {
	case v.Settled && len(bad) == 0:
		return "Full and free: all " + strconv.Itoa(len(v.Items)) + " items pass."
	case v.Settled:
		return "Checked: " + list(append(bad, good), "and") + "."
	}
	return capital(list(append(bad, good, counted(v.Count[check.Waiting], "waits", "wait")), "and")) + "."
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// CheckUnfinished says that the check was ended before everything was moved.
func CheckUnfinished(n int) string {
	return "Not finished: " + counted(n, "item was", "items were") + " never seen whole."
}

// CheckNeedsRadio says what to do where no radio drives that could be checked: how many are plugged in, the key that lets one drive, empty
// where none does.
func CheckNeedsRadio(playing bool, radios int, key string) string {
	const only = ": only a radio's own controls can be checked."
	switch {
	case playing:
		return "Something is being played, so no radio drives. Wait until it has ended."
	case radios > 0:
		return "No radio drives. " + LetDrive("one", key) + only
	}
	return "No radio drives. Plug one in by USB, choose joystick on it, and let it drive" + only
}

// CheckWhatIsSeen lists what the check looks at, for whoever has no radio at hand.
func CheckWhatIsSeen() []string {
	return []string{
		"Direction: with both sticks in their top right corners all four stand at maximum.",
		"Travel: the throttle goes below 1000 µs, and every stick fully to each end (988 and 2012 µs).",
		"Rest: how far off 1500 µs a stick stands when it is let go.",
		"Noise and jumps: what the radio sends while nobody moves anything, and what no hand does.",
		"Switches: every position is seen, where it was learned.",
		"Plug and reports: readings lost, and how often the radio reports while a control moves.",
	}
}

// CheckColumn heads a column of the table of controls: 0 control, 1 low end, 2 high end, 3 rest, 4 noise, 5 jumps, 6 verdict.
func CheckColumn(i int) string {
	return []string{"control", "low end", "high end", "rest", "noise", "jumps", "so far"}[i]
}

// CheckFindings heads the list of what warns or fails.
func CheckFindings(n int) string {
	if n == 0 {
		return "nothing to set so far"
	}
	return counted(n, "thing to see to", "things to see to")
}

// CheckLeft counts what there is no room for.
func CheckLeft(n int) string { return "… and " + strconv.Itoa(n) + " more" }

// CheckGood stands where nothing is to be set.
func CheckGood() string { return "Nothing to set. Test the real craft all the same, propellers off." }

// CheckOfRadio is the radio as a whole in the table.
func CheckOfRadio() string { return "radio as a whole" }

// CheckShort is what was measured for a narrow column, its unit left out where the heading has it.
func CheckShort(it *check.Item) string {
	s := strings.TrimSuffix(CheckValue(it), " µs")
	if it.Kind == check.Positions && it.Unit == check.Places {
		return s + " seen"
	}
	if it.Kind == check.Positions {
		return "off by " + s
	}
	if it.Kind == check.Dropouts {
		return "lost: " + s
	}
	return s
}

// CheckMust is what the measured value must be; nothing for what passes.
func CheckMust(it *check.Item) string {
	if it.Verdict == check.Passes && it.Unit == check.Places {
		return ""
	}
	return "must be " + CheckLimit(it)
}

// CheckAboveLeft counts the findings above the first that is shown.
func CheckAboveLeft(n int) string { return "and " + strconv.Itoa(n) + " above" }

// CheckSeen says in how many of its positions a switch was seen.
func CheckSeen(seen, all int) string {
	return strconv.Itoa(seen) + " of " + strconv.Itoa(all) + " seen"
}

// CheckNotMoved stands for a whole control that was not moved yet.
func CheckNotMoved() string { return "not moved" }

// CheckHands heads the drawing of the controls.
func CheckHands(mode int) string { return "as held, stick mode " + strconv.Itoa(mode) }

// CheckControls heads the table.
func CheckControls() string { return "controls, values in µs" }

// CheckWhyWord and CheckDoWord stand before why it matters and what to set.
func CheckWhyWord() string { return "Why: " }

// CheckDoWord stands before what to set.
func CheckDoWord() string { return "Do: " }

// CheckAlone says that the radio file is of another radio.
func CheckOfAnother(device, file string) string {
	return "This radio file was learned for " + file + ", but the radio is " + device + ": what is checked would mean nothing. Leave --radio out, or learn this radio."
}

// CheckNotLearned says that there is no radio file.
func CheckNotLearned(device string) string {
	return device + " has not been learned yet, so nobody knows which of its axes is which: run \"propsoff learn\" first, or answer the questions in the window."
}

// CheckBack says that the radio is there again.
func CheckBack(device string) string { return device + " is back; the check goes on." }

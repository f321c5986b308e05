package phrase

import (
	"strings"

	"propsoff/sim/flight"
)

// FirstTitle heads the sheet before the first flight.
func FirstTitle(air bool) string {
	if air {
		return "The craft is on the air bench: it can fly"
	}
	return "Before the first flight"
}

// FirstWhat says what the sheet is for.
func FirstWhat(air bool) string {
	if air {
		return "Its propellers are seen here; what is asked for is done on the desk bench."
	}
	return "What a real first flight asks for. All of it is done on the desk bench; then the craft may go out and fly."
}

// FirstHeading heads the list of what must have been seen, PuzzleHeading the propellers.
func FirstHeading() string  { return "seen on the desk bench" }
func PuzzleHeading() string { return "propellers, seen from above, nose up" }

// Need names what must have been seen, and NeedHow says how to come by it; in the order of sheet.NeedCheck and on. The keys are
// those of the controls check, of the radio's switch and of "checked".
func Need(i int) string {
	return []string{
		"Every control of the radio was checked",
		"The craft armed",
		"The craft disarmed",
		"Its link was lost, and what it then does was seen",
		"The propellers were checked",
	}[i]
}

// FirstKeys are the keys that NeedHow names. Played: they wait until what is played has ended. Drives: a radio does; else Radios are
// plugged in, and LetDrive lets one drive, empty where no key does.
type FirstKeys struct {
	Check, First, Radio, Checked, LetDrive string
	Played, Drives                         bool
	Radios                                 int
}

// NeedHow says how to come by what a need asks for.
func NeedHow(i int, k FirstKeys) string {
	if k.Played {
		return capital(NotWhilePlaying()) + "."
	}
	check := "press " + k.Check + " and move every stick and switch as it asks."
	switch {
	case k.Drives:
		check = capital(check)
	case k.Radios > 0:
		check = LetDrive("your radio", k.LetDrive) + "; then " + check
	default:
		check = "Plug your radio in and let it drive; then " + check + " By keyboard nothing is checked."
	}
	return []string{
		check,
		"On the bench (" + k.First + "), arm as its large sentence says.",
		"On the bench, disarm again.",
		"On the bench, arm; then press " + k.Radio + " to switch the radio off; watch for some seconds, and press " + k.Radio + " again.",
		"Look at each motor and choose its propeller; then press " + k.Checked + ".",
	}[i]
}

// NeedSeen says when a need was met; how is a sentence on it, or empty. A tick below 0 is one that nobody knows.
func NeedSeen(tick int64, how string) string {
	if tick < 0 {
		if how == "" {
			return "Done."
		}
		return how
	}
	if how == "" {
		return "Seen at " + tenths(float64(tick)/1000) + " s."
	}
	return "At " + tenths(float64(tick)/1000) + " s: " + how
}

// PropellersSeen says that the pilot has checked the propellers.
func PropellersSeen() string { return "You have checked them." }

// NeedMark is the word beside a need.
func NeedMark(done bool) string {
	if done {
		return "done"
	}
	return "to do"
}

// FirstReady says whether the craft may go out; left counts what is missing. key carries it, empty while what is played has it.
func FirstReady(air bool, left int, key string) string {
	switch {
	case key == "" && (air || left == 0):
		return "What is played has the craft: it stays where it is until that has ended."
	case air:
		return "Press " + key + " to carry the craft to the desk bench, where it cannot fly."
	case left == 0:
		return "Everything is done. Press " + key + " to carry the craft out to the air bench."
	case left == 1:
		return "One thing is still to do."
	}
	return [...]string{"", "", "Two", "Three", "Four", "Five"}[min(left, 5)] + " things are still to do."
}

// Turning is a direction in which something turns, seen from above.
func Turning(direction int8) string {
	switch {
	case direction > 0:
		return "clockwise"
	case direction < 0:
		return "counter-clockwise"
	}
	return "none"
}

// MotorTurns and PropellerIs are the two lines at a motor.
func MotorTurns(direction int8) string { return "motor turns " + Turning(direction) }
func PropellerIs(hand int8) string {
	if hand == 0 {
		return "no propeller"
	}
	return "propeller lifts " + Turning(hand)
}

// ClassPropeller is PropellerIs in fewer words.
func ClassPropeller(hand int8) string {
	if hand == 0 {
		return "no propeller"
	}
	return "lifts " + Turning(hand)
}

// FitNext says which propeller the key puts on.
func FitNext(hand int8) string {
	switch {
	case hand > 0:
		return "fit clockwise"
	case hand < 0:
		return "fit counter-cl."
	}
	return "take it off"
}

// PuzzleRules say what a beginner must know to choose.
func PuzzleRules() string {
	return "Each motor turns the way of the arrow outside its ring. A propeller lifts only when it is turned its own way, the way of " +
		"the arrow on it: real ones bear such a mark. Turned the other way it pushes down."
}

// PuzzleNotTold says that nobody tells here whether it is right.
func PuzzleNotTold() string {
	return "Nobody says here whether they are right, as nobody does at the field: the first throttle will."
}

// FlightCame says what the last flight came to; flipped tells that it tipped over, else it never left the ground.
func FlightCame(flipped bool) string {
	if flipped {
		return "The last flight tipped over."
	}
	return "The last flight never left the ground."
}

// WrongPropellers says with that which propellers were wrong.
func WrongPropellers(turns, tried [flight.Motors]int8, flipped bool) string {
	var none, wrong []string
	var needs []string
	for i, place := range Places() {
		switch {
		case tried[i] == 0:
			none = append(none, place)
		case tried[i] != turns[i]:
			wrong = append(wrong, place)
			needs = append(needs, Turning(turns[i]))
		}
	}
	out := FlightCame(flipped)
	switch n := len(wrong); {
	case n == 1:
		out += " The propeller " + wrong[0] + " was the wrong one: its motor turns " + needs[0] + ", so it pushed down instead of lifting."
	case n == flight.Motors:
		out += " All four propellers were the wrong ones: each pushed down instead of lifting."
	case n > 1:
		out += " The propellers " + list(wrong, "and") + " were the wrong ones: they pushed down instead of lifting."
	}
	if len(none) > 0 {
		out += " There was none " + list(none, "and") + "."
	}
	if len(wrong)+len(none) == 0 {
		out += " The propellers were right; it was flown over."
		if !flipped {
			out = strings.Replace(out, "it was flown over", "it needs more throttle", 1)
		}
	}
	return out
}

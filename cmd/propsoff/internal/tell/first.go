package tell

import (
	"propsoff/assets/words"
	"propsoff/sim/flight"
)

// FirstTitle heads the sheet before the first flight, FirstWhat says what it is for.
func FirstTitle(air bool) words.Text {
	return words.T("first.title", words.Args{"air": words.Flag(air)})
}
func FirstWhat(air bool) words.Text { return words.T("first.what", words.Args{"air": words.Flag(air)}) }

// Need names what must have been seen, and NeedHow says how to come by it; in the order of sheet.NeedCheck and on. The keys are
// those of the controls check, of the radio's switch and of "checked".
func Need(i int) words.Text {
	return words.T([...]words.ID{"first.need-check", "first.need-arm", "first.need-disarm", "first.need-loss", "first.need-propellers"}[i])
}

// FirstKeys are the keys that NeedHow names. Played: they wait until what is played has ended. Drives: a radio does; else Radios are
// plugged in, and LetDrive lets one drive, empty where no key does.
type FirstKeys struct {
	Check, First, Radio, Checked, LetDrive words.Text
	Played, Drives                         bool
	Radios                                 int
}

// NeedHow says how to come by what a need asks for.
func NeedHow(i int, k FirstKeys) words.Text {
	if k.Played {
		return words.T("first.how-played")
	}
	switch i {
	case 1:
		return words.T("first.how-arm", words.Args{"key": k.First})
	case 2:
		return words.T("first.how-disarm")
	case 3:
		return words.T("first.how-loss", words.Args{"key": k.Radio})
	case 4:
		return words.T("first.how-propellers", words.Args{"key": k.Checked})
	}
	switch {
	case k.Drives:
		return words.T("first.how-check", words.Args{"key": k.Check})
	case k.Radios > 0:
		return words.T("first.how-check-let", words.Args{"key": k.Check, "let": k.LetDrive})
	}
	return words.T("first.how-check-plug", words.Args{"key": k.Check})
}

// NeedSeen says when a need was met; how is a sentence on it, or nothing. A tick below 0 is one that nobody knows.
func NeedSeen(tick int64, how words.Text) words.Text {
	at := rounded(float64(tick)/1000, 1)
	switch {
	case tick < 0 && how.Empty():
		return words.T("first.done-sometime")
	case tick < 0:
		return how
	case how.Empty():
		return words.T("first.seen", words.Args{"at": at})
	}
	return words.T("first.seen-how", words.Args{"at": at, "how": how})
}

// NeedMark is the word beside a need.
func NeedMark(done bool) words.Text {
	return words.T("first.mark", words.Args{"done": words.Flag(done)})
}

// stillToDo is what is said of so many needs that are left.
var stillToDo = [...]words.ID{"", "first.one-left", "first.two-left", "first.three-left", "first.four-left", "first.five-left"}

// FirstReady says whether the craft may go out; left counts what is missing. key carries it, empty while what is played has it.
func FirstReady(air bool, left int, key words.Text) words.Text {
	switch {
	case key.Empty() && (air || left == 0):
		return words.T("first.craft-played")
	case air:
		return words.T("first.carry-in", words.Args{"key": key})
	case left == 0:
		return words.T("first.carry-out", words.Args{"key": key})
	}
	return words.T(stillToDo[min(left, len(stillToDo)-1)])
}

// MotorTurns and PropellerIs are the two lines at a motor, ClassPropeller is PropellerIs in fewer words. Above 0 is clockwise, seen from
// above, below 0 counter-clockwise; hand 0 is no propeller.
func MotorTurns(direction int8) words.Text {
	return words.T("first.motor", words.Args{"clockwise": words.Flag(direction > 0)})
}
func PropellerIs(hand int8) words.Text {
	if hand == 0 {
		return words.T("first.no-propeller")
	}
	return words.T("first.propeller", words.Args{"clockwise": words.Flag(hand > 0)})
}
func ClassPropeller(hand int8) words.Text {
	if hand == 0 {
		return words.T("first.no-propeller")
	}
	return words.T("first.lifts", words.Args{"clockwise": words.Flag(hand > 0)})
}

// FitNext says which propeller the key puts on.
func FitNext(hand int8) words.Text {
	if hand == 0 {
		return words.T("first.take-off")
	}
	return words.T("first.fit", words.Args{"clockwise": words.Flag(hand > 0)})
}

// FlightCame says what the last flight came to; flipped tells that it tipped over, else it never left the ground.
func FlightCame(flipped bool) words.Text {
	return words.T("first.came", words.Args{"flipped": words.Flag(flipped)})
}

// WrongPropellers says with that which propellers were wrong.
func WrongPropellers(turns, tried [flight.Motors]int8, flipped bool) words.Text {
	var none, wrong []words.Text
	turn := int8(0) // of the motor of the last wrong one
	for i, place := range Places() {
		switch {
		case tried[i] == 0:
			none = append(none, place)
		case tried[i] != turns[i]:
			wrong, turn = append(wrong, place), turns[i]
		}
	}
	out := []words.Text{FlightCame(flipped)}
	switch n := len(wrong); {
	case n == 1:
		out = append(out, words.T("first.one-wrong", words.Args{"place": wrong[0], "clockwise": words.Flag(turn > 0)}))
	case n == flight.Motors:
		out = append(out, words.T("first.all-wrong"))
	case n > 1:
		out = append(out, words.T("first.some-wrong", words.Args{"places": words.And(wrong...)}))
	}
	if len(none) > 0 {
		out = append(out, words.T("first.none-there", words.Args{"places": words.And(none...)}))
	}
	if len(wrong)+len(none) == 0 {
		out = append(out, words.T("first.all-right", words.Args{"flipped": words.Flag(flipped)}))
	}
	return words.Row(out...)
}

package tell

import (
	"propsoff.example/assets/words"
	"propsoff.example/sim/flight"
)

// FirstTitle heads the sheet before the first flight.
func FirstTitle(air bool) words.Text {
	return words.T("first.title", words.Args{"air": words.Flag(air)})
}

// Need names what must have been seen: 0 the controls check, 1 arming, 2 disarming, 3 a lost link, 4 the propellers.
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
	how := [...]struct {
		id  words.ID
		key words.Text
	}{{"first.how-check", k.Check}, {"first.how-arm", k.First}, {id: "first.how-disarm"}, {"first.how-loss", k.Radio}, {"first.how-propellers", k.Checked}}[i]
	return words.T(how.id, words.Args{
		"key": how.key, "plug": words.Flag(!k.Drives && k.Radios == 0), "lets": words.Flag(!k.Drives && k.Radios > 0), "let": k.LetDrive,
	})
}

// NeedSeen says when a need was met; how is a sentence on it, or nothing. A tick below 0 is one that nobody knows.
func NeedSeen(tick int64, how words.Text) words.Text {
	return words.T("first.seen", words.Args{"known": words.Flag(tick >= 0), "at": rounded(float64(tick)/1000, 1), "how": how})
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

// PropellerIs is the line below: which way the propeller lifts; hand 0 is no propeller.
func PropellerIs(hand int8) words.Text {
	return words.T("first.propeller", words.Args{"there": words.Flag(hand != 0), "clockwise": words.Flag(hand > 0)})
}

// ClassPropeller is PropellerIs in fewer words.
func ClassPropeller(hand int8) words.Text {
	return words.T("first.lifts", words.Args{"there": words.Flag(hand != 0), "clockwise": words.Flag(hand > 0)})
}

// FitNext says which propeller the key puts on.
func FitNext(hand int8) words.Text {
	return words.T("first.fit", words.Args{"there": words.Flag(hand != 0), "clockwise": words.Flag(hand > 0)})
}

// WrongPropellers says with that which propellers were wrong.
func WrongPropellers(turns, tried [flight.Motors]int8, flipped bool) words.Text {
	out := []words.Text{words.T("first.came", words.Args{"flipped": words.Flag(flipped)})}
	wrong := wrongOnes(turns, tried)
	if len(wrong) == 0 {
		wrong = append(wrong, words.T("first.all-right", words.Args{"flipped": words.Flag(flipped)}))
	}
	return words.Row(append(out, wrong...)...)
}

// wrongOnes names the propellers that do not lift the way their motors turn, and those that are missing; nothing where all are right.
func wrongOnes(turns, tried [flight.Motors]int8) (out []words.Text) {
	var wrong, none []words.Text
	turn := int8(0) // of the motor of the last wrong one
	for i, place := range Places() {
		switch {
		case tried[i] == 0:
			none = append(none, place)
		case tried[i] != turns[i]:
			wrong, turn = append(wrong, place), turns[i]
		}
	}
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
	return out
}

// MissingPropellers names the motors on which there is no propeller; it says nothing where each has one.
func MissingPropellers(hands [flight.Motors]int8) words.Text {
	var none []words.Text
	for i, place := range Places() {
		if hands[i] == 0 {
			none = append(none, place)
		}
	}
	switch len(none) {
	case 0:
		return words.Text{}
	case flight.Motors:
		return words.T("first.missing-all")
	}
	return words.T("first.missing", words.Args{"places": words.And(none...)})
}

package tell

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/gestures/menu"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/pulse"
)

// What is seen in a picture, for those who listen in the place of looking.

// Reason is a refusal that is past, as a clause.
func Reason(r facts.Refusal) words.Text { return words.Of("reason", codes.Refusal(r)) }

// StickReads says where a stick direction, counted from the throttle, stands as the radio says it: by its zone and in µs.
func StickReads(d int, zone drill.Zone, w pulse.Width) words.Text {
	var width words.Text
	if w.Valid() {
		width = Width(w)
	}
	return words.T("spoken.stick", words.Args{"job": JobDirection(d), "at": StickZones(drill.Throttle+drill.Job(d&3), 1<<zone), "width": width})
}

// MenuAnswer is an answer to what a menu asks on leaving; nothing where it asks nothing.
func MenuAnswer(a menu.Answer) words.Text {
	switch a {
	case menu.Keep:
		return words.T("goggles.answer.keep")
	case menu.PutBack:
		return words.T("goggles.answer.put-back")
	case menu.Stay:
		return words.T("goggles.answer.stay")
	}
	return words.Text{}
}

// PropellersSeen says of each motor which way it turns, seen from above, and which way the propeller on it must turn to lift. Both count as in
// body.Config.
func PropellersSeen(hands, turns [flight.Motors]int8) words.Text {
	all := make([]words.Text, 0, flight.Motors)
	for i, place := range Places() {
		all = append(all, words.T("spoken.propeller", words.Args{"place": place, "motor": words.T("first.motor", words.Args{"clockwise": words.Flag(turns[i] > 0)}), "propeller": PropellerIs(hands[i])}))
	}
	return words.T("spoken.propellers", words.Args{"all": words.Clauses(all...)})
}

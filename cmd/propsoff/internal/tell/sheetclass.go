package tell

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim"
)

// The short lines of class view, which is read from the back of a room.

// ClassLink is the link in one short line.
func ClassLink(f *facts.Facts) words.Text {
	return words.T("class.link", words.Args{"link": judgedLink(f)})
}

// ClassMode is the mode in one short line.
func ClassMode(s *sim.Snapshot) words.Text {
	return words.T("class.mode", words.Args{"mode": Mode(s.Mode), "air": words.Flag(s.AirAwake)})
}

// ClassMotors is the motors in one short line.
func ClassMotors(s *sim.Snapshot, cfg *sim.Config) words.Text {
	return words.T("class.motors", words.Args{"motors": Motor(s.Motor[0], cfg.Flight.IdleSpeed)})
}

// ClassWhy stands above the refusals or in their place.
func ClassWhy(f *facts.Facts, any bool) words.Text {
	if f.Snap.Armed && f.Reaches() {
		return words.T("disarms.refusals-not")
	}
	return WhySentence(f, any)
}

// RefusalsLeft counts the refusals for which there is no room.
func RefusalsLeft(n int) words.Text {
	return words.T("class.refusals-left", words.Args{"n": words.Count(n)})
}

// ClassSwitch is one switch: "arm: on, 2012 µs". Where it stands at no position, the value stands alone, as it is.
func ClassSwitch(name, position words.Text, value words.Value) words.Text {
	return words.T("class.switch", words.Args{"name": name, "position": position, "value": value})
}

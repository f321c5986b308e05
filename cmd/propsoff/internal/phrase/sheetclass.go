package phrase

import (
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim"
)

// The short lines of class view, which is read from the back of a room.

// ClassLink is the link in one short line.
func ClassLink(f *facts.Facts) string { return "Link: " + uncapital(LinkLine(f)) }

// ClassMode is the mode in one short line.
func ClassMode(s *sim.Snapshot) string {
	if s.AirAwake {
		return "Mode: " + Mode(s.Mode) + ", air mode"
	}
	return "Mode: " + Mode(s.Mode)
}

// ClassMotors is the motors in one short line.
func ClassMotors(s *sim.Snapshot, cfg *sim.Config) string {
	return "Motors: " + Motor(s.Motor[0], cfg.Flight.IdleSpeed)
}

// ClassWhy stands above the refusals or in their place.
func ClassWhy(f *facts.Facts, any bool) string {
	if f.Snap.Armed && f.Reaches() {
		return RefusalsDisarmNot()
	}
	return WhySentence(f, any)
}

// RefusalsLeft counts the refusals for which there is no room.
func RefusalsLeft(n int) string { return "… and " + count(n, "refusal") + " more" }

// ClassSwitch is one switch: "arm: on, 2012 µs".
func ClassSwitch(name, position, value string) string {
	if position == "" {
		return name + ": " + value
	}
	return name + ": " + position + ", " + value + " µs"
}

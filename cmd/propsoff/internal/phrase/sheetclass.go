package phrase

import "propsoff/sim"

// The short lines of class view, which is read from the back of a room.

// ClassLink is the link in one short line.
func ClassLink(s *sim.Snapshot) string { return "Link: " + Link(s) }

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
func ClassWhy(s *sim.Snapshot, cfg *sim.Config, any bool) string {
	if s.Armed && !s.In.Transmitting() {
		return WhatDisarms(s, cfg)
	}
	if s.Armed {
		return "What refuses arming never disarms."
	}
	return WhySentence(s, cfg, any)
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

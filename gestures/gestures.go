// Package gestures follows two-stick patterns: how far along, what is missing, fired or near miss.
//
// Step is called once a slot with the sticks of the last received frame. Everything is an integer, and two equal States are the
// same situation. The rules:
//
//   - A pattern is a chain of one to four parts. A part asks each stick direction to stand low, in the middle, high, or anywhere.
//     It is entered when every direction stands at or beyond its edge, and left when one comes back over the further edge, so that
//     a stick that trembles at an edge neither comes nor goes.
//   - A part has been made when its dwell has passed since the first frame in it. A later part must be entered within its time
//     limit, counted from the first frame in which the part before was left; it may be left and entered again within that. A chain
//     whose first part is made again meanwhile starts again from it; until then the limit runs on.
//   - In slots without a valid frame time goes on, but only a valid frame starts, ends or completes anything.
//   - A part counts only where the sticks came into it while gestures counted. Sticks that stand in it since before (at power-up,
//     while armed, without a link, behind a menu), or since it was last made, must leave it first: it is spent.
//   - Where one pattern asks for all that another asks and for more, the other waits as long as the sticks stand in the first:
//     the more specific goes first. Of two that are complete in one slot the one that asks for more directions is made, of equals the
//     one with more parts, and of those the one written first. Every other pattern in whose last part the sticks stand when one is made is spent
//     with it. Only patterns declared to go together (With) are made together, and none of them waits for the other.
//
// Near misses are recorded, each once a visit: left after half the dwell or more; all directions but one in place for a whole
// dwell, with the last one at least halfway to its edge, or out of the middle; a next part that was entered too late, but no
// later than twice its limit.
package gestures

import "propsoff.example/sim/pulse"

// Zone is where a stick direction stands, or is asked to stand.
type Zone uint8

// The zones. Any asks for nothing.
const (
	Any Zone = iota
	Low
	Middle
	High
	zones
)

// Direction is one stick direction by job; by physical stick it is left across, left up, right across, right up.
type Direction uint8

// The directions by job, in the order of Input.Sticks.
const (
	Throttle Direction = iota
	Roll
	Pitch
	Yaw
	Directions
)

// The directions by physical stick.
const (
	LeftAcross Direction = iota
	LeftUp
	RightAcross
	RightUp
)

// OnSticks gives the job of each physical stick direction (left across, left up, right across, right up) in a stick mode of 1 to
// 4; any other counts as 2 (common practice, no source).
func OnSticks(mode uint8) [Directions]Direction {
	switch mode {
	case 1:
		return [...]Direction{Yaw, Pitch, Roll, Throttle}
	case 3:
		return [...]Direction{Roll, Pitch, Yaw, Throttle}
	case 4:
		return [...]Direction{Roll, Throttle, Yaw, Pitch}
	}
	return [...]Direction{Yaw, Throttle, Roll, Pitch}
}

// Codes are the code words of the patterns in their order.
func (c *Config) Codes() []string {
	var out []string
	for i := range c.Patterns {
		out = append(out, c.Patterns[i].Code)
	}
	return out
}

// Part is one stand of a gesture: where each direction is to be, and for how long.
type Part struct {
	// Zones are by job, or by physical stick (left across, left up, right across, right up) where the pattern is Physical.
	Zones [Directions]Zone
	// Dwell is how long the sticks must stand there, in slots, 1..MostSlots. Within is how long the way there may take, in slots, from
	// leaving the part before to entering this one, 1..MostSlots; 0 for the first part.
	Dwell, Within uint16
}

// MostParts is the most parts of one gesture.
const MostParts = 4

// MostSlots is the longest dwell and the longest time limit, in slots.
const MostSlots = 30000

// MostTogether is how many patterns of a set can be declared to go together: those of index 0 to 63.
const MostTogether = 64

// Pattern is one gesture: the first Count of Parts, one after the other.
type Pattern struct {
	// Name is what a person calls it; Code is its word in files.
	Name, Code string
	// Physical: Zones are by physical stick and need the stick mode.
	Physical bool
	Parts    [MostParts]Part
	Count    uint8
	// Opens is one more than the index of the menu that it opens, 0 for none.
	Opens uint8
	// With has the bit of every pattern set that may fire in the same slot as this one. It is given on both sides.
	With uint64
}

// JobZones are the zones of a part by job, in a stick mode.
func (p *Pattern) JobZones(part int, mode uint8) [Directions]Zone {
	z := p.Parts[part].Zones
	if !p.Physical {
		return z
	}
	var out [Directions]Zone
	for i, job := range OnSticks(mode) {
		out[job] = z[i]
	}
	return out
}

// StickZones are the zones of a part by physical stick, in a stick mode.
func (p *Pattern) StickZones(part int, mode uint8) [Directions]Zone {
	z := p.Parts[part].Zones
	if p.Physical {
		return z
	}
	var out [Directions]Zone
	for i, job := range OnSticks(mode) {
		out[i] = z[job]
	}
	return out
}

// Config is a set of patterns and the edges of their zones.
type Config struct {
	Patterns []Pattern
	// LowIn and HighIn are where low and high are entered, at or beyond (70 % of travel, ours), LowOut and HighOut where they are left
	// (60 %). The middle is entered within MiddleIn of the centre (25 %) and left at MiddleOut (35 %).
	LowIn, LowOut, HighIn, HighOut pulse.Width
	MiddleIn, MiddleOut            pulse.Width
	// SlotTicks is the length of a slot in ms; happenings and screens turn slots into times with it.
	SlotTicks uint16
}

// Default is a Config without patterns, with the edges of every zone at their defaults. They are whole eighths of a µs, rounded
// outwards from the middle where a zone is entered at or beyond them.
func Default(slotTicks uint16) Config {
	cfg := Config{SlotTicks: slotTicks}
	cfg.SetEdges(700, 600, 250, 350)
	return cfg
}

// SetEdges sets the edges of every zone, in tenths of a percent of travel: where low and high are entered and left, and where the
// middle is.
func (cfg *Config) SetEdges(endIn, endOut, middleIn, middleOut int) {
	beyond := func(tenths int) pulse.Width { return pulse.Width((tenths*int(pulse.Travel) + 999) / 1000) }
	cfg.LowIn, cfg.HighIn = pulse.Centre-beyond(endIn), pulse.Centre+beyond(endIn)
	cfg.LowOut, cfg.HighOut = pulse.Centre-beyond(endOut), pulse.Centre+beyond(endOut)
	cfg.MiddleIn = pulse.Width(middleIn * int(pulse.Travel) / 1000)
	cfg.MiddleOut = beyond(middleOut)
}

// Input is what one slot brings.
type Input struct {
	// Sticks are throttle, roll, pitch and yaw as received.
	Sticks [Directions]pulse.Width
	// StickMode is 1 to 4; 0 counts as 2.
	StickMode uint8
	// Valid: the slot brought a valid frame.
	Valid bool
	// Live: gestures count, because the craft is disarmed, its link is good and no menu is open.
	Live bool
}

// Phase is how far a pattern has come.
type Phase uint8

const (
	// Unseen: no valid frame has come yet, or none since the link was lost. Sticks that stand in the part at the next one are spent.
	Unseen Phase = iota
	// Away: the sticks are elsewhere.
	Away
	// Close: all directions but one stand where the part asks, and that one is near.
	Close
	// Standing: all stand where the part asks, and its dwell runs.
	Standing
	// Held: the part is made and not the last; the sticks still stand in it.
	Held
	// HeldOver is Held, but the sticks were already in the next part before it was asked for: they must leave that first.
	HeldOver
	// Spent: the sticks stand in the part and must leave it before it can count. Then the chain goes on where Wait runs, else it
	// begins.
	Spent
)

// State is one pattern as it stands; the zero value is that of a craft that has just got power. A set is a slice of them
// that the caller keeps, one for each pattern.
type State struct {
	Phase Phase
	// Part is the part that is asked for, counted from 0.
	Part uint8
	// Told: a near miss of this visit has been recorded.
	Told bool
	// Free: the sticks have left the first part since it was made, so that the pattern may begin again; false while Part is 0.
	Free bool
	// Time is one more than the slots since Close or Standing began, up to one more than the dwell; 0 otherwise.
	Time uint16
	// Wait is one more than the slots since the part before was left; 0 where it was not, or there is none.
	Wait uint16
	// Again is one more than the slots since the sticks came into the first part again while a later one is waited for; 0 otherwise.
	Again uint16
}

var _ = map[State]struct{}{}

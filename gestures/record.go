package gestures

import "propsoff.example/sim/pulse"

// Recording is what came of recording a pattern from a hand.
type Recording uint8

// What can come of a recording.
const (
	// Recorded: the pattern is whole.
	Recorded Recording = iota
	// NothingHeld: the sticks never stood still anywhere but where they began.
	NothingHeld
	// StoodBetween: a stick stood still between two zones, so that there is no telling which was meant.
	StoodBetween
	// TooManyParts: the sticks stood in more places than a pattern can have.
	TooManyParts
)

// Verdict is a Recording, and with StoodBetween the direction, in the pattern's own order.
type Verdict struct {
	Recording Recording
	Direction Direction
}

// The times of a recording in ms (ours): how long the sticks must stand for a part, the steps to which a dwell is rounded down and
// its longest, the steps to which the time between parts is rounded up after it was doubled, its shortest and its longest.
const (
	leastStand     = 300
	dwellStep      = 100
	longestDwell   = 3000
	withinStep     = 500
	shortestWithin = 1000
	longestWithin  = 20000
)

// mostStands is how many places are looked for in a trail.
const mostStands = 4 * MostParts

// Record makes a pattern from a hand's trail: the sticks as received, throttle, roll, pitch and yaw, one for each slot. It begins
// where the sticks rest, and where they rest again is not a part. Neither is a place where they stood less than half as long as at the
// longest: they were on their way. A part asks every direction to be where it stood; its dwell is how long the sticks stood there, rounded
// down, so that the same hand can make it again. The pattern has no name yet.
func Record(cfg *Config, trail [][Directions]pulse.Width, physical bool, mode uint8) (Pattern, Verdict) {
	r := recorder{cfg: cfg, jobs: OnSticks(mode), ticks: max(int(cfg.SlotTicks), 1)}
	if !physical {
		r.jobs = [...]Direction{Throttle, Roll, Pitch, Yaw}
	}
	for i := range trail {
		r.slot(&trail[i])
	}
	r.ended()
	return r.pattern(physical)
}

// recorder goes through a trail.
type recorder struct {
	cfg   *Config
	jobs  [Directions]Direction
	ticks int

	begun      bool
	rest, now  [Directions]Zone // Any: between two zones
	slots, gap int              // in now, and since the last place was left
	places     [mostStands]place
	count      int
	more       bool
}

// place is one where the sticks stood: how long, in slots from the first to the last, and how long they were under way before.
type place struct {
	zones     [Directions]Zone
	held, gap int
}

func (r *recorder) slot(sticks *[Directions]pulse.Width) {
	var z [Directions]Zone
	for i, job := range r.jobs {
		z[i] = r.zone(sticks[job], r.now[i])
	}
	if !r.begun {
		r.begun, r.rest, r.now = true, z, z
	}
	if z != r.now {
		r.ended()
		r.now = z
	}
	r.slots++
}

// zone is where a direction stands; it stays in its zone until it is over the edge by which that is left.
func (r *recorder) zone(w pulse.Width, was Zone) Zone {
	if was != Any && r.cfg.off(w, was, true) == 0 {
		return was
	}
	for z := Low; z <= High; z++ {
		if r.cfg.off(w, z, false) == 0 {
			return z
		}
	}
	return Any
}

// ended is the end of a stand.
func (r *recorder) ended() {
	held := r.slots - 1
	if held*r.ticks < leastStand || r.now == r.rest {
		r.gap, r.slots = r.gap+r.slots, 0
		return
	}
	if r.count == mostStands {
		r.more = true
		return
	}
	r.places[r.count] = place{r.now, held, r.gap + 1}
	r.count++
	r.gap, r.slots = 0, 0
}

// pattern makes a pattern of the places.
func (r *recorder) pattern(physical bool) (Pattern, Verdict) {
	p := Pattern{Physical: physical}
	longest, gap := 0, 0
	for i := range r.count {
		longest = max(longest, r.places[i].held)
	}
	for i := range r.count {
		at := &r.places[i]
		if gap += at.gap; 2*at.held < longest {
			gap += at.held
			continue
		}
		for d, z := range at.zones {
			if z == Any {
				return p, Verdict{StoodBetween, Direction(d)}
			}
		}
		if p.Count == MostParts {
			return p, Verdict{Recording: TooManyParts}
		}
		part := Part{Zones: at.zones, Dwell: r.slotsOf(min(at.held*r.ticks/dwellStep*dwellStep, longestDwell))}
		if p.Count > 0 {
			part.Within = r.slotsOf(min(max((2*gap*r.ticks+withinStep-1)/withinStep*withinStep, shortestWithin), longestWithin))
		}
		p.Parts[p.Count] = part
		p.Count++
		gap = 0
	}
	switch {
	case r.more:
		return p, Verdict{Recording: TooManyParts}
	case p.Count == 0:
		return p, Verdict{Recording: NothingHeld}
	}
	return p, Verdict{}
}

// slotsOf is a time in ms, rounded up to slots.
func (r *recorder) slotsOf(ms int) uint16 { return uint16(min((ms+r.ticks-1)/r.ticks, MostSlots)) }

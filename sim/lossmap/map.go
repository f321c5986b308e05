package lossmap

import (
	"math"

	"propsoff.example/sim"
	"propsoff.example/sim/hover"
	"propsoff.example/sim/pulse"
)

// Axes are the values over which a map goes.
type Axes struct {
	// Heights in m and Climbs in m/s rise; Winds in m/s too.
	Heights, Climbs []float64
	Throttles       []pulse.Width
	Winds           []float64
}

// The throttles of Usual, by index: down, half of the way to a hover, a hover, half of the way from there to full, full.
const (
	Down = iota
	UnderHover
	Hover
	OverHover
	Full
	Throttles = iota
)

// Usual are the axes of 10,000 points (ours): heights a beginner comes to, climbs and winds as they can be, throttles about the hover.
func Usual(craft *sim.Config) Axes {
	var a Axes
	for h := 2; h <= 50; h += 2 {
		a.Heights = append(a.Heights, float64(h))
	}
	for c := -6; c <= 9; c++ {
		a.Climbs = append(a.Climbs, float64(c))
	}
	a.Winds = Winds()
	at := hover.Throttle(craft)
	up := pulse.Micros(1000)
	a.Throttles = []pulse.Width{pulse.Low, up + (at-up)/2, at, at + (pulse.High-at)/2, pulse.High}
	return a
}

// Winds are those of Usual, m/s.
func Winds() []float64 { return []float64{0, 3, 6, 9, 12} }

// Points is how many there are.
func (a *Axes) Points() int {
	return len(a.Heights) * len(a.Climbs) * len(a.Throttles) * len(a.Winds)
}

// Spot is a point by where it is on each axis.
type Spot struct{ Height, Climb, Throttle, Wind int }

// At is the spot of point i.
func (a *Axes) At(i int) (s Spot) {
	s.Height, i = i%len(a.Heights), i/len(a.Heights)
	s.Climb, i = i%len(a.Climbs), i/len(a.Climbs)
	s.Throttle, s.Wind = i%len(a.Throttles), i/len(a.Throttles)
	return s
}

// Index is the number of the point of a spot.
func (a *Axes) Index(s Spot) int {
	return ((s.Wind*len(a.Throttles)+s.Throttle)*len(a.Climbs)+s.Climb)*len(a.Heights) + s.Height
}

// Point is the situation at a spot.
func (a *Axes) Point(s Spot) Point {
	return Point{Height: a.Heights[s.Height], Climb: a.Climbs[s.Climb], Throttle: a.Throttles[s.Throttle], Wind: a.Winds[s.Wind]}
}

// Map is what comes of a craft at each point of some axes. Begin with New.
type Map struct {
	Axes
	// Reactions are what the craft does, by throttle. Level: at each of them it stays level, so that there is a map.
	Reactions []Reaction
	Level     bool
	// Done is how many points are worked out, in the order of their numbers.
	Done int

	craft    Craft
	outcomes []Outcome
}

// New begins a map; Work works it out. What its receiver has stored is in the craft, or follows from the last frame by stores where that is not nil.
func New(craft *sim.Config, a Axes, stores func(last *pulse.Frame) pulse.Frame) *Map {
	m := &Map{Axes: a, Level: true, craft: Of(craft), outcomes: make([]Outcome, a.Points())}
	for _, t := range a.Throttles {
		cfg := *craft
		if stores != nil {
			last := Held(craft, t)
			cfg.Link.Stored = stores(&last)
		}
		r := React(&cfg, t)
		m.Reactions, m.Level = append(m.Reactions, r), m.Level && r.Level
	}
	return m
}

// PackDies tells whether the craft's pack dies once it is empty, which ends everything.
func (m *Map) PackDies() bool { return m.craft.dies() }

// Work works out points for about so many steps of Fall, and tells whether there are any left. Of a craft that does not stay level it works out
// nothing.
func (m *Map) Work(steps int) (more bool) {
	if !m.Level {
		return false
	}
	for done := 0; done < steps && m.Done < len(m.outcomes); m.Done++ {
		s := m.At(m.Done)
		p := m.Point(s)
		o, n := fall(&m.craft, &m.Reactions[s.Throttle], &p)
		m.outcomes[m.Done] = o
		done += n
	}
	return m.Done < len(m.outcomes)
}

// Outcome is what comes of a spot; ok is false where it is not worked out yet.
func (m *Map) Outcome(s Spot) (o Outcome, ok bool) {
	if i := m.Index(s); i < m.Done {
		return m.outcomes[i], true
	}
	return o, false
}

// Measure is what a map is looked at for.
type Measure uint8

const (
	BySpeed  Measure = iota // at the first touch
	ByTurns                 // until when the motors turn
	ByAway                  // how far away it comes down
	Measures = iota         // how many there are
)

// Of is an outcome's value, in m/s, s or m: infinite where there is no end of it. The less the better.
func (q Measure) Of(o *Outcome) float64 {
	v := [Measures]float64{o.Speed, o.Turns, o.Away}[q]
	if q == ByTurns && v < 0 || q != ByTurns && o.Down < 0 {
		return math.Inf(1)
	}
	return v
}

// Whole tells whether all of it is worked out.
func (m *Map) Whole() bool { return m.Done == m.Points() }

// Worst is the spot with the greatest value, of those for which in holds; of equal ones the lowest, slowest and first. ok is false where all are
// alike, or none is worked out.
func (m *Map) Worst(q Measure, in func(Spot) bool) (worst Spot, ok bool) {
	most, least := math.Inf(-1), math.Inf(1)
	for i := range m.outcomes[:m.Done] {
		s := m.At(i)
		if !in(s) {
			continue
		}
		v := q.Of(&m.outcomes[i])
		if v > most {
			worst, most = s, v
		}
		least = min(least, v)
	}
	return worst, most > least
}

package sound

import (
	"time"

	"propsoff.example/sim/layout"
)

// Step is one part of a tone.
type Step struct {
	// From and To are the pitch at its begin and end in Hz; in between it glides evenly as the ear hears it (each moment by the same
	// interval). Both 0: silence.
	From, To float64
	Ms       int // how long, ms
}

// Tone is how a tone is built. All numbers are ours.
type Tone struct {
	Steps []Step
	// Edge is how long each sounding step rises and falls, in ms: half a cosine, so that nothing clicks.
	Edge int
	// Level is the peak as a share of full scale, 0 … 1.
	Level float64
	// Octave is how strong the octave above each pitch is beside it, 0 … 1: more of it sounds harder.
	Octave float64
}

// Length is how long a tone sounds.
func (t *Tone) Length() time.Duration {
	ms := 0
	for _, s := range t.Steps {
		ms += s.Ms
	}
	return time.Duration(ms) * time.Millisecond
}

// Length is how long the tone of a code sounds; 0 for none.
func (c Code) Length() time.Duration {
	t := c.Tone()
	return t.Length()
}

// Tone is how the tone of a code is built; read only.
func (c Code) Tone() Tone {
	if c >= CodeCount {
		return Tone{}
	}
	if m, ok := c.Mode(); ok {
		return modeTones[m]
	}
	return tones[c]
}

// The pitches, in Hz: twelve even steps to the octave from 440 Hz (ISO 16:1975).
const (
	g3             = 195.998
	d4, f4, g4     = 293.665, 349.228, 391.995
	bb4, c5        = 466.164, 523.251
	d5, e5, f5, g5 = 587.330, 659.255, 698.456, 783.991
	a5, bb5        = 880.000, 932.328
	cs6, d6, e6    = 1108.731, 1174.659, 1318.510
)

// tones is the table. Armed glides up and holds, disarmed glides down and holds. Refused begins to rise as armed does and falls
// back. The lost link is a great leap down, found again a leap up, good again that leap and settled. Nothing is three notes that rise. The
// alarm wavers fast and hard.
var tones = [CodeCount]Tone{
	Armed:    {Steps: []Step{{d4, d5, 160}, {d5, d5, 130}}, Edge: 8, Level: 0.34, Octave: 0.25},
	Disarmed: {Steps: []Step{{d5, d4, 160}, {d4, d4, 150}}, Edge: 8, Level: 0.38, Octave: 0.35},
	Refused:  {Steps: []Step{{d4, f4, 90}, {0, 0, 20}, {g3, g3, 190}}, Edge: 6, Level: 0.42, Octave: 0.6},

	LinkLost:  {Steps: []Step{{e6, e6, 110}, {f4, f4, 230}}, Edge: 6, Level: 0.40, Octave: 0.4},
	LinkBack:  {Steps: []Step{{g4, g4, 70}, {e5, e5, 90}}, Edge: 8, Level: 0.24, Octave: 0.2},
	LinkClean: {Steps: []Step{{g4, g4, 80}, {e5, e5, 80}, {c5, c5, 160}}, Edge: 8, Level: 0.28, Octave: 0.2},

	DrillAlarm: {Steps: []Step{{bb5, e6, 65}, {e6, bb5, 65}, {bb5, e6, 65}, {e6, bb5, 65}, {bb5, e6, 65}, {e6, bb5, 65}}, Edge: 4, Level: 0.5, Octave: 0.5},
	DrillCall:  {Steps: []Step{{g5, g5, 260}}, Edge: 12, Level: 0.28, Octave: 0.3},
	DrillRight: {Steps: []Step{{a5, a5, 80}, {cs6, cs6, 80}, {a5, a5, 140}}, Edge: 8, Level: 0.24, Octave: 0.1},
	DrillWrong: {Steps: []Step{{f4, f4, 130}, {g3, g3, 210}}, Edge: 8, Level: 0.34, Octave: 0.4},
}

// modeTones are the tones of the modes. They begin on one note each time and step from it by an interval of their own: down, a little up,
// far up.
var modeTones = [layout.Modes]Tone{
	layout.Angle:   {Steps: []Step{{d5, d5, 80}, {bb4, bb4, 120}}, Edge: 8, Level: 0.24, Octave: 0.15},
	layout.Horizon: {Steps: []Step{{d5, d5, 80}, {f5, f5, 120}}, Edge: 8, Level: 0.24, Octave: 0.15},
	layout.Rate:    {Steps: []Step{{d5, d5, 80}, {d6, d6, 120}}, Edge: 8, Level: 0.22, Octave: 0.15},
}

package screen

import (
	"slices"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/drillrun"
	"propsoff/input/radio"
	"propsoff/sim/craftfile"
	"propsoff/sim/drill"
	"propsoff/sim/drill/drillfile"
	"propsoff/sim/happening"
	"propsoff/sim/pulse"
)

// GestureOptions are what the sheet of two-stick gestures needs besides the craft, which has the gestures themselves.
type GestureOptions struct {
	// Name is what the gesture file of the craft is called, Text what stands in it; Shipped tells that it came with the program.
	Name    string
	Shipped bool
	Text    []byte
	// Own is the path of the pilot's own gesture file, in which recorded gestures are kept; empty keeps none.
	Own string
}

// SameControl reports whether two controls are read alike.
func SameControl(a, b radio.Control) bool {
	return a.Job == b.Job && a.Form == b.Form && a.Axis == b.Axis && slices.Equal(a.Buttons, b.Buttons) && slices.Equal(a.Positions, b.Positions) &&
		(a.Scale == nil) == (b.Scale == nil) && (a.Scale == nil || *a.Scale == *b.Scale) && a.Backwards == b.Backwards && a.Stays == b.Stays && a.Called == b.Called
}

// DrillOptions are what the sheet of drills needs; without a Coach there are none.
type DrillOptions struct {
	Coach *drillrun.Coach
	// Course is what the course is called, Drills its drills in order; ShippedGestures tells that the gestures they name are those that ship.
	Course          words.Text
	ShippedGestures bool
	Drills          []*drillfile.Drill
	// Pupils keeps what came of them; nil keeps nothing.
	Pupils Pupils
	// Day gives the number of today, Seed makes times and cases random.
	Day  func() int32
	Seed uint64
}

// Pupils keeps what pupils did.
type Pupils interface {
	// Open says who practises from now on; empty for nobody.
	Open(pupil string) error
	Pupil() string
	// Runs are all runs of the pupil in order of time.
	Runs() []drill.Run
	// Keep keeps a run, and what the pupil held in it; one without a try is none, and keeps nothing. Refused counts a refusal, as a set.
	Keep(run *drillrun.Result, d *drillfile.Drill, held Held) error
	Refused(set int32)
	// Where says where it is kept.
	Where() string
}

// Held is what a pupil practises with.
type Held struct {
	// Radio is its name, or the keyboard's; empty where it is not known.
	Radio string
	// StickMode is 1 to 4, 0 where it is not known.
	StickMode int
	// Craft is the pupil's own craft, as it is and not as the program was started; nil where it is not known. Gestures is the name of
	// its gesture file.
	Craft    *craftfile.File
	Gestures string
}

// secret tells whether a line of the record is for the instructor alone.
func secret(h *happening.Happening) bool {
	d := pulse.Deed(h.A)
	return h.Code == happening.Instructed && d != pulse.DeedHands && d != pulse.DeedArmOff
}

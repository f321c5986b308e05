package hand

import (
	"time"

	"propsoff.example/scripts/rig/fakeradio"
)

// What the program must say of a slip, in its own words.
const (
	SaysTwo      = "two-at-once"
	SaysTaken    = "taken"
	SaysStick    = "want-stick"
	SaysNoSpring = "no-spring"
	SaysTurned   = "turned-round"
	SaysLost     = "readings-lost" // of no slip: the computer was too busy
)

// linger is how long a wrong movement stands before it is undone at the earliest.
const linger = 500 * time.Millisecond

func held(m Move) Move {
	m.Hold = linger
	return m
}

func place(job string, n int) Move { return Move{Job: job, To: Target(n)} }

// Habit is how one pilot goes wrong with a radio.
type Habit struct {
	Made  fakeradio.Made
	Slips []Slip
	// Turned sticks are moved the wrong way round at first.
	Turned []string
	// Pulled is the job and step at which the plug comes out and is put back; none where it is empty.
	Pulled [2]string
}

// Pilot makes the pilot of a habit; the radio's own first stick mode is 2.
func (h *Habit) Pilot() *Pilot { return NewPilot(&h.Made, "2", h.Turned, h.Slips...) }

// Habits gives a pilot for every radio of the fleet: each moves a wrong control and two at once at least once.
func Habits() []Habit {
	twinA, twinB := fakeradio.Twins()
	pitchForThrottle := Slip{
		Job: "throttle", Step: StepHigh, Notice: SaysTaken,
		Wrong: []Move{held(To("pitch", High))}, Undo: []Move{Gone("pitch")},
	}
	// back brings a stick to where it rests: the throttle has no spring.
	back := func(job string) Move {
		if job == "throttle" {
			return To(job, Low)
		}
		return Gone(job)
	}
	twoSticks := func(asked, other string) Slip {
		return Slip{
			Job: asked, Step: StepHigh, Notice: SaysTwo,
			Wrong: []Move{held(To(asked, High)), Beside(held(To(other, High)))}, Undo: []Move{back(asked), Both(back(other))},
		}
	}
	return []Habit{
		{Made: fakeradio.Whole(), Slips: []Slip{twoSticks("yaw", "roll"), pitchForThrottle}},
		{Made: fakeradio.Leaning(), Slips: []Slip{
			{
				Job: "yaw", Step: StepHigh, Notice: SaysStick,
				Wrong: []Move{place("arm", 1)}, Undo: []Move{place("arm", 0)},
			},
			{
				Job: "arm", Step: StepThrough, Notice: SaysTwo,
				Wrong: []Move{held(place("arm", 1)), Beside(held(place("channel 7", 1)))}, Undo: []Move{place("arm", 0), Both(place("channel 7", 0))},
			},
		}},
		{Made: fakeradio.Turned(), Slips: []Slip{
			{ // the throttle in place of a stick with a spring
				Job: "pitch", Step: StepHigh, Notice: SaysNoSpring, Word: WordBack,
				Wrong: []Move{held(To("throttle", High)), held(To("throttle", Low)), Gone("throttle")},
			},
			{
				Job: "mode", Step: StepThrough, Notice: SaysTaken,
				Wrong: []Move{held(To("roll", High))}, Undo: []Move{Gone("roll")},
			},
			twoSticks("roll", "throttle"),
		}},
		{Made: fakeradio.Keyed(), Slips: []Slip{
			twoSticks("pitch", "roll"),
			{
				Job: "mode", Step: StepThrough, Notice: SaysTaken,
				Wrong: []Move{held(place("arm", 0)), held(place("arm", 1))},
			},
		}},
		{Made: fakeradio.Short(), Turned: []string{"pitch"}, Pulled: [2]string{"pitch", StepLow}, Slips: []Slip{
			{
				Job: "roll", Step: StepHigh, Notice: SaysTwo,
				Wrong: []Move{held(To("roll", High)), Beside(held(place("mode", 2)))}, Undo: []Move{Gone("roll"), Both(place("mode", 0))},
			},
		}},
		{Made: fakeradio.Restless(), Slips: []Slip{twoSticks("yaw", "pitch"), pitchForThrottle}},
		{Made: twinA, Slips: []Slip{twoSticks("yaw", "pitch"), pitchForThrottle}},
		{Made: twinB, Slips: []Slip{twoSticks("yaw", "roll"), pitchForThrottle}},
	}
}

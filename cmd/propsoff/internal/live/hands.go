package live

import (
	"propsoff.example/input"
	"propsoff.example/sim/pulse"
)

// Driving says whose hands play now. It is for Listen and others in the loop's goroutine.
func (l *Loop) Driving() input.By {
	for i := range l.players {
		if l.players[i].By != input.Nobody {
			return l.players[i].By
		}
	}
	return input.Nobody
}

// tutorDeeds are what an instructor's radio does for as long as it plays.
var tutorDeeds = [2]pulse.Deed{pulse.DeedHands, pulse.DeedArmOff}

// noteTutor follows what the instructor's radio does.
func (l *Loop) noteTutor(value int32) {
	deed, number := pulse.InstructorOf(value)
	for i, d := range tutorDeeds {
		if d == deed {
			l.tutor[i] = number != 0
		}
	}
}

// dropTutor tells that an instructor's radio does no more what it did, since it plays no longer.
func (l *Loop) dropTutor(at int64) {
	for i, d := range tutorDeeds {
		if l.tutor[i] {
			l.insert(reading{at: at, Reading: pulse.Reading{Kind: pulse.Instructor, Value: pulse.InstructorValue(d, 0)}})
		}
	}
}

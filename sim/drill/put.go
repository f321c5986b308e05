package drill

import (
	"propsoff.example/sim/fault"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// Put is one bench input: a reading of any kind but Controls. A planted fault names its channels by job, so that it fits every craft.
type Put struct {
	Kind  pulse.Kind
	Value int32
	Fault Fault
}

// Fault is a fault to be planted; Deed 0 is none. A and B are its numbers as in fault.Plant; where Job or Other is not NoJob, its channel
// takes the place of A or B.
type Fault struct {
	Deed       pulse.Deed
	Job, Other Job
	A, B       int32
}

// Job is what a channel does for the craft.
type Job uint8

// The jobs.
const (
	NoJob Job = iota
	Throttle
	Roll
	Pitch
	Yaw
	Arm
	ModeJob
	Second
	Jobs
)

// Channel is the index of the channel with a job, layout.NoChannel where the craft has none.
func (j Job) Channel(l *layout.Config) int8 {
	switch j {
	case Throttle:
		return l.Throttle
	case Roll:
		return l.Roll
	case Pitch:
		return l.Pitch
	case Yaw:
		return l.Yaw
	case Arm:
		return l.Arm
	case ModeJob:
		return l.Mode
	case Second:
		return l.Second
	}
	return layout.NoChannel
}

// Reading is the reading that gives p to a bench with a craft of this layout. ok is false where the craft has no channel for the fault.
func (p *Put) Reading(l *layout.Config) (r pulse.Reading, ok bool) {
	if p.Fault.Deed == 0 {
		return pulse.Reading{Kind: p.Kind, Value: p.Value}, true
	}
	f := p.Fault
	for _, x := range [...]struct {
		job Job
		to  *int32
	}{{f.Job, &f.A}, {f.Other, &f.B}} {
		if x.job == NoJob {
			continue
		}
		c := x.job.Channel(l)
		if c == layout.NoChannel {
			return r, false
		}
		*x.to = int32(c) + 1
	}
	v, ok := fault.Plant(f.Deed, f.A, f.B)
	return pulse.Reading{Kind: pulse.Instructor, Value: v}, ok
}

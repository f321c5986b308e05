package main

import (
	"propsoff.example/gestures"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/mark"
)

// triedInTheGuest are the code words of the drills that the hand goes through: all but the marks after the first, each of which takes more than a minute
// and is followed in the same way.
func triedInTheGuest(drills []*drillfile.Drill) (codes []string) {
	marks := 0
	for _, d := range drills {
		if d.Config.Cases[0].Mark.On() {
			if marks++; marks > 1 {
				continue
			}
		}
		codes = append(codes, d.Config.Code)
	}
	return codes
}

// markGain is how fast the hand leads the craft back to the mark, in rad/s, and markEvery how often the program tells how far off it is, in s.
const (
	markGain  = 2.5
	markEvery = 0.05
)

// follow leads the craft back to the mark, off which it is by so many mrad.
func (q *coursePupil) follow(off int) error {
	m, c := &q.kase.Mark, flight.DefaultControl()
	rate := markGain * float64(off) / 1000
	d := map[mark.Axis]gestures.Direction{mark.Roll: gestures.Roll, mark.Pitch: gestures.Pitch, mark.Yaw: gestures.Yaw}[m.Axis]
	x := 0.0
	if m.Mode == layout.Angle && m.Axis != mark.Yaw {
		q.asked += rate * markEvery
		x = q.asked / c.BankLimit
	} else {
		curve := c.Curve[m.Axis-mark.Roll]
		x = rate / (curve.Full * (1 - curve.Exponential))
	}
	return q.stick(d, 1500+512*min(max(x, -1), 1))
}

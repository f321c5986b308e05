package sheet

import (
	"testing"

	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/sim/body"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
)

// fly keeps of a tick what a window would for the flight.
func (s *stage) fly() {
	snap, f := &s.v.Snap, &s.v.Flight
	if !snap.In.Air {
		f.Trail = f.Trail[:0]
		return
	}
	if snap.Tick%TrailEvery == 0 {
		var last *TrailPoint
		if n := len(f.Trail); n > 0 {
			last = &f.Trail[n-1]
		}
		f.Trail = append(f.Trail, NextTrailPoint(last, snap))
		if n := len(f.Trail) - TrailTicks/TrailEvery - 1; n > 0 {
			f.Trail = f.Trail[n:]
		}
	}
	if snap.Tick%loop.PointTicks == 0 {
		f.Followed = append(f.Followed, FollowedOf(snap, s.cfg))
		if n := len(f.Followed) - loop.ChartTicks/loop.PointTicks - 1; n > 0 {
			f.Followed = f.Followed[n:]
		}
	}
}

// outside is a craft that stands on the air bench, ready to arm.
func outside(t testing.TB) *stage {
	s := ready(t)
	s.tell(pulse.Air, 1).tell(pulse.Propellers, pulse.PropellersValue(body.Default().Hand, true))
	return s.wait(4000)
}

// hold flies by hand: throttle so that a height is held, everything else as it stands, for a time in ms.
func (s *stage) hold(height float64, ms int) *stage {
	for range ms / 20 {
		b := &s.v.Snap.Air.Body
		up := 1.0
		if c := 1 - 2*(b.Att.X*b.Att.X+b.Att.Y*b.Att.Y); c > 0.3 {
			up = 1 / c
		}
		t := 1370*(1+0.25*(up-1)) + 60*(height+b.Pos.Z) + 80*b.Vel.Z
		s.set(0, int(clamp(t, 1010, 1800))).wait(20)
	}
	return s
}

// airborne is a craft that hovers at some metres.
func airborne(t testing.TB, height float64) *stage {
	return outside(t).set(4, 2012).wait(400).hold(height, 4000)
}

// inMode puts the mode switch over.
func (s *stage) inMode(m layout.Mode) *stage {
	return s.set(5, [...]int{988, 1500, 2012}[m]).wait(60)
}

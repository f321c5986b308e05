package gestures

// Touch is what a pattern has to do with a corner in which a craft is armed or disarmed by sticks: throttle low, and yaw fully to
// one side (common practice, no source).
type Touch uint8

// The touches, from none to the most.
const (
	// Apart: a hand that makes the pattern never comes near the corner.
	Apart Touch = iota
	// OnTheWay: sticks that go there or come back one direction at a time may pass through the corner.
	OnTheWay
	// May: the sticks may stand in the corner, depending on the directions that the pattern leaves free.
	May
	// Inside: sticks that stand fully in the pattern stand in the corner. Staying there also arms or disarms.
	Inside
)

// CornerTouch is what a pattern has to do with both corners: throttle low and yaw right arms, throttle low and yaw left disarms.
type CornerTouch struct{ Arm, Disarm Touch }

// Corners says what pattern n has to do with the corners in a stick mode, for hands that come from throttle low and all else in
// the middle, and go back there.
func Corners(cfg *Config, n int, mode uint8) CornerTouch {
	p := &cfg.Patterns[n]
	return CornerTouch{Arm: p.touch(High, mode), Disarm: p.touch(Low, mode)}
}

// StandCorners says what sticks that stand in one part have to do with the corners in a stick mode: Apart, May or Inside.
func (p *Pattern) StandCorners(part int, mode uint8) CornerTouch {
	z := p.JobZones(part, mode)
	return CornerTouch{Arm: stand(z[Throttle], z[Yaw], High), Disarm: stand(z[Throttle], z[Yaw], Low)}
}

func (p *Pattern) touch(side Zone, mode uint8) Touch {
	most := Apart
	before := [Directions]Zone{Throttle: Low, Roll: Middle, Pitch: Middle, Yaw: Middle}
	for i := range int(p.Count) {
		z := p.JobZones(i, mode)
		most = max(most, stand(z[Throttle], z[Yaw], side), min(stand(before[Throttle], z[Yaw], side), OnTheWay), min(stand(z[Throttle], before[Yaw], side), OnTheWay))
		before = z
	}
	return max(most, min(stand(Low, before[Yaw], side), OnTheWay))
}

// stand is the touch for sticks that stand still.
func stand(throttle, yaw, side Zone) Touch {
	switch {
	case throttle == Low && yaw == side:
		return Inside
	case (throttle == Low || throttle == Any) && (yaw == side || yaw == Any):
		return May
	}
	return Apart
}

// Contains reports whether sticks that stand in the last part of pattern a stand in the last part of pattern b too, in a stick
// mode: a asks for all that b asks.
func Contains(cfg *Config, a, b int, mode uint8) bool {
	p, q := &cfg.Patterns[a], &cfg.Patterns[b]
	x, y := p.Parts[p.Count-1].Zones, q.Parts[q.Count-1].Zones
	if p.Physical != q.Physical {
		x, y = p.JobZones(int(p.Count-1), mode), q.JobZones(int(q.Count-1), mode)
	}
	for d := range x {
		if y[d] != Any && x[d] != y[d] {
			return false
		}
	}
	return true
}

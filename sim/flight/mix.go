package flight

import (
	"math"

	"propsoff.example/sim/vec"
)

// mix turns collective thrust (0…1 of a motor's full thrust) and torques (N·m) into motor speeds (0…1). Attitude comes first:
// where not everything fits between idle and full, yaw gives way, then the collective, then roll and pitch together. It gives back
// the torques that those speeds have, N·m.
func (c *Control) mix(collective float64, torque vec.V, air bool) ([Motors]float64, vec.V) {
	least := vec.Mul(c.LeastSpeed, c.LeastSpeed)
	room := 1 - least
	unit := vec.V{X: vec.Mul(vec.Mul(4, c.ArmRight), c.FullThrust), Y: vec.Mul(vec.Mul(4, c.ArmForward), c.FullThrust), Z: vec.Mul(4, c.FullTorque)}
	roll, pitch, yaw := torque.X/unit.X, torque.Y/unit.Y, torque.Z/unit.Z
	// Roll and pitch add up at one corner and its opposite: the spread is twice the sum of their sizes.
	if spread := vec.Mul(2, math.Abs(roll)+math.Abs(pitch)); spread > room {
		k := room / spread
		roll, pitch = vec.Mul(roll, k), vec.Mul(pitch, k)
	}
	most := max(vec.Mul(0.5, room)-math.Abs(roll)-math.Abs(pitch), 0)
	yaw = min(max(yaw, -most), most)
	var t [Motors]float64
	lo, hi := math.Inf(1), math.Inf(-1)
	for i := range t {
		r, p := c.signs(i, roll, pitch)
		t[i] = r + p - vec.Mul(float64(c.Turns[i]), yaw)
		lo, hi = min(lo, t[i]), max(hi, t[i])
	}
	collective = min(collective, 1-hi)
	if air {
		collective = max(collective, least-lo)
	}
	var speed [Motors]float64
	var got vec.V
	for i := range t {
		v := min(max(collective+t[i], least), 1)
		speed[i] = math.Sqrt(v)
		r, p := c.signs(i, v, v)
		got = got.Add(vec.V{X: r, Y: p, Z: -vec.Mul(float64(c.Turns[i]), v)})
	}
	return speed, got.Scale(0.25).Times(unit)
}

// signs is what motor i gives to roll and to pitch: left ones roll to the right, front ones lift the nose.
func (c *Control) signs(i int, roll, pitch float64) (float64, float64) {
	if i%2 == 1 {
		roll = -roll
	}
	if i >= 2 {
		pitch = -pitch
	}
	return roll, pitch
}

package lesson

import (
	"propsoff.example/sim"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// near is how near the throttle must be to where it was, for hands to take over (ours: 5 % of its travel).
const near = pulse.Width(50 * pulse.Eighths)

// Elsewhere are the controls that hands hold otherwise than those that flew a craft then, of those that decide whether it can be taken over.
type Elsewhere struct{ Throttle, Arm, Second, Mode bool }

// Any tells whether there is one.
func (e Elsewhere) Any() bool { return e != Elsewhere{} }

// Compare tells what hands hold elsewhere: the throttle where it is not near where it was, a switch where it means something else to the craft.
func Compare(craft *sim.Config, then, now *pulse.Frame) (e Elsewhere) {
	l := &craft.Layout
	off := now[l.Throttle] - then[l.Throttle]
	e.Throttle = off > near || off < -near
	e.Arm = l.Arm != layout.NoChannel && l.ArmSpan.Contains(now[l.Arm]) != l.ArmSpan.Contains(then[l.Arm])
	e.Second = l.Second != layout.NoChannel && l.SecondSpan.Contains(now[l.Second]) != l.SecondSpan.Contains(then[l.Second])
	e.Mode = l.Mode != layout.NoChannel && l.ModeAt(now[l.Mode]) != l.ModeAt(then[l.Mode])
	return e
}

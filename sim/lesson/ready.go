package lesson

import (
	"propsoff/sim"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
)

// near is how near the throttle must be to where it was, for hands to take over (ours: 5 % of its travel).
const near = pulse.Width(50 * pulse.Eighths)

// Ready tells whether hands stand so that a craft in the air can be taken over from those that flew it then: the arm switch is as it was, and the throttle
// near where it was.
func Ready(craft *sim.Config, then, now *pulse.Frame) bool {
	t := craft.Layout.Throttle
	off := now[t] - then[t]
	return Armed(craft, now) == Armed(craft, then) && off <= near && off >= -near
}

// Armed tells whether hands hold the arm switch in its span; where sticks arm there is none to hold.
func Armed(craft *sim.Config, f *pulse.Frame) bool {
	l := &craft.Layout
	return l.Arm == layout.NoChannel || l.ArmSpan.Contains(f[l.Arm])
}

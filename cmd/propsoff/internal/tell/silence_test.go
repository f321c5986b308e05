package tell

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/cmd/propsoff/internal/lossrun"
	"propsoff.example/sim"
	"propsoff.example/sim/prove"
)

const storedCorner = "when-silent: sends-stored, stored: {throttle: 988, roll: 1500, pitch: 1500, yaw: 988, mode: 1000}"

// What comes when the radio goes off is said as it comes: at once, after a dwell, or never.
func TestWhatWillComeOfASilentRadio(t *testing.T) {
	stored := func(throttle, yaw, arm string) string {
		s := "when-silent: sends-stored, stored: {throttle: " + throttle + ", roll: 1500, pitch: 1500, yaw: " + yaw + ", mode: 1000"
		if arm != "" {
			s += ", arm: " + arm
		}
		return s + "}"
	}
	const comes = "When the radio goes off, the stored values come: "
	for _, c := range []struct{ by, receiver, link, will, short string }{
		{"switch", "when-silent: falls-silent", "when-lost: cut", "When the radio goes off, nothing comes any more: after 0.24 s the craft cuts.", "Radio off: it notices."},
		{"switch", "when-silent: falls-silent", "when-lost: sink, sink-time: 4 s", "When the radio goes off, nothing comes any more: after 0.24 s an armed craft sinks for 4 s, then cuts; with its throttle low it cuts without sinking.", "Radio off: it notices."},
		{"switch", "when-silent: repeats-last", "when-lost: cut", "When the radio goes off, the last frame comes again and again. The craft cannot know that the link is gone.", "Radio off: it cannot know."},
		{"switch", stored("988", "1500", "988"), "when-lost: cut", comes + "they disarm the craft at once.", "Radio off: the stored values disarm it."},
		{"switch", stored("1200", "1500", "2012"), "when-lost: cut", comes + "an armed craft stays armed. It cannot know that the link is gone.", "Radio off: it cannot know."},
		{"sticks", storedCorner, "when-lost: cut", comes + "they disarm the craft 0.42 s after the radio's last frame.", "Radio off: the stored values disarm it."},
		{"sticks", stored("1010", "1100", ""), "when-lost: cut", comes + "a flying craft stays armed. It cannot know that the link is gone.", "Radio off: it cannot know."},
	} {
		f := lossCraft(t, c.by, c.receiver, c.link)
		cfg := f.Config()
		run := lossrun.NewRun(&cfg)
		snap := sim.Snapshot{}
		snap.In.Powered = true
		of := LossCraft{Cfg: &cfg, Run: &run, Snap: &snap}
		assert.Equal(t, c.will, spoken(LossWill(of)), c.receiver)
		assert.Equal(t, c.short, spoken(LossShort(of)), c.receiver)
	}
}

// Until the dwell of a stored corner is over the craft is armed, and nobody says that nothing will disarm it.
func TestAStoredCornerIsOnItsWay(t *testing.T) {
	f := lossCraft(t, "sticks", storedCorner, "when-lost: cut")
	cfg := f.Config()
	run := lossrun.NewRun(&cfg)
	run.Phase, run.Off, run.Last, run.Limit = lossrun.Off, 20, 0, 240
	snap := sim.Snapshot{Tick: 100, Armed: true}
	snap.In.Powered = true
	c := LossCraft{Cfg: &cfg, Run: &run, Snap: &snap}
	assert.Equal(t, "It obeys the stored values, and they disarm it 0.42 s after the radio's last frame.", spoken(LossDoes(c)))
	assert.Equal(t, "The stored values disarm it.", spoken(LossShort(c)))
}

// Stored values at the edge of the disarming corner do not keep the sticks out of it, and that is not said.
func TestWhyStoredSticksLeaveItArmed(t *testing.T) {
	why := func(throttle string) string {
		f := lossCraft(t, "sticks", "when-silent: sends-stored, stored: {throttle: "+throttle+", roll: 1500, pitch: 1500, yaw: 988, mode: 1000}", "when-lost: cut")
		l := prove.Layout{Config: f.Config()}
		return spoken(Finding(&l, &prove.Result{Rule: prove.LossStopsMotors, Outcome: prove.Broken, Cause: prove.StoredSticks, Control: -1, Position: -1}))
	}
	assert.Equal(t, "The receiver's stored values keep the sticks out of the disarm corner, so a silent radio leaves the craft armed. Set the receiver to fall silent (no pulses).", why("1500"))
	assert.Equal(t, "The receiver's stored values stand at the edge of the disarm corner and begin no dwell there, so a silent radio leaves a flying craft armed. Set the receiver to fall silent (no pulses).", why("1010"))
	f := lossCraft(t, "sticks", storedCorner, "when-lost: cut")
	l := prove.Layout{Config: f.Config()}
	assert.Equal(t, "The receiver's stored values stand in the disarm corner, but disarm only when the dwell is over: 0.42 s after the radio's last frame, later than promised. Set the receiver to fall silent (no pulses).",
		spoken(Finding(&l, &prove.Result{Rule: prove.LossStopsMotors, Outcome: prove.Broken, Cause: prove.StoredLate, Value: 420, Control: -1, Position: -1})))
}

package tell

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// A width is told in whole µs; where an edge that the craft looks at lies within one, with its decimals.
func TestWidthsAreToldInWholeMicros(t *testing.T) {
	cfg := sim.Default()
	l := &cfg.Layout
	l.ArmSpan = layout.Span{Low: pulse.Micros(1600), High: pulse.Highest}
	at := func(channel int8, eighths int) string {
		return spoken(Plain(Shown(&cfg, channel, pulse.Width(eighths))))
	}
	assert.Equal(t, "1590", at(l.Arm, 1590*8+3))
	assert.Equal(t, "1599", at(l.Arm, 1599*8), "an edge one µs off leaves no doubt")
	assert.Equal(t, "1599.125", at(l.Arm, 1599*8+1))
	assert.Equal(t, "1600.875", at(l.Arm, 1600*8+7))
	assert.Equal(t, "1601", at(l.Arm, 1601*8+3))
	assert.Equal(t, "1600", at(l.Roll, 1600*8+3), "roll has no such edge")
	assert.Equal(t, "2180.125", at(l.Roll, 2180*8+1), "where pulses end")
	assert.Equal(t, "999.875", at(l.Throttle, 7999))
	assert.Equal(t, "1064", at(l.Yaw, 1064*8+6), "by switch nothing hangs on it")
	cfg.Arming.By, l.Arm = arming.BySticks, layout.NoChannel
	assert.Equal(t, "1064.75", at(l.Yaw, 1064*8+6))
}

// A finding and the step that shows it tell one width alike.
func TestFindingAndStepTellTheSameWidth(t *testing.T) {
	cfg := sim.Default()
	cfg.Layout.ArmSpan = layout.Span{Low: pulse.Micros(1600), High: pulse.Highest}
	for _, w := range []pulse.Width{1590*8 + 3, 1599*8 + 3} {
		c := handset.Control{Channel: cfg.Layout.Arm, Job: "arm", Kind: handset.Switch, Positions: []handset.Position{{Width: pulse.Low}, {Width: w}}}
		l := &prove.Layout{Config: cfg, Radio: handset.Radio{Controls: []handset.Control{c}}}
		finding := spoken(Finding(l, &prove.Result{Rule: prove.CanArm, Outcome: prove.Broken, Cause: prove.ArmNeverOn, Control: 0, Position: -1, Value: int64(w)}))
		steps := ProvedSteps(l, &prove.Way{Steps: []prove.Step{{Kind: prove.Move, Control: 0, ToPosition: 1, To: w}}})
		width := spoken(unit("micros", Shown(&cfg, cfg.Layout.Arm, w)))
		assert.Contains(t, finding, "reads "+width)
		assert.Contains(t, spoken(steps[0].Text), "("+width+")")
	}
}

// A second pass does not seem to begin again.
func TestASecondPassSaysSo(t *testing.T) {
	first, again := Progress(prove.Progress{Situations: 7_900_000, Movements: 9}), Progress(prove.Progress{Situations: 8_000_000, Movements: 3, Again: true})
	assert.Contains(t, spoken(first), "up to 9 movements")
	assert.Equal(t, "Looking a second time at what the first search left open: 8,000,000 situations so far, both together.", spoken(again))
}

// What an instructor's radio carries is told as his.
func TestWhatIsTheInstructorsIsToldAsHis(t *testing.T) {
	c := handset.Control{Job: "arm", Kind: handset.Switch, Tutors: true}
	assert.Equal(t, "instructor's arm switch", spoken(ControlName(&c)))
	l := &prove.Layout{Config: sim.Default()}
	assert.Equal(t, "no instructor's radio was given (--instructor)", spoken(WhyNotAsked(l, prove.TakingArmsNothing)))
	l.Radio.Controls = []handset.Control{c}
	assert.Contains(t, spoken(WhyNotAsked(l, prove.TakingArmsNothing)), "another rule says so")
	for r := prove.TutorCanTake; r < prove.RuleCount; r++ {
		assert.NotEqual(t, words.Text{}, RuleFor(l, r))
	}
}

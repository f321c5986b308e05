package tell

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// What a lost link does is told in short, and true of each craft with each receiver: when the motors stop, or that they do not.
func TestALostLinkInShort(t *testing.T) {
	stored := func(throttle, yaw, arm string) string {
		s := "when-silent: sends-stored, stored: {throttle: " + throttle + ", roll: 1500, pitch: 1500, yaw: " + yaw + ", mode: 1000"
		if arm != "" {
			s += ", arm: " + arm
		}
		return s + "}"
	}
	const (
		again  = "Do not arm again before you know why."
		never  = "Never reach in: only the radio, back on like that, or an empty pack stops it."
		onWith = "Craft: it gets stored values and stays armed: the motors go on."
	)
	for _, c := range []struct{ by, receiver, link, craft, pilot string }{
		{"switch", "when-silent: falls-silent", "when-lost: cut", "Craft: 0.24 s later the motors stop, and it drops.", again},
		{"sticks", "when-silent: falls-silent", "when-lost: cut", "Craft: 0.24 s later the motors stop, and it drops.", again},
		{"switch", "when-silent: falls-silent", "when-lost: sink, sink-time: 4 s", "Craft: 0.24 s later it sinks for 4 s, then the motors stop; with the throttle low they stop without sinking.", again},
		{"switch", "when-silent: repeats-last", "when-lost: sink, sink-time: 4 s", "Craft: it cannot notice. The motors go on as they were.", never},
		{"sticks", "when-silent: repeats-last", "when-lost: cut", "Craft: it cannot notice. The motors go on as they were. Disarmed, it can ARM by itself.", never},
		{"switch", stored("988", "1500", "988"), "when-lost: cut", "Craft: 0.02 s later the motors stop, and it drops.", again},
		{"switch", stored("1200", "1500", "2012"), "when-lost: cut", onWith, never},
		{"switch", stored("988", "1500", "2012"), "when-lost: cut", "Craft: it gets stored values and stays armed. Disarmed, it can ARM by itself.", never},
		{"sticks", stored("988", "988", ""), "when-lost: sink, sink-time: 4 s", "Craft: 0.42 s later the motors stop, and it drops.", again},
		{"sticks", stored("1200", "1500", ""), "when-lost: cut", onWith, never},
	} {
		cfg := lossCraft(t, c.by, c.receiver, c.link).Config()
		craft, pilot := bothSpoken(CardLost(&cfg))
		off := "arm switch off, throttle low"
		if c.by == "sticks" {
			off = "throttle low, yaw left"
		}
		assert.Equal(t, c.craft, craft, "%v", c)
		assert.Equal(t, "You: "+off+". "+c.pilot, pilot, "%v", c)
		assert.Equal(t, facts.Silence(&cfg).Disarmed == facts.Never, c.pilot == never, "%v", c)
	}
}

// A position is told as the pilot moves the switch where that is known; else its value stands for it, and nothing is guessed.
func TestWhereASwitchStandsOnTheCard(t *testing.T) {
	at := func(way handset.Way, guessed bool, values ...int) *handset.Control {
		c := &handset.Control{Kind: handset.Switch, Spot: handset.Spot{View: handset.OnShoulders, X: 100, Y: 500, Way: way, Guessed: guessed}}
		for _, v := range values {
			c.Positions = append(c.Positions, handset.Position{Width: pulse.Micros(v)})
		}
		return c
	}
	two, three, six := []int{988, 2012}, []int{988, 1500, 2012}, []int{988, 1200, 1400, 1600, 1800, 2012}
	for _, c := range []struct {
		control     *handset.Control
		first, last int
		want        string
	}{
		{at(handset.GoesDown, false, two...), 1, 1, "towards you"},
		{at(handset.GoesDown, false, two...), 0, 0, "away from you"},
		{at(handset.Pressed, false, two...), 1, 1, "in"},
		{at(handset.Pressed, false, two...), 0, 0, "out"},
		{at(handset.GoesUp, true, two...), 1, 1, "2012 µs"},
		{at(handset.GoesUp, true, two...), 0, 1, "in any position"},
		{at(handset.GoesRight, false, three...), 1, 1, "in the middle"},
		{at(handset.GoesRight, false, three...), 1, 2, "in the middle or to the right"},
		{at(handset.GoesRight, true, three...), 0, 1, "988 to 1500 µs"},
		{at(handset.TurnsClockwise, false, six...), 5, 5, "clockwise"},
		{at(handset.TurnsClockwise, false, six...), 3, 3, "1600 µs"},
		{at(handset.TurnsClockwise, false, six...), 3, 5, "1600 to 2012 µs"},
	} {
		assert.Equal(t, c.want, spoken(CardStand(c.control, c.first, c.last)), "%v", c)
	}
}

func TestWhatComesBeforeArmingOnTheCard(t *testing.T) {
	cfg := lossCraft(t, "switch", "when-silent: falls-silent", "when-lost: cut").Config()
	r := handset.Radio{StickMode: 2, Controls: []handset.Control{{Channel: 6, Job: "second", Kind: handset.Switch, Positions: []handset.Position{{Width: pulse.Micros(988)}, {Width: pulse.Micros(2012)}}}}}
	assert.Equal(t, "First: throttle low.", spoken(CardFirst(&cfg, &r, 0)))
	cfg.Layout.Second, cfg.Layout.SecondSpan = 6, layout.Span{Low: pulse.Micros(1600), High: pulse.Highest}
	cfg.Arming.OnlySelfLevelling = true
	r.Controls[0].Spot = handset.Spot{View: handset.OnFace, X: 1, Y: 1, Way: handset.GoesUp}
	assert.Equal(t, "First: throttle low, mode angle or horizon, second switch (3): up.", spoken(CardFirst(&cfg, &r, 3)))
	cfg = lossCraft(t, "sticks", "when-silent: falls-silent", "when-lost: cut").Config()
	assert.Empty(t, spoken(CardFirst(&cfg, &r, 0)), "the sticks that arm have the throttle low")
	assert.Equal(t, "throttle low, yaw right, for 0.8 s", spoken(CardHold(&cfg, true)))
	assert.Equal(t, "throttle low, yaw left, for 0.4 s", spoken(CardHold(&cfg, false)))
}

// The line of the proof says no more than the search found.
func TestAProofInOneLine(t *testing.T) {
	day := time.Date(2031, time.March, 5, 0, 0, 0, 0, time.UTC)
	report := func(partial bool, all ...prove.Outcome) *prove.Report {
		r := &prove.Report{Partial: partial}
		for i, o := range all {
			r.Results = append(r.Results, prove.Result{Rule: prove.Rule(i), Outcome: o})
		}
		return r
	}
	for _, c := range []struct {
		report    *prove.Report
		day       time.Time
		searching bool
		want      string
	}{
		{nil, day, true, "Layout not proved: its search was still going on."},
		{nil, day, false, "Layout not proved: not searched for this card."},
		{report(false, prove.Holds, prove.Holds), day, false, "Layout proved 5 March 2031: every rule holds."},
		{report(false, prove.NotAsked, prove.Holds), time.Time{}, false, "Layout proved: every rule that applies holds."},
		{report(false, prove.Holds, prove.WithIt), time.Time{}, false, "Layout proved: no rule is broken."},
		{report(true, prove.Holds, prove.Undecided), day, false, "Layout searched in part, not proved."},
		{report(false, prove.Broken, prove.Holds), day, false, "LAYOUT: 1 RULE BROKEN."},
		{report(true, prove.Broken, prove.Broken), day, false, "LAYOUT: 2 RULES BROKEN."},
	} {
		assert.Equal(t, c.want, spoken(CardProof(c.report, new(handset.Radio), c.day, c.searching)))
	}
	partly := &handset.Radio{Controls: []handset.Control{{Job: "roll", Assumed: true}}}
	assert.Equal(t, "Layout proved: every rule holds, full travel assumed.", spoken(CardProof(report(false, prove.Holds), partly, time.Time{}, false)))
}

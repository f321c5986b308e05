package tell

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/pulse"
)

// What comes to nothing in the digits that are shown is no change: neither between the tries of a run nor in the report.
func TestNoChangeIsTold(t *testing.T) {
	for trend, want := range map[int64]string{
		-1_774_000: "(±0.017 s); faster by 1.774 s a try.",
		-400:       "", 499: "", -500: "faster by 0.001 s a try", 500: "slower by 0.001 s a try", 3000: "slower by 0.003 s a try", -9000: "faster by 0.009 s a try", 0: "",
	} {
		got := spoken(DrillSum(drill.Summary{Counted: 4, Right: 4, Timed: 4, Median: 600_000, Spread: 10_000, Uncertain: 17_000, Trend: trend}))
		if want == "" {
			assert.NotContains(t, got, "a try", "%d µs", trend)
			continue
		}
		assert.Contains(t, got, want, "%d µs", trend)
	}
	assert.Equal(t, "Alarm: median 0.50\u00a0s, as at first.", spoken(ReportChange(words.AsIs("Alarm"), 501_000, 504_000, 3)))
	assert.Equal(t, "Alarm: median 0.51\u00a0s last, slower than at first (0.50\u00a0s).", spoken(ReportChange(words.AsIs("Alarm"), 504_999, 505_000, 3)))
	assert.Equal(t, "Alarm: median 0.40\u00a0s last, faster than at first (0.50\u00a0s).", spoken(ReportChange(words.AsIs("Alarm"), 500_000, 400_000, 3)))
}

// The end of a drill and the list say the same days.
func TestTheEndAndTheListSayTheSameDays(t *testing.T) {
	for due, want := range map[int32]string{21: "in 1 day", 22: "in 2 days", 36: "in 16 days"} {
		c := drill.Card{Box: 2, Due: due, Last: 20, Runs: 1, Learned: 1}
		assert.Equal(t, "learned, due again "+want, spoken(DrillStands(&c, 20)))
		assert.Equal(t, "Learned. It is due again "+want+".", spoken(DrillOver(true, false, &c, 20)))
	}
	failed := drill.Card{Box: 1, Due: 21, Last: 20, Failed: true}
	assert.Equal(t, "Not yet. It is due again in 1 day, and you may run it again at once.", spoken(DrillOver(false, false, &failed, 20)))
	assert.Equal(t, "Learned, but not kept: nobody is named.", spoken(DrillOver(true, false, nil, 20)))
	assert.Equal(t, "Not yet. You may run it again at once.", spoken(DrillOver(false, false, nil, 20)))
	assert.Equal(t, "The drill was left; it counts neither way.", spoken(DrillOver(false, true, &failed, 20)))
}

// Whoever drives but the pupil is told by what takes over now: demo pilot 1, keyboard 2, radio 3, played 4, nobody 0.
func TestWhoseHandADrillWaitsFor(t *testing.T) {
	h := func(who, next int, name string) DrillHand {
		return DrillHand{Driving: Driving{Who: who, Name: "Fen Trainer 2", Next: next, NextName: name, Key: words.AsIs("Tab")}, StickKey: words.AsIs("S")}
	}
	assert.Empty(t, spoken(DrillNeedsHand(h(2, 1, ""))))
	assert.Empty(t, spoken(DrillNeedsHand(h(3, 2, ""))))
	assert.Equal(t, "The demo pilot drives, and a drill needs your own hand: press any stick key, such as S, or plug your radio in. Then begin.", spoken(DrillNeedsHand(h(1, 2, ""))))
	assert.Equal(t, "The demo pilot drives, and a drill needs your own hand: press any stick key, such as S, or Tab for Moorland. Then begin.", spoken(DrillNeedsHand(h(1, 3, "Moorland"))))
	assert.Equal(t, "Nobody drives, and a drill needs your own hand: press any stick key, such as S, or plug your radio in. Then begin.", spoken(DrillNeedsHand(h(0, 2, ""))))
	assert.Equal(t, "A script or a take is played, and a drill needs your own hand. Begin once it has ended.", spoken(DrillNeedsHand(h(4, 0, ""))))
	assert.Equal(t, "A script or a take is played, and a drill needs your own hand: press Tab to go on by keyboard. Then begin.", spoken(DrillNeedsHand(h(4, 2, ""))))
	assert.Equal(t, "A script or a take is played, and a drill needs your own hand: press Tab, and then any stick key, such as S. Then begin.", spoken(DrillNeedsHand(h(4, 1, ""))))
	ended := h(4, 3, "Moorland")
	ended.Ended = true
	assert.Equal(t, "What was played has ended, and a drill needs your own hand: press Tab to go on by Moorland. Then begin.", spoken(DrillNeedsHand(ended)))
	out := h(3, 2, "")
	out.Unplugged = true
	assert.Equal(t, "Fen Trainer 2 is unplugged, and a drill needs your own hand: plug it in again, or press Tab to go on by keyboard. Then begin.", spoken(DrillNeedsHand(out)))
	lent := h(3, 2, "")
	lent.Instructor = true
	assert.Equal(t, "The instructor's radio has the sticks, and a drill needs your own hand. Begin once you have them again.", spoken(DrillNeedsHand(lent)))
}

// Whatever a drill file may say happens is said in words, not by its code word.
func TestWhatHappensIsSaidInWords(t *testing.T) {
	for code, word := range drillfile.Happenings() {
		got := spoken(WantSentence(drill.Want{Kind: drill.Happens, A: int32(code), B: -1}))
		assert.Contains(t, got, " ", word)
		assert.NotContains(t, got, "-", word)
	}
}

// What a hand did is one sentence, of its readings alone.
func TestWhatAHandDidIsToldInASentence(t *testing.T) {
	us := pulse.Micros
	for want, d := range map[string]drill.Did{
		"Nothing moved.":     {Kind: drill.DidNothing},
		"Yaw was not moved.": {Kind: drill.DidNothing, Job: drill.Yaw},
		"The arm switch moved 0.3 s before the call.":                          {Kind: drill.DidEarly, Job: drill.Arm, By: 304},
		"The arm switch moved long before the call.":                           {Kind: drill.DidEarly, Job: drill.Arm},
		"It came 0.01 s too late.":                                             {Kind: drill.DidLate, By: 1},
		"Yaw moved first, by 140 µs.":                                          {Kind: drill.DidFirst, Job: drill.Yaw, Way: us(140)},
		"The mode switch moved first.":                                         {Kind: drill.DidFirst, Job: drill.ModeJob},
		"Roll moved too, by 210 µs.":                                           {Kind: drill.DidToo, Job: drill.Roll, Way: us(210)},
		"The throttle went only to 1420 µs; it was to be at its low end.":      {Kind: drill.DidShort, Job: drill.Throttle, At: us(1420), Zones: 1<<drill.Low | 1<<drill.Down},
		"The throttle was in the middle for only 0.07 s, and then gone again.": {Kind: drill.DidThrough, Job: drill.Throttle, By: 72, Zones: 1 << drill.Middle},
		"Yaw was not moved, but roll was, by 300 µs.":                          {Kind: drill.DidOther, Job: drill.Yaw, Instead: drill.Roll, Way: us(300)},
		"Pitch went the wrong way, by 400 µs.":                                 {Kind: drill.DidWrongWay, Job: drill.Pitch, Way: us(400)},
		"The mode switch went to another position.":                            {Kind: drill.DidElsewhere, Job: drill.ModeJob},
		"": {},
	} {
		assert.Equal(t, want, strings.ReplaceAll(spoken(DrillDid(&d)), "\u00a0", " "))
	}
}

// Whoever practises is told how many were right, and no time.
func TestTheCountHasNoTimes(t *testing.T) {
	s := drill.Summary{Counted: 7, Right: 5, FalseStarts: 1, Anticipated: 1, Timed: 5, Median: 812_000, Spread: 43_000, Uncertain: 17_000, Trend: -9000}
	assert.Equal(t, "5 of 7 right, 1 false start, 1 guessed.", spoken(DrillCount(s)))
	assert.Contains(t, spoken(DrillSum(s)), "median 0.81")
}

// How a craft is to fly, and what it did not keep to, are sentences for every bound, either side and each language.
func TestFlownTasksAreSaid(t *testing.T) {
	task := func(set ...drill.Bound) (out drill.Task) {
		for _, b := range set {
			out.Set |= 1 << b
			out.Spans[b] = drill.Span{Low: 1000, High: 3000}
		}
		return out
	}
	flies := func(t drill.Task) string {
		return strings.ReplaceAll(spoken(WantSentence(drill.Want{Kind: drill.Flies, Task: t, For: 3000})), "\u00a0", " ")
	}
	assert.Equal(t, "1 m to 3 m high and over the square, for 3 s", flies(task(drill.OfHeight, drill.OfNorth, drill.OfEast)))
	nose := drill.Task{Set: 1<<drill.OfNose | 1<<drill.OfDistance, Nose: 1800}
	nose.Spans[drill.OfDistance] = drill.Span{Low: drill.NoLow, High: 6000}
	assert.Equal(t, "Under 6 m from the start and nose towards you, for 3 s", flies(nose))
	left := drill.Task{Set: 1 << drill.OfBank}
	left.Spans[drill.OfBank] = drill.Span{Low: drill.NoLow, High: -250}
	assert.Equal(t, "Leaning to the left, 25° or more, for 3 s", flies(left))
	assert.Equal(t, "It leaves its bounds (1 m to 3 m high)", strings.ReplaceAll(spoken(WantSentence(drill.Want{Kind: drill.Leaves, Task: task(drill.OfHeight)})), "\u00a0", " "))
	assert.Equal(t, "It touches down at 1.0 m/s or more", strings.ReplaceAll(spoken(WantSentence(drill.Want{Kind: drill.TouchesDown, A: 1000, B: drill.NoHigh})), "\u00a0", " "))
	assert.Equal(t, "The craft touches down", spoken(WantSentence(drill.Want{Kind: drill.TouchesDown, B: drill.NoHigh})))
	seen := map[string]bool{}
	for b := range drill.Bounds {
		for _, side := range []int8{-1, 1} {
			said := spoken(DrillDid(&drill.Did{Kind: drill.DidFly, Bound: b, Side: side, Flew: 1700}))
			assert.Regexp(t, `^I.* .*\.$`, said)
			seen[said] = true
		}
	}
	assert.Len(t, seen, 2*int(drill.Bounds)-2, "nose and bank are told alike on both sides")
	for want, d := range map[string]drill.Did{
		"It was too low, at 1.2 m.": {Kind: drill.DidFly, Bound: drill.OfHeight, Side: -1, Flew: 1234},
		"It kept to that for 3.2 s at most; then it was too far to the left, 1.6 m left of the start.": {Kind: drill.DidLeave, By: 3240, Bound: drill.OfEast, Side: -1, Flew: -1620},
		"It had kept to that for only 1 s when the time was up.":                                       {Kind: drill.DidBriefly, By: 1010},
		"It touched down at 2.7 m/s.":                                      {Kind: drill.DidTouch, Flew: 2701},
		"It kept to that for 1 s at most; then it leaned 30° to the left.": {Kind: drill.DidLeave, By: 1000, Bound: drill.OfBank, Side: -1, Flew: -301},
	} {
		assert.Equal(t, want, strings.ReplaceAll(spoken(DrillDid(&d)), "\u00a0", " "))
	}
}

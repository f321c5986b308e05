package tell

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
	"propsoff.example/input/check"
)

// Whatever the check can ask, find and advise has words of its own, in every language.
func TestEveryCodeOfTheCheckIsSaid(t *testing.T) {
	v := &check.View{Controls: []check.Control{{Job: "throttle"}}}
	seen := map[string]string{}
	say := func(code string, text words.Text) {
		saidInAll(t, code, text)
		assert.Empty(t, seen[spoken(text)], "%s and %s are told alike", code, seen[spoken(text)])
		seen[spoken(text)] = code
	}
	for k := check.Kind(0); k < check.KindCount; k++ {
		say(k.Code(), CheckItem(k))
	}
	for k := check.Verdict(0); k < check.VerdictCount; k++ {
		say(k.Code(), CheckVerdict(k))
	}
	for a := check.Ask(0); a < check.AskCount; a++ {
		v.Ask = a
		say(a.Code(), CheckAsk(v))
	}
	for w := check.NoWhy + 1; w < check.WhyCount; w++ {
		say(w.Code(), CheckWhy(w))
		say(w.Code(), words.T("check.why", words.Args{"why": CheckWhy(w)}))
	}
	for c := check.NoCure + 1; c < check.CureCount; c++ {
		say(c.Code(), CheckCure(v, &check.Item{Cure: c}))
		say(c.Code(), words.T("check.do", words.Args{"cure": CheckCure(v, &check.Item{Cure: c})}))
	}
	assert.True(t, CheckWhy(check.NoWhy).Empty() && CheckCure(v, &check.Item{}).Empty())
	for i, text := range words.Each("check.sees", "direction", "travel", "rest", "noise", "switches", "reports") {
		say("what is seen", text)
		saidInAll(t, "column", CheckColumn(i))
	}
	for _, err := range []error{words.Wrong("check.of-another", words.Args{"device": words.Quote("one"), "file": words.Quote("two")}), words.Wrong("check.not-learned", words.Args{"device": words.Quote("one")})} {
		assert.NotEqual(t, err.Error(), words.In("de").Error(err))
	}
}

// Where a control is to go is said by what it does, and a name the pilot gave stands before its job.
func TestWhatTheCheckAsksOfAControl(t *testing.T) {
	for want, c := range map[string]check.Control{
		"Move throttle up to its stop and wait a moment, then down to its stop, wait again, and bring it back.": {Job: "throttle", MissLow: true, MissHigh: true},
		"Now move yaw right to its stop, and wait a moment.":                                                    {Job: "yaw", MissHigh: true},
		"Now move pitch back to its stop, and wait a moment.":                                                   {Job: "pitch", MissLow: true},
		"Now let roll go.":                    {Job: "roll", Sprung: true},
		"Now bring channel 7 to its low end.": {Job: "channel 7"},
		"Move roll from one end to the other and back, through the middle without a stop, and let it go.": {Job: "roll", Sprung: true, MissThrough: true, MissLow: true},
		"Take arm switch through all its positions and wait a moment at each: 1 of 2 seen.":               {Job: "arm", Form: check.Switch, Places: []check.Place{{Seen: true}, {}}},
		"Take left lever through all its positions and wait a moment at each: 0 of 1 seen.":               {Job: "arm", Called: "left lever", Form: check.Switch, Places: []check.Place{{}}},
	} {
		text := CheckAsk(&check.View{Ask: check.AskMove, Controls: []check.Control{c}})
		assert.Equal(t, want, spoken(text))
		saidInAll(t, want, text)
	}
	assert.Equal(t, "ch. 7", spoken(CheckTag(&check.Control{Job: "channel 7"})))
	assert.Equal(t, "Gas: Jetzt nach unten bis zum Anschlag.", words.In("de").Say(CheckAsk(&check.View{Ask: check.AskMove, Controls: []check.Control{{Job: "throttle"}}})))
}

// Widths are rounded down and what must stay small up; what was measured stands beside what it must be.
func TestWhatTheCheckMeasured(t *testing.T) {
	v := &check.View{Controls: []check.Control{{Job: "throttle"}}}
	for want, it := range map[string]check.Item{
		"throttle, low end: fails. 1012 µs; must be below 1000 µs.":              {Kind: check.LowEnd, Known: true, Value: 1_012_999, Limit: 1_000_000, Side: check.Below, Verdict: check.Fails},
		"throttle, off centre: warns. −1.6 µs; must be at most 1.5 µs.":          {Kind: check.Centre, Known: true, Value: -1_501, Limit: 1_500, Verdict: check.Warns},
		"throttle, off centre: passes. +0.1 µs.":                                 {Kind: check.Centre, Known: true, Value: 1, Verdict: check.Passes},
		"throttle, positions: passes. All 3 seen.":                               {Kind: check.Positions, Known: true, Unit: check.Places, Value: 3, Limit: 3, Verdict: check.Passes},
		"throttle, positions: fails. 2 of 3; must be all 3.":                     {Kind: check.Positions, Known: true, Unit: check.Places, Value: 2, Limit: 3, Verdict: check.Fails},
		"throttle, jumps: fails. Once; must be none.":                            {Kind: check.Jumps, Known: true, Unit: check.Times, Value: 1, Verdict: check.Fails},
		"the radio, rate of reports: warns. 40 a second; must be at least 62.5.": {Control: -1, Kind: check.Rate, Known: true, Unit: check.PerSecond, Value: 40_900, Limit: 62_500, Side: check.AtLeast, Verdict: check.Warns},
		"throttle, noise: waits. Not seen whole.":                                {Kind: check.Noise},
	} {
		assert.Equal(t, want, spoken(CheckVerdictOf(v, &it)))
		saidInAll(t, want, CheckVerdictOf(v, &it))
	}
	assert.Equal(t, "off by 1.6", spoken(CheckShort(&check.Item{Kind: check.Positions, Known: true, Value: 1_501})))
	assert.Equal(t, "2 of 3 seen", spoken(CheckShort(&check.Item{Kind: check.Positions, Known: true, Unit: check.Places, Value: 2, Limit: 3})))
	assert.Equal(t, "lost: 2 times", spoken(CheckShort(&check.Item{Kind: check.Dropouts, Known: true, Unit: check.Times, Value: 2})))
	assert.Equal(t, "–", spoken(CheckValue(&check.Item{})))
	assert.True(t, CheckMust(&check.Item{Unit: check.Places, Verdict: check.Passes}).Empty())
	assert.Equal(t, "at least 125 a second", spoken(CheckValue(&check.Item{Known: true, Unit: check.PerSecond, Value: 125_000, Bound: true})))
}

func TestWhatTheCheckCameTo(t *testing.T) {
	v := &check.View{Settled: true, Items: make([]check.Item, 24)}
	v.Count[check.Passes] = 24
	assert.Equal(t, "Full and free: all 24 items pass.", spoken(CheckSum(v)))
	v.Count[check.Fails], v.Count[check.Warns], v.Count[check.Passes] = 1, 2, 1
	assert.Equal(t, "Checked: 1 item fails, 2 warn and 1 passes.", spoken(CheckSum(v)))
	v.Settled, v.Count[check.Fails], v.Count[check.Waiting] = false, 0, 3
	assert.Equal(t, "2 warn, 1 passes and 3 wait.", spoken(CheckSum(v)))
	assert.Equal(t, "2 warnen, 1 besteht und 3 stehen noch aus.", words.In("de").Say(CheckSum(v)))
	assert.Equal(t, "No radio drives. Let one drive (T): only a radio's own controls can be checked.", spoken(CheckNeedsRadio(false, 1, words.AsIs("T"))))
}

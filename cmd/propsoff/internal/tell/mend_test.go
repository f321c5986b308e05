package tell_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/radioreach"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/mend"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/switches"
)

func teasel(t *testing.T) prove.Layout {
	_, text, _ := assets.Craft(assets.BuiltIn)
	f, err := craftfile.Parse("craft", text)
	require.NoError(t, err)
	return prove.Layout{Config: f.Config(), Radio: radioreach.Ideal(f)}
}

// Every kind of change has a sentence of its own in every language, which says what is and what was.
func TestEveryKindOfMendHasItsSentence(t *testing.T) {
	l := teasel(t)
	for _, tag := range words.Languages() {
		book := words.In(tag.String())
		seen := map[string]mend.Kind{}
		for k := range mend.KindCount {
			m := mend.Mend{After: l, Changes: []mend.Change{{Kind: k, Control: 4, Channel: 4, Was: int64(pulse.Micros(1100)), Is: int64(pulse.Micros(1000))}}}
			switch k {
			case mend.AlwaysMode:
				m.Changes[0].Was, m.Changes[0].Is = int64(layout.Rate), int64(layout.Angle)
			case mend.Receiver:
				m.Changes[0].Was, m.Changes[0].Is = int64(link.RepeatsLast), int64(link.FallsSilent)
			}
			says := tell.MendChanges(&l, &m)
			require.Len(t, says, 1, k.Code())
			text := book.Say(says[0])
			assert.NotContains(t, text, "()", k.Code())
			assert.NotContains(t, text, "  ", k.Code())
			other, had := seen[text]
			assert.False(t, had, "%s and %s: %s", k.Code(), other.Code(), text)
			seen[text] = k
		}
	}
}

// A switch that changes places with another is told as what is set in the radio, and each lever with what it does before and after.
func TestASwitchThatTakesOverIsTold(t *testing.T) {
	l := teasel(t)
	spare := l.Radio.Controls[4]
	spare.Channel, spare.Job, spare.Called = 7, "channel 8", "front left"
	l.Radio.Controls = append(l.Radio.Controls, spare)
	m := mend.Mend{Changes: []mend.Change{{Kind: mend.ArmCarried, Relearn: 100, Control: 6, Channel: 4, Was: 4, Is: 7, Places: []int8{0, 0, 1}, Swaps: true}}}
	var ok bool
	m.After, ok = mend.Apply(&l, m.Changes)
	require.True(t, ok)
	english := words.English()
	var said []string
	for _, says := range tell.MendChanges(&l, &m) {
		said = append(said, english.Say(says))
	}
	assert.Equal(t, []string{
		"In the radio: the channel 8 switch (front left) is sent on channel 5, and the arm switch on the channel that this one had.",
		"In the craft: the channel 8 switch (front left) arms, on channel 5, in the span from 1756 µs.",
	}, said)
	levers := tell.MendLevers(&l, &m, switches.Look(&l.Config, nil, &l.Radio), switches.Look(&m.After.Config, nil, &m.After.Radio))
	require.Len(t, levers, 2, "the switch that armed, and the one that arms")
	places := func(i int) (out []string) {
		for _, p := range levers[i].Places {
			out = append(out, english.Say(p))
		}
		return out
	}
	assert.True(t, strings.HasPrefix(english.Say(levers[0].Name), "Arm switch"))
	assert.Contains(t, places(0), "high (2012 µs): arms → no job")
	assert.Contains(t, places(1), "high (2012 µs): no job → arms")
	assert.Contains(t, places(1), "low (988 µs): no job → disarms")
}

// The title says what the pilot must relearn: the most that any change asks for.
func TestWhatMustBeRelearntIsSaid(t *testing.T) {
	for want, relearn := range map[string][]int{
		"Mend 1: 1 change; no control gets another job.":                                     {1},
		"Mend 1: 2 changes; no control gets another job; only a lost link goes differently.": {1, 4},
		"Mend 1: 2 changes; your hands have something to relearn.":                           {60, 4},
	} {
		m := mend.Mend{}
		for _, n := range relearn {
			m.Changes = append(m.Changes, mend.Change{Kind: mend.CleanTime, Relearn: n})
		}
		assert.Equal(t, want, words.English().Say(tell.MendTitle(0, &m)))
	}
	m := mend.Mend{Changes: []mend.Change{{Kind: mend.Travel, Relearn: 10}}}
	assert.Equal(t, "Mend 1: 1 change; no control gets another job; the travel is set in the radio.", words.English().Say(tell.MendTitle(0, &m)))
}

// What the search for mends came to is said so that nothing is said too much.
func TestWhatMendingCameTo(t *testing.T) {
	broken := prove.Report{Results: []prove.Result{{Outcome: prove.Broken}}}
	for want, r := range map[string]mend.Report{
		"There is nothing to mend.":                                                             {},
		"Stopped before a mend was found; there may be one.":                                    {Before: broken, Partial: true},
		"None of the 560 sets of up to 3 changes that were tried mends this layout.":            {Before: broken, Changes: 3, Tried: 560},
		"1 mend was found. With it no rule is broken: the layout was searched whole once more.": {Before: broken, Mends: make([]mend.Mend, 1)},
	} {
		assert.Equal(t, want, words.English().Say(tell.MendVerdict(&r)))
	}
	assert.Equal(t, "Each of them leaves this rule broken:", words.English().Say(tell.MendExcluded(&mend.Report{Exclude: []prove.Rule{0}, Fewest: true})))
	assert.Equal(t, "These 2 rules stand in each other's way: each set that was tried breaks one of them; perhaps it is so of fewer:", words.English().Say(tell.MendExcluded(&mend.Report{Exclude: []prove.Rule{0, 1}})))
}

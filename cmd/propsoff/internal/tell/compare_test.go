package tell

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/codes"
	"propsoff/sim/handset"
	"propsoff/sim/prove"
)

// Whatever a comparison comes to is said in every language.
func TestEveryWordOfAComparisonIsSaid(t *testing.T) {
	l := [2]prove.Layout{*proveLayout(), *proveLayout()}
	for _, c := range []*prove.Comparison{{}, {Partial: true}, {Difference: &prove.Difference{}}} {
		saidInAll(t, c.Likeness().Code(), Likeness(c))
	}
	for n, lasts := range []int64{-1, 20} {
		d := &prove.Difference{Lasts: lasts, Ways: [2]*prove.Way{{Movements: n + 1}, {Movements: n + 1}}}
		saidInAll(t, "title", DifferenceTitle(d, false))
		saidInAll(t, "graver", DifferenceTitle(d, true))
		saidInAll(t, "lasts", Lasts(d))
	}
	assert.True(t, Lasts(&prove.Difference{}).Empty())
	for _, a := range []prove.Answer{{}, {Armed: true, Motors: true, Sinking: true, Mode: 2}, {Refused: 1<<13 | 1}} {
		saidInAll(t, "answer", Answered(&a))
	}
	l[1].Radio.Controls = append([]handset.Control(nil), l[1].Radio.Controls...)
	l[1].Radio.Controls[4].Channel = 11
	l[1].Radio.Controls = append(l[1].Radio.Controls, handset.Control{Channel: 14, Job: "lights", Kind: handset.Switch})
	for _, thin := range []int{1, 2} {
		notes := ComparedNotes(&l, &prove.Comparison{Thin: thin, Apart: 31})
		assert.Len(t, notes, 3+len(codes.Apart(31)))
		for _, n := range notes {
			saidInAll(t, "note", n)
		}
	}
	assert.Equal(t, "A: a B: b", spoken(ForBoth([2]words.Text{words.AsIs("a"), words.AsIs("b")})))
	assert.Equal(t, "a", spoken(ForBoth([2]words.Text{words.AsIs("a"), words.AsIs("a")})))
	assert.Equal(t, "B: b", spoken(ForBoth([2]words.Text{{}, words.AsIs("b")})))
	assert.Equal(t, "A: a", spoken(ForBoth([2]words.Text{words.AsIs("a"), {}})))
}

// A step of a control that one radio does not have is told as the other's; a switch that does not spring back stays.
func TestStepsOfTwo(t *testing.T) {
	l := [2]prove.Layout{*proveLayout(), *proveLayout()}
	step := func(kind prove.Kind, control int, from, to int) *prove.Way {
		c := &l[0].Radio.Controls[4]
		return &prove.Way{Steps: []prove.Step{{Kind: kind, Control: control, FromPosition: from, ToPosition: to, From: c.Positions[from].Width, To: c.Positions[to].Width}}}
	}
	require.GreaterOrEqual(t, len(l[0].Radio.Controls[4].Positions), 2)
	steps := ComparedSteps(&l, &prove.Difference{Ways: [2]*prove.Way{step(prove.Move, -1, 0, 0), step(prove.Move, 4, 0, 1)}})
	assert.Equal(t, spoken(steps[0].Text[1]), spoken(steps[0].Text[0]))
	steps = ComparedSteps(&l, &prove.Difference{Ways: [2]*prove.Way{step(prove.LetGo, 4, 1, 1), step(prove.LetGo, 4, 1, 0)}})
	assert.Contains(t, spoken(steps[0].Text[0]), "it stays where it is")
	assert.Contains(t, spoken(steps[0].Text[1]), "springs back")
}

package tell

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
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
	l[1].Radio.Controls[1].Stays = true
	c := &prove.Comparison{Apart: 31, Same: [][2]int{{1, 1}, {4, 4}, {-1, len(l[1].Radio.Controls) - 1}, {5, -1}}, LeftOut: []prove.LeftOut{{Controls: [2]int{0, 0}, From: [2]pulse.Width{pulse.Low, pulse.Low + 8}, To: [2]pulse.Width{pulse.Low, pulse.Low + 16}}},
		Shaken: []prove.Shaken{{Layout: 1, Control: 4, Position: 1, At: pulse.Centre, To: pulse.Micros(1600)}, {Control: 0, Position: -1, At: pulse.Low, To: pulse.Micros(800)}}}
	for _, c.ByNoise = range []bool{false, true} {
		saidInAll(t, "likeness", Likeness(c))
		notes := ComparedNotes(&l, c)
		assert.Len(t, notes, 8+len(codes.Apart(31)))
		for _, n := range notes {
			saidInAll(t, "note", n)
		}
	}
	one := [2]prove.Layout{l[0], l[0]}
	one[1].Config.Layout.Arm, one[1].Config.Layout.Mode = 5, 4
	notes := ComparedNotes(&one, &prove.Comparison{})
	assert.Contains(t, spoken(notes[0]), "arm (channel 5 with A, channel 6 with B) and mode (channel 6 with A, channel 5 with B)")
	one[1].Config.Layout.Arm = -1
	saidInAll(t, "no channel", ComparedNotes(&one, &prove.Comparison{})[0])
	of := [2]words.Text{words.AsIs("A craft."), words.AsIs("A craft.")}
	for i, says := range OfFiles(of, [2]string{"old.yaml", "new.yaml"}, [2]string{"", "r.yaml"}) {
		saidInAll(t, "files", says)
		assert.Contains(t, spoken(says), [2]string{"old.yaml.", "radio file: r.yaml."}[i])
	}
	of[1] = words.AsIs("Another.")
	assert.Equal(t, of, OfFiles(of, [2]string{}, [2]string{}))
	assert.Equal(t, "A: A B: B", spoken(ForBoth([2]words.Text{words.AsIs("a"), words.AsIs("b")})))
	assert.Equal(t, "a", spoken(ForBoth([2]words.Text{words.AsIs("a"), words.AsIs("a")})))
	assert.Equal(t, "B: B", spoken(ForBoth([2]words.Text{{}, words.AsIs("b")})))
	assert.Equal(t, "A: A", spoken(ForBoth([2]words.Text{words.AsIs("a"), {}})))
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
	steps = ComparedSteps(&l, &prove.Difference{Ways: [2]*prove.Way{step(prove.Move, 4, 0, 1), step(prove.Move, 4, 0, 0)}})
	assert.Equal(t, "Arm switch stays where it is.", spoken(steps[0].Text[1]))
}

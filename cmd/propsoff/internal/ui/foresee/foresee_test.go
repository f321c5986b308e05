package foresee_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/foresee"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/examine"
	"propsoff.example/sim/prove"

	"propsoff.example/assets"
)

// examined are a shipped craft with an ideal radio, and as many questions about them, the longest of some first.
func examined(t testing.TB, craft string, n int) (*prove.Layout, []examine.Question) {
	name, text, ok := assets.Craft(craft)
	require.True(t, ok)
	f, err := craftfile.Parse(name, text)
	require.NoError(t, err)
	l := facts.LayoutOf(f, nil, nil)
	e, err := facts.Examiner(&l, f, 4, nil)
	require.NoError(t, err)
	var all []examine.Question
	var asked []examine.Asked
	long := 0
	for range n {
		q, ok := e.Next(asked, nil)
		require.True(t, ok)
		asked = append(asked, examine.Asked{ID: q.ID, Ask: q.Ask, About: q.About})
		all = append(all, q)
		if steps(&q) > steps(&all[long]) {
			long = len(all) - 1
		}
	}
	all[0], all[long] = all[long], all[0]
	return &l, all
}

func steps(q *examine.Question) int { return len(q.Stories[0].Way.Steps) + len(q.Stories[1].Way.Steps) }

// scene is a stage with the sheet as it stands.
func scene(make func(t testing.TB) foresee.View) func(t testing.TB) *uitest.Stage {
	return func(t testing.TB) *uitest.Stage {
		s := uitest.Ready(t)
		*foresee.Of(s.V) = make(t)
		return s
	}
}

func asking(craft string, answer int, us int64) func(t testing.TB) *uitest.Stage {
	return scene(func(t testing.TB) foresee.View {
		l, all := examined(t, craft, 12)
		return foresee.At(l, all[0], 7, answer, us)
	})
}

var scenes = []uitest.Scene{
	{Name: "making", Make: scene(func(testing.TB) foresee.View { return foresee.View{Count: 10, Answer: -1} }), Says: []string{"Questions are being made"}},
	{Name: "no more", Make: scene(func(testing.TB) foresee.View { return foresee.View{Answer: -1, Trouble: words.T("foresee.no-more")} }), Says: []string{"every question that could be found"}},
	{Name: "asking", Make: asking(assets.BuiltIn, -1, 0), Says: []string{"First", "Second", "yes in both"}},
	{Name: "asking by sticks", Make: asking("teasel-by-sticks", -1, 0), Says: []string{"no in both"}},
	{Name: "ending", Make: asking(assets.BuiltIn, 1, 100_000), Says: []string{"yes in the first only"}},
	{Name: "shown", Make: asking(assets.BuiltIn, 0, 1<<40), Says: []string{"depend"}},
	{Name: "shown by sticks", Make: asking("teasel-by-sticks", 3, 1<<40), Says: []string{"depend"}},
	{Name: "all foreseen", Make: scene(func(testing.TB) foresee.View { return foresee.After(answered(10, 0)) }), Says: []string{"10 of 10 foreseen", "No belief was wrong"}},
	{Name: "beliefs", Make: scene(func(testing.TB) foresee.View { return foresee.After(answered(10, 7)) }), Says: []string{"3 of 10 foreseen", "nothing about whether"}},
}

// answered are so many answers, of which so many were wrong in every way.
func answered(n, wrong int) (all []examine.Asked) {
	for i := range n {
		a := examine.Asked{Ask: examine.Ask(i % int(examine.AskCount)), About: examine.About(i % int(examine.AboutCount))}
		if i < wrong {
			a.Verdict = examine.NoMatter + examine.Verdict(i%4)
		}
		all = append(all, a)
	}
	return all
}

func TestForeseeInEveryScene(t *testing.T) { uitest.InEveryScene(t, "foresee", scenes, foresee.Draw) }

func TestEveryActionOfForeseeIsOnItsSheet(t *testing.T) {
	s := asking(assets.BuiltIn, 0, 1<<40)(t)
	uitest.KeysAreThere(t, ui.OnForesee, foresee.Draw, s.V, foresee.GoOn, foresee.EndRound)
}

// Each answer can be pressed while it is asked for, and none once it was given.
func TestAnswersArePressed(t *testing.T) {
	for phase, makes := range map[string]func(testing.TB) *uitest.Stage{"asking": asking(assets.BuiltIn, -1, 0), "shown": asking(assets.BuiltIn, 0, 1<<40)} {
		s := makes(t)
		p := &ink.Page{}
		p.Reset(1280, 800, 1, ink.Light())
		foresee.Draw(p, s.V)
		hits := 0
		for _, h := range p.Hits() {
			if n, ok := ui.NumberOf(h.Name, "foresee-answer-"); ok && n < 4 {
				hits++
			}
		}
		assert.Equal(t, map[string]int{"asking": 4, "shown": 0}[phase], hits, phase)
	}
}

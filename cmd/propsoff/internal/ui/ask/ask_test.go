package ask_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/ask"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/layout"
)

// asking is a question over a stage's bench.
func asking(t testing.TB, q ask.View) *uitest.Stage {
	s := uitest.Ready(t)
	*ask.Of(s.V) = q
	return s
}

// own is a text that is no message, and the same in every language.
const own = "Moorland Desk 7"

func TestQuestionsInEveryScene(t *testing.T) {
	name := words.AsIs(own)
	many := make([]words.Text, 5)
	for i := range many {
		many[i] = name
	}
	uitest.InEveryScene(t, "ask", []uitest.Scene{
		{Name: "two answers", Make: func(t testing.TB) *uitest.Stage {
			return asking(t, ask.View{Says: name, Answers: many[:2]})
		}, Says: []string{own}},
		{Name: "armed, the second marked", Make: func(t testing.TB) *uitest.Stage {
			return asking(t, ask.View{Says: name, Lost: words.Row(name, name, name), Answers: many[:3], At: 1, Disarms: true})
		}, Says: []string{"The craft is still armed. Space (arm switch) works here too."}},
		{Name: "armed by the sticks", Make: func(t testing.TB) *uitest.Stage {
			s := asking(t, ask.View{Says: name, Answers: many[:2], Disarms: true})
			bySticks := *s.V.Config
			bySticks.Layout.Arm, bySticks.Arming.By = layout.NoChannel, arming.BySticks
			s.V.Config = &bySticks
			return s
		}, Says: []string{"The craft is still armed. X (throttle down) works here too."}},
		{Name: "much to be read", Make: func(t testing.TB) *uitest.Stage {
			long := words.AsIs(uitest.LongName)
			return asking(t, ask.View{Says: words.Row(long, long), Lost: words.Row(long, long, long), Answers: many})
		}},
	}, ask.Draw)
}

// Each answer is there to be pressed, also for a class, and each key.
func TestEveryAnswerCanBeClicked(t *testing.T) {
	s := asking(t, ask.View{Says: words.AsIs(own), Answers: []words.Text{words.AsIs("a"), words.AsIs("b"), words.AsIs("c")}})
	for _, class := range []bool{false, true} {
		s.V.Class = class
		p, hits := ink.NewPage(960, 600, 0, nil), map[string]bool{}
		ask.Draw(p, s.V)
		for _, h := range p.Hits() {
			hits[h.Name] = true
		}
		for _, name := range []string{"ask-answer-1", "ask-answer-2", "ask-answer-3", "ask-take", "leave"} {
			assert.True(t, hits[name], "%s, class %v", name, class)
		}
	}
	s.V.Class = false
	uitest.KeysAreThere(t, ui.OnAsk, ask.Draw, s.V, ask.Above, ask.Below, ask.Take, ui.Leave)
}

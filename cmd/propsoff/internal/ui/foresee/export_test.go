package foresee

import (
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/examine"
	"propsoff.example/sim/prove"
)

// At is the sheet with a question, so far as an answer was given, −1 for none, and the bench has shown both ends, in µs from the last movement.
func At(l *prove.Layout, q examine.Question, number, answer int, us int64) View {
	p := &part{layout: *l, view: View{Count: questions, Of: tell.Searched("Teasel", &l.Radio, 0)}}
	p.ask(q)
	if p.view.Number = number; answer >= 0 {
		p.view.Phase, p.view.Answer = Ending, answer
		p.view.Right = q.Judge(tell.ForeseeAnswer(answer)) == examine.Foreseen
		p.show(us)
	}
	return p.view
}

// After is the sheet after a round.
func After(asked []examine.Asked) View {
	p := &part{round: asked}
	p.over()
	return p.view
}

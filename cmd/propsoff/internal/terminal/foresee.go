package terminal

import (
	"fmt"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/wayplay"
	"propsoff.example/sim/examine"
	"propsoff.example/sim/prove"
)

// foreseeMark stands before what the other story does not have.
const foreseeMark = "*"

// Foresee prints the questions of the examiner.
type Foresee struct {
	// Book is the language of its text, nil for English; JSON has everything as JSON Lines.
	Book   *words.Book
	JSON   bool
	Layout *prove.Layout
	// Of is how many questions are asked.
	Of int
}

// AppendAbout appends what this is about, as text only.
func (f *Foresee) AppendAbout(dst []byte, searched words.Text) []byte {
	if f.JSON {
		return AppendFields(dst, "code", "layout", "text", searched)
	}
	p := Proof{Book: f.Book}
	dst = p.wrapped(dst, "", searched)
	return p.wrapped(dst, "", words.T("foresee.about", words.Args{"mark": words.AsIs(foreseeMark)}))
}

// AppendQuestion appends a question, by its number from 1. What the two differ in is marked, and not named: that may tell too much.
func (f *Foresee) AppendQuestion(dst []byte, number int, q *examine.Question) []byte {
	if f.JSON {
		var stories []Fields
		for i := range q.Stories {
			var steps []Fields
			for _, s := range tell.ForeseeStory(f.Layout, &q.Stories[i]) {
				steps = append(steps, Fields{"t_ms", q.Stories[i].Way.Steps[s.Step].At, "text", s.Text, "differs", s.Differs})
			}
			stories = append(stories, Fields{"steps", steps})
		}
		return AppendFields(dst, "code", "question", "number", number, "of", f.Of, "stories", stories, "then", tell.ForeseeIs(f.Layout, q), "ask", q.Ask.Code(), "text", tell.ForeseeAsks(q), "answers", tell.ForeseeAnswers())
	}
	p := Proof{Book: f.Book}
	dst = p.wrapped(append(dst, '\n'), "", words.T("foresee.question", words.Args{"at": words.Whole(number), "of": words.Whole(f.Of)}))
	for i := range q.Stories {
		dst = p.wrapped(dst, "", tell.ForeseeName(i))
		for _, s := range tell.ForeseeStory(f.Layout, &q.Stories[i]) {
			mark := " "
			if s.Differs {
				mark = foreseeMark
			}
			dst = p.wrapped(dst, fmt.Sprintf(" %s%3s  ", mark, s.Number), s.Text)
		}
	}
	dst = p.wrapped(dst, "", tell.ForeseeIs(f.Layout, q))
	dst = p.wrapped(dst, "", tell.ForeseeAsks(q))
	for n, answer := range tell.ForeseeAnswers() {
		dst = p.wrapped(dst, fmt.Sprintf("%4d. ", n+1), answer)
	}
	return dst
}

// AppendEnds appends how both ended and what the answer shows, by its number from 0.
func (f *Foresee) AppendEnds(dst []byte, q *examine.Question, answer int, plays *[2]*wayplay.Play) []byte {
	v := q.Judge(tell.ForeseeAnswer(answer))
	if f.JSON {
		var ends []Fields
		for i, p := range plays {
			ends = append(ends, Fields{"answer", q.Stories[i].Ends, "text", tell.ForeseeEnd(p)})
		}
		return AppendFields(dst, "code", "ends", "answer", answer+1, "ends", ends, "id", q.ID, "about", q.About.Code(), "alike", q.Alike(), "verdict", v.Code(), "text", tell.ForeseeVerdict(q, v))
	}
	p := Proof{Book: f.Book}
	for i := range plays {
		dst = p.wrapped(dst, "   ", words.T("terminal.named", words.Args{"name": tell.ForeseeName(i), "says": tell.ForeseeEnd(plays[i])}))
	}
	return p.wrapped(dst, "", tell.ForeseeVerdict(q, v))
}

// AppendScore appends what the questions came to.
func (f *Foresee) AppendScore(dst []byte, asked []examine.Asked) []byte {
	score, wrong := tell.ForeseeScore(asked)
	if f.JSON {
		var beliefs []Fields
		for _, b := range examine.Beliefs(asked) {
			line := Fields{"ask", b.Ask.Code(), "about", b.About.Code(), "came", b.Came, "wrong", b.Wrong}
			for v, n := range b.By {
				line = append(line, strings.ReplaceAll(examine.Verdict(v).Code(), "-", "_"), n) // as all fields are written
			}
			beliefs = append(beliefs, line)
		}
		return AppendFields(dst, "code", "score", "foreseen", examine.Right(asked), "asked", len(asked), "beliefs", beliefs, "texts", append([]words.Text{score}, wrong...))
	}
	p := Proof{Book: f.Book}
	dst = p.wrapped(append(dst, '\n'), "", score)
	for _, w := range wrong {
		dst = p.wrapped(dst, "  ", w)
	}
	return dst
}

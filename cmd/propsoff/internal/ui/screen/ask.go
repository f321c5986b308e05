package screen

import (
	"propsoff.example/assets/words"
)

// Answer is one answer to a question, and what it does; nil does nothing.
type Answer struct {
	Says words.Text
	Do   func()
}

// Question is what a person is asked, over whatever is open. The bench goes on below it.
type Question struct {
	Says words.Text
	// Lost says what would be lost as things stand now; nil where there is nothing to say.
	Lost func() words.Text
	// Drives is what is said of who drives while it stands, as things are now; nil or nothing said where that is nothing else than on other sheets.
	Drives func() words.Text
	// Answers in their order: the first is the safe one, which is marked, and which leaving the question takes. At is the one marked.
	Answers []Answer
	At      int
}

// Ask asks something over the sheet that is open. The first answer is the safe one: it is marked, and Esc takes it.
func (s *Screen) Ask(question words.Text, answers ...Answer) {
	s.AskOf(Question{Says: question, Answers: answers})
}

// AskOf is Ask of a question that says what would be lost. A newer question takes the place of one that stands.
func (s *Screen) AskOf(q Question) {
	s.asked, s.quitting = &q, false
}

// Asked is the question that stands, nil for none.
func (s *Screen) Asked() *Question { return s.asked }

// Answer takes an answer to the question that stands, by its number from 0. What it does may ask the next question.
func (s *Screen) Answer(n int) {
	q := s.asked
	if q == nil || n < 0 || n >= len(q.Answers) {
		return
	}
	if s.asked, s.quitting = nil, false; q.Answers[n].Do != nil {
		q.Answers[n].Do()
	}
}

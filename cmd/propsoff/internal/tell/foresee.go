package tell

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/wayplay"
	"propsoff.example/sim/examine"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/prove"
)

// ForeseeStep is one line of a story. Differs: the other story does not have it so.
type ForeseeStep struct {
	ProvedStep
	// Step is its index among the steps of the way.
	Step    int
	Differs bool
}

// ForeseeStory are the lines of a story before its last movement: how everything stands at first, and what is done. The moment that a hand takes
// between two movements is not told, nor what comes of anything.
func ForeseeStory(l *prove.Layout, s *examine.Story) (all []ForeseeStep) {
	steps := ProvedSteps(l, s.Way)
	for i := range s.Way.Steps {
		st := &s.Way.Steps[i]
		if i >= s.Last || st.Kind == prove.Wait && st.Ms <= examine.Pace {
			continue
		}
		one := ForeseeStep{ProvedStep: steps[i], Step: i, Differs: i >= s.Differs[0] && i < s.Differs[1]}
		one.Then = words.Text{}
		all = append(all, one)
	}
	return all
}

// ForeseeAsks is what is asked of both ends, ForeseeIs how both stand before the last movement, and which that is.
func ForeseeAsks(q *examine.Question) words.Text { return words.Of("foresee.ask", q.Ask.Code()) }

// ForeseeIs is told with ForeseeAsks: the last movement, and how long nothing moves after it.
func ForeseeIs(l *prove.Layout, q *examine.Question) words.Text {
	s := &q.Stories[0]
	ms := int64(0)
	for _, st := range s.Way.Steps[s.Last+1:] {
		ms += st.Ms
	}
	return words.T("foresee.is", words.Args{"armed": words.Flag(q.Ask != examine.Arms), "last": stepText(l, s.Way, &s.Way.Steps[s.Last]), "time": Seconds(ms)})
}

// ForeseeName is what a story is called, by its number from 0.
func ForeseeName(i int) words.Text {
	return words.T([...]words.ID{"foresee.first", "foresee.second"}[i])
}

// ForeseeAnswers are the answers in the order in which they are numbered, from 1; ForeseeAnswer is what each says of both ends.
func ForeseeAnswers() (all []words.Text) {
	for _, code := range [...]string{"both", "first", "second", "neither"} {
		all = append(all, words.Of("foresee.answer", code))
	}
	return all
}

// ForeseeAnswer is what the answer with a number from 0 says of both ends.
func ForeseeAnswer(n int) [2]bool { return [2]bool{n == 0 || n == 1, n == 0 || n == 2} }

// ForeseeEnd says how a story that was played ended, and why, where the bench says it: what refused arming, or what disarmed.
func ForeseeEnd(p *wayplay.Play) words.Text {
	f := p.Facts()
	says := []words.Text{words.T("prove.sentence", words.Args{"what": words.T("foresee.ends", words.Args{"armed": words.Flag(f.Snap.Armed),
		"turn": words.Flag(f.Snap.Motor != [flight.Motors]uint16{})})})}
	refused, asked := p.Refused()
	cut, disarmed := p.Disarmed()
	switch {
	case f.Snap.Armed:
	case disarmed:
		says = append(says, words.T("foresee.disarmed", words.Args{"cause": Cause(happening.Cause(cut.A))}))
	case asked:
		says = append(says, words.T("foresee.refused", words.Args{"why": words.And(whys(facts.Set(refused.A), happening.SetUp(refused.B))...)}))
	default:
		if f.N == 0 {
			says = append(says, words.T("foresee.not-asked", words.Args{"receiver": words.Flag(f.Hearing == facts.ItsReceiver)}))
		}
		for _, x := range f.Refusals() {
			says = append(says, Sentence(x, &f))
		}
	}
	return words.Row(says...)
}

// ForeseeVerdict says what an answer shows.
func ForeseeVerdict(q *examine.Question, v examine.Verdict) words.Text {
	return words.Of("foresee.verdict", v.Code(), foreseeArgs(q.Ask, q.About, words.Args{"matters": words.Flag(!q.Alike())}))
}

func foreseeArgs(ask examine.Ask, about examine.About, more words.Args) words.Args {
	more["whether"], more["thing"] = words.Of("foresee.whether", ask.Code()), words.Of("foresee.thing", about.Code())
	return more
}

// ForeseeScore says what some questions came to: how many were foreseen, and for each thing that was taken wrongly how.
func ForeseeScore(asked []examine.Asked) (score words.Text, wrong []words.Text) {
	if len(asked) == 0 {
		return words.T("foresee.none-answered"), nil
	}
	score = words.T("foresee.score", words.Args{"right": words.Whole(examine.Right(asked)), "n": words.Whole(len(asked))})
	for _, b := range examine.Beliefs(asked) {
		for v := examine.NoMatter; v < examine.VerdictCount; v++ {
			if n := b.By[v]; n > 0 {
				wrong = append(wrong, words.Of("foresee.taken", v.Code(), foreseeArgs(b.Ask, b.About, words.Args{"wrong": words.Whole(n), "came": words.Whole(b.Came)})))
			}
		}
	}
	if len(wrong) == 0 {
		wrong = append(wrong, words.T("foresee.none-wrong"))
	}
	return score, wrong
}

// ForeseeNeverArms says that no hand on this radio arms this craft, and why, before anything is asked about them; nothing where one can.
func ForeseeNeverArms(l *prove.Layout) (t words.Text) {
	if why, never := facts.NeverArms(&l.Config, &l.Radio); never {
		found, _ := causeParts(l, &why, why.Cause)
		t = words.T("foresee.never-arms", words.Args{"why": found})
	}
	return t
}

// ForeseeNone says that there is no question more, after so many; or that there never was one.
func ForeseeNone(asked int) words.Text {
	if asked == 0 {
		return words.T("foresee.none")
	}
	return words.T("foresee.no-more")
}

// LogbookForeseen says one question of the examiner as an entry of a logbook.
func LogbookForeseen(a *examine.Asked) words.Text {
	return words.T("logbook.foreseen", foreseeArgs(a.Ask, a.About, words.Args{"right": words.Flag(a.Verdict == examine.Foreseen)}))
}

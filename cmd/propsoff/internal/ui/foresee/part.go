package foresee

import (
	"cmp"
	"slices"
	"sync/atomic"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/breath"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/wayplay"
	"propsoff.example/sim/examine"
	"propsoff.example/sim/prove"
)

// questions are those of one round, before how many ms of the last movement the bench begins to show it, and longestTurn the most that it goes on
// at once, in µs, however long the window stood still (all ours).
const (
	questions   = 10
	before      = 1500
	longestTurn = 250_000
)

// made is what came of making a question.
type made struct {
	examiner *examine.Examiner
	q        examine.Question
	ok       bool
	err      error
}

// part is the work behind the sheet: questions are made beside the window.
type part struct {
	screen.Base
	s    *screen.Screen
	view View

	revision int // of craft and radio, for which the examiner was made
	pupil    string
	layout   prove.Layout
	examiner *examine.Examiner
	coming   chan made // nil while none is being made
	stop     *atomic.Bool

	q     examine.Question
	plays [2]*wayplay.Play
	clock int64
	// shown is how far the bench shows both stories, in µs from their last movements; session are all questions since the program began, of
	// whoever practises without a name, and now how many belong to this round.
	shown   int64
	session []examine.Asked
	round   []examine.Asked
}

// New makes the sheet.
func New(s *screen.Screen) screen.Sheet { return &part{s: s, revision: -1} }

// Open begins a round where none is under way about this craft and radio by who practises now.
func (p *part) Open() {
	if p.view.Phase == Over || p.revision != p.s.Revision() || p.pupil != p.s.Pupil() {
		p.begin()
	}
}

// begin begins a round.
func (p *part) begin() {
	if p.coming != nil {
		p.stop.Store(true)
		<-p.coming // a matter of milliseconds
		p.coming = nil
	}
	craft := p.s.Options.Craft
	p.view, p.round = View{Count: questions, Answer: -1}, nil
	if p.pupil = p.s.Pupil(); craft == nil {
		p.view.Trouble = words.T("prove.no-craft")
		return
	}
	if p.revision != p.s.Revision() {
		p.revision, p.examiner, p.layout = p.s.Revision(), nil, p.s.LayoutOf(craft)
	}
	p.view.Of = words.Row(tell.Searched(craft.Name, &p.layout.Radio, p.s.Known.By), tell.ForeseeNeverArms(&p.layout))
	p.make()
}

// asked are all questions that whoever practises was asked.
func (p *part) asked() []examine.Asked {
	if p.pupil == "" {
		return p.session
	}
	return p.s.Options.Drills.Pupils.Asked()
}

// make has the next question made, beside the window.
func (p *part) make() {
	craft, l, e, asked := p.s.Options.Craft, p.layout, p.examiner, slices.Clone(p.asked())
	seed, coming, over := p.s.Options.Drills.Seed, make(chan made, 1), new(atomic.Bool)
	p.coming, p.stop = coming, over
	go func() {
		var b breath.Breath
		stop := func() bool {
			b.Take()
			return over.Load()
		}
		m := made{examiner: e}
		if e == nil {
			m.examiner, m.err = facts.Examiner(&l, craft, seed, stop)
		}
		if m.err == nil {
			m.q, m.ok = m.examiner.Next(asked, stop)
		}
		coming <- m
	}()
}

// take takes a question that was made, if one was.
func (p *part) take() {
	if p.coming == nil || p.view.Phase != Making {
		return
	}
	select {
	case m := <-p.coming:
		p.coming, p.examiner = nil, m.examiner
		switch {
		case m.err != nil:
			p.view.Trouble = words.T("prove.not-searched", words.Args{"why": words.Error(m.err)})
		case !m.ok && len(p.round) > 0:
			p.view.Kept = tell.ForeseeNone(len(p.asked()))
			p.over()
		case !m.ok:
			p.view.Trouble = tell.ForeseeNone(len(p.asked()))
		default:
			p.ask(m.q)
		}
	default:
	}
}

// ask shows a question.
func (p *part) ask(q examine.Question) {
	v, l := &p.view, &p.layout
	p.q, p.plays, p.shown = q, wayplay.Both(l.Config, &q), -before*1000
	v.Phase, v.Number, v.Answer, v.Share = Asking, len(p.round)+1, -1, 0
	v.Is, v.Asks, v.Answers, v.Verdict = tell.ForeseeIs(l, &q), tell.ForeseeAsks(&q), tell.ForeseeAnswers(), words.Text{}
	v.Radio, v.Layout, v.Job = &l.Radio, &l.Config.Layout, ""
	last := &q.Stories[0].Way.Steps[q.Stories[0].Last]
	if last.Control >= 0 {
		c := &l.Radio.Controls[last.Control]
		v.Job, v.To, v.Up = c.Job, c.Share(last.To), float64(cmp.Compare(last.To, last.From))
	}
	for i := range q.Stories {
		s := &v.Stories[i]
		*s = Story{Name: tell.ForeseeName(i), Steps: tell.ForeseeStory(l, &q.Stories[i])}
		v.Begin, s.Steps = s.Steps[0].Text, s.Steps[1:] // the same in both
		p.plays[i].To(q.Stories[i].At)
	}
	p.look()
}

// look takes in how both crafts stand.
func (p *part) look() {
	for i, play := range p.plays {
		s := &p.view.Stories[i]
		s.Sent = *play.Sent()
		play.Snapshot(&s.Snap)
	}
}

// answer takes an answer by its number from 0, and has the bench show both ends.
func (p *part) answer(n int) {
	v := &p.view
	if v.Phase != Asking || n >= len(v.Answers) {
		return
	}
	v.Phase, v.Answer, p.clock = Ending, n, p.s.Options.Loop.Clock().Now()
	verdict := p.q.Judge(tell.ForeseeAnswer(n))
	v.Right = verdict == examine.Foreseen
	a := examine.Asked{ID: p.q.ID, Ask: p.q.Ask, About: p.q.About, Verdict: verdict}
	p.round = append(p.round, a)
	if v.Kept = (words.Text{}); p.pupil == "" {
		p.session = append(p.session, a)
	} else if err := p.s.Options.Drills.Pupils.KeepAsked(a, p.held()); err != nil {
		v.Kept = words.Error(err)
	}
	if len(p.round) < questions {
		p.make() // while this one is looked at
	}
}

// held is the craft and the radio that the questions are about.
func (p *part) held() screen.Held {
	o := &p.s.Options
	h := screen.Held{Radio: p.layout.Radio.Name, Craft: o.Craft, Gestures: o.Gestures.Name}
	if !p.s.Known.By.Ideal() {
		h.StickMode = p.layout.Radio.StickMode
	}
	return h
}

// goOn goes on: to the end of what is shown, to the next question, to what the round came to, or to another round.
func (p *part) goOn() {
	switch v := &p.view; {
	case v.Phase == Ending:
		p.show(p.ends())
	case v.Phase == Shown && v.Number >= v.Count:
		p.over()
	case v.Phase == Shown:
		v.Phase = Making
		p.take()
	case v.Phase == Over:
		p.begin()
	}
}

// endRound ends the round with what was answered so far.
func (p *part) endRound() {
	if v := &p.view; v.Phase > Making && v.Phase < Over {
		p.over()
	}
}

func (p *part) over() {
	v := &p.view
	v.Phase = Over
	v.Score, v.Beliefs = tell.ForeseeScore(p.round)
}

// ends is for how long both are shown from the last movement on, in µs.
func (p *part) ends() int64 { return (p.plays[0].Ends() - p.q.Stories[0].At) * 1000 }

// show shows both so many µs after the last movement.
func (p *part) show(us int64) {
	v := &p.view
	p.shown = min(us, p.ends())
	v.Share = float64(p.shown+before*1000) / float64(p.ends()+before*1000)
	for i, play := range p.plays {
		play.To(p.q.Stories[i].At + p.shown/1000)
	}
	p.look()
	if p.shown < p.ends() {
		return
	}
	v.Phase, v.Verdict = Shown, tell.ForeseeVerdict(&p.q, p.q.Judge(tell.ForeseeAnswer(v.Answer)))
	for i, play := range p.plays {
		v.Stories[i].End = tell.ForeseeEnd(play)
	}
}

// Fill goes on with what is shown by the time of the window.
func (p *part) Fill(v *ui.View) {
	if p.revision != p.s.Revision() && p.view.Phase != Making || p.pupil != p.s.Pupil() {
		p.begin() // it was about another craft or radio, or somebody else
	}
	p.take()
	if p.view.Phase == Ending {
		now := p.s.Options.Loop.Clock().Now()
		passed := min(now-p.clock, longestTurn)
		p.clock = now
		p.show(p.shown + passed)
	}
	*Of(v) = p.view
}

// Draw draws the sheet.
func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }

package drills

import (
	"slices"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/drillrun"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/sim/drill"
	"propsoff/sim/fault"
)

// Fill tells of the course, or of the drill that runs.
func (p *part) Fill(v *ui.View) {
	d := Of(v)
	*d = View{Rows: d.Rows[:0], Results: d.Results[:0], Course: p.o.Course, Selected: p.selected, Pupil: p.o.Pupils.Pupil(), Typing: p.s.Typing, Run: Run{Steps: d.Run.Steps[:0], Choices: d.Run.Choices[:0]}}
	if p.o.Coach == nil {
		return
	}
	if d.Typing {
		d.Pupil = p.s.Typed
	}
	switch p.s.Run.Trouble {
	case drillrun.OtherHand:
		d.Trouble = tell.DrillOtherHand(p.s.Run.Other.Code())
	case drillrun.OffPace:
		d.Trouble = words.T("drill.off-pace")
	}
	if p.asked {
		d.Trouble = p.needsHand()
	}
	if !d.Trouble.Empty() { // first of all: there is room for few
		v.Notices = slices.Insert(v.Notices, 0, d.Trouble)
	}
	if p.kept != nil {
		v.Notices = append(v.Notices, words.Error(p.kept))
	}
	p.fillCourse(d)
	p.fillRun(v)
}

// hands is whose hands a drill is told for.
func (p *part) hands() tell.DrillHands {
	return tell.DrillHands{StickMode: uint8(p.s.Driving.StickMode), Shipped: p.o.ShippedGestures}
}

// name is what drill n is called, nothing for −1.
func (p *part) name(n int) words.Text {
	if n < 0 || n >= len(p.o.Drills) {
		return words.Text{}
	}
	return tell.DrillText(p.o.Drills[n].Config.Code, p.o.Drills[n].Name)
}

// card is how a drill stands after all that is kept; nil where nothing is.
func (p *part) card(n int) *drill.Card {
	if p.o.Pupils.Pupil() == "" {
		return nil
	}
	return &p.cards[n]
}

// markOf is the shape of how a drill stands on a day.
func markOf(c *drill.Card, day int32) Mark {
	switch {
	case c.Box == 0:
		return Untried
	case c.Failed:
		return Failed
	case c.Due <= day:
		return Due
	case c.Mastered():
		return Mastered
	}
	return Learned
}

// fillCourse fills what the list of drills knows.
func (p *part) fillCourse(d *View) {
	day := p.o.Day()
	for i := range p.o.Drills {
		c := &p.cards[i]
		d.Rows = append(d.Rows, Row{Name: p.name(i), Stands: tell.DrillStands(c, day), Mark: markOf(c, day)})
	}
	d.Next = tell.DrillNext(p.name(p.next), p.why)
	d.Kept = tell.DrillNotKept(words.T("drill.nobody"))
	if p.o.Pupils.Pupil() != "" {
		d.Kept = tell.DrillKept(p.o.Pupils.Where())
	}
	if p.selected < 0 || p.selected >= len(p.o.Drills) {
		return
	}
	one := p.o.Drills[p.selected]
	d.About, d.Caution = tell.DrillAbout(one, p.hands()), tell.DrillText(one.Config.Code, one.Caution)
	if p.sumOf != p.selected {
		p.sumOf, p.sum = p.selected, p.sumUp(one.Config.Code)
	}
	d.Results = append(d.Results, tell.DrillAsks(&one.Config), p.sum)
}

// sumUp says what all tries of a drill came to.
func (p *part) sumUp(code string) words.Text {
	var tries []drill.Try
	for _, r := range p.o.Pupils.Runs() {
		if r.Drill == code && !r.BrokenOff {
			tries = append(tries, r.Tries...)
		}
	}
	return tell.DrillSum(drill.Summarise(tries))
}

// fillRun fills what is shown of a run.
func (p *part) fillRun(v *ui.View) {
	r := &Of(v).Run
	r.On = p.on()
	r.Over = !r.On && p.last != nil
	p.choices = p.choices[:0]
	if !r.On && !r.Over {
		return
	}
	one := p.o.Drills[p.running]
	text := func(s string) words.Text { return tell.DrillText(one.Config.Code, s) }
	r.Name, r.Caution = p.name(p.running), text(one.Caution)
	if r.Over {
		r.Heading, r.Say = tell.DrillHeading(drill.Over, 0), tell.DrillOver(p.last.Learned, p.last.BrokenOff, p.card(p.running), p.o.Day())
		r.Sum = tell.DrillSum(drill.Summarise(p.last.Tries))
		return
	}
	s, cfg, tries := &p.s.Run.State, &one.Config, p.s.Run.Tries
	c, said := &cfg.Cases[s.Case], &one.Cases[s.Case]
	r.Try, r.Most = min(int(s.Counted)+1, int(cfg.Tries)), int(cfg.Tries)
	r.Sum = tell.DrillSum(drill.Summarise(tries))
	v.HideMode = c.Craft.FixedMode > 0
	r.ShowPropellers = asksPropellers(c)
	var last drill.Try
	if n := len(tries); n > 0 {
		last = tries[n-1]
	}
	r.Heading = tell.DrillHeading(s.Phase, last.Verdict)
	switch s.Phase {
	case drill.Starting, drill.Preparing:
		if n := int(s.At); n < len(said.Before) {
			r.Say = text(said.Before[n])
			for i, w := range c.Before[n].Until {
				r.Steps = append(r.Steps, Step{Text: tell.WantSentence(w), Done: p.s.Run.Missing>>i&1 == 0})
			}
		}
	case drill.Waiting:
		r.Say = tell.DrillWait(c.WaitHigh > c.WaitLow)
	case drill.Running:
		r.Say, r.Picture, r.Cue, r.Alarm = text(said.Say), said.Picture, true, said.Sound == "alarm"
		if r.Say.Empty() {
			r.Say = words.T("drill.do")
		}
		p.choices = drill.Choices(cfg, s, p.choices)
		for _, n := range p.choices {
			r.Choices = append(r.Choices, text(said.Choices[n]))
		}
		p.mark = min(p.mark, max(len(p.choices)-1, 0))
		r.Mark = p.mark
	case drill.Resting:
		r.Judged, r.Right, r.After = last.Verdict != 0, last.Verdict == drill.Right, tell.DrillAfter(one, int(s.Case), p.hands())
		if r.Say = tell.TryWhy(last, said, cfg); last.Reaction >= 0 {
			r.Say = words.Row(r.Say, tell.DrillTime(last.Reaction, last.Uncertain))
		}
	}
}

// asksPropellers tells whether a case is about propellers: they are to be checked, or one is wrong on purpose.
func asksPropellers(c *drill.Case) bool {
	asks := func(all []drill.Want) bool {
		return slices.ContainsFunc(all, func(w drill.Want) bool { return w.Kind == drill.Checked })
	}
	wrong := func(p drill.Put) bool { return p.Fault.Deed == fault.WrongPropeller }
	return asks(c.Wants) || slices.ContainsFunc(c.Before, func(b drill.Preparation) bool { return asks(b.Until) || slices.ContainsFunc(b.Puts, wrong) }) ||
		slices.ContainsFunc(c.Set, wrong)
}

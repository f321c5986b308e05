package screen

import (
	"slices"

	"propsoff/cmd/propsoff/internal/coach"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/sim/drill"
	"propsoff/sim/fault"
)

func (p *drillsPart) fill(v *sheet.View) {
	d := &v.Drills
	*d = sheet.DrillsView{Rows: d.Rows[:0], Results: d.Results[:0], Course: p.o.Course, Selected: p.selected, Run: sheet.RunView{Steps: d.Run.Steps[:0], Choices: d.Run.Choices[:0]}}
	if p.o.Coach == nil {
		return
	}
	if p.o.Pupils != nil {
		d.Pupil = p.o.Pupils.Pupil()
	}
	if d.Typing = p.typing; d.Typing {
		d.Pupil = p.s.typed
	}
	switch p.run.Trouble {
	case coach.OtherHand:
		d.Trouble = phrase.DrillOtherHand(p.run.Other.Code())
	case coach.OffPace:
		d.Trouble = phrase.DrillOffPace()
	}
	if p.asked {
		d.Trouble = p.needsHand()
	}
	if d.Trouble != "" { // first of all: there is room for few
		v.Notices = slices.Insert(v.Notices, 0, d.Trouble)
	}
	if p.kept != nil {
		v.Notices = append(v.Notices, p.kept.Error())
	}
	p.fillCourse(d)
	p.fillRun(v)
}

// hands is whose hands a drill is told for.
func (p *drillsPart) hands() phrase.DrillHands {
	return phrase.DrillHands{StickMode: uint8(p.s.driver.StickMode), Shipped: p.o.ShippedGestures}
}

// card is how a drill stands after all that is kept; nil where nothing is.
func (p *drillsPart) card(n int) *drill.Card {
	if p.o.Pupils == nil || p.o.Pupils.Pupil() == "" {
		return nil
	}
	return &p.cards[n]
}

// fillCourse fills what the list of drills knows.
func (p *drillsPart) fillCourse(d *sheet.DrillsView) {
	day := p.day()
	for i, one := range p.o.Drills {
		c := &p.cards[i]
		row := sheet.DrillRow{Name: one.Name, Stands: phrase.DrillStands(c, day)}
		switch {
		case c.Box == 0:
		case c.Failed:
			row.Mark = sheet.MarkFailed
		case c.Due <= day:
			row.Mark = sheet.MarkDue
		case c.Mastered():
			row.Mark = sheet.MarkMastered
		default:
			row.Mark = sheet.MarkLearned
		}
		d.Rows = append(d.Rows, row)
	}
	name := ""
	if p.next >= 0 && p.next < len(p.o.Drills) {
		name = p.o.Drills[p.next].Name
	}
	d.Next = phrase.DrillNext(name, p.why)
	switch {
	case p.o.Pupils == nil || p.o.Pupils.Pupil() == "":
		d.Kept = phrase.DrillNotKept(phrase.DrillNobody())
	default:
		d.Kept = phrase.DrillKept(p.o.Pupils.Where())
	}
	if p.selected < 0 || p.selected >= len(p.o.Drills) {
		return
	}
	one := p.o.Drills[p.selected]
	d.About, d.Caution = phrase.DrillAbout(one, p.hands()), one.Caution
	d.Results = append(d.Results, phrase.DrillAsks(&one.Config))
	if p.sumOf != p.selected {
		p.sumOf, p.sum = p.selected, p.sumUp(one.Config.Code)
	}
	d.Results = append(d.Results, p.sum)
}

// sumUp says what all tries of a drill came to.
func (p *drillsPart) sumUp(code string) string {
	var tries []drill.Try
	for _, r := range p.runs() {
		if r.Drill == code && !r.BrokenOff {
			tries = append(tries, r.Tries...)
		}
	}
	return phrase.DrillSum(drill.Summarise(tries))
}

// fillRun fills what is shown of a run.
func (p *drillsPart) fillRun(v *sheet.View) {
	r := &v.Drills.Run
	r.On = p.on()
	r.Over = !r.On && p.last != nil
	p.choices = p.choices[:0]
	if !r.On && !r.Over {
		return
	}
	one := p.o.Drills[p.running]
	r.Name, r.Caution = one.Name, one.Caution
	if r.Over {
		r.Heading, r.Say = phrase.DrillHeading(drill.Over, 0), phrase.DrillOver(p.last.Learned, p.last.BrokenOff, p.card(p.running), p.day())
		r.Sum = phrase.DrillSum(drill.Summarise(p.last.Tries))
		return
	}
	s, cfg := &p.run.State, &one.Config
	c := &cfg.Cases[s.Case]
	words := &one.Cases[s.Case]
	r.Try, r.Most = min(int(s.Counted)+1, int(cfg.Tries)), int(cfg.Tries)
	r.Sum = phrase.DrillSum(drill.Summarise(p.run.Tries))
	r.HideMode = c.Craft.FixedMode > 0
	r.ShowPropellers = asksPropellers(c)
	var last drill.Try
	if n := len(p.run.Tries); n > 0 {
		last = p.run.Tries[n-1]
	}
	r.Heading = phrase.DrillHeading(s.Phase, last.Verdict)
	switch s.Phase {
	case drill.Starting, drill.Preparing:
		if n := int(s.At); n < len(words.Before) {
			r.Say = words.Before[n]
			p.steps(r, c.Before[n].Until, nil)
		}
	case drill.Waiting:
		r.Say = phrase.DrillWait(c.WaitHigh > c.WaitLow)
	case drill.Running:
		r.Say, r.Picture, r.Cue, r.Alarm = words.Say, words.Picture, true, words.Sound == "alarm"
		if r.Say == "" {
			r.Say = phrase.DrillDo()
		}
		p.choices = drill.Choices(cfg, s, p.choices)
		for _, n := range p.choices {
			r.Choices = append(r.Choices, words.Choices[n])
		}
		p.mark = min(p.mark, max(len(p.choices)-1, 0))
		r.Mark = p.mark
	case drill.Resting:
		r.Verdict, r.Right = phrase.VerdictWord(last.Verdict), last.Verdict == drill.Right
		r.Why, r.After = phrase.TryWhy(last, words, cfg), phrase.DrillAfter(one, int(s.Case), p.hands())
		if last.Reaction >= 0 {
			r.Why += " " + phrase.DrillTime(last.Reaction, last.Uncertain)
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

// steps lists wants with those that are so ticked off.
func (p *drillsPart) steps(r *sheet.RunView, wants []drill.Want, own []string) {
	for i := range wants {
		text := ""
		if i < len(own) {
			text = own[i]
		}
		if text == "" {
			text = phrase.WantSentence(wants[i], p.run.Config)
		}
		r.Steps = append(r.Steps, sheet.DrillStep{Text: text, Done: p.run.Missing>>i&1 == 0})
	}
}

package prove

import (
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
)

// stepPrefix and a number from 1 name the hit areas of the steps.
const stepPrefix = "way-step-"

// way draws the way that is looked at: the radio with the control that moves in the step that is looked at, and all steps.
func (b *board) way(r ink.Rect) {
	v := Of(b.V)
	rule := v.rule()
	at := ui.ClampInt(v.Step, 0, len(rule.Steps)-1)
	if v.Show.On && b.V.Class {
		var beside ink.Rect
		beside, r = b.StateAfarOf(r, &v.Show.Snap, 1)
		b.Down(beside, 0).Whole("stands", tell.Played(&v.Show.Snap), ink.Style{Size: b.Body})
	}
	radio, list := b.Split(r, r.W*0.46, r.H*0.45, 1.6)
	if v.Show.On {
		b.played(radio, &rule, at)
	} else {
		b.lookedAt(radio, &rule, at)
	}
	b.Group("finding")
	d := b.Down(list, 4*b.U)
	if b.V.Class {
		d.Say("rule-short", rule.Short, ink.Style{Size: b.Body, Weight: ink.Bold})
	} else {
		d.R = b.Section(d.R, "finding-heading", b.Say(words.T("prove.finding-title")))
		d.Say("rule-whole", rule.Whole, ink.Style{Size: b.Head, Weight: ink.Bold})
		d.Gap = b.Gap
		if v.Show.Over { // there it stands beside the state
			_, d.R = d.R.CutTop(0, b.Gap)
		} else {
			d.Say("found", rule.Found, ink.Style{Size: b.Body})
		}
	}
	b.steps(b.heading(d.R, "way", rule.Way), "step", rule.Steps, at, tell.StepsLeft)
}

// lookedAt draws the step that is looked at: what the hand does, what comes of other places, and the radio.
func (b *board) lookedAt(r ink.Rect, rule *Rule, at int) {
	b.Group("step")
	step := &rule.Steps[at]
	if !b.V.Class {
		r = b.Section(r, "looked-at-heading", b.Say(words.T("prove.step", words.Args{"at": words.Whole(at + 1), "of": words.Whole(len(rule.Steps))})))
	}
	size := max(b.Head, b.Body)
	d := b.Down(r, 4*b.U)
	d.Say("looked-at", step.Text, ink.Style{Size: size})
	d.Say("looked-at-did", step.Then, ink.Style{Size: size, Weight: ink.Bold})
	b.radioOf(b.places(d.R), rule, at)
}

// radioOf draws the radio of a way where there is room for it.
func (b *board) radioOf(r ink.Rect, rule *Rule, at int) {
	if _, rest := r.CutTop(0, b.Gap); r.H > 110*b.U && rule.Radio != nil {
		b.moves(rest, rule, at)
	}
}

// stepHeight is the height that a line of a way takes in a width; chosen from, it is no less than what can be pressed.
func (b *board) stepHeight(w float64, s *tell.ProvedStep, pressed bool) float64 {
	high := ui.TextHeight(b.Say(s.Text), w, ink.Style{Size: b.Body}) + ui.TextHeight(b.Say(s.Then), w, ink.Style{Size: b.Body, Weight: ink.Bold}) + 4*b.U
	if pressed {
		high = max(high+2*b.U, b.Least())
	}
	return high
}

// columns are how wide the numbers and the times of a way are, 0 for none. In a room times are left out.
func (b *board) columns(all []tell.ProvedStep) (number, clock float64) {
	for _, s := range all {
		if s.Number != "" {
			number = ink.Width("00", b.Body, ink.Bold) + 12*b.U
		}
		if !s.At.Empty() && !b.V.Class {
			clock = max(clock, ink.Width(b.Say(s.At), b.Body, ink.Regular)+14*b.U)
		}
	}
	return number, clock
}

// stepsHeight is the height that the lines of a way take.
func (b *board) stepsHeight(w float64, all []tell.ProvedStep) (high float64) {
	number, clock := b.columns(all)
	for i := range all {
		high += b.stepHeight(w-number-clock, &all[i], false)
	}
	return high
}

// steps draws lines of a way, or other lines without a number and a time, as many as there is room for; the rest are counted. One is chosen, and each
// can be pressed, unless chosen is −1.
func (b *board) steps(r ink.Rect, name string, all []tell.ProvedStep, chosen int, left func(int) words.Text) {
	number, clock := b.columns(all)
	w := r.W - number - clock
	list := name + " of " + strconv.Itoa(Of(b.V).Selected)
	from, to := b.inView(list, r, w, all, chosen)
	for i := from; i < to; i++ {
		var row ink.Rect
		row, r = r.CutTop(b.stepHeight(w, &all[i], chosen >= 0), 0)
		if i == chosen {
			b.Chosen(row.Inset(b.U / 2))
		}
		if chosen >= 0 {
			b.Hit(stepPrefix+strconv.Itoa(i+1), "", row)
			row.Y += b.U
		}
		b.step(row, name, b.told(&all[i], i, len(all), chosen), number, clock)
	}
	if to-from == len(all) {
		return
	}
	says := left(len(all) - to)
	if from > 0 {
		says = tell.Unlisted(from, len(all)-to)
	}
	line, _ := r.CutTop(b.leftHeight(), 0)
	b.Fitted(name+"s-left", line, ink.Style{Size: b.Body, Colour: ink.Faint}, b.Say(says))
	b.TurnedBy(list, line)
}

// told is a line of a way as far as it has been played: what the craft does in a step is not told before it is made, nor how all ends.
func (b *board) told(s *tell.ProvedStep, i, n, at int) *tell.ProvedStep {
	show := &Of(b.V).Show
	if !show.On || show.Over || i < at || i == at && show.Said {
		return s
	}
	then := *s
	if then.Then = (words.Text{}); i == n-1 {
		then.Text = words.AsIs("…")
	}
	return &then
}

// leftHeight is how high the line is that counts what there is no room for.
func (b *board) leftHeight() float64 { return max(ink.BlockHeight(b.Body, 1), b.Least()) }

// inView are the lines that there is room for: from the first on, or further on where the chosen one would not be seen, or where a hand turned them to.
func (b *board) inView(name string, r ink.Rect, w float64, all []tell.ProvedStep, chosen int) (from, to int) {
	high := make([]float64, len(all))
	sum, usual := 0.0, 0
	for i := range all {
		high[i] = b.stepHeight(w, &all[i], chosen >= 0)
		sum += high[i]
	}
	if sum > r.H+0.5 {
		_, r = r.CutBottom(b.leftHeight(), 0)
		usual = firstSeen(high, chosen, r.H)
		if len(high) == 0 || high[usual] > r.H+0.5 {
			return usual, usual
		}
	}
	return b.Rolled(name, r, high, chosen, usual)
}

// firstSeen is the first of some lines from which on the chosen one is seen in a height.
func firstSeen(high []float64, chosen int, room float64) (first int) {
	seen := 0.0
	for i := 0; i <= chosen; i++ {
		for seen += high[i]; seen > room+0.5 && first < i; first++ {
			seen -= high[first]
		}
	}
	return first
}

// step draws one line of a way between its number and its time.
func (b *board) step(r ink.Rect, name string, s *tell.ProvedStep, number, clock float64) {
	text := ink.Style{Size: b.Body}
	if number > 0 && s.Number == "" {
		text.Colour = ink.Faint
	}
	d := b.Down(ink.Rect{X: r.X + number, Y: r.Y, W: r.W - number - clock, H: r.H}, 0)
	d.Write(name, b.Say(s.Text), text)
	d.Write(name+" did", b.Say(s.Then), ink.Style{Size: b.Body, Weight: ink.Bold})
	if s.Number != "" {
		b.Text(name+" number", r.X+number-8*b.U, r.Y, ink.Style{Size: b.Body, Weight: ink.Bold, Anchor: ink.Right | ink.Top, Within: r}, s.Number)
	}
	if clock > 0 {
		b.Text(name+" time", r.Right()-4*b.U, r.Y, ink.Style{Size: b.Body, Colour: ink.Faint, Anchor: ink.Right | ink.Top, Within: r}, b.Say(s.At))
	}
}

package drills

import (
	"strconv"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui/figure"
	"propsoff/sim/drill"
)

// run draws the drill that runs: what is asked for, and the bench that it is asked of.
func (b *board) run(r ink.Rect) {
	b.Group("drill")
	run := &Of(b.V).Run
	if b.V.Class {
		r = b.StateAndHow(r)
		card, hands := b.Split(r, r.W*0.64, r.H*0.42, 1.4)
		if b.card(card); run.propellers() {
			b.propellers(hands)
		} else {
			b.Sticks(hands)
		}
		return
	}
	head, r := r.CutTop(ink.BlockHeight(b.Large, 1), 4*b.U)
	if most := int(run.One.Config.Tries); run.On {
		tries := b.Say(words.T("drill.try", words.Args{"n": words.Whole(run.try()), "most": words.Whole(most)}))
		var right ink.Rect
		right, head = head.CutRight(ink.Width(tries, b.Body, ink.Regular)+2*b.U, b.Gap)
		b.Fitted("tries", right, ink.Style{Size: b.Body, Colour: ink.Faint}, tries)
	}
	b.Fitted("drill-name", head, ink.Style{Size: b.Large, Weight: ink.Bold}, b.Say(run.text(run.One.Name)))
	cols := r.Columns(nil, b.Gap*1.6, ink.Share(34, 0), ink.Share(37, 0), ink.Share(27, 0))
	hands, card, bench := cols[0], cols[1], cols[2]
	if b.Tall {
		card, r = r.CutTop(r.H*0.46, b.Gap)
		hands, bench = r.CutLeft(r.W*0.5, b.Gap*1.6)
	}
	b.Hands(hands)
	b.card(card)
	b.bench(bench)
}

// bench is what of the bench a drill is about: why not, and the craft.
func (b *board) bench(r ink.Rect) {
	propellers := Of(b.V).Run.propellers()
	if propellers {
		var top ink.Rect
		top, r = r.CutTop(r.H*0.5, b.Gap)
		b.propellers(top)
	}
	if b.V.Snap.In.Air {
		b.Group("flight")
		fl := figure.NewFlying(&b.V.Snap, b.V.Config, b.V.Flight.Trail)
		if b.V.HideMode { // what the sticks ask for would tell it
			fl.Haunts = false
		}
		r = b.Section(r, "flight-heading", b.Say(tell.AirTitle(b.V.CraftName)))
		if !propellers {
			b.Downward(r.Cell(1, 1, 2, 6*b.U), &fl)
			r = r.Cell(0, 1, 2, 6*b.U)
		}
		b.Upright("behind", r, figure.EyeBehind(fl.Facing), &fl)
		return
	}
	most := r.H * 0.62
	need, size := b.WhyNeeds(r.W, most)
	top, rest := r.CutTop(min(max(need, r.H*0.2), most), b.Gap)
	if need <= most {
		b.Why(top, size)
	} else {
		b.AirWhy(top, b.Small)
	}
	if propellers {
		return
	}
	least := b.SectionHeight() + 6*ink.BlockHeight(b.Small, 1) + 10*b.U // the words of the craft, four lines of them at its motors
	tall := min(rest.H*0.55, 6*(b.RowHeight()+4*b.U)+b.SectionHeight())
	if rest.H-tall-b.Gap < least { // words would stand on one another
		b.Channels(rest)
		return
	}
	channels, rest := rest.CutBottom(tall, b.Gap)
	b.Channels(channels)
	b.Craft(rest)
}

// propellers draws the four motors from above with the propellers that are fitted.
func (b *board) propellers(r ink.Rect) {
	on := figure.Propellers{Turns: b.V.Config.Body.Turns, Hands: b.V.Snap.In.Hands, Selected: -1, Wordless: true}
	b.Group("propellers")
	r = b.Section(r, "propellers-heading", b.Say(words.T("drill.propellers")))
	b.Puzzle(&on, r)
}

// card is what is asked for: the heading, the cue or what to do, its picture, what must be so, the answers, the verdict. What matters now gets the
// room that the others leave.
func (b *board) card(r ink.Rect) {
	b.Group("cue")
	v := Of(b.V)
	run := &v.Run
	alarm, picture, after := false, "", words.Text{}
	if run.Cue() {
		_, said := run.asked()
		alarm, picture = said.Sound == "alarm", said.Picture
	}
	if run.tried() {
		after = tell.DrillAfter(run.One, int(run.State.Case), v.Hands)
	}
	frame := ink.Paint{Line: ink.Rule, Width: b.U, Fill: ink.Panel}
	switch {
	case alarm:
		frame.Line, frame.Width = ink.Refusal, 6*b.U
	case run.Cue():
		frame.Line, frame.Width = ink.Focus, 3*b.U
	}
	b.Rect("card", r, frame)
	r = r.Inset(12 * b.U)
	body := ink.Style{Size: b.Body}
	if caution := run.text(run.One.Caution); !caution.Empty() && !b.V.Class {
		_, in := r.CutLeft(18*b.U, 0)
		foot, rest := b.Foot(in, 6*b.U, 3, "caution", caution, ink.Style{Size: b.Small})
		b.Warning(r.X, foot.Y+ink.BlockHeight(b.Small, 1)/2)
		r.H = rest.H
	}
	_, r = b.Foot(r, 6*b.U, 2, "sum", run.sum(), ink.Style{Size: b.Body, Colour: ink.Faint})
	r = b.heading(r)
	r = b.answers(r)
	steps := run.steps()
	for least, i := r.H*0.5, len(steps)-1; i >= 0 && r.H > least; i-- {
		r = b.step(r, steps[i], run.Missing>>i&1 == 0)
	}
	_, r = b.Foot(r, 6*b.U, max(int(r.H*0.5/ink.LineHeight(b.Body)), int(r.H/ink.LineHeight(b.Body))-3, 1), "after", after, body) // three lines are left for why
	if picture != "" && r.H > 170*b.U && !b.V.Class {
		var foot ink.Rect
		foot, r = r.CutBottom(r.H*0.42, 6*b.U)
		b.picture(foot, picture)
	}
	text, most := b.Say(v.say()), b.TextSize(30)
	if b.V.Class {
		most = b.Body * 2.2
	}
	if alarm {
		most *= 2
	}
	size, _ := ink.FitBlock(r.W, r.H, b.Body, most, ink.Bold, text)
	b.Lines(r, "say", text, size, len(text))
}

// heading says in a word or two what is asked for, with the mark of a verdict; it gives what is left below.
func (b *board) heading(r ink.Rect) ink.Rect {
	run := &Of(b.V).Run
	size := b.TextSize(22)
	if b.V.Class {
		size = b.Body * 1.6
	}
	row, rest := r.CutTop(ink.BlockHeight(size, 1), 4*b.U)
	if verdict := run.last().Verdict; run.tried() && verdict != 0 {
		d := size * 0.45
		b.verdict(row.X+d, row.Centre().Y, d, verdict == drill.Right)
		_, row = row.CutLeft(2*d, 8*b.U)
	}
	b.Fitted("heading", row, ink.Style{Size: size, Weight: ink.Bold}, b.Say(run.heading()))
	return rest
}

// step is one thing that must be so, ticked where it is, at the lower edge; it gives what is left above.
func (b *board) step(r ink.Rect, w drill.Want, done bool) ink.Rect {
	one := ink.BlockHeight(b.Body, 1)
	style := ink.Style{Size: b.Body}
	if done {
		style.Colour = ink.Faint
	}
	_, in := r.CutLeft(one, 6*b.U)
	foot, rest := b.Foot(in, 3*b.U, 9, "step", tell.WantSentence(w), style)
	b.NeedMark(r.X, foot.Y, one, done)
	r.H = rest.H
	return r
}

// answers lists the choices at the lower edge; the mark stands at the one that the key takes. Where they do not fit, those round the mark, and
// how many there are besides. It gives what is left above.
func (b *board) answers(r ink.Rect) ink.Rect {
	run := &Of(b.V).Run
	if len(run.Choices) == 0 {
		return r
	}
	style := ink.Style{Size: b.Body, Weight: ink.Bold} // room as if each were the marked one, which is bold
	h, sum := make([]float64, len(run.Choices)), 0.0
	for i := range h {
		h[i] = max(25*b.U, b.SayHeight(run.answer(i), r.W-28*b.U, style)+8*b.U) + 2*b.U
		sum += h[i]
	}
	first, end := 0, len(h)
	foot, rest := r.CutBottom(min(sum, max(r.H*0.62, r.H-b.SayHeight(Of(b.V).say(), r.W, style)-6*b.U)), 6*b.U)
	if sum > foot.H {
		var line ink.Rect
		line, foot = foot.CutBottom(ink.BlockHeight(b.Small, 1), 2*b.U)
		for ; sum > foot.H+b.U && first < run.Mark; first++ {
			sum -= h[first]
		}
		for ; sum > foot.H+b.U && end > run.Mark+1; end-- {
			sum -= h[end-1]
		}
		b.Fitted("answers-left", line, ink.Style{Size: b.Small, Weight: ink.Bold}, b.Say(tell.Unlisted(first, len(h)-end)))
	}
	d := b.Down(foot, 0)
	for i := first; i < end; i++ {
		b.answer(d.Row(h[i]), i)
	}
	return rest
}

// answer is the choice that stands at a place.
func (r *Run) answer(i int) words.Text {
	_, said := r.asked()
	return r.text(said.Choices[r.Choices[i]])
}

// answer is one choice, to be clicked.
func (b *board) answer(row ink.Rect, i int) {
	run := &Of(b.V).Run
	row.H -= 2 * b.U
	paint, style := ink.Paint{Line: ink.Grid, Fill: ink.Paper}, ink.Style{Size: b.Body, Within: row}
	if i == run.Mark {
		paint.Line, paint.Width, style.Weight = ink.Focus, 2*b.U, ink.Bold
	}
	b.Rect("answer-box", row.Inset(b.U), paint)
	if x, y := row.X+7*b.U, row.Centre().Y; i == run.Mark {
		b.Polygon("answer-mark", []ink.Point{{X: x, Y: y - 5*b.U}, {X: x + 7*b.U, Y: y}, {X: x, Y: y + 5*b.U}}, ink.Paint{Fill: ink.Focus})
	}
	w := row.W - 28*b.U
	b.Block("answer", row.X+20*b.U, row.Centre().Y-b.SayHeight(run.answer(i), w, style)/2, style, ink.Block{Width: w}, b.Say(run.answer(i)))
	b.Hit(answerPrefix+strconv.Itoa(i+1), "", row)
}

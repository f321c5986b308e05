package sheet

import (
	"strconv"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
)

// drillRun draws the drill that runs: what is asked for, and the bench that it is asked of.
func (b *board) drillRun(r ink.Rect) {
	b.Group("drill")
	run := &b.v.Drills.Run
	if b.v.Class {
		r = b.threeState(r)
		card, hands := r.CutLeft(r.W*0.64, b.gap*1.4)
		if b.tall {
			card, hands = r.CutTop(r.H*0.42, b.gap)
		}
		b.Group("cue")
		b.cueCard(card)
		b.threeSticks(hands)
		return
	}
	head, r := r.CutTop(ink.BlockHeight(b.large, 1), 4*b.u)
	tries := ""
	if run.On && run.Most > 0 {
		tries = phrase.DrillTry(run.Try, run.Most)
	}
	w := ink.Width(tries, b.body, ink.Regular) + 2*b.u
	name, count := head.CutLeft(head.W-w-b.gap, b.gap)
	b.fitted("drill name", name, ink.Style{Size: b.large, Weight: ink.Bold}, run.Name)
	if tries != "" {
		b.fitted("tries", count, ink.Style{Size: b.body, Colour: ink.Faint}, tries)
	}
	if b.tall {
		top, low := r.CutTop(r.H*0.46, b.gap)
		b.cueCard(top)
		left, right := low.CutLeft(low.W*0.5, b.gap*1.6)
		b.hands(left)
		b.drillBench(right)
		return
	}
	cols := r.Columns(nil, b.gap*1.6, ink.Share(31, 0), ink.Share(40, 0), ink.Share(27, 0))
	b.hands(cols[0])
	b.cueCard(cols[1])
	b.drillBench(cols[2])
}

// drillBench is what of the bench a drill is about: why not, and the craft.
func (b *board) drillBench(r ink.Rect) {
	run := &b.v.Drills.Run
	if b.v.Snap.In.Air {
		b.Group("flight")
		fl := newFlying(&b.v.Snap, b.v.Config, b.v.Flight.Trail)
		if run.HideMode { // what the sticks ask for would tell it
			fl.haunts = false
		}
		r = b.section(r, "flight heading", phrase.AirTitle(b.v.CraftName))
		b.upright("behind", r.Cell(0, 1, 2, 6*b.u), eyeBehind(fl.facing), &fl)
		b.downward(r.Cell(1, 1, 2, 6*b.u), &fl)
		return
	}
	if run.ShowPropellers {
		top, low := r.CutTop(r.H*0.5, b.gap)
		b.drillPropellers(top)
		r = low
	}
	most := r.H * 0.62
	need, size := b.whyNeeds(r.W, most)
	top, rest := r.CutTop(min(max(need, r.H*0.2), most), b.gap)
	if need <= most {
		b.why(top, size)
	} else {
		b.airWhy(top, b.small)
	}
	if run.ShowPropellers {
		return
	}
	least := b.sectionHeight() + 6*ink.BlockHeight(b.small, 1) + 10*b.u // the words of the craft, four lines of them at its motors
	tall := min(rest.H*0.55, 6*(b.rowHeight()+4*b.u)+b.sectionHeight())
	if rest.H-tall-b.gap < least { // words would stand on one another
		b.channels(rest)
		return
	}
	channels, rest := rest.CutBottom(tall, b.gap)
	b.channels(channels)
	b.craft(rest)
}

// drillPropellers draws the four motors from above with the propellers that are fitted.
func (b *board) drillPropellers(r ink.Rect) {
	keep := b.v.First
	b.v.First.Turns, b.v.First.Hands, b.v.First.Selected = b.v.Config.Body.Turns, b.v.Snap.In.Hands, -1
	b.Group("propellers")
	r = b.section(r, "propellers heading", phrase.DrillPropellers())
	line := ink.BlockHeight(b.small, 1)
	cell := r.Cell(0, 2, 2, 0)
	radius := max(min((cell.H-3*line)/2-8*b.u, cell.W/2-8*b.u), 10*b.u)
	reach := clamp(cell.W/2, radius*1.2, max(radius*1.2, cell.W-radius-8*b.u))
	c := r.Centre()
	for i := range b.v.First.Hands {
		p := ink.Point{X: c.X - reach, Y: c.Y - radius - 7*b.u}
		if i%2 == 1 {
			p.X = c.X + reach
		}
		if i >= 2 {
			p.Y = c.Y + radius + 7*b.u
		}
		b.puzzleMotor(i, p, radius, r)
	}
	b.v.First = keep
}

// cueCard is what is asked for: the heading, the cue or what to do, its picture, what must be so, the answers, the verdict.
func (b *board) cueCard(r ink.Rect) {
	b.Group("cue")
	run := &b.v.Drills.Run
	frame := ink.Paint{Line: ink.Rule, Width: b.u, Fill: ink.Panel}
	if run.Cue {
		frame.Line, frame.Width = ink.Focus, 3*b.u
		if run.Alarm {
			frame.Line, frame.Width = ink.Refusal, 6*b.u
		}
	}
	b.Rect("card", r, frame)
	r = r.Inset(12 * b.u)
	foot := r
	if run.Caution != "" && !b.v.Class {
		n, _ := ink.CountLines(run.Caution, r.W-18*b.u, b.small, ink.Regular)
		n = min(n, 3)
		foot, r = r.CutBottom(ink.BlockHeight(b.small, n), 6*b.u)
		b.warning(foot.X, foot.Y+ink.BlockHeight(b.small, 1)/2)
		b.Block("caution", foot.X+18*b.u, foot.Y, ink.Style{Size: b.small, Within: foot}, ink.Block{Width: foot.W - 18*b.u, MaxLines: n, Shorten: true}, run.Caution)
	}
	if run.Sum != "" {
		n, _ := ink.CountLines(run.Sum, r.W, b.body, ink.Regular)
		n = min(n, 2)
		foot, r = r.CutBottom(ink.BlockHeight(b.body, n), 6*b.u)
		b.Block("sum", foot.X, foot.Y, ink.Style{Size: b.body, Colour: ink.Faint, Within: foot}, ink.Block{Width: foot.W, MaxLines: n, Shorten: true}, run.Sum)
	}
	size := b.TextSize(22)
	if b.v.Class {
		size = b.body * 1.6
	}
	row, r := r.CutTop(ink.BlockHeight(size, 1), 4*b.u)
	x := row.X
	if run.Verdict != "" {
		d := size * 0.45
		mark := MarkFailed
		if run.Right {
			mark = MarkMastered
		}
		b.drillMark(x+d, row.Centre().Y, d, mark)
		x += 2*d + 8*b.u
	}
	b.fitted("heading", ink.Rect{X: x, Y: row.Y, W: row.Right() - x, H: row.H}, ink.Style{Size: size, Weight: ink.Bold}, run.Heading)

	answers := b.answersHeight(r.W)
	if answers > 0 {
		answers = min(answers, r.H*0.62)
		foot, r = r.CutBottom(answers, 6*b.u)
		b.drillAnswers(foot)
	}
	steps := b.stepsHeight(r.W)
	if steps > 0 {
		foot, r = r.CutBottom(min(steps, r.H*0.5), 6*b.u)
		b.drillSteps(foot)
	}
	text := run.Say
	if run.Verdict != "" {
		text = run.Why
	}
	if run.After != "" {
		n, _ := ink.CountLines(run.After, r.W, b.body, ink.Regular)
		foot, r = r.CutBottom(min(ink.BlockHeight(b.body, n), max(r.H*0.5, r.H-ink.BlockHeight(b.body, 3))), 6*b.u) // three lines are left for why
		b.Block("after", foot.X, foot.Y, ink.Style{Size: b.body, Within: foot}, ink.Block{Width: foot.W, MaxLines: max(1, int((foot.H+0.3*b.body)/ink.LineHeight(b.body))), Shorten: true}, run.After)
	}
	if run.Picture != "" && r.H > 170*b.u && !b.v.Class {
		foot, r = r.CutBottom(r.H*0.42, 6*b.u)
		b.cuePicture(foot, run.Picture)
	}
	most := b.TextSize(30)
	if b.v.Class {
		most = b.body * 2.2
	}
	if run.Alarm {
		most *= 2
	}
	size, fits := ink.FitBlock(r.W, r.H, b.body, most, ink.Bold, text)
	lines := max(1, int((r.H+0.3*size)/ink.LineHeight(size)))
	if fits {
		lines = 0
	}
	b.Block("say", r.X, r.Y, ink.Style{Size: size, Weight: ink.Bold, Within: r}, ink.Block{Width: r.W, MaxLines: lines, Shorten: !fits}, text)
}

func (b *board) stepsHeight(w float64) float64 {
	h := 0.0
	for _, s := range b.v.Drills.Run.Steps {
		n, _ := ink.CountLines(s.Text, w-b.stepIndent(), b.body, ink.Regular)
		h += ink.BlockHeight(b.body, n) + 3*b.u
	}
	return h
}

func (b *board) stepIndent() float64 { return ink.BlockHeight(b.body, 1) + 6*b.u }

// drillSteps lists what must be so, each ticked as it is.
func (b *board) drillSteps(r ink.Rect) {
	y, one := r.Y, ink.BlockHeight(b.body, 1)
	for _, s := range b.v.Drills.Run.Steps {
		n, _ := ink.CountLines(s.Text, r.W-b.stepIndent(), b.body, ink.Regular)
		h := ink.BlockHeight(b.body, n)
		if y+h > r.Bottom()+b.u {
			return
		}
		b.needMark(r.X, y, one, s.Done)
		style := ink.Style{Size: b.body, Within: r}
		if s.Done {
			style.Colour = ink.Faint
		}
		b.Block("step", r.X+b.stepIndent(), y, style, ink.Block{Width: r.W - b.stepIndent()}, s.Text)
		y += h + 3*b.u
	}
}

func (b *board) answersHeight(w float64) float64 {
	h := 0.0
	for _, c := range b.v.Drills.Run.Choices {
		h += b.answerHeight(c, w)
	}
	return h
}

// answerHeight is what one answer takes in a width: as if it were the marked one, which is bold.
func (b *board) answerHeight(text string, w float64) float64 {
	n, _ := ink.CountLines(text, w-28*b.u, b.body, ink.Bold)
	return max(25*b.u, ink.BlockHeight(b.body, n)+8*b.u) + 2*b.u
}

// drillAnswers lists the choices; the mark stands at the one that the key takes. Where they do not fit, those round the mark.
func (b *board) drillAnswers(r ink.Rect) {
	run := &b.v.Drills.Run
	heights := make([]float64, len(run.Choices))
	for i, c := range run.Choices {
		heights[i] = b.answerHeight(c, r.W)
	}
	first := 0
	for first < run.Mark {
		sum := 0.0
		for i := first; i <= run.Mark; i++ {
			sum += heights[i]
		}
		if sum <= r.H {
			break
		}
		first++
	}
	y := r.Y
	for i := first; i < len(run.Choices); i++ {
		row := ink.Rect{X: r.X, Y: y, W: r.W, H: heights[i] - 2*b.u}
		if row.Bottom() > r.Bottom()+b.u {
			return
		}
		paint := ink.Paint{Line: ink.Grid, Fill: ink.Paper}
		if i == run.Mark {
			paint = ink.Paint{Line: ink.Focus, Width: 2 * b.u, Fill: ink.Paper}
		}
		b.Rect("answer box", row.Inset(b.u), paint)
		style := ink.Style{Size: b.body, Within: row}
		if i == run.Mark {
			style.Weight = ink.Bold
			b.v.pts = append(b.v.pts[:0], ink.Point{X: row.X + 7*b.u, Y: row.Centre().Y - 5*b.u}, ink.Point{X: row.X + 14*b.u, Y: row.Centre().Y}, ink.Point{X: row.X + 7*b.u, Y: row.Centre().Y + 5*b.u})
			b.Polygon("answer mark", b.v.pts, ink.Paint{Fill: ink.Focus})
		}
		n, _ := ink.CountLines(run.Choices[i], r.W-28*b.u, b.body, style.Weight)
		b.Block("answer", row.X+20*b.u, row.Centre().Y-ink.BlockHeight(b.body, n)/2, style, ink.Block{Width: row.W - 28*b.u}, run.Choices[i])
		b.Hit(answerPrefix+strconv.Itoa(i+1), "", row)
		y += heights[i]
	}
}

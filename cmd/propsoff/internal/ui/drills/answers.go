package drills

import (
	"math"
	"slices"
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/sim/drill"
)

// answer is the choice that stands at a place.
func (r *Run) answer(i int) words.Text {
	_, said := r.asked()
	return r.text(said.Choices[r.Choices[i]])
}

// turnOf is the place among the wanted answers of the choice that stands at a place, counted from 1, 0 for one that is not wanted; done tells whether it
// was taken.
func (r *Run) turnOf(i int) (turn int, done bool) {
	c, _ := r.asked()
	n := 0
	for k, w := range c.Wants {
		if w.Kind != drill.Answer {
			continue
		}
		if n++; int(w.A) == r.Choices[i] {
			return n, r.State.Done>>k&1 == 1
		}
	}
	return 0, false
}

// choicesNeed is how wide the answers are to be in a place, or on a portrait page how high: so that each stands in one line, as far as the rest leaves
// room for that; busy: sticks and craft stand beside them.
func (b *board) choicesNeed(r ink.Rect, busy bool) float64 {
	run := &Of(b.V).Run
	wide, high := 0.0, 0.0
	for i := range run.Choices {
		wide = max(wide, ink.Width(b.Say(run.answer(i)), b.Body, ink.Bold)+b.mark0()+20*b.U)
		high += b.choiceHigh(r.W, i)
	}
	if b.Tall {
		return min(high+2.6*b.Gap, r.H*0.6)
	}
	most := 0.55
	switch {
	case b.V.Class:
		most = 0.6
	case busy: // the sticks and the craft need theirs
		most = 0.44
	}
	return ui.Clamp(wide, r.W*0.26, r.W*most)
}

// choiceHigh is how high an answer is in a list so wide: as if it were the marked one, which is bold.
func (b *board) choiceHigh(wide float64, i int) float64 {
	style := ink.Style{Size: b.Body, Weight: ink.Bold}
	return max(b.Least()+b.U, b.SayHeight(Of(b.V).Run.answer(i), wide-b.mark0()-16*b.U, style)+8*b.U) + 2*b.U
}

// choices lists the answers; the mark stands at the one that the key takes. Where they do not fit, those round the mark, and how many there are
// besides. When a try is looked at, the wanted ones have their numbers, and the one that was taken wrongly its cross.
func (b *board) choices(r ink.Rect) {
	b.Group("answers")
	run := &Of(b.V).Run
	h, sum := make([]float64, len(run.Choices)), 0.0
	for i := range h {
		h[i] = b.choiceHigh(r.W, i)
		sum += h[i]
	}
	usual, name := 0, "answers "+run.One.Config.Code+strconv.Itoa(len(run.Tries))
	var line ink.Rect
	if sum > r.H {
		line, r = r.CutBottom(b.UnlistedHeight(), 2*b.U)
		for left := sum; left > r.H+b.U && usual < run.Mark; usual++ {
			left -= h[usual]
		}
	}
	first, end := b.Rolled(name, r, h, run.Mark, usual)
	if end-first < len(h) {
		b.Unlisted(name, line, first, end, len(h))
	}
	d := b.Down(r, 0)
	for _, one := range h[first:end] {
		r.H -= one
	}
	spare := min(r.H/float64(max(end-first, 1)), b.Body*1.6)
	for i := first; i < end; i++ {
		b.choice(d.Row(h[i]+max(spare, 0)), i)
	}
}

// mark0 is how wide the place of the mark before an answer is.
func (b *board) mark0() float64 { return b.Body * 1.7 }

// choice is one answer, to be clicked.
func (b *board) choice(row ink.Rect, i int) {
	run := &Of(b.V).Run
	row.H -= 2 * b.U
	paint, style := ink.Paint{Line: ink.Rule, Fill: ink.Paper}, ink.Style{Size: b.Body, Within: row}
	marked := i == run.Mark && run.Cue()
	if marked {
		paint.Line, paint.Width, style.Weight = ink.Focus, 2*b.U, ink.Bold
	}
	b.Rect("answer-box", row.Inset(b.U), paint)
	x, y, d := row.X+b.mark0()/2+3*b.U, row.Centre().Y, b.Body*0.5
	turn, done := run.turnOf(i)
	switch {
	case run.looks() && run.last().Why == drill.WrongAnswer && run.Choices[i] == int(run.last().Number):
		b.verdict(x, y, d, false)
	case run.looks() && turn > 0:
		c, _ := run.asked()
		if !c.InOrder || answersOf(c) == 1 {
			b.verdict(x, y, d, true)
			break
		}
		b.Text("turn", x, y, ink.Style{Size: b.Body, Weight: ink.Bold, Anchor: ink.Centre | ink.Middle}, strconv.Itoa(turn))
	case done:
		b.verdict(x, y, d, true)
	case marked:
		k := d * 0.8
		b.Polygon("answer-mark", []ink.Point{{X: x - k*0.6, Y: y - k}, {X: x + k*0.8, Y: y}, {X: x - k*0.6, Y: y + k}}, ink.Paint{Fill: ink.Focus})
	}
	left := b.mark0() + 8*b.U
	w := row.W - left - 6*b.U
	b.Block("answer", row.X+left, y-b.SayHeight(run.answer(i), w, style)/2, style, ink.Block{Width: w}, b.Say(run.answer(i)))
	if run.Cue() {
		b.Hit(answerPrefix+strconv.Itoa(i+1), "", row)
	}
}

// answersOf is how many answers a case wants.
func answersOf(c *drill.Case) (n int) {
	for _, w := range c.Wants {
		if w.Kind == drill.Answer {
			n++
		}
	}
	return n
}

// turn is how long the turning motor takes for one turn, in ticks: slow enough to be followed (ours).
const turn = 2400

// turning draws the craft from above with one motor that turns by itself; each motor can be pointed at.
func (b *board) turning(r ink.Rect) {
	b.Group("motors")
	run := &Of(b.V).Run
	_, said := run.asked()
	places := []string{"front-left", "front-right", "rear-left", "rear-right"}
	q := r.Square()
	c, reach, radius := q.Centre(), q.W*0.27, q.W*0.2
	sin, cos := math.Sincos(float64(said.Motor.Nose) * math.Pi / 2)
	at := func(x, y float64) ink.Point { return ink.Point{X: c.X + x*cos - y*sin, Y: c.Y + x*sin + y*cos} }
	w := 4 * b.U
	for i := range places {
		side := [2]float64{-1, 1}
		m := at(side[i%2]*reach, side[i/2]*reach)
		k := 1 - radius/math.Hypot(reach, reach)
		b.Line("arm", c.X, c.Y, c.X+(m.X-c.X)*k, c.Y+(m.Y-c.Y)*k, ink.Paint{Line: ink.Ink, Width: w})
		b.Circle("motor-ring", m.X, m.Y, radius, ink.Paint{Fill: ink.Paper, Line: ink.Rule, Width: b.U})
		b.Circle("motor-shaft", m.X, m.Y, radius*0.14, ink.Paint{Fill: ink.Ink})
		if places[i] == said.Motor.Place && (run.Cue() || run.looks()) {
			b.turns(m, radius, said.Motor.Clockwise)
		}
		if n := slices.IndexFunc(run.Choices, func(k int) bool { return said.Codes[k] == places[i] }); n >= 0 && run.Cue() {
			b.Hit(motorPrefix+strconv.Itoa(n+1), "", ink.Rect{X: m.X - radius, Y: m.Y - radius, W: 2 * radius, H: 2 * radius})
		}
	}
	h, v := reach*0.34, reach*0.5
	b.Polygon("body", []ink.Point{at(-h, -v), at(h, -v), at(h, v), at(-h, v)}, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1.5 * b.U})
	b.Polygon("nose", []ink.Point{at(-h*0.8, -v), at(h*0.8, -v), at(0, -v-reach*0.34)}, ink.Paint{Fill: ink.Ink})
}

// turns draws what a motor does that turns: a mark that goes round, and the arc that it has just been through, which fades out behind it.
func (b *board) turns(m ink.Point, radius float64, clockwise bool) {
	way := 1.0
	if !clockwise {
		way = -1
	}
	now := way * float64(b.V.Snap.Tick%turn) / turn * 2 * math.Pi
	for i := range 3 { // the nearer to the mark, the heavier
		from, to := now-way*0.5*float64(i+1), now-way*0.5*float64(i)
		b.Arc("turning", m.X, m.Y, radius*0.72, min(from, to), max(from, to), ink.Paint{Line: ink.Focus, Width: radius * (0.2 - 0.06*float64(i))})
	}
	tip := func(r, a float64) ink.Point {
		sin, cos := math.Sincos(a)
		return ink.Point{X: m.X + r*cos, Y: m.Y + r*sin}
	}
	b.Polygon("turning-mark", []ink.Point{tip(radius*0.5, now), tip(radius*0.94, now), tip(radius*0.72, now+way*0.42)}, ink.Paint{Fill: ink.Focus})
}

package sheet

import (
	"math"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
)

// What class view asks for, as shares of the picture's height (ours): the capitals of the state word, and
// the size of sentences and values. On a picture that is taller than wide, of five eighths of its width.
const (
	classState = 0.12
	classText  = 0.035
)

// classSizes takes the large text sizes of class view; keys are so many times as high as text. It gives the height that sizes
// are shares of, and the size of text.
func (b *board) classSizes(key float64) (h, text float64) {
	h = min(b.H, b.W*ink.LeastHeight/ink.LeastWidth)
	text = math.Ceil(h * classText)
	b.small, b.body, b.head, b.large, b.cap = text, text, text, text, text*key
	return h, text
}

// roomKeys takes the large text sizes of class view and draws the few keys that a sheet shows there. It gives the height that
// sizes are shares of, the size of text, and what is left above the keys.
func (b *board) roomKeys(on Place) (h, text float64, rest ink.Rect) {
	b.on = on
	h, text = b.classSizes(1.45)
	r := b.sheetArea()
	b.Group("keys")
	row, rest := r.CutBottom(max(b.cap+4*b.u, 25*b.u), 6*b.u)
	shown := [...]Action{TurnFullScreen, ShowHelp, Leave}
	for i, a := range shown {
		for _, act := range acts {
			if act.Action == a {
				b.action(row.Cell(i, len(shown), 1, b.gap), act, on)
			}
		}
	}
	return h, text, rest
}

// class draws the bench for a room: state, how to change it, why not, sticks and switches. What is left out is found
// in the window.
func (b *board) class() {
	h, text, r := b.roomKeys(OnBench)

	b.Group("state")
	size := math.Ceil(h * classState / ink.CapHeight(1, ink.Bold))
	if b.W < b.H { // a portrait screen has the height for more
		size, _ = ink.Fit((r.W-12*b.u)*0.84, size, 3*size, ink.Bold, stateWords[:]...)
	}
	tall := size * ink.CapHeight(1, ink.Bold)
	top, r := r.CutTop(max(tall+10*b.u, 3*ink.LineHeight(text)), 4*b.u)
	b.stateMark(top.X+tall/2, top.Centre().Y, tall/2)
	b.stateWord(top.X+tall+12*b.u, top.Centre().Y, size)
	x := top.X + tall + 28*b.u + ink.Width(stateWords[0], size, ink.Bold)
	facts := ink.Rect{X: x, Y: top.Y, W: top.Right() - x, H: top.H}
	if facts.W < text*9 {
		facts, r = r.CutTop(3*ink.LineHeight(text), 4*b.u)
	}
	b.classFacts(facts)

	words := b.v.how(b.on)
	height, _ := b.Block("how", r.X, r.Y, ink.Style{Size: text, Weight: ink.Bold, Within: r}, ink.Block{Width: r.W}, words)
	_, r = r.CutTop(height, 4*b.u)
	if words, share, counts := phrase.Countdown(&b.v.Facts); counts {
		line, rest := r.CutTop(ink.BlockHeight(text, 1)+8*b.u, 4*b.u)
		b.fitted("countdown", ink.Rect{X: line.X, Y: line.Y, W: line.W, H: ink.BlockHeight(text, 1)}, ink.Style{Size: text}, words)
		b.filling(ink.Rect{X: line.X, Y: line.Bottom() - 6*b.u, W: line.W, H: 6 * b.u}, share)
		r = rest
	}
	b.Line("class rule", r.X, r.Y, r.Right(), r.Y, ink.Paint{Line: ink.Grid})
	_, r = r.CutTop(4*b.u, 0)
	if b.tall {
		top, bottom := r.CutTop(r.H*0.5, b.gap)
		b.classWhy(top)
		b.classHands(bottom)
		return
	}
	left, right := r.CutLeft(r.W*0.56, b.gap*1.5)
	b.classWhy(left)
	b.classHands(right)
}

// classFacts are link, mode and motors, a line each as far as there is room.
func (b *board) classFacts(r ink.Rect) {
	s := &b.v.Snap
	line := ink.LineHeight(b.body)
	last := phrase.ClassMotors(s, b.v.Config)
	if s.In.Air {
		last = phrase.ClassHeight(-s.Air.Body.Pos.Z, -s.Air.Body.Vel.Z)
	}
	for i, words := range [...]string{phrase.ClassLink(&b.v.Facts), phrase.ClassMode(s), last} {
		if float64(i+1)*line > r.H+1 {
			return
		}
		b.fitted("fact", ink.Rect{X: r.X, Y: r.Y + float64(i)*line, W: r.W, H: line}, ink.Style{Size: b.body}, words)
	}
}

// classWhy writes the refusals that stand, as many as there is room for.
func (b *board) classWhy(r ink.Rect) {
	b.Group("why not")
	size := b.body
	rows := b.v.refusals()
	if sentence := phrase.ClassWhy(&b.v.Facts, len(rows) > 0); sentence != "" {
		h, _ := b.Block("why sentence", r.X, r.Y, ink.Style{Size: size, Within: r}, ink.Block{Width: r.W}, sentence)
		_, r = r.CutTop(h, 6*b.u)
	}
	if b.v.Snap.Armed {
		rows = rows[:0]
	}
	y, all := b.rowsFor(r, rows, size)
	if !all {
		return
	}
	// Where there is room left, the craft with its motors.
	_, rest := r.CutTop(y-r.Y+6*b.u, 0)
	switch {
	case b.v.Snap.In.Air:
		b.classFlight(rest)
	case rest.H > 5*b.rowHeight()+50*b.u:
		b.Group("craft")
		b.fromAbove(rest)
	}
}

// rowsFor writes as many of the refusals as there is room for and counts the rest; it tells where it ends, and whether all
// are there.
func (b *board) rowsFor(r ink.Rect, rows []Row, size float64) (y float64, all bool) {
	y, one := r.Y, ink.BlockHeight(size, 1)
	for i, row := range rows {
		n, _ := ink.CountLines(row.Text, r.W-1.2*size, size, ink.Regular)
		need := ink.BlockHeight(size, n)
		after := 0.0
		if i < len(rows)-1 {
			after = one + 2*b.u
		}
		if y+need+after > r.Bottom() {
			b.Text("refusals left", r.X, y, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Top, Within: r}, phrase.RefusalsLeft(len(rows)-i))
			return y, false
		}
		b.whyMark(r.X+4.5*b.u, y+one/2, row.Stands)
		style := ink.Style{Size: size, Within: r}
		if !row.Stands {
			style.Colour = ink.Faint
		}
		b.Block("refusal "+phrase.Refusal(row.Refusal), r.X+1.2*size, y, style, ink.Block{Width: r.W - 1.2*size, Crossed: row.Crossed}, row.Text)
		y += need + 3*b.u
	}
	return y, true
}

// classHands draws the sticks, and the switches as words.
func (b *board) classHands(r ink.Rect) {
	if b.v.choosing() {
		b.choice(r)
		return
	}
	b.Group("sticks")
	all, n := b.v.levers()
	line := ink.LineHeight(b.body)
	low, sticks := r.CutBottom(float64(n)*line, 6*b.u)
	for i, g := range gimbals[stickMode(b.v.StickMode)] {
		b.stick(sticks.Cell(i, 2, 1, b.gap), g, [2]string{"left", "right"}[i])
	}
	b.Group("switches")
	for i := range all[:n] {
		l := &all[i]
		w := b.v.Snap.In.Sent[l.channel]
		at := -1
		if b.v.Snap.In.HasSent {
			at = l.live(w)
		}
		words := phrase.ClassSwitch(l.name, "", "–")
		if at >= 0 {
			words = phrase.ClassSwitch(l.name, l.at[at].word, phrase.Micros(w))
		}
		b.fitted(l.name+" switch", ink.Rect{X: low.X, Y: low.Y + float64(i)*line, W: low.W, H: line}, ink.Style{Size: b.body}, words)
	}
}

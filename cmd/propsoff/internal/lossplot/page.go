package lossplot

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/lossmap"
)

// Page draws a page of its own, whose Scale is one pixel of the least window: a map for each measure, as they are looked at, under a title and what
// the craft does, and below each the worst of it.
func Page(p *ink.Page, title, does words.Text, l Look) {
	u, head := p.Scale, p.TextSize(17)
	l.Small, l.U = p.TextSize(12), u
	p.Rect("paper", p.Bounds(), ink.Paint{Fill: ink.Paper})
	p.Group("page")
	r := p.Bounds().Inset(14 * u)
	say := func(name string, s ink.Style, t words.Text) {
		h, _ := p.Block(name, r.X, r.Y, s, ink.Block{Width: r.W}, l.Book.Say(t))
		_, r = r.CutTop(h, 4*u)
	}
	say("title", ink.Style{Size: head, Weight: ink.Bold}, title)
	say("does", ink.Style{Size: l.Small}, does)
	say("slice", ink.Style{Size: l.Small, Weight: ink.Bold}, words.Row(tell.MapThrottle(l.Map, l.Throttle), tell.MapWind(l.Map.Winds[l.Wind])))
	say("stands", ink.Style{Size: l.Small, Colour: ink.Faint}, words.T("loss-map.stands"))
	for q := range lossmap.Measure(lossmap.Measures) {
		l.Measure = q
		cell := r.Cell(int(q), 1, lossmap.Measures, 12*u)
		if text := l.Book.Say(tell.MapWorst(l.Map, q, false, l.In)); text != "" {
			n, _ := ink.CountLines(text, cell.W, l.Small, ink.Regular)
			foot, rest := cell.CutBottom(ink.BlockHeight(l.Small, n), 3*u)
			p.Group("worst")
			p.Block("worst", foot.X, foot.Y, ink.Style{Size: l.Small}, ink.Block{Width: foot.W}, text)
			cell = rest
		}
		Draw(p, cell, &l)
	}
}

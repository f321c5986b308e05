package report

import (
	"math"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/tell"
)

// axes is a plot with its scales.
type axes struct {
	box      ink.Rect // inside the frame
	from, to float64  // days, from the beginning of the first to the end of the last
	top      float64  // the greatest value; the least is 0
}

func (a *axes) x(day float64) float64 { return a.box.X + (day-a.from)/(a.to-a.from)*a.box.W }
func (a *axes) y(v float64) float64   { return a.box.Bottom() - v/a.top*a.box.H }

// axes draws frame, guides and figures of a plot over all days of the report in r; right pixels are left free for words at its right. Values
// run from 0 to at least top, with a mark each step of a round number not below step.
func (k *pen) axes(r ink.Rect, top, step, right float64) axes {
	label := func(v float64) string {
		return k.say(tell.Plain(words.Fixed{N: int64(math.Round(v * 100)), Places: 2}))
	}
	step = roundStep(top/4, step)
	a := axes{top: math.Max(top*1.04, step), from: float64(k.d.From), to: float64(k.d.To) + 1}
	room := 0.0
	for v := 0.0; v <= a.top; v += step {
		room = math.Max(room, ink.Width(label(v), k.small, ink.Regular))
	}
	a.box = ink.Rect{X: r.X + room + 4*k.u, Y: r.Y + k.small*0.5, W: r.W - room - 4*k.u - right, H: r.H - k.small*2.1}
	for v := 0.0; v <= a.top; v += step {
		y := a.y(v)
		if v > 0 && y > a.box.Y+k.u {
			k.Line("guide", a.box.X, y, a.box.Right(), y, ink.Paint{Line: ink.Grid, Under: true})
		}
		k.Text("value", a.box.X-3*k.u, y, ink.Style{Size: k.small, Anchor: ink.Right | ink.Middle, Colour: ink.Faint}, label(v))
	}
	k.Line("left", a.box.X, a.box.Y, a.box.X, a.box.Bottom(), ink.Paint{Line: ink.Rule, Width: 0.6 * k.u})
	k.Line("base", a.box.X, a.box.Bottom(), a.box.Right(), a.box.Bottom(), ink.Paint{Line: ink.Rule, Width: 0.6 * k.u})
	k.dates(&a)
	return a
}

// dates writes days under a plot, as many as stand apart.
func (k *pen) dates(a *axes) {
	days := k.d.To - k.d.From
	type mark struct {
		x, at float64
		text  string
	}
	for _, n := range []int32{-6, -5, -4, -3, 6, 5, 4, 3, 2, 1, 0} {
		if n < 0 { // best are marks at equal distances
			if n = -n; days%n != 0 {
				continue
			}
		}
		var marks []mark
		end, fit := math.Inf(-1), true
		for i := int32(0); i <= min(n, days); i++ {
			day := k.d.From + days*i/max(1, min(n, days))
			m := mark{x: a.x(float64(day) + 0.5), text: k.say(tell.ReportDay(logbook.Date(day), days > 300))}
			w := ink.Width(m.text, k.small, ink.Regular)
			m.at = math.Max(a.box.X, math.Min(m.x-w/2, a.box.Right()-w))
			fit = fit && m.at >= end+k.small*0.8
			end = m.at + w
			marks = append(marks, m)
		}
		if !fit {
			continue
		}
		for _, m := range marks {
			k.Line("tick", m.x, a.box.Bottom(), m.x, a.box.Bottom()+2.5*k.u, ink.Paint{Line: ink.Rule, Width: 0.6 * k.u})
			k.Text("day", m.at, a.box.Bottom()+3.5*k.u, ink.Style{Size: k.small, Anchor: ink.Top, Colour: ink.Faint}, m.text)
		}
		return
	}
}

// roundStep is the least of 1, 2, 5 times a power of ten that is not below v, nor below least.
func roundStep(v, least float64) float64 {
	if v <= least {
		return least
	}
	e := math.Pow(10, math.Floor(math.Log10(v)))
	for _, m := range []float64{1, 2, 5, 10} {
		if m*e >= v*0.999 {
			return m * e
		}
	}
	return 10 * e
}

// reaction draws the panels of reaction times beside each other.
func (k *pen) reaction(r ink.Rect) {
	r = k.heading("reaction", r, words.T("report.reaction"))
	if len(k.d.Panels) == 0 {
		k.nothing(r, words.T("report.no-times"))
		return
	}
	days := int32(1)
	for i := range k.d.Panels {
		days = max(days, k.d.Panels[i].Days)
	}
	r = k.above(r, "about", k.say(tell.ReportReactionAbout(days)), ink.Style{Size: k.small, Colour: ink.Faint}, 2*k.u)
	for i := range k.d.Panels {
		k.panel(r.Cell(i, len(k.d.Panels), 1, k.size*2), &k.d.Panels[i])
	}
}

// panel draws the times of one drill: the median of each day, the spread about it, and what passes.
func (k *pen) panel(r ink.Rect, p *Panel) {
	k.Group("reaction " + p.Code)
	r = k.below(r, "drill", k.say(tell.DrillText(p.Code, p.Name)), 1, ink.Style{Size: k.size, Weight: ink.Bold})
	_, r = r.CutTop(2*k.u, 0)
	top := 0.0
	for _, m := range p.Marks {
		top = math.Max(top, float64(m.Median+m.Spread)/1e6)
	}
	right := 0.0
	for _, ms := range p.Allowed {
		top = math.Max(top, float64(ms)/1000*1.05)
		right = math.Max(right, ink.Width(k.say(tell.ReportPass(ms)), k.small, ink.Bold)+4*k.u)
	}
	a := k.axes(r, top, 0.1, right)
	below := math.Inf(1)
	for _, ms := range p.Allowed {
		y := a.y(float64(ms) / 1000)
		k.Line("pass", a.box.X, y, a.box.Right(), y, ink.Paint{Line: ink.Armed, Width: 1.1 * k.u, Dash: ink.Dash{On: 5 * k.u, Off: 3 * k.u}})
		if below-y < k.small*1.2 {
			continue // two that are nearly alike: the least is named
		}
		below = y
		k.Text("pass", a.box.Right()+4*k.u, y, ink.Style{Size: k.small, Weight: ink.Bold, Anchor: ink.Middle, Colour: ink.Armed}, k.say(tell.ReportPass(ms)))
	}
	at := func(m *Mark, us int64) ink.Point {
		return ink.Point{X: a.x(math.Min(float64(m.Day)+float64(p.Days)/2, a.to)), Y: a.y(float64(us) / 1e6)}
	}
	dot := math.Max(0.8, math.Min(2.4, a.box.W/k.u/float64(len(p.Marks))/3)) * k.u
	var way []ink.Point
	for i := range p.Marks {
		m := &p.Marks[i]
		way = append(way, at(m, m.Median))
		if m.Spread > 0 {
			hi, lo := at(m, m.Median+m.Spread), at(m, max(0, m.Median-m.Spread))
			k.Line("spread", hi.X, hi.Y, lo.X, lo.Y, ink.Paint{Line: ink.Pitch, Width: math.Max(0.5, 1.1*dot/k.u/2.4) * k.u})
		}
	}
	k.Polyline("medians", way, ink.Paint{Line: ink.Disarmed, Width: 0.6 * k.u})
	for _, q := range way {
		k.Circle("median", q.X, q.Y, dot, ink.Paint{Fill: ink.Disarmed})
	}
}

// nothing draws an empty frame with a sentence in it.
func (k *pen) nothing(r ink.Rect, t words.Text) {
	k.Rect("frame", r, ink.Paint{Line: ink.Rule, Width: 0.6 * k.u})
	text, w := k.say(t), r.W-16*k.u
	lines, _ := ink.CountLines(text, w, k.size, ink.Regular)
	k.Block("nothing", r.X+8*k.u, r.Centre().Y-ink.BlockHeight(k.size, lines)/2, ink.Style{Size: k.size, Anchor: ink.Centre}, ink.Block{Width: w}, text)
}

// stood draws how many drills stood learned and mastered.
func (k *pen) stood(r ink.Rect) {
	k.Group("stood")
	if len(k.d.Stands) == 0 {
		k.nothing(r, words.T("report.no-drills"))
		return
	}
	r = k.above(r, "about", k.say(tell.ReportStoodAbout(k.d.Total)), ink.Style{Size: k.small, Colour: ink.Faint}, 2*k.u)
	last := k.d.Stands[len(k.d.Stands)-1]
	learned, mastered := k.say(tell.ReportStood(last.Learned, false)), k.say(tell.ReportStood(last.Mastered, true))
	right := math.Max(ink.Width(learned, k.small, ink.Bold), ink.Width(mastered, k.small, ink.Bold)) + 4*k.u
	top := 3.0 // the whole course only where the lines get near it
	for _, s := range k.d.Stands {
		top = math.Max(top, float64(max(s.Learned, s.Mastered))*1.5)
	}
	a := k.axes(r, math.Min(top, float64(k.d.Total)), 1, right)
	steps := func(of func(Stand) int) (way []ink.Point) {
		y := a.y(0)
		way = append(way, ink.Point{X: a.box.X, Y: y})
		for _, s := range k.d.Stands {
			x := a.x(float64(s.Day))
			way = append(way, ink.Point{X: x, Y: y})
			y = a.y(float64(of(s)))
			way = append(way, ink.Point{X: x, Y: y})
		}
		return append(way, ink.Point{X: a.box.Right(), Y: y})
	}
	k.Polyline("learned", steps(func(s Stand) int { return s.Learned }), ink.Paint{Line: ink.Ink, Width: 0.9 * k.u, Dash: ink.Dash{On: 3 * k.u, Off: 2 * k.u}})
	k.Polyline("mastered", steps(func(s Stand) int { return s.Mastered }), ink.Paint{Line: ink.Disarmed, Width: 1.8 * k.u})
	hi, lo := a.y(float64(last.Learned)), a.y(float64(last.Mastered))
	apart := k.small * 1.25
	if d := apart - (lo - hi); last.Learned >= last.Mastered && d > 0 {
		hi -= d
	} else if d := apart - (hi - lo); last.Learned < last.Mastered && d > 0 {
		lo -= d
	}
	x := a.box.Right() + 4*k.u
	k.Text("learned", x, hi, ink.Style{Size: k.small, Anchor: ink.Middle}, learned)
	k.Text("mastered", x, lo, ink.Style{Size: k.small, Weight: ink.Bold, Anchor: ink.Middle, Colour: ink.Disarmed}, mastered)
}

// refused draws the reasons why arming was refused as bars.
func (k *pen) refused(r ink.Rect) {
	k.Group("refused")
	all := k.d.Refusals
	if len(all) == 0 {
		k.nothing(r, words.T("report.no-refusals"))
		return
	}
	row := k.size * 1.9
	if fit := r.H / float64(len(all)); fit < row {
		row = math.Max(fit, k.small*1.25)
	}
	size := math.Max(k.TextSize(least), math.Min(k.size, math.Floor(row/1.3)))
	wide, figures := 0.0, 0.0
	why := make([]string, len(all))
	for i, c := range all {
		why[i] = k.say(tell.RefusalName(c.Code))
		wide = math.Max(wide, ink.Width(why[i], size, ink.Regular))
		figures = math.Max(figures, ink.Width(k.say(count(c.Times)), size, ink.Bold))
	}
	wide = math.Min(wide, r.W*0.72)
	from := r.X + wide + 5*k.u
	room := r.Right() - from - figures - 4*k.u
	for i, c := range all {
		y := r.Y + float64(i)*row
		if y+row > r.Bottom()+k.u {
			break // more kinds than there are; the HTML has them all
		}
		mid := y + row/2
		k.Block("why", r.X, mid-ink.BlockHeight(size, 1)/2, ink.Style{Size: size}, ink.Block{Width: wide + k.u, MaxLines: 1, Shorten: true}, why[i])
		w := math.Max(k.u, room*float64(c.Times)/float64(all[0].Times))
		k.Rect("bar", ink.Rect{X: from, Y: mid - row*0.28, W: w, H: row * 0.56}, ink.Paint{Fill: ink.Refusal})
		k.Text("times", from+w+3*k.u, mid, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Middle}, k.say(count(c.Times)))
	}
}

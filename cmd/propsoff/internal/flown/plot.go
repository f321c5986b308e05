package flown

import (
	"math"
	"strconv"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim/happening"
	"propsoff/sim/layout"
)

// pen is one line of a panel.
type pen struct {
	name string
	role ink.Role
	of   func(*Row) float64
	wrap bool // a heading: the pen is lifted where it goes round
}

// panel is one strip of the plot. Of two pens with band set the area between them is filled: what was asked against what the
// craft did.
type panel struct {
	title, unit string
	pens        []pen
	band        bool
	least       float64 // the least span of its scale
}

func panels() []panel {
	rate := func(i int) func(*Row) float64 { return func(r *Row) float64 { return r.Rate[i] } }
	asked := func(i int) func(*Row) float64 { return func(r *Row) float64 { return r.Asked[i] } }
	motor := func(i int) func(*Row) float64 { return func(r *Row) float64 { return r.Motor[i] } }
	return []panel{
		{"height", "m", []pen{{"height", ink.Ink, func(r *Row) float64 { return r.Height }, false}}, false, 2},
		{"climb, speed over ground", "m/s", []pen{{"climb", ink.Throttle, func(r *Row) float64 { return r.Climb }, false},
			{"over ground", ink.Pitch, func(r *Row) float64 { return r.Speed }, false}}, false, 2},
		{"bank, pitch", "°", []pen{{"bank", ink.Roll, func(r *Row) float64 { return r.Bank }, true},
			{"pitch", ink.Pitch, func(r *Row) float64 { return r.Pitch }, false}}, false, 20},
		{"roll: asked and actual", "°/s", []pen{{"asked", ink.Faint, asked(0), false}, {"actual", ink.Roll, rate(0), false}}, true, 40},
		{"pitch: asked and actual", "°/s", []pen{{"asked", ink.Faint, asked(1), false}, {"actual", ink.Pitch, rate(1), false}}, true, 40},
		{"yaw: asked and actual", "°/s", []pen{{"asked", ink.Faint, asked(2), false}, {"actual", ink.Yaw, rate(2), false}}, true, 40},
		{"motors", "%", []pen{{"front left", ink.Throttle, motor(0), false}, {"front right", ink.Yaw, motor(1), false},
			{"rear left", ink.Pitch, motor(2), false}, {"rear right", ink.Roll, motor(3), false}}, false, 10},
		{"throttle", "µs", []pen{{"throttle", ink.Throttle, func(r *Row) float64 { return r.Throttle }, false}}, false, 100},
	}
}

// Plot draws the flight on a page: panels above one another over one time, the mode and ARMED on top, and what happened as
// lines across with their names.
func (l *Log) Plot(p *ink.Page, title string) {
	u := p.Scale
	small, head := p.TextSize(12), p.TextSize(17)
	r := p.Bounds().Inset(14 * u)
	p.Rect("paper", p.Bounds(), ink.Paint{Fill: ink.Paper})
	p.Group("plot")
	p.Text("title", r.X, r.Y, ink.Style{Size: head, Weight: ink.Bold, Anchor: ink.Top}, title)
	_, r = r.CutTop(ink.BlockHeight(head, 1), 4*u)
	if len(l.Rows) < 2 {
		p.Text("nothing", r.X, r.Y, ink.Style{Size: head, Anchor: ink.Top}, phrase.NothingFlown())
		return
	}
	left := ink.Width("climb, speed over ground", small, ink.Bold) + 10*u
	scale := ink.Width("−1000", small, ink.Regular) + 8*u
	from, to := l.Rows[0].Tick, l.Rows[len(l.Rows)-1].Tick
	plot := ink.Rect{X: r.X + left + scale, Y: r.Y, W: r.W - left - scale, H: r.H}
	x := func(tick int64) float64 { return plot.X + plot.W*float64(tick-from)/float64(to-from) }

	marks, rest := plot.CutTop(3*ink.LineHeight(small)+ink.BlockHeight(small, 1), 3*u)
	strip, rest := rest.CutTop(ink.BlockHeight(small, 1)+4*u, 9*u)
	axis, rest := rest.CutBottom(ink.BlockHeight(small, 1), 3*u)
	l.times(p, axis, rest, small, from, to, x)
	l.marks(p, marks, rest.Bottom(), small, x)
	l.strip(p, strip, small, x, r.X)
	all := panels()
	h := (rest.H - float64(len(all)-1)*9*u) / float64(len(all))
	for i := range all {
		box := ink.Rect{X: plot.X, Y: rest.Y + float64(i)*(h+9*u), W: plot.W, H: h}
		l.panel(p, &all[i], box, small, x, r.X)
	}
}

// times writes the seconds below the panels.
func (l *Log) times(p *ink.Page, axis, panels ink.Rect, small float64, from, to int64, x func(int64) float64) {
	every := nice(float64(to-from) / 1000 / 10)
	for t := math.Ceil(float64(from)/1000/every) * every; t*1000 <= float64(to); t += every {
		at := x(int64(math.Round(t * 1000)))
		p.Line("second", at, panels.Y, at, panels.Bottom(), ink.Paint{Line: ink.Grid, Under: true})
		anchor := ink.Centre | ink.Top
		if at > axis.Right()-20*p.Scale {
			anchor = ink.Right | ink.Top
		}
		p.Text("seconds", at, axis.Y, ink.Style{Size: small, Colour: ink.Faint, Anchor: anchor}, strconv.FormatFloat(t, 'f', -1, 64)+" s")
	}
}

// shown are the happenings that get a line across the plot.
var shown = map[happening.Code]bool{
	happening.Armed: true, happening.Disarmed: true, happening.LinkLost: true, happening.LinkBack: true, happening.Sinking: true,
	happening.SinkEnded: true, happening.TookOff: true, happening.TouchedDown: true, happening.TippedOver: true, happening.AirMode: true,
	happening.Refused: true,
}

// marks draws the happenings, their names in up to three rows so that they do not lie over one another.
func (l *Log) marks(p *ink.Page, r ink.Rect, bottom, small float64, x func(int64) float64) {
	var busy [4]float64
	for i := range busy {
		busy[i] = math.Inf(-1)
	}
	line := ink.LineHeight(small)
	for _, h := range l.Happenings {
		if !shown[h.Code] || h.Tick < l.Rows[0].Tick || h.Tick > l.Rows[len(l.Rows)-1].Tick {
			continue
		}
		at, word := x(h.Tick), phrase.Code(h.Code)
		w := ink.Width(word, small, ink.Regular) + 6*p.Scale
		left := min(at, r.Right()-w)
		for row := range busy {
			if left <= busy[row] {
				continue
			}
			y := r.Y + float64(row)*line
			p.Text("happening", left+3*p.Scale, y, ink.Style{Size: small, Anchor: ink.Top}, word)
			p.Line("happening line", at, y+line, at, bottom, ink.Paint{Line: ink.Grid, Under: true})
			busy[row] = left + w
			break
		}
	}
}

// strip shows mode and ARMED over time.
func (l *Log) strip(p *ink.Page, r ink.Rect, small float64, x func(int64) float64, names float64) {
	p.Text("strip name", names, r.Centre().Y, ink.Style{Size: small, Weight: ink.Bold, Anchor: ink.Middle}, phrase.ModeAndArmed())
	type state struct {
		mode  layout.Mode
		armed bool
	}
	begin := 0
	of := func(i int) state { return state{l.Rows[i].Mode, l.Rows[i].Armed} }
	for i := 1; i <= len(l.Rows); i++ {
		if i < len(l.Rows) && of(i) == of(begin) {
			continue
		}
		s := of(begin)
		box := ink.Rect{X: x(l.Rows[begin].Tick), Y: r.Y, H: r.H}
		box.W = x(l.Rows[min(i, len(l.Rows)-1)].Tick) - box.X
		word, colour := phrase.Mode(s.mode), ink.Faint
		if s.armed {
			p.Rect("armed", ink.Rect{X: box.X, Y: box.Bottom() - 3*p.Scale, W: box.W, H: 3 * p.Scale}, ink.Paint{Fill: ink.Armed})
			word, colour = phrase.ArmedBar()+", "+word, ink.Armed
		}
		p.Line("strip edge", box.X, box.Y, box.X, box.Bottom(), ink.Paint{Line: ink.Rule})
		if box.W <= ink.Width(word, small, ink.Regular)+8*p.Scale {
			word = phrase.Mode(s.mode) // the bar below it says the rest
		}
		if box.W > ink.Width(word, small, ink.Regular)+8*p.Scale {
			p.Text("mode", box.X+4*p.Scale, box.Y, ink.Style{Size: small, Colour: colour, Anchor: ink.Top}, word)
		}
		begin = i
	}
}

// panel draws one strip with its scale.
func (l *Log) panel(p *ink.Page, n *panel, r ink.Rect, small float64, x func(int64) float64, names float64) {
	u := p.Scale
	lo, hi := math.Inf(1), math.Inf(-1)
	for i := range l.Rows {
		for _, q := range n.pens {
			lo, hi = min(lo, q.of(&l.Rows[i])), max(hi, q.of(&l.Rows[i]))
		}
	}
	if hi-lo < n.least {
		middle := (hi + lo) / 2
		lo, hi = middle-n.least/2, middle+n.least/2
	}
	step := nice((hi - lo) / 3)
	lo, hi = math.Floor(lo/step)*step, math.Ceil(hi/step)*step
	y := func(v float64) float64 { return r.Bottom() - r.H*(v-lo)/(hi-lo) }
	lines := int(math.Round((hi - lo) / step))
	skip := 1
	for r.H/float64(lines)*float64(skip) < ink.LineHeight(small)*1.6 && skip < lines {
		skip++
	}
	for i := range lines + 1 {
		v := lo + float64(i)*step
		p.Line("level", r.X, y(v), r.Right(), y(v), ink.Paint{Line: ink.Grid, Under: true})
		if int(math.Round(v/step))%skip == 0 { // zero is always among them
			anchor := ink.Right | ink.Middle
			switch i { // the ends stay within their own panel
			case 0:
				anchor = ink.Right | ink.Bottom
			case lines:
				anchor = ink.Right | ink.Top
			}
			p.Text("level value", r.X-5*u, y(v), ink.Style{Size: small, Colour: ink.Faint, Anchor: anchor}, phrase.Signed(v))
		}
	}
	p.Text("panel name", names, r.Y, ink.Style{Size: small, Weight: ink.Bold, Anchor: ink.Top}, n.title)
	p.Text("panel unit", names, r.Y+ink.LineHeight(small), ink.Style{Size: small, Colour: ink.Faint, Anchor: ink.Top}, n.unit)
	at := r.Y + 2*ink.LineHeight(small)
	stride := max(1, int(float64(len(l.Rows))/r.W*1.2))
	var drawn [][]ink.Point
	for k, q := range n.pens {
		var pts []ink.Point
		last := 0.0
		for i := 0; i < len(l.Rows); i += stride {
			v := q.of(&l.Rows[i])
			if q.wrap && i > 0 && math.Abs(v-last) > 180 {
				p.Polyline("pen "+q.name, pts, ink.Paint{Line: q.role, Width: 1.4 * u})
				pts = pts[:0]
			}
			last = v
			pts = append(pts, ink.Point{X: x(l.Rows[i].Tick), Y: y(v)})
		}
		drawn = append(drawn, pts)
		if !n.band {
			p.Polyline("pen "+q.name, pts, ink.Paint{Line: q.role, Width: 1.4 * u})
		}
		if len(n.pens) > 1 && at+ink.LineHeight(small) <= r.Bottom()+2*u {
			column := names + float64(k%2)*ink.Width("front right ", small, ink.Regular)
			p.Text("pen name", column, at, ink.Style{Size: small, Colour: q.role, Anchor: ink.Top}, q.name)
			if k%2 == 1 {
				at += ink.LineHeight(small)
			}
		}
	}
	if n.band {
		p.Band("error", drawn[0], drawn[1], n.pens[1].role)
		p.Polyline("pen asked", drawn[0], ink.Paint{Line: ink.Faint, Width: u})
	}
}

// nice is the round number (1, 2 or 5 times a power of ten) that is not below v.
func nice(v float64) float64 {
	if v <= 0 {
		return 1
	}
	p := math.Pow(10, math.Floor(math.Log10(v)))
	for _, m := range []float64{1, 2, 5, 10} {
		if m*p >= v*(1-1e-9) {
			return m * p
		}
	}
	return 10 * p
}

package flightlog

import (
	"math"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
)

// pen is one line of a panel.
type pen struct {
	name words.Text
	role ink.Role
	of   func(*Row) float64
	wrap bool // a heading: the pen is lifted where it goes round
}

// panel is one strip of the plot. Of two pens with band set the area between them is filled: what was asked against what the
// craft did.
type panel struct {
	title words.Text
	unit  string
	pens  []pen
	band  bool
	least float64 // the least span of its scale
}

func panels() []panel {
	asked := func(job string, axis int, role ink.Role) panel {
		return panel{words.T("flown.rate", words.Args{"axis": tell.JobName(job)}), "°/s", []pen{
			{words.T("flown.asked"), ink.Faint, func(r *Row) float64 { return r.Asked[axis] }, false},
			{words.T("flown.actual"), role, func(r *Row) float64 { return r.Rate[axis] }, false},
		}, true, 40}
	}
	var motors []pen
	for i, role := range [...]ink.Role{ink.Throttle, ink.Yaw, ink.Pitch, ink.Roll} {
		motors = append(motors, pen{tell.Places()[i], role, func(r *Row) float64 { return r.Motor[i] }, false})
	}
	height, throttle := words.T("flown.height"), tell.JobName("throttle")
	return []panel{
		{height, "m", []pen{{height, ink.Ink, func(r *Row) float64 { return r.Height }, false}}, false, 2},
		{words.T("flown.speeds"), "m/s", []pen{{words.T("flown.climb"), ink.Throttle, func(r *Row) float64 { return r.Climb }, false},
			{words.T("flown.over-ground"), ink.Pitch, func(r *Row) float64 { return r.Speed }, false}}, false, 2},
		{words.T("flown.lean"), "°", []pen{{words.T("flown.bank"), ink.Roll, func(r *Row) float64 { return r.Bank }, true},
			{words.T("flown.pitch"), ink.Pitch, func(r *Row) float64 { return r.Pitch }, false}}, false, 20},
		asked("roll", 0, ink.Roll), asked("pitch", 1, ink.Pitch), asked("yaw", 2, ink.Yaw),
		{words.T("flown.motors"), "%", motors, false, 10},
		{throttle, "µs", []pen{{throttle, ink.Throttle, func(r *Row) float64 { return r.Throttle }, false}}, false, 100},
	}
}

// plot is a log as it is being drawn.
type plot struct {
	*Log
	p     *ink.Page
	b     *words.Book
	small float64                  // the size of all text but the title
	names float64                  // where the names of panels begin
	pens  float64                  // the width of a pen's name
	x     func(tick int64) float64 // where a tick is
}

// text writes in small letters.
func (l *plot) text(item string, x, y float64, s ink.Style, t words.Text) {
	s.Size = l.small
	l.p.Text(item, x, y, s, l.b.Say(t))
}

// width is that of the widest of these in small letters.
func (l *plot) width(weight ink.Weight, all ...words.Text) (w float64) {
	for _, t := range all {
		w = max(w, ink.Width(l.b.Say(t), l.small, weight))
	}
	return w
}

// Plot draws the flight on a page in a language: panels above one another over one time, the mode and ARMED on top, and what happened as
// lines across with their names.
func (l *Log) Plot(p *ink.Page, b *words.Book, title words.Text) {
	u, head := p.Scale, p.TextSize(17)
	r := p.Bounds().Inset(14 * u)
	d := plot{Log: l, p: p, b: b, small: p.TextSize(12), names: r.X}
	p.Rect("paper", p.Bounds(), ink.Paint{Fill: ink.Paper})
	p.Group("plot")
	p.Text("title", r.X, r.Y, ink.Style{Size: head, Weight: ink.Bold, Anchor: ink.Top}, b.Say(title))
	_, r = r.CutTop(ink.BlockHeight(head, 1), 4*u)
	if len(l.Rows) < 2 {
		p.Text("nothing", r.X, r.Y, ink.Style{Size: head, Anchor: ink.Top}, b.Say(words.T("flown.nothing")))
		return
	}
	all, left := panels(), d.width(ink.Bold, words.T("flown.mode-and-armed"))
	for i := range all {
		left = max(left, d.width(ink.Bold, all[i].title))
		for k := range all[i].pens {
			d.pens = max(d.pens, d.width(ink.Regular, all[i].pens[k].name)+d.width(ink.Regular, words.AsIs("n")))
		}
	}
	left = max(left, 2*d.pens) + 10*u + ink.Width("−1000", d.small, ink.Regular) + 8*u
	from, to := l.Rows[0].Tick, l.Rows[len(l.Rows)-1].Tick
	box := ink.Rect{X: r.X + left, Y: r.Y, W: r.W - left, H: r.H}
	d.x = func(tick int64) float64 { return box.X + box.W*float64(tick-from)/float64(to-from) }

	line := ink.BlockHeight(d.small, 1)
	marks, rest := box.CutTop(3*ink.LineHeight(d.small)+line, 3*u)
	strip, rest := rest.CutTop(line+4*u, 9*u)
	axis, rest := rest.CutBottom(line, 3*u)
	d.times(axis, rest, from, to)
	d.marks(marks, rest.Bottom())
	d.strip(strip)
	h := (rest.H - float64(len(all)-1)*9*u) / float64(len(all))
	for i := range all {
		d.panel(&all[i], ink.Rect{X: box.X, Y: rest.Y + float64(i)*(h+9*u), W: box.W, H: h})
	}
}

// times writes the seconds below the panels.
func (l *plot) times(axis, panels ink.Rect, from, to int64) {
	every := nice(float64(to-from) / 1000 / 10)
	for t := math.Ceil(float64(from)/1000/every) * every; t*1000 <= float64(to); t += every {
		at := l.x(int64(math.Round(t * 1000)))
		l.p.Line("second", at, panels.Y, at, panels.Bottom(), ink.Paint{Line: ink.Grid, Under: true})
		anchor := ink.Centre | ink.Top
		if at > axis.Right()-20*l.p.Scale {
			anchor = ink.Right | ink.Top
		}
		l.text("seconds", at, axis.Y, ink.Style{Colour: ink.Faint, Anchor: anchor}, words.T("unit.seconds", words.Args{"n": tell.Signed(t)}))
	}
}

// shown are the happenings that get a line across the plot, and what stands on it.
var shown = map[happening.Code]words.ID{
	happening.Armed: "flown.armed", happening.Disarmed: "flown.disarmed", happening.Refused: "flown.refused",
	happening.LinkLost: "flown.link-lost", happening.LinkBack: "flown.link-back", happening.Sinking: "flown.sinking",
	happening.SinkEnded: "flown.control-back", happening.AirMode: "flown.air-mode", happening.TookOff: "flown.took-off",
	happening.TouchedDown: "flown.touched-down", happening.TippedOver: "flown.tipped-over",
	happening.Broke: "flown.broke",
}

// marks draws the happenings, their names in up to three rows so that they do not lie over one another.
func (l *plot) marks(r ink.Rect, bottom float64) {
	var busy [4]float64
	for i := range busy {
		busy[i] = math.Inf(-1)
	}
	line := ink.LineHeight(l.small)
	type name struct {
		box  ink.Rect
		word words.Text
	}
	var names []name // written over all lines, each on its own ground: no line goes through a word
	for _, h := range l.Happenings {
		id := shown[h.Code]
		if id == "" || h.Tick < l.Rows[0].Tick || h.Tick > l.Rows[len(l.Rows)-1].Tick {
			continue
		}
		at, word := l.x(h.Tick), words.T(id)
		w := l.width(ink.Regular, word) + 6*l.p.Scale
		left := min(at, r.Right()-w)
		for row := range busy {
			if left <= busy[row] {
				continue
			}
			y := r.Y + float64(row)*line
			names = append(names, name{ink.Rect{X: left + 2*l.p.Scale, Y: y, W: w - 3*l.p.Scale, H: line}, word})
			l.p.Line("happening-line", at, y+line, at, bottom, ink.Paint{Line: ink.Grid, Under: true})
			busy[row] = left + w
			break
		}
	}
	for _, n := range names {
		l.p.Rect("happening-ground", n.box, ink.Paint{Fill: ink.Paper, Under: true})
		l.text("happening", n.box.X+l.p.Scale, n.box.Y, ink.Style{Anchor: ink.Top}, n.word)
	}
}

// strip shows mode and ARMED over time.
func (l *plot) strip(r ink.Rect) {
	p, gap := l.p, 8*l.p.Scale
	l.text("strip-name", l.names, r.Centre().Y, ink.Style{Weight: ink.Bold, Anchor: ink.Middle}, words.T("flown.mode-and-armed"))
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
		box := ink.Rect{X: l.x(l.Rows[begin].Tick), Y: r.Y, H: r.H}
		box.W = l.x(l.Rows[min(i, len(l.Rows)-1)].Tick) - box.X
		word, colour := tell.Mode(s.mode), ink.Faint
		if s.armed {
			p.Rect("armed", ink.Rect{X: box.X, Y: box.Bottom() - 3*p.Scale, W: box.W, H: 3 * p.Scale}, ink.Paint{Fill: ink.Armed})
			colour = ink.Armed
			if whole := words.Listed(words.T("sheet.armed-bar"), word); box.W > l.width(ink.Regular, whole)+gap {
				word = whole // else the bar below it says the rest
			}
		}
		p.Line("strip-edge", box.X, box.Y, box.X, box.Bottom(), ink.Paint{Line: ink.Rule})
		if box.W > l.width(ink.Regular, word)+gap {
			l.text("mode", box.X+gap/2, box.Y, ink.Style{Colour: colour, Anchor: ink.Top}, word)
		}
		begin = i
	}
}

// panel draws one strip with its scale.
func (l *plot) panel(n *panel, r ink.Rect) {
	p, u, small := l.p, l.p.Scale, l.small
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
			l.text("level-value", r.X-5*u, y(v), ink.Style{Colour: ink.Faint, Anchor: anchor}, tell.Plain(tell.Signed(v)))
		}
	}
	l.text("panel-name", l.names, r.Y, ink.Style{Weight: ink.Bold, Anchor: ink.Top}, n.title)
	l.text("panel-unit", l.names, r.Y+ink.LineHeight(small), ink.Style{Colour: ink.Faint, Anchor: ink.Top}, words.AsIs(n.unit))
	at := r.Y + 2*ink.LineHeight(small)
	stride := max(1, int(float64(len(l.Rows))/r.W*1.2))
	var drawn [][]ink.Point
	for k, q := range n.pens {
		var pts []ink.Point
		last := 0.0
		for i := 0; i < len(l.Rows); i += stride {
			v := q.of(&l.Rows[i])
			if q.wrap && i > 0 && math.Abs(v-last) > 180 {
				p.Polyline("pen", pts, ink.Paint{Line: q.role, Width: 1.4 * u})
				pts = pts[:0]
			}
			last = v
			pts = append(pts, ink.Point{X: l.x(l.Rows[i].Tick), Y: y(v)})
		}
		drawn = append(drawn, pts)
		if !n.band {
			p.Polyline("pen", pts, ink.Paint{Line: q.role, Width: 1.4 * u})
		}
		if len(n.pens) > 1 && at+ink.LineHeight(small) <= r.Bottom()+2*u {
			l.text("pen-name", l.names+float64(k%2)*l.pens, at, ink.Style{Colour: q.role, Anchor: ink.Top}, q.name)
			if k%2 == 1 {
				at += ink.LineHeight(small)
			}
		}
	}
	if n.band {
		p.Band("error", drawn[0], drawn[1], n.pens[1].role)
		p.Polyline("pen-asked", drawn[0], ink.Paint{Line: ink.Faint, Width: u})
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

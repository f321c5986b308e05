package sheet

import (
	"strconv"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/cmd/propsoff/internal/phrase"
)

// lane is one strip of the chart paper.
type lane struct {
	name    string
	r       ink.Rect
	channel int // −1 for none
	pen     ink.Role
	steps   bool // a switch: drawn as steps
	axis    int  // 1 roll, 2 pitch, 3 yaw: asked and done as a band; 0 for none
}

// chart draws the chart paper: time runs down the page, the newest at the top.
func (b *board) chart(r ink.Rect) {
	b.Group("chart")
	title, part, wide := phrase.ChartTitle(), 0.5, 320.0
	air := b.v.Snap.In.Air
	if air {
		title, part, wide = phrase.FlightChartTitle(), 0.58, 440
	}
	rest := b.section(r, "chart heading", title)
	line := b.rowHeight()
	head, paper := rest.CutTop(2*line+2*b.u, 2*b.u)
	paper.H -= 2 * b.u

	// Seconds, lanes, margin notes.
	seconds := ink.Width("10 s", b.small, ink.Regular) + 6*b.u
	room := clamp((r.W-seconds)*part, 110*b.u, wide*b.u)
	c := &b.v.Config.Layout
	lanes := [...]lane{
		{name: "throttle", channel: int(c.Throttle), pen: ink.Throttle}, {name: "yaw", channel: int(c.Yaw), pen: ink.Yaw},
		{name: "pitch", channel: int(c.Pitch), pen: ink.Pitch}, {name: "roll", channel: int(c.Roll), pen: ink.Roll},
		{name: "arm", channel: int(c.Arm), pen: ink.Ink, steps: true}, {name: "mode", channel: int(c.Mode), pen: ink.Ink, steps: true},
		{name: "link", channel: -1, pen: ink.Ink},
	}
	shares := [...]float64{5, 5, 5, 5, 3, 3.6, 2.4}
	if air { // what came of the stick is told instead of the stick
		lanes[1].axis, lanes[2].axis, lanes[3].axis = 3, 2, 1
		shares[1], shares[2], shares[3] = 6, 7, 7
	}
	all := 0.0
	for _, s := range shares {
		all += s
	}
	x := paper.X + seconds
	for i := range lanes {
		w := room * shares[i] / all
		lanes[i].r = ink.Rect{X: x, Y: paper.Y, W: w - 4*b.u, H: paper.H}
		x += w
	}
	b.secondLines(paper, x-3*b.u, seconds)
	for i := range lanes {
		if lanes[i].channel >= 0 || !lanes[i].steps {
			b.laneHead(head, &lanes[i], i, line)
		}
	}
	b.armedBand(paper, x-3*b.u)
	b.Text("lane armed", x-2*b.u, head.Y+line, ink.Style{Size: b.small, Weight: ink.Bold, Colour: ink.Armed, Anchor: ink.Top}, phrase.ArmedBar())
	for i := range lanes {
		switch l := &lanes[i]; {
		case l.name == "link":
			b.linkLane(l)
		case l.axis > 0:
			b.followed(l)
		case l.channel >= 0:
			b.penLine(l)
		}
	}
	notes := ink.Rect{X: x + 15*b.u, Y: paper.Y, W: r.Right() - x - 15*b.u, H: paper.H}
	b.notes(notes)
}

// depth is the y of a tick on the paper.
func (b *board) depth(paper ink.Rect, tick int64) float64 {
	return paper.Y + paper.H*clamp(float64(b.v.Snap.Tick-tick)/loop.ChartTicks, 0, 1)
}

func (b *board) secondLines(paper ink.Rect, right, seconds float64) {
	const every = 2
	for s := 0; s <= loop.ChartTicks/1000; s += every {
		y := paper.Y + paper.H*float64(s)*1000/loop.ChartTicks
		b.Line("second", paper.X+seconds-4*b.u, y, right, y, ink.Paint{Line: ink.Grid, Under: true})
		word := strconv.Itoa(s) + " s"
		anchor := ink.Right | ink.Middle
		switch s {
		case 0:
			word, anchor = phrase.Now(), ink.Right|ink.Top
		case loop.ChartTicks / 1000:
			anchor = ink.Right | ink.Bottom
		}
		b.Text("seconds", paper.X+seconds-7*b.u, y, ink.Style{Size: b.small, Colour: ink.Faint, Anchor: anchor}, word)
	}
}

// laneHead names a lane, every second one a line lower, so that the names have room.
func (b *board) laneHead(head ink.Rect, l *lane, i int, line float64) {
	y := head.Y
	if i%2 == 1 {
		y += line
	}
	b.Text("lane "+l.name, l.r.Centre().X, y, ink.Style{Size: b.small, Anchor: ink.Centre | ink.Top, Weight: ink.Bold, Colour: l.pen}, l.name)
	x := l.r.X - 2*b.u
	b.Line(l.name+" edge", x, l.r.Y, x, l.r.Bottom(), ink.Paint{Line: ink.Grid})
}

// stride is how many points of the chart are left out between two that are drawn: about one for each pixel and a half.
func (b *board) stride(h float64) int64 {
	return max(1, int64(loop.ChartTicks/loop.PointTicks*1.5/max(h, 1)))
}

// penLine draws one channel as a pen would: a line for a stick, steps for a switch. Where nothing was read it is lifted.
func (b *board) penLine(l *lane) {
	v := b.v
	paint := ink.Paint{Line: l.pen, Width: 1.6 * b.u}
	every := b.stride(l.r.H)
	v.pts = v.pts[:0]
	lift := func() {
		b.Polyline("pen "+l.name, v.pts, paint)
		v.pts = v.pts[:0]
	}
	end := len(v.Chart) // in a look back, what was later is left out
	for end > 0 && v.Chart[end-1].Tick > v.Snap.Tick {
		end--
	}
	for i := end - 1; i >= 0; i-- {
		pt := &v.Chart[i]
		w := pt.Sent[l.channel]
		if !pt.HasSent || !w.Valid() {
			lift()
			continue
		}
		last := i == 0 || i == end-1
		if !last && !l.steps && pt.Tick/loop.PointTicks%every != 0 {
			continue
		}
		x := l.r.X + l.r.W*clamp(share(w), 0, 1)
		y := b.depth(l.r, pt.Tick)
		n := len(v.pts)
		if l.steps && n > 0 && v.pts[n-1].X == x {
			if n > 1 && v.pts[n-2].X == x {
				v.pts[n-1].Y = y
				continue
			}
		} else if l.steps && n > 0 {
			v.pts = append(v.pts, ink.Point{X: v.pts[n-1].X, Y: y})
		}
		v.pts = append(v.pts, ink.Point{X: x, Y: y})
	}
	lift()
}

// linkLane draws the link: a whole line while good, dashes while fresh, a zigzag bar at its middle while lost, nothing
// while the craft had no power.
func (b *board) linkLane(l *lane) {
	x, third := l.r.Centre().X, l.r.W*0.4
	b.runs(func(p *loop.Point) int {
		switch {
		case !p.Powered:
			return 0
		case p.Link == facts.Good:
			return 1
		case p.Link == facts.Fresh:
			return 2
		}
		return 3
	}, func(what int, from, to int64) {
		y1, y2 := b.depth(l.r, to), b.depth(l.r, from)
		if y2-y1 < 1 {
			return
		}
		switch what {
		case 1:
			b.Line("link good", x, y1, x, y2, ink.Paint{Line: ink.Ink, Width: 2 * b.u})
		case 2:
			b.Line("link fresh", x, y1, x, y2, ink.Paint{Line: ink.Link, Width: 2 * b.u, Dash: ink.Dash{On: 4 * b.u, Off: 3 * b.u}})
		case 3:
			b.Line("link lost", x-third, y1, x+third, y1, ink.Paint{Line: ink.Link, Width: 1.5 * b.u})
			b.Line("link lost", x-third, y2, x+third, y2, ink.Paint{Line: ink.Link, Width: 1.5 * b.u})
			b.zigzag(x, third, y1, y2)
		}
	})
}

func (b *board) zigzag(x, half, y1, y2 float64) {
	step := 5 * b.u
	n := int((y2 - y1) / step)
	b.v.pts = b.v.pts[:0]
	for i := range n + 1 {
		side := half
		if i%2 == 0 {
			side = -half
		}
		b.v.pts = append(b.v.pts, ink.Point{X: x + side, Y: y1 + float64(i)*step})
	}
	b.Polyline("link lost", b.v.pts, ink.Paint{Line: ink.Link, Width: 1.2 * b.u})
}

// armedBand is a bar beside the lanes as long as the craft was armed.
func (b *board) armedBand(paper ink.Rect, x float64) {
	b.runs(func(p *loop.Point) int {
		if p.Armed {
			return 1
		}
		return 0
	}, func(what int, from, to int64) {
		y1, y2 := b.depth(paper, to), b.depth(paper, from)
		if what == 1 && y2-y1 >= 1 {
			b.Rect("was armed", ink.Rect{X: x, Y: y1, W: 4 * b.u, H: y2 - y1}, ink.Paint{Fill: ink.Armed})
		}
	})
}

// runs hands on each stretch of the chart over which a point's kind stays the same.
func (b *board) runs(kind func(*loop.Point) int, emit func(what int, from, to int64)) {
	pts := b.v.Chart
	for i := 0; i < len(pts); {
		j, k := i, kind(&pts[i])
		for j < len(pts) && kind(&pts[j]) == k {
			j++
		}
		to := pts[j-1].Tick
		if j < len(pts) {
			to = pts[j].Tick
		} else {
			to = max(to, b.v.Snap.Tick)
		}
		emit(k, pts[i].Tick, to)
		i = j
	}
}

package figure

import (
	"cmp"
	"math"
	"slices"

	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/ui"
)

// stride is how many points of the chart are left out between two that are drawn: about one for each pixel and a half.
func (b *Board) stride(h float64) int64 {
	return max(1, int64(live.ChartTicks/live.PointTicks*1.5/max(h, 1)))
}

// penLine draws one channel as a pen would: a line for a stick, steps for a switch. Where nothing was read it is lifted.
func (b *Board) penLine(l *lane) {
	v := b.V
	paint := ink.Paint{Line: l.pen, Width: 1.6 * b.U}
	every := b.stride(l.r.H)
	v.Pts = v.Pts[:0]
	var first int64 // the number of the first of them, as those are counted that are drawn
	lift := func() {
		if !l.steps {
			v.Pts = thinned(v.Pts, first)
		}
		b.Polyline("pen "+l.name, v.Pts, paint)
		v.Pts = v.Pts[:0]
	}
	points := b.points()
	for i := len(points) - 1; i >= 0; i-- {
		pt := &points[i]
		w := pt.Sent[l.channel]
		if !pt.HasSent || !w.Valid() {
			lift()
			continue
		}
		atEnd := i == 0 || i == len(points)-1
		number := pt.Tick / live.PointTicks
		if !atEnd && !l.steps && number%every != 0 {
			continue
		}
		if number%every == 0 {
			first = number/every + int64(len(v.Pts))
		}
		x := l.r.X + l.r.W*ui.Clamp(Share(w), 0, 1)
		y := b.depth(l.r, pt.Tick)
		n := len(v.Pts)
		if l.steps && n > 1 && v.Pts[n-1].X == x && v.Pts[n-2].X == x {
			v.Pts[n-1].Y = y
			continue
		}
		if l.steps && n > 0 && v.Pts[n-1].X != x {
			v.Pts = append(v.Pts, ink.Point{X: v.Pts[n-1].X, Y: y})
		}
		v.Pts = append(v.Pts, ink.Point{X: x, Y: y})
	}
	lift()
}

// Points of a pen are left out where the line without them lies within off pixels of them, in runs of up to longest, a power of 2 (ours).
const (
	off     = 0.15
	longest = 16
)

// thinned leaves out the points of a pen, newest first, that make no difference. Which those are goes by the numbers of the points, which
// fall by one from point to point, so a line keeps its points while it moves down the paper; one that stands keeps its ends.
func thinned(pts []ink.Point, first int64) []ink.Point {
	if len(pts) < 3 {
		return pts
	}
	out := pts[:1]
	for at := 0; at < len(pts)-1; {
		run := longest
		for run > 1 && ((first-int64(at))%int64(run) != 0 || at+run >= len(pts) || !straight(pts[at:at+run+1])) {
			run /= 2
		}
		at += run
		if n := len(out); n > 1 && out[n-1].X == pts[at].X && out[n-2].X == pts[at].X {
			out[n-1] = pts[at]
		} else {
			out = append(out, pts[at])
		}
	}
	return out
}

// straight tells whether all points lie beside the line from the first to the last.
func straight(pts []ink.Point) bool {
	a, z := pts[0], pts[len(pts)-1]
	for _, p := range pts[1 : len(pts)-1] {
		if along := (p.Y - a.Y) / math.Max(z.Y-a.Y, 1e-9); math.Abs(a.X+(z.X-a.X)*along-p.X) > off {
			return false
		}
	}
	return true
}

// bankShown is the bank or pitch at the edge of its lane, degrees (ours): half as much again as the usual limit.
const bankShown = 60.0

// followed draws asked and done about one axis as a band whose width is the error, what is asked as a thin line along it. Where
// the craft levels itself these are bank and pitch, else rates; where one gives way to the other the band is cut.
func (b *Board) followed(l *lane) {
	v := b.V
	every := b.stride(l.r.H)
	c := l.r.Centre().X
	b.Line(l.name+" middle", c, l.r.Y, c, l.r.Bottom(), ink.Paint{Line: ink.Grid, Under: true})
	v.Pts, v.More = v.Pts[:0], v.More[:0]
	cut := func() {
		b.Band("done "+l.name, v.Pts, v.More, l.pen)
		b.Polyline("asked "+l.name, v.Pts, ink.Paint{Line: ink.Ink, Width: 0.8 * b.U})
		v.Pts, v.More = v.Pts[:0], v.More[:0]
	}
	was := false
	for i := len(v.Flight.Followed) - 1; i >= 0; i-- {
		p := &v.Flight.Followed[i]
		if p.Tick > v.Snap.Tick {
			continue
		}
		if p.Tick < v.Snap.Tick-live.ChartTicks {
			break
		}
		angles := l.axis < 3 && p.Level > 0.5
		if !p.Any || angles != was {
			cut()
			was = angles
		}
		if !p.Any || i > 0 && len(v.Pts) > 0 && p.Tick/live.PointTicks%every != 0 {
			continue
		}
		asked, done := b.follows(p, l.axis, angles)
		y := b.depth(l.r, p.Tick)
		v.Pts = append(v.Pts, ink.Point{X: c + asked*l.r.W/2, Y: y})
		v.More = append(v.More, ink.Point{X: c + done*l.r.W/2, Y: y})
	}
	cut()
}

// follows is asked and done at a point as shares of half a lane, −1…1.
func (b *Board) follows(p *ui.FollowedPoint, axis int, angles bool) (asked, done float64) {
	switch {
	case angles && axis == 1:
		asked, done = p.AskedBank/bankShown, p.Bank/bankShown
	case angles:
		asked, done = -p.AskedPitch/bankShown, -p.Pitch/bankShown // stick forward, nose down, is to the right as for the pens
	default:
		full := max(b.V.Config.Control.Curve[axis-1].Full, 0.1)
		asked, done = p.Asked[axis-1]/full, p.Rate[axis-1]/full
		if axis == 2 {
			asked, done = -asked, -done
		}
	}
	return ui.Clamp(asked, -1, 1), ui.Clamp(done, -1, 1)
}

// linkLane draws the link: a whole line while good, dashes while fresh, a zigzag bar at its middle while lost, nothing
// while the craft had no power.
func (b *Board) linkLane(l *lane) {
	x, third := l.r.Centre().X, l.r.W*0.4
	runs(b, l.r, func(p *live.Point) string {
		switch {
		case !p.Powered:
			return ""
		case p.Link == facts.Good:
			return "link-good"
		case p.Link == facts.Fresh:
			return "link-fresh"
		}
		return "link-lost"
	}, func(what string, y1, y2 float64) {
		switch what {
		case "link-good":
			b.Line(what, x, y1, x, y2, ink.Paint{Line: ink.Ink, Width: 2 * b.U})
		case "link-fresh":
			b.Line(what, x, y1, x, y2, ink.Paint{Line: ink.Link, Width: 2 * b.U, Dash: ink.Dash{On: 4 * b.U, Off: 3 * b.U}})
		case "link-lost":
			b.Line(what, x-third, y1, x+third, y1, ink.Paint{Line: ink.Link, Width: 1.5 * b.U})
			b.Line(what, x-third, y2, x+third, y2, ink.Paint{Line: ink.Link, Width: 1.5 * b.U})
			b.zigzag(x, third, y1, y2)
		}
	})
}

func (b *Board) zigzag(x, half, y1, y2 float64) {
	b.V.Pts = b.V.Pts[:0]
	for i, side := 0.0, -half; y1+i*5*b.U <= y2; i, side = i+1, -side {
		b.V.Pts = append(b.V.Pts, ink.Point{X: x + side, Y: y1 + i*5*b.U})
	}
	b.Polyline("link-lost", b.V.Pts, ink.Paint{Line: ink.Link, Width: 1.2 * b.U})
}

// armedBand is a bar beside the lanes as long as the craft was armed.
func (b *Board) armedBand(paper ink.Rect, x float64) {
	runs(b, paper, func(p *live.Point) bool { return p.Armed }, func(armed bool, y1, y2 float64) {
		if armed {
			b.Rect("was-armed", ink.Rect{X: x, Y: y1, W: 4 * b.U, H: y2 - y1}, ink.Paint{Fill: ink.Armed})
		}
	})
}

// runs hands on where on the paper each stretch of the chart lies over which a point's kind stays the same: its upper and its lower end.
func runs[K comparable](b *Board, paper ink.Rect, kind func(*live.Point) K, emit func(what K, y1, y2 float64)) {
	pts := b.points()
	for i, j := 0, 0; i < len(pts); i = j {
		what, to := kind(&pts[i]), b.V.Snap.Tick
		for j = i; j < len(pts) && kind(&pts[j]) == what; j++ {
		}
		if j < len(pts) {
			to = pts[j].Tick
		}
		if y1, y2 := b.depth(paper, to), b.depth(paper, pts[i].Tick); y2-y1 >= 1 {
			emit(what, y1, y2)
		}
	}
}

// points are those of the chart up to the moment that is shown: in a look back, what was later is left out.
func (b *Board) points() []live.Point {
	n, _ := slices.BinarySearchFunc(b.V.Chart, b.V.Snap.Tick+1, func(p live.Point, tick int64) int { return cmp.Compare(p.Tick, tick) })
	return b.V.Chart[:n]
}

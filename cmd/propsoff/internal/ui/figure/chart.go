package figure

import (
	"math"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/live"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
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

// Chart draws the chart paper: time runs down the page, the newest at the top.
func (b *Board) Chart(r ink.Rect) {
	b.Group("chart")
	title, part, wide := words.T("sheet.chart"), 0.5, 320.0
	air := b.V.Snap.In.Air
	if air {
		title, part, wide = words.T("flight.chart-title"), 0.55, 440
	}
	rest := b.SectionOf(r, "chart-heading", title, words.T("sheet.chart"))
	line := b.RowHeight()
	head, paper := rest.CutTop(2*line+2*b.U, 2*b.U)
	paper.H -= 2 * b.U

	// Seconds, lanes, margin notes.
	seconds := 6*b.U + max(ink.Width(b.Say(tell.Seconds(live.ChartTicks)), b.Small, ink.Regular), ink.Width(b.Say(words.T("sheet.now")), b.Small, ink.Regular))
	room := ui.Clamp((r.W-seconds)*part, 110*b.U, wide*b.U)
	c := &b.V.Config.Layout
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
	for i := range shares {
		shares[i] *= room / all
	}
	b.roomForNames(lanes[:], shares[:])
	x := paper.X + seconds
	for i, w := range shares {
		lanes[i].r = ink.Rect{X: x, Y: paper.Y, W: w - 4*b.U, H: paper.H}
		x += w
	}
	b.secondLines(paper, x-3*b.U, seconds)
	for i := range lanes {
		if lanes[i].channel >= 0 || !lanes[i].steps {
			b.laneHead(head, &lanes[i], i, line)
		}
	}
	b.armedBand(paper, x-3*b.U)
	b.Text("lane-armed", x-2*b.U, head.Y+line, ink.Style{Size: b.Small, Weight: ink.Bold, Colour: ink.Armed, Anchor: ink.Top}, b.Say(words.T("sheet.armed-bar")))
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
	notes := ink.Rect{X: x + 15*b.U, Y: paper.Y, W: r.Right() - x - 15*b.U, H: paper.H}
	b.notes(notes)
}

// roomForNames widens lanes where the name of one would meet that of the next but one, which stands in the same line, or the last but one's the
// word beside the lanes.
func (b *Board) roomForNames(lanes []lane, wide []float64) {
	half := make([]float64, len(lanes))
	for i := range lanes {
		half[i] = ink.Width(b.Say(lanes[i].word()), b.Small, ink.Bold) / 2
	}
	for i := 1; i < len(wide)-1; i++ {
		wide[i] = max(wide[i], half[i-1]+half[i+1]+2*b.U-(wide[i-1]+wide[i+1])/2)
	}
	n := len(wide) - 1
	wide[n] = max(wide[n], half[n-1]-wide[n-1]/2+4*b.U)
}

// word names the lane.
func (l *lane) word() words.Text {
	if l.channel < 0 {
		return tell.Group(facts.OnLink)
	}
	return tell.JobName(l.name)
}

// depth is the y of a tick on the paper. The paper moves by whole pixels, so what was drawn keeps its look while it moves down; and what
// is no further from an end than the paper moves at once stands at that end, so that a pen that stands looks the same as time goes on.
func (b *Board) depth(paper ink.Rect, tick int64) float64 {
	at := func(ticks int64) float64 { return paper.H * float64(ticks) / live.ChartTicks }
	y, once := math.Floor(at(b.V.Snap.Tick))-at(tick), 1+at(live.PointTicks)
	switch {
	case y < once:
		y = 0
	case y > paper.H-once:
		y = paper.H
	}
	return paper.Y + y
}

func (b *Board) secondLines(paper ink.Rect, right, seconds float64) {
	every := live.ChartTicks / 1000
	for _, n := range [...]int{5, 2} {
		if paper.H*float64(n)*1000/live.ChartTicks > 1.6*ink.LineHeight(b.Small) {
			every = n
		}
	}
	for s := 0; s <= live.ChartTicks/1000; s += every {
		y := paper.Y + paper.H*float64(s)*1000/live.ChartTicks
		b.Line("second", paper.X+seconds-4*b.U, y, right, y, ink.Paint{Line: ink.Grid, Under: true})
		word, anchor := tell.Seconds(int64(s)*1000), ink.Right|ink.Middle
		switch s {
		case 0:
			word, anchor = words.T("sheet.now"), ink.Right|ink.Top
		case live.ChartTicks / 1000:
			anchor = ink.Right | ink.Bottom
		}
		b.Text("seconds", paper.X+seconds-7*b.U, y, ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: anchor}, b.Say(word))
	}
}

// laneHead names a lane, every second one a line lower, so that the names have room.
func (b *Board) laneHead(head ink.Rect, l *lane, i int, line float64) {
	y := head.Y
	if i%2 == 1 {
		y += line
	}
	b.Text("lane "+l.name, l.r.Centre().X, y, ink.Style{Size: b.Small, Anchor: ink.Centre | ink.Top, Weight: ink.Bold, Colour: l.pen}, b.Say(l.word()))
	x := l.r.X - 2*b.U
	b.Line(l.name+" edge", x, l.r.Y, x, l.r.Bottom(), ink.Paint{Line: ink.Grid})
}

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
		atEnd := i == 0 || i == end-1
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

// linkLane draws the link: a whole line while good, dashes while fresh, a zigzag bar at its middle while lost, nothing
// while the craft had no power.
func (b *Board) linkLane(l *lane) {
	x, third := l.r.Centre().X, l.r.W*0.4
	b.runs(func(p *live.Point) int {
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
			b.Line("link-good", x, y1, x, y2, ink.Paint{Line: ink.Ink, Width: 2 * b.U})
		case 2:
			b.Line("link-fresh", x, y1, x, y2, ink.Paint{Line: ink.Link, Width: 2 * b.U, Dash: ink.Dash{On: 4 * b.U, Off: 3 * b.U}})
		case 3:
			b.Line("link-lost", x-third, y1, x+third, y1, ink.Paint{Line: ink.Link, Width: 1.5 * b.U})
			b.Line("link-lost", x-third, y2, x+third, y2, ink.Paint{Line: ink.Link, Width: 1.5 * b.U})
			b.zigzag(x, third, y1, y2)
		}
	})
}

func (b *Board) zigzag(x, half, y1, y2 float64) {
	step := 5 * b.U
	n := int((y2 - y1) / step)
	b.V.Pts = b.V.Pts[:0]
	for i := range n + 1 {
		side := half
		if i%2 == 0 {
			side = -half
		}
		b.V.Pts = append(b.V.Pts, ink.Point{X: x + side, Y: y1 + float64(i)*step})
	}
	b.Polyline("link-lost", b.V.Pts, ink.Paint{Line: ink.Link, Width: 1.2 * b.U})
}

// armedBand is a bar beside the lanes as long as the craft was armed.
func (b *Board) armedBand(paper ink.Rect, x float64) {
	b.runs(func(p *live.Point) int {
		if p.Armed {
			return 1
		}
		return 0
	}, func(what int, from, to int64) {
		y1, y2 := b.depth(paper, to), b.depth(paper, from)
		if what == 1 && y2-y1 >= 1 {
			b.Rect("was-armed", ink.Rect{X: x, Y: y1, W: 4 * b.U, H: y2 - y1}, ink.Paint{Fill: ink.Armed})
		}
	})
}

// runs hands on each stretch of the chart over which a point's kind stays the same.
func (b *Board) runs(kind func(*live.Point) int, emit func(what int, from, to int64)) {
	pts := b.V.Chart
	for i := 0; i < len(pts); {
		j, k := i, kind(&pts[i])
		for j < len(pts) && kind(&pts[j]) == k {
			j++
		}
		to := pts[j-1].Tick
		if j < len(pts) {
			to = pts[j].Tick
		} else {
			to = max(to, b.V.Snap.Tick)
		}
		emit(k, pts[i].Tick, to)
		i = j
	}
}

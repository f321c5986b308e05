package sheet

import (
	"math"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/gestures"
	"propsoff/sim/pulse"
)

// gestureSticks draws both sticks large, with the target of the part that is asked for; p is nil where there is none. live: the
// places of g are of the sticks as they stand.
func (b *board) gestureSticks(r ink.Rect, p *gestures.Pattern, g gestures.Glance, live bool) {
	b.Group("sticks")
	mode := stickMode(b.v.StickMode)
	if !b.v.Class {
		r = b.section(r, "sticks heading", phrase.SticksTitle(mode))
	}
	var at [gestures.Directions]gestures.Place
	if p != nil {
		if live {
			at = onSticks(p, g.At, mode)
		} else {
			for i, z := range p.StickZones(0, uint8(mode)) {
				at[i].Zone = z
			}
		}
	}
	share := 0.0
	if live && g.Phase == gestures.Standing {
		share = float64(g.Share) / 1000
	}
	for i, gi := range gimbals[mode] {
		cell := r.Cell(i, 2, 1, b.gap)
		if r.H > 1.15*r.W {
			cell = r.Cell(i, 1, 2, b.gap)
		}
		b.gestureStick(cell, i, gi, [2]gestures.Place{at[2*i], at[2*i+1]}, p != nil, live, share)
	}
}

// gestureStick draws one stick: its well with the target, its keys, and for each of its directions what is asked and what is
// missing.
func (b *board) gestureStick(r ink.Rect, side int, g gimbal, at [2]gestures.Place, target, live bool, share float64) {
	name := [2]string{"left", "right"}[side]
	key := 0.0
	if b.stickKeys() && !b.v.Class {
		key = b.cap + 4*b.u
	}
	line := ink.BlockHeight(b.body, 1) + 2*b.u
	foot := 2 * line
	cornered := facts.BySticks(b.v.Config) && g.across == yaw && g.up == throttle
	if cornered && key == 0 {
		foot += line
	}
	size := math.Max(min(r.W-2*key, r.H-foot-2*key-6*b.u), 40*b.u)
	// The wells stand at the top, their words below, however high the place is.
	spare := math.Max(r.H-foot-2*key-6*b.u-size, 0)
	well := ink.Rect{X: r.Centre().X - size/2, Y: r.Y + key + min(spare/2, size*0.1), W: size, H: size}
	if key > 0 {
		c, k := well.Centre(), key/2
		b.keyCap(name+" up key", c.X, well.Y-k, b.cap, keyOf(jobFacts[g.up].high))
		b.keyCap(name+" down key", c.X, well.Bottom()+k, b.cap, keyOf(jobFacts[g.up].low))
		b.keyCap(name+" left key", well.X-k, c.Y, b.cap, keyOf(jobFacts[g.across].low))
		b.keyCap(name+" right key", well.Right()+k, c.Y, b.cap, keyOf(jobFacts[g.across].high))
	}
	y := well.Bottom() + key + 3*b.u
	if cornered {
		middle := well.Bottom() + key/2
		if key == 0 {
			middle, y = y+line/2, y+line
		}
		b.Text("disarm corner", well.X, middle, ink.Style{Size: b.small, Anchor: ink.Middle}, phrase.Corner(false))
		b.Text("arm corner", well.Right(), middle, ink.Style{Size: b.small, Anchor: ink.Right | ink.Middle}, phrase.Corner(true))
	}
	b.gestureWell(name, well, g, at, target, share)
	for i, j := range [2]job{g.up, g.across} {
		row := ink.Rect{X: r.X, Y: y + float64(i)*line, W: r.W, H: line}
		b.gestureRow(row, name, j, i == 0, at[1-i], target, live)
	}
}

// gestureRow is one direction of a stick in words: its job, its value, what is asked of it, and what is missing.
func (b *board) gestureRow(r ink.Rect, name string, j job, upright bool, at gestures.Place, target, live bool) {
	value := "–"
	if w, ok := b.v.sent(j); ok {
		value = phrase.Micros(w)
	}
	d := ink.CapHeight(b.body, ink.Regular) * 0.55
	words, weight := phrase.StickZone(upright, at.Zone), ink.Regular
	if live && !at.In {
		words, weight = phrase.StickMove(upright, at), ink.Bold
	}
	if !target {
		words = ""
	}
	left := ink.Width("throttle", b.body, ink.Regular) + 5*b.u
	right := ink.Width("2000", b.body, ink.Regular) + 2*b.u
	b.fitted(name+" job", ink.Rect{X: r.X, Y: r.Y, W: left, H: r.H}, ink.Style{Size: b.body, Colour: ink.Faint}, jobFacts[j].word)
	if b.v.Class && r.W < 20*b.body {
		right = 0
	} else {
		b.fitted(name+" value", ink.Rect{X: r.X + left, Y: r.Y, W: right, H: r.H}, ink.Style{Size: b.body, Anchor: ink.Right}, value)
	}
	x := r.X + left + right + 8*b.u
	if words == "" {
		return
	}
	if live && at.Zone != gestures.Any {
		b.placeMark(x+d, r.Centre().Y, d, at, upright)
	}
	x += 2*d + 7*b.u
	b.fitted(name+" asked", ink.Rect{X: x, Y: r.Y, W: r.Right() - x, H: r.H}, ink.Style{Size: b.body, Weight: weight}, words)
}

// placeMark tells by shape whether a direction is in its place: a tick, or an arrow the way it must go.
func (b *board) placeMark(x, y, d float64, at gestures.Place, upright bool) {
	w := math.Max(1.5, d*0.32)
	if at.In {
		pts := [...]ink.Point{{X: x - d*0.9, Y: y}, {X: x - d*0.2, Y: y + d*0.75}, {X: x + d, Y: y - d*0.85}}
		b.Polyline("in place", pts[:], ink.Paint{Line: ink.Link, Width: w})
		return
	}
	way := 1.0
	if at.Off < 0 {
		way = -1
	}
	turn := func(across, along float64) ink.Point {
		if upright {
			return ink.Point{X: x + across, Y: y - along*way}
		}
		return ink.Point{X: x + along*way, Y: y + across}
	}
	pts := [...]ink.Point{turn(-d*0.85, -d*0.8), turn(0, d), turn(d*0.85, -d*0.8)}
	b.Polygon("must go", pts[:], ink.Paint{Fill: ink.Focus})
}

// zoneSpan is the part of a well's side that a zone takes, as shares of the travel 0 … 1; ends run to the edge of the well. out
// takes the edges by which it is left.
func zoneSpan(set *gestures.Config, z gestures.Zone, out bool) (from, to float64) {
	const edge = 9
	low, high, middle := set.LowIn, set.HighIn, set.MiddleIn
	if out {
		low, high, middle = set.LowOut, set.HighOut, set.MiddleOut
	}
	switch z {
	case gestures.Low:
		return -edge, share(low)
	case gestures.High:
		return share(high), edge
	case gestures.Middle:
		return share(pulse.Centre - middle), share(pulse.Centre + middle)
	}
	return -edge, edge
}

// zoneRect is where both directions of a stick stand in their zones.
func zoneRect(set *gestures.Config, r, in ink.Rect, across, up gestures.Zone, out bool) ink.Rect {
	x0, x1 := zoneSpan(set, across, out)
	y0, y1 := zoneSpan(set, up, out)
	px := func(s float64) float64 { return clamp(in.X+in.W*s, r.X, r.Right()) }
	py := func(s float64) float64 { return clamp(in.Bottom()-in.H*s, r.Y, r.Bottom()) }
	return ink.Rect{X: px(x0), Y: py(y1), W: px(x1) - px(x0), H: py(y0) - py(y1)}
}

// gestureWell draws the well: the target, the corners, the way of the last two seconds, the stick, and round it the dwell.
func (b *board) gestureWell(name string, r ink.Rect, g gimbal, at [2]gestures.Place, target bool, dwell float64) {
	b.RoundRect(name+" well", r, 8*b.u, ink.Paint{Line: ink.Rule, Width: 1.2 * b.u})
	set := b.v.Config.Gestures
	if target && set != nil && (at[0].Zone != gestures.Any || at[1].Zone != gestures.Any) {
		b.target(name, r, r.Inset(10*b.u), set, at)
	}
	end, ok := b.inWell(name, r, g, b.longTrail)
	if ok && dwell > 0 {
		b.Arc(name+" dwell", end.X, end.Y, 11*b.u, -math.Pi/2, -math.Pi/2+2*math.Pi*min(dwell, 1), ink.Paint{Line: ink.Focus, Width: 4 * b.u})
	}
}

// target is the zone where the stick is to go: shaded and edged; once it is in, edged with a full line, and with the edge by which
// the zone is left again outside it.
func (b *board) target(name string, r, in ink.Rect, set *gestures.Config, at [2]gestures.Place) {
	z := zoneRect(set, r, in, at[0].Zone, at[1].Zone, false)
	b.Rect(name+" target ground", z.Inset(b.u), ink.Paint{Fill: ink.Panel})
	step := 7 * b.u // lines across it, so that it is told from the sheet in any light
	for d := step; d < z.W+z.H; d += step {
		x0, y0 := z.X+min(d, z.W), z.Y+math.Max(d-z.W, 0)
		x1, y1 := z.X+math.Max(d-z.H, 0), z.Y+min(d, z.H)
		b.Line(name+" target shade", x0, y0, x1, y1, ink.Paint{Line: ink.Grid, Under: true})
	}
	edge := ink.Paint{Line: ink.Focus, Width: 2 * b.u, Dash: ink.Dash{On: 6 * b.u, Off: 4 * b.u}}
	if at[0].In && at[1].In {
		edge.Dash, edge.Width = ink.Dash{}, 3*b.u
		if out := zoneRect(set, r, in, at[0].Zone, at[1].Zone, true); out != z {
			b.Rect(name+" leaving edge", out, ink.Paint{Line: ink.Rule, Dash: ink.Dash{On: 2 * b.u, Off: 4 * b.u}})
		}
	}
	b.Rect(name+" target", z, edge)
}

// longTicks is how much of the way is shown, and newTicks how much of it drawn strongly (ours).
const (
	longTicks = 2000
	newTicks  = 500
)

// longTrail draws where the stick has been for two seconds, the newest part of it stronger.
func (b *board) longTrail(name string, in ink.Rect, g gimbal) {
	fresh := b.been(in, g, longTicks, newTicks)
	pts := b.v.pts
	b.Polyline(name+" trail", pts[max(fresh-1, 0):], ink.Paint{Line: ink.Rule, Width: b.u, Dash: ink.Dash{On: 2 * b.u, Off: 2 * b.u}})
	b.Polyline(name+" fresh trail", pts[:fresh], ink.Paint{Line: jobFacts[g.up].pen, Width: 2 * b.u})
}

// smallSticks draws where both sticks are to be, small: two wells with a dot each; a direction that is free as a bar. Of several stands
// one after the other the last has the dot, and a line leads there.
func (b *board) smallSticks(name string, r ink.Rect, stands ...[gestures.Directions]gestures.Zone) {
	size := min(r.H, (r.W-3*b.u)/2)
	at := func(z gestures.Zone, in, size float64) float64 {
		return in + size*[...]float64{gestures.Any: 0.5, gestures.Low: 0.14, gestures.Middle: 0.5, gestures.High: 0.86}[z]
	}
	for i := range 2 {
		w := ink.Rect{X: r.X + float64(i)*(size+3*b.u), Y: r.Centre().Y - size/2, W: size, H: size}
		b.Rect(name+" well", w, ink.Paint{Line: ink.Rule})
		d := math.Max(2*b.u, size*0.13)
		b.v.pts = b.v.pts[:0]
		for _, z := range stands {
			b.v.pts = append(b.v.pts, ink.Point{X: at(z[2*i], w.X, size), Y: w.Y + w.Bottom() - at(z[2*i+1], w.Y, size)})
		}
		last := len(stands) - 1
		if last > 0 {
			b.Polyline(name+" way", b.v.pts, ink.Paint{Line: ink.Ink, Width: math.Max(1.2*b.u, d*0.4)})
		}
		across, up, to := stands[last][2*i], stands[last][2*i+1], b.v.pts[last]
		switch {
		case across == gestures.Any && up == gestures.Any:
			continue
		case across == gestures.Any:
			b.Rect(name+" bar", ink.Rect{X: w.X + size*0.1, Y: to.Y - d*0.7, W: size * 0.8, H: 1.4 * d}, ink.Paint{Fill: ink.Ink})
		case up == gestures.Any:
			b.Rect(name+" bar", ink.Rect{X: to.X - d*0.7, Y: w.Y + size*0.1, W: 1.4 * d, H: size * 0.8}, ink.Paint{Fill: ink.Ink})
		default:
			b.Circle(name+" dot", to.X, to.Y, d, ink.Paint{Fill: ink.Ink})
		}
	}
}

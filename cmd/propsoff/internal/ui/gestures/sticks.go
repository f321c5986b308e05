package gestures

import (
	"math"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/gestures"
	"propsoff.example/sim/pulse"
)

// sticks draws both sticks large, with the target of the part that is asked for; p is nil where there is none. live: the places of g are of
// the sticks as they stand.
func (b *board) sticks(r ink.Rect, p *gestures.Pattern, g *gestures.Glance, live bool) {
	b.Group("sticks")
	if !b.V.Class {
		r = b.SectionOf(r, "sticks-heading", words.T("sheet.sticks", words.Args{"n": words.Whole(ui.StickMode(b.V.StickMode))}), words.T("key.stick-mode", words.Args{"n": words.Whole(ui.StickMode(b.V.StickMode))}))
	}
	at := [gestures.Directions]gestures.Place{}
	switch {
	case p != nil && live:
		at = onSticks(p, g.At, mode(b.V))
	case p != nil:
		for i, z := range p.StickZones(0, mode(b.V)) {
			at[i].Zone = z
		}
	}
	held := 0.0
	if live {
		held = share(g)
	}
	first := 0
	b.BothSticks(r, func(cell ink.Rect, gi figure.Gimbal, name string) {
		s := stick{name, gi, first, [2]gestures.Place{at[first], at[first+1]}, p != nil, live, held}
		b.stick(cell, &s)
		first += 2
	})
}

// stick is one stick: what it carries, where it is asked to stand across and up, and for how much of its time it has been held there.
type stick struct {
	name         string
	carries      figure.Gimbal
	first        int // of its two physical directions: across, then up
	at           [2]gestures.Place
	target, live bool // there is a place; at tells how the stick stands to it
	held         float64
}

// stick draws one stick: its well with the target, its keys, and for each of its directions what is asked and what is missing.
func (b *board) stick(r ink.Rect, s *stick) {
	key := 0.0
	if b.StickCaps() && !b.V.Class {
		key = b.Cap + 4*b.U
	}
	g, line := s.carries, ink.BlockHeight(b.Body, 1)+2*b.U
	foot := 2 * line
	cornered := facts.BySticks(b.V.Config) && g.Across == figure.Yaw && g.Up == figure.Throttle
	if cornered && key == 0 {
		foot += line
	}
	high := r.H - foot - 2*key - 6*b.U
	size := math.Max(min(r.W-2*key, high), 40*b.U)
	// The wells stand at the top, their words below, however high the place is.
	well := ink.Rect{X: r.Centre().X - size/2, Y: r.Y + key + ui.Clamp((high-size)/2, 0, size*0.1), W: size, H: size}
	if key > 0 {
		c, k := well.Centre(), key/2
		b.KeyCap(s.name+" up-key", c.X, well.Y-k, b.Cap, ui.KeyOf(figure.JobFacts[g.Up].High))
		b.KeyCap(s.name+" down-key", c.X, well.Bottom()+k, b.Cap, ui.KeyOf(figure.JobFacts[g.Up].Low))
		b.KeyCap(s.name+" left-key", well.X-k, c.Y, b.Cap, ui.KeyOf(figure.JobFacts[g.Across].Low))
		b.KeyCap(s.name+" right-key", well.Right()+k, c.Y, b.Cap, ui.KeyOf(figure.JobFacts[g.Across].High))
	}
	y := well.Bottom() + key + 3*b.U
	if cornered {
		middle := well.Bottom() + key/2
		if key == 0 {
			middle, y = y+line/2, y+line
		}
		b.Text("disarm-corner", well.X, middle, ink.Style{Size: b.Small, Anchor: ink.Middle}, b.Say(tell.Corner(false)))
		b.Text("arm-corner", well.Right(), middle, ink.Style{Size: b.Small, Anchor: ink.Right | ink.Middle}, b.Say(tell.Corner(true)))
	}
	b.well(well, s)
	b.direction(ink.Rect{X: r.X, Y: y, W: r.W, H: line}, s, g.Up, 1)
	b.direction(ink.Rect{X: r.X, Y: y + line, W: r.W, H: line}, s, g.Across, 0)
}

// direction is one direction of a stick in words, 0 across or 1 up: its job, its value, what is asked of it, and what is missing.
func (b *board) direction(r ink.Rect, s *stick, j figure.Job, up int) {
	at, upright, style := s.at[up], up == 1, ink.Style{Size: b.Body}
	left := 0.0
	for _, f := range figure.JobFacts {
		left = max(left, ink.Width(b.Say(tell.JobName(f.Word)), b.Body, ink.Regular))
	}
	job, in := r.CutLeft(left+2*b.U, 3*b.U)
	b.Fitted(s.name+" job", job, ink.Style{Size: b.Body, Colour: ink.Faint}, b.Say(tell.JobName(figure.JobFacts[j].Word)))
	if !b.V.Class || r.W >= 20*b.Body {
		value := "–"
		if w, ok := figure.Sent(b.V, j); ok {
			value = b.Say(tell.Plain(tell.Micros(w)))
		}
		var v ink.Rect
		v, in = in.CutLeft(ink.Width("2000", b.Body, ink.Regular)+2*b.U, 8*b.U)
		b.Fitted(s.name+" value", v, ink.Style{Size: b.Body, Anchor: ink.Right}, value)
	}
	if !s.target || !s.live { // beside a value, where it is to go would read as where it stands
		return
	}
	asked := tell.StickZone(upright, at.Zone)
	way, can := further(b.V, at, s.first+up)
	if !way.Empty() {
		asked, style.Weight = way, ink.Bold
	}
	d := ink.CapHeight(b.Body, ink.Regular) * 0.55
	mark, in := in.CutLeft(2*d, 7*b.U)
	if at.Zone != gestures.Any {
		b.placeMark(mark.Centre().X, mark.Centre().Y, d, at, can, upright)
	}
	text := b.Say(asked)
	if ink.Width(text, b.Body, style.Weight) > in.W {
		text = b.Say(tell.StickZone(upright, at.Zone)) // the way there the mark tells
	}
	b.Fitted(s.name+" asked", in, style, text)
}

// placeMark tells by shape whether a direction is in its place: a tick, an arrow the way it must go, or a cross where no way can be told.
func (b *board) placeMark(x, y, d float64, at gestures.Place, can, upright bool) {
	w := math.Max(1.5, d*0.32)
	switch {
	case at.In:
		b.Tick("in-place", x, y, d, ink.Paint{Line: ink.Link, Width: w})
		return
	case !can:
		b.Cross("no-way", x, y, d*0.7, ink.Paint{Line: ink.Ink, Width: w})
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
	b.Triangle("must-go", ink.Paint{Fill: ink.Focus}, turn(-d*0.85, -d*0.8), turn(0, d), turn(d*0.85, -d*0.8))
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
		return -edge, figure.Share(low)
	case gestures.High:
		return figure.Share(high), edge
	case gestures.Middle:
		return figure.Share(pulse.Centre - middle), figure.Share(pulse.Centre + middle)
	}
	return -edge, edge
}

// zoneRect is where both directions of a stick stand in their zones.
func zoneRect(set *gestures.Config, r, in ink.Rect, across, up gestures.Zone, out bool) ink.Rect {
	x0, x1 := zoneSpan(set, across, out)
	y0, y1 := zoneSpan(set, up, out)
	px := func(s float64) float64 { return ui.Clamp(in.X+in.W*s, r.X, r.Right()) }
	py := func(s float64) float64 { return ui.Clamp(in.Bottom()-in.H*s, r.Y, r.Bottom()) }
	return ink.Rect{X: px(x0), Y: py(y1), W: px(x1) - px(x0), H: py(y0) - py(y1)}
}

// well draws the well: the target, the corners, the way of the last two seconds, the stick, and round it the dwell.
func (b *board) well(r ink.Rect, s *stick) {
	b.RoundRect(s.name+" well", r, 8*b.U, ink.Paint{Line: ink.Rule, Width: 1.2 * b.U})
	if set := b.V.Config.Gestures; s.target && set != nil && (s.at[0].Zone != gestures.Any || s.at[1].Zone != gestures.Any) {
		b.target(s.name, r, r.Inset(10*b.U), set, s.at)
	}
	if end, ok := b.InWell(s.name, r, s.carries, b.longTrail); ok {
		b.filling(s.name+" dwell", end, 11*b.U, s.held, 4*b.U)
	}
}

// target is the zone where the stick is to go: shaded and edged; once it is in, edged with a full line, and with the edge by which
// the zone is left again outside it.
func (b *board) target(name string, r, in ink.Rect, set *gestures.Config, at [2]gestures.Place) {
	z := zoneRect(set, r, in, at[0].Zone, at[1].Zone, false)
	b.Rect(name+" target-ground", z.Inset(b.U), ink.Paint{Fill: ink.Panel})
	b.Hatch(name+" target-shade", z, ink.Grid)
	there := at[0].In && at[1].In
	if out := zoneRect(set, r, in, at[0].Zone, at[1].Zone, true); there && out != z {
		b.Rect(name+" leaving-edge", out, ink.Paint{Line: ink.Rule, Dash: ink.Dash{On: 2 * b.U, Off: 4 * b.U}})
	}
	b.Rect(name+" target", z, b.ZoneEdge(there))
}

// longTicks is how much of the way is shown, and newTicks how much of it drawn strongly (ours).
const (
	longTicks = 2000
	newTicks  = 500
)

// longTrail draws where the stick has been for two seconds, the newest part of it stronger.
func (b *board) longTrail(name string, in ink.Rect, g figure.Gimbal) {
	fresh := b.Been(in, g, longTicks, newTicks)
	pts := b.V.Pts
	b.Polyline(name+" trail", pts[max(fresh-1, 0):], ink.Paint{Line: ink.Rule, Width: b.U, Dash: ink.Dash{On: 2 * b.U, Off: 2 * b.U}})
	b.Polyline(name+" fresh-trail", pts[:fresh], ink.Paint{Line: figure.JobFacts[g.Up].Pen, Width: 2 * b.U})
}

// smallSticks draws where both sticks are to be, small: two wells with a dot each; a direction that is free as a bar. Of several stands
// one after the other the last has the dot, and a line leads there.
func (b *board) smallSticks(name string, r ink.Rect, stands ...[gestures.Directions]gestures.Zone) {
	size := min(r.H, (r.W-3*b.U)/2)
	at := func(z gestures.Zone, in, size float64) float64 {
		return in + size*[...]float64{gestures.Any: 0.5, gestures.Low: 0.14, gestures.Middle: 0.5, gestures.High: 0.86}[z]
	}
	for i := range 2 {
		w := ink.Rect{X: r.X + float64(i)*(size+3*b.U), Y: r.Centre().Y - size/2, W: size, H: size}
		b.Rect(name+" well", w, ink.Paint{Line: ink.Rule})
		d := math.Max(2*b.U, size*0.13)
		b.V.Pts = b.V.Pts[:0]
		for _, z := range stands {
			b.V.Pts = append(b.V.Pts, ink.Point{X: at(z[2*i], w.X, size), Y: w.Y + w.Bottom() - at(z[2*i+1], w.Y, size)})
		}
		last := len(stands) - 1
		if last > 0 {
			b.Polyline(name+" way", b.V.Pts, ink.Paint{Line: ink.Ink, Width: math.Max(1.2*b.U, d*0.4)})
		}
		across, up, to := stands[last][2*i], stands[last][2*i+1], b.V.Pts[last]
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

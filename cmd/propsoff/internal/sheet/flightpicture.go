package sheet

import (
	"math"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim"
	"propsoff/sim/vec"
)

// flying is one craft in the air with all that its views share.
type flying struct {
	snap   *sim.Snapshot
	cfg    *sim.Config
	trail  []TrailPoint
	facing float64
	ghost  vec.Q
	haunts bool // there is a ghost
	// top is the height at the upper end of the scales and wide half the width of the view from above, m.
	top, wide float64
}

func newFlying(s *sim.Snapshot, cfg *sim.Config, trail []TrailPoint) flying {
	f := flying{snap: s, cfg: cfg, facing: facing(s, trail)}
	for n := len(trail); n > 0 && trail[n-1].Tick > s.Tick; n-- {
		trail = trail[:n-1]
	}
	for len(trail) > 0 && trail[0].Tick < s.Tick-TrailTicks {
		trail = trail[1:]
	}
	f.trail = trail
	f.ghost, f.haunts = ghost(s, cfg)
	pos := s.Air.Body.Pos
	high, far := -pos.Z, 0.0
	for i := range trail {
		p := &trail[i]
		high = max(high, -p.Pos.Z)
		far = max(far, math.Abs(p.Pos.X-pos.X), math.Abs(p.Pos.Y-pos.Y))
	}
	f.top, f.wide = roundUp(high*1.1, 2), roundUp(far*1.05, 2)
	return f
}

// roundUp is the next of 1, 2, 5 times a power of ten, and at least so much.
func roundUp(v, least float64) float64 {
	v = max(v, least)
	ten := math.Pow(10, math.Floor(math.Log10(v)))
	for _, k := range [...]float64{1, 2, 5} {
		if v <= k*ten*(1+1e-9) {
			return k * ten
		}
	}
	return 10 * ten
}

// markStep is the distance of two marks on a scale that ends at v, a number of roundUp: four or five marks.
func markStep(v float64) float64 {
	lead := v / math.Pow(10, math.Floor(math.Log10(v)+1e-9))
	if lead > 1.5 && lead < 3 {
		return v / 4
	}
	return v / 5
}

func (f *flying) model(e eye, scale float64) model {
	return newModel(f.snap.Air.Body.Att.Unit(), e, scale, &f.cfg.Body)
}

// larger says how much larger than life a model is at so many pixels a metre.
func (f *flying) larger(m *model, perMetre float64) string {
	return phrase.Larger(m.scale / max(f.cfg.Body.ArmForward, f.cfg.Body.ArmRight, 1e-3) / perMetre)
}

// pictured splits a cell of a view: its title above, a line for its scale below.
func (b *board) pictured(r ink.Rect, where string) (picture, caption ink.Rect) {
	line := ink.BlockHeight(b.small, 1)
	head, rest := r.CutTop(line, 2*b.u)
	caption, picture = rest.CutBottom(line, 3*b.u)
	if b.v.Class && where != "above" { // how much larger than life it is drawn is left to the window
		caption, picture = ink.Rect{}, rest
	}
	title := phrase.FlightFrom(where, false)
	if ink.Width(title, b.small, ink.Regular) > head.W {
		title = phrase.FlightFrom(where, true)
	}
	b.fitted("view from "+where, head, ink.Style{Size: b.small, Colour: ink.Faint, Anchor: ink.Centre}, title)
	return picture, caption
}

// upright draws the craft as seen by an eye at its own height, over the ground, with a scale that tells how high it is.
func (b *board) upright(where string, r ink.Rect, e eye, f *flying) {
	picture, caption := b.pictured(r, where)
	step := markStep(f.top)
	strip := max(ink.Width(phrase.Length(f.top), b.small, ink.Regular), ink.Width(phrase.Length(step), b.small, ink.Regular)) + 11*b.u
	in := ink.Rect{X: picture.X + strip, Y: picture.Y, W: picture.W - strip, H: picture.H - 6*b.u}
	scale := min(in.W/5, in.H/6.6)
	if b.v.Class { // seen from afar the craft matters more than the scale
		scale = min(in.W/4, in.H/4.8)
	}
	m := f.model(e, scale)
	ground := in.Bottom()
	perMetre := (in.H - 2.7*scale) / f.top
	feet := ground - clearance(f.snap, &f.cfg.Body)*perMetre
	m.mid = ink.Point{X: in.Centre().X, Y: max(feet-m.below(), in.Y+2*scale)}

	b.heightScale(where, in, f.top, step, perMetre)
	b.groundMarks(where, in, e, f, step, perMetre)
	if where == "behind" {
		b.horizon(in, m.mid.Y)
	} else {
		b.trailing(where, in, f, func(p vec.V) ink.Point {
			d := p.Sub(f.snap.Air.Body.Pos)
			return ink.Point{X: m.mid.X + d.Dot(e.right)*perMetre, Y: ground - max(-p.Z-f.cfg.Body.HalfHeight, 0)*perMetre}
		})
	}
	b.pointer(where, in.X, feet)
	if f.haunts {
		g := m
		g.att = f.ghost
		b.spirit(where, &g)
	}
	b.flyer(where, &m, f)
	if caption.Empty() {
		return
	}
	words := phrase.Marks(step) + "; " + f.larger(&m, perMetre)
	if ink.Width(words, b.small, ink.Regular) > caption.W {
		words = f.larger(&m, perMetre)
	}
	b.fitted(where+" scale", caption, ink.Style{Size: b.small, Colour: ink.Faint, Anchor: ink.Centre}, words)
}

// heightScale draws marks at the left, a word beside each for which there is room.
func (b *board) heightScale(where string, in ink.Rect, top, step, perMetre float64) {
	b.Line(where+" height", in.X, in.Bottom()-top*perMetre, in.X, in.Bottom(), ink.Paint{Line: ink.Rule})
	every := 1
	n := int(math.Round(top / step))
	for float64(every)*step*perMetre < ink.LineHeight(b.small)*1.05 && every < n {
		every++
	}
	for i := 0; i <= n; i++ {
		y := in.Bottom() - float64(i)*step*perMetre
		b.Line(where+" mark", in.X-4*b.u, y, in.X, y, ink.Paint{Line: ink.Rule})
		if i > 0 {
			b.Line(where+" level", in.X, y, in.Right(), y, ink.Paint{Line: ink.Grid, Under: true})
		}
		// The upper end always has its word, the ground none that would come too near to another.
		if i == n || i%every == 0 && float64(n-i)*step*perMetre >= ink.LineHeight(b.small) {
			word := phrase.Length(float64(i) * step)
			b.Text(where+" metres", in.X-6*b.u, y, ink.Style{Size: b.small, Colour: ink.Faint, Anchor: ink.Right | ink.Middle}, word)
		}
	}
}

// groundMarks draws the ground with marks that stay where they are in the world, and the start.
func (b *board) groundMarks(where string, in ink.Rect, e eye, f *flying, step, perMetre float64) {
	y := in.Bottom()
	b.Line(where+" ground", in.X, y, in.Right(), y, ink.Paint{Line: ink.Ink, Width: 2 * b.u})
	along := f.snap.Air.Body.Pos.Dot(e.right)
	mid := in.Centre().X
	x := mid + (math.Ceil((along-in.W/2/perMetre)/step)*step-along)*perMetre
	for ; x <= in.Right(); x += step * perMetre {
		if x >= in.X {
			b.Line(where+" ground mark", x, y+b.u, x, y+5*b.u, ink.Paint{Line: ink.Rule})
		}
	}
	if x := mid - along*perMetre; x > in.X+5*b.u && x < in.Right()-5*b.u {
		b.startMark(where, x, y)
	}
}

// startMark is a small tent: there the craft stood at first.
func (b *board) startMark(where string, x, y float64) {
	d := 4 * b.u
	b.v.pts = append(b.v.pts[:0], ink.Point{X: x, Y: y - d}, ink.Point{X: x + d, Y: y + d}, ink.Point{X: x - d, Y: y + d})
	b.Polygon(where+" start", b.v.pts, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1.3 * b.u})
}

// horizon is level with the eye, which is as high as the craft.
func (b *board) horizon(in ink.Rect, y float64) {
	b.Line("horizon", in.X, y, in.Right(), y, ink.Paint{Line: ink.Rule})
}

// pointer shows a height on the scale.
func (b *board) pointer(where string, x, y float64) {
	d := 4.5 * b.u
	b.v.pts = append(b.v.pts[:0], ink.Point{X: x, Y: y}, ink.Point{X: x + 1.6*d, Y: y - d}, ink.Point{X: x + 1.6*d, Y: y + d})
	b.Polygon(where+" pointer", b.v.pts, ink.Paint{Fill: ink.Ink})
}

// downward draws the craft from above in the middle, north up, with its trail.
func (b *board) downward(r ink.Rect, f *flying) {
	picture, caption := b.pictured(r, "above")
	b.Rect("above frame", picture, ink.Paint{Line: ink.Grid})
	in := picture.Inset(2 * b.u)
	e := eyeAbove()
	scale := min(in.W, in.H) / 7
	if b.v.Class {
		scale = min(in.W, in.H) / 5.4
	}
	m := f.model(e, scale)
	m.mid = in.Centre()
	perMetre := min(in.W, in.H) / 2 / f.wide
	at := func(p vec.V) ink.Point {
		d := p.Sub(f.snap.Air.Body.Pos)
		return ink.Point{X: m.mid.X + d.Dot(e.right)*perMetre, Y: m.mid.Y - d.Dot(e.up)*perMetre}
	}
	if p := at(vec.V{}); in.Inset(6 * b.u).Has(p) {
		b.startMark("above", p.X, p.Y)
	}
	b.trailing("above", in, f, at)
	if f.haunts {
		g := m
		g.att = f.ghost
		b.spirit("above", &g)
	}
	b.flyer("above", &m, f)

	// A bar of a round length, and in words how long it is.
	length := f.wide / 2
	if length*perMetre > caption.W*0.3 {
		length = markStep(f.wide)
	}
	words := phrase.Length(length) + "; " + f.larger(&m, perMetre)
	w := length * perMetre
	room := caption.W - w - 8*b.u
	if ink.Width(words, b.small, ink.Regular) > room {
		words = phrase.Length(length)
	}
	x := caption.X + max(0, (room-ink.Width(words, b.small, ink.Regular))/2)
	y := caption.Centre().Y
	b.Line("above bar", x, y, x+w, y, ink.Paint{Line: ink.Ink, Width: 1.5 * b.u})
	for _, end := range [2]float64{x, x + w} {
		b.Line("above bar end", end, y-3*b.u, end, y+3*b.u, ink.Paint{Line: ink.Ink, Width: 1.5 * b.u})
	}
	b.fitted("above scale", ink.Rect{X: x + w + 6*b.u, Y: caption.Y, W: caption.Right() - x - w - 6*b.u, H: caption.H}, ink.Style{Size: b.small, Colour: ink.Faint}, words)
}

// trailAges are the ages in ticks up to which the trail is drawn as wide as trailWidths say, in pixels of the least window (ours).
var (
	trailAges   = [...]int64{3_000, 8_000, 16_000, TrailTicks}
	trailWidths = [...]float64{2.6, 1.8, 1.2, 0.7}
)

// trailing draws the trail as seen by at, as far as it lies in a box: the older, the thinner.
func (b *board) trailing(where string, in ink.Rect, f *flying, at func(vec.V) ink.Point) {
	v := b.v
	now := f.snap.Tick
	v.pts = v.pts[:0]
	age := 0
	paint := func() ink.Paint { return ink.Paint{Line: ink.Rule, Width: max(trailWidths[age]*b.u, 0.6)} }
	lift := func() {
		b.Polyline(where+" trail", v.pts, paint())
		v.pts = v.pts[:0]
	}
	last, from := f.snap.Air.Body.Pos, at(f.snap.Air.Body.Pos)
	for i := len(f.trail) - 1; i >= 0; i-- {
		p := &f.trail[i]
		to := at(p.Pos)
		if p.Pos.Sub(last).Norm() > 5 { // it was carried, not flown
			break
		}
		if i > 0 && math.Hypot(to.X-from.X, to.Y-from.Y) < 1.5 {
			last = p.Pos
			continue
		}
		for age < len(trailAges)-1 && now-p.Tick > trailAges[age] {
			lift()
			age++
		}
		a, c, ok := clip(from, to, in)
		if ok {
			if n := len(v.pts); n == 0 || v.pts[n-1] != a {
				lift()
				v.pts = append(v.pts, a)
			}
			v.pts = append(v.pts, c)
		}
		last, from = p.Pos, to
	}
	lift()
}

// clip is the part of a stroke that lies in a box (by Liang and Barsky).
func clip(a, c ink.Point, r ink.Rect) (from, to ink.Point, ok bool) {
	t0, t1 := 0.0, 1.0
	dx, dy := c.X-a.X, c.Y-a.Y
	for _, e := range [4][2]float64{{-dx, a.X - r.X}, {dx, r.Right() - a.X}, {-dy, a.Y - r.Y}, {dy, r.Bottom() - a.Y}} {
		switch p, q := e[0], e[1]; {
		case p == 0:
			if q < 0 {
				return a, c, false
			}
		case p < 0:
			t0 = max(t0, q/p)
		default:
			t1 = min(t1, q/p)
		}
	}
	if t0 >= t1 {
		return a, c, false
	}
	return ink.Point{X: a.X + t0*dx, Y: a.Y + t0*dy}, ink.Point{X: a.X + t1*dx, Y: a.Y + t1*dy}, true
}

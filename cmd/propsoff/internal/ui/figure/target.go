package figure

import (
	"math"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/sim/vec"
)

// Target is where a craft is to fly, in metres of the world: a layer over any view of it. Its zero value is nowhere; use Anywhere.
type Target struct {
	// Low and High are between which heights its middle is to be; South to North and West to East are where over the ground, from the start. What
	// has no end is infinite.
	Low, High                float64
	South, North, West, East float64
	// Mark is a place on the ground, round which a circle of Round is drawn; 0 draws none.
	Mark  vec.V
	Round float64
	// Nose is the heading in which its nose is to point, and Within to how far beside, rad; 0 asks for none.
	Nose, Within float64
	// In: the craft is where it is to be, in all of it.
	In bool
}

// Anywhere is a target that asks for nothing yet.
func Anywhere() Target {
	far := math.Inf(1)
	return Target{Low: -far, High: far, South: -far, North: far, West: -far, East: far}
}

// high tells whether a target is about heights, ground whether it is about a place on the ground.
func (t *Target) high() bool   { return !math.IsInf(t.Low, 0) || !math.IsInf(t.High, 0) }
func (t *Target) square() bool { return !math.IsInf(t.South, 0) && !math.IsInf(t.West, 0) }

// Ground tells whether the target has something that is to be seen from above.
func (t *Target) Ground() bool { return t.square() || t.Round > 0 || t.Within > 0 }

// corners are places between which all of the target on the ground lies.
func (t *Target) corners() (all []vec.V) {
	if t.square() {
		all = append(all, vec.V{X: t.North, Y: t.West}, vec.V{X: t.North, Y: t.East}, vec.V{X: t.South, Y: t.East}, vec.V{X: t.South, Y: t.West})
	}
	if r := t.Round; r > 0 {
		all = append(all, t.Mark.Add(vec.V{X: r}), t.Mark.Add(vec.V{Y: r}), t.Mark.Sub(vec.V{X: r}), t.Mark.Sub(vec.V{Y: r}))
	}
	return all
}

// seeks tells whether the views show a target: then the craft is drawn smaller, so that it is seen where it is.
func (f *Flying) seeks() bool { return len(f.targets) > 0 }

// most is the farthest that a target may make the pictures reach, m (ours): what is farther off is no longer to be told apart.
const most = 60

// Show adds a target to what the views of the craft show, and has them reach so far that it is seen.
func (f *Flying) Show(t Target) {
	f.targets = append(f.targets, t)
	for _, h := range [...]float64{t.Low, t.High} {
		if !math.IsInf(h, 0) && h < most {
			f.Top = max(f.Top, RoundUp(h*1.2, 2))
		}
	}
	pos := f.snap.Air.Body.Pos
	for _, c := range t.corners() {
		if d := max(math.Abs(c.X-pos.X), math.Abs(c.Y-pos.Y)); d < most {
			f.Wide = max(f.Wide, RoundUp(d*1.05, 2))
		}
	}
}

// upright draws the targets in a view over the ground: y tells at which place of the sheet a height is, x where a place on the ground is.
func (b *Board) upright(where string, in ink.Rect, f *Flying, x func(vec.V) float64, y func(height float64) float64) {
	for i := range f.targets {
		t := &f.targets[i]
		box := in
		if all := t.corners(); len(all) > 0 {
			left, right := math.Inf(1), math.Inf(-1)
			for _, c := range all {
				left, right = min(left, x(c)), max(right, x(c))
			}
			left, right = max(left, in.X), min(right, in.Right())
			if left >= right {
				continue
			}
			box.X, box.W = left, right-left
			b.Line(where+" target-ground", left, in.Bottom(), right, in.Bottom(), ink.Paint{Line: ink.Focus, Width: 5 * b.U})
		}
		if !t.high() {
			continue
		}
		top, low := in.Y, in.Bottom()
		if !math.IsInf(t.High, 0) {
			top = max(y(t.High), in.Y)
		}
		if !math.IsInf(t.Low, 0) {
			low = min(y(t.Low), in.Bottom())
		}
		if box.Y, box.H = top, low-top; box.H > 2*b.U {
			b.Hatch(where+" target-shade", box, ink.Grid)
			b.edges(where+" target", box, !math.IsInf(t.High, 0), !math.IsInf(t.Low, 0), len(t.corners()) > 0, b.ZoneEdge(t.In))
		}
	}
}

// edges draws those edges of a box that bound something.
func (b *Board) edges(name string, r ink.Rect, top, low, sides bool, p ink.Paint) {
	if top {
		b.Line(name, r.X, r.Y, r.Right(), r.Y, p)
	}
	if low {
		b.Line(name, r.X, r.Bottom(), r.Right(), r.Bottom(), p)
	}
	if sides {
		b.Line(name, r.X, r.Y, r.X, r.Bottom(), p)
		b.Line(name, r.Right(), r.Y, r.Right(), r.Bottom(), p)
	}
}

// fromAbove draws the targets in the view from above: at tells where a place is on the sheet, perMetre how many pixels a metre has.
func (b *Board) fromAbove(in ink.Rect, f *Flying, at func(vec.V) ink.Point, perMetre float64) {
	for i := range f.targets {
		t := &f.targets[i]
		edge := b.ZoneEdge(t.In)
		if t.square() {
			nw, se := at(vec.V{X: t.North, Y: t.West}), at(vec.V{X: t.South, Y: t.East})
			box := ink.Rect{X: max(nw.X, in.X), Y: max(nw.Y, in.Y)}
			box.W, box.H = min(se.X, in.Right())-box.X, min(se.Y, in.Bottom())-box.Y
			if box.W > 2*b.U && box.H > 2*b.U {
				b.Hatch("above-target-shade", box, ink.Grid)
				b.Rect("above-target", box, edge)
			}
		}
		if c, r := at(t.Mark), t.Round*perMetre; r > 0 && in.Has(c) {
			d := 5 * b.U
			b.Line("above-mark", c.X-d, c.Y, c.X+d, c.Y, ink.Paint{Line: ink.Focus, Width: 2 * b.U})
			b.Line("above-mark", c.X, c.Y-d, c.X, c.Y+d, ink.Paint{Line: ink.Focus, Width: 2 * b.U})
			if in.Inset(r).Has(c) {
				b.Circle("above-target", c.X, c.Y, r, edge)
			}
		}
		if t.Within > 0 {
			b.wedge(in, f, t, edge)
		}
	}
}

// wedge draws between which two directions the nose is to point, round the craft in the middle of the view from above.
func (b *Board) wedge(in ink.Rect, f *Flying, t *Target, edge ink.Paint) {
	c, r := in.Centre(), min(in.W, in.H)*0.46
	ray := func(heading float64) ink.Point {
		s, k := math.Sincos(heading)
		return ink.Point{X: c.X + s*r, Y: c.Y - k*r}
	}
	inner := func(p ink.Point) ink.Point { return ink.Point{X: c.X + (p.X-c.X)*0.62, Y: c.Y + (p.Y-c.Y)*0.62} }
	left, right := ray(t.Nose-t.Within), ray(t.Nose+t.Within)
	b.stroke("above-nose", inner(left), left, edge)
	b.stroke("above-nose", inner(right), right, edge)
	b.Arc("above-nose", c.X, c.Y, r, t.Nose-t.Within-math.Pi/2, t.Nose+t.Within-math.Pi/2, edge)
}

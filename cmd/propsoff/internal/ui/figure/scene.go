package figure

import (
	"cmp"
	"math"
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/view"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/vec"
)

// The field on which the craft flies, m from the start (ours): squares of one metre near the start, squares of ten as far as the eye tells them apart.
const (
	nearField, farField = 10, 60
	nearStep, farStep   = 1, 10
)

// tree is one tree: where it stands and how high it is, m.
type tree struct{ north, east, high float64 }

// trees stand round the field, no two alike and none where a craft is practised, so that it can be told which way one looks (ours).
var trees = [...]tree{
	{42, -31, 8.5}, {55, -12, 6}, {48, 7, 9.5}, {61, 19, 5.5}, {36, 34, 7.5}, {12, 47, 6.5}, {-18, 52, 9}, {-44, 27, 7}, {-52, -9, 8}, {-33, -40, 6}, {3, -49, 9.5}, {24, -44, 5},
}

// crown is the outline of a tree's leaves, across and up in parts of its height: a larger and a smaller heap (ours).
var crown = [...][2]float64{{-0.06, 0.3}, {-0.24, 0.36}, {-0.31, 0.5}, {-0.25, 0.65}, {-0.13, 0.7}, {-0.12, 0.86}, {-0.01, 0.98}, {0.13, 0.9}, {0.17, 0.74}, {0.28, 0.66}, {0.31, 0.47}, {0.22, 0.34}, {0.06, 0.3}}

// clouds is how many there are, spread evenly over the sky, so that there is something to go by wherever one looks up; heap is the outline of one, across and up,
// half its width being 1 (ours).
const clouds = 28

var heap = [...][2]float64{{-1, 0}, {-0.86, 0.16}, {-0.6, 0.2}, {-0.45, 0.42}, {-0.12, 0.5}, {0.12, 0.34}, {0.4, 0.38}, {0.58, 0.18}, {0.85, 0.15}, {1, 0}, {0.6, -0.09}, {0, -0.13}, {-0.6, -0.09}}

// far is how far a tree is from a camera, over the ground.
func (t *tree) far(c *view.Camera) float64 { return math.Hypot(t.north-c.At.X, t.east-c.At.Y) }

// land draws what a camera sees of the field and of the trees beyond a distance; nearer ones are left to nearTrees.
func (b *Board) land(c *view.Camera, beyond float64) {
	v := b.V
	b.sky(c)
	v.Pts = c.Ground(v.Pts[:0])
	b.Polygon("ground", v.Pts, ink.Paint{Fill: ink.Panel})
	for _, field := range [...]struct {
		half, step float64
		line       ink.Paint
	}{{farField, farStep, ink.Paint{Line: ink.Grid, Width: 1.6 * b.U, Under: true}}, {nearField, nearStep, ink.Paint{Line: ink.Grid, Width: 1.1 * b.U, Under: true}}} {
		for at := -field.half; at <= field.half; at += field.step {
			b.seen("grid", c, vec.V{X: at, Y: -field.half}, vec.V{X: at, Y: field.half}, field.line)
			b.seen("grid", c, vec.V{X: -field.half, Y: at}, vec.V{X: field.half, Y: at}, field.line)
		}
	}
	if from, to, ok := c.Horizon(); ok {
		b.stroke("horizon", from, to, ink.Paint{Line: ink.Rule, Width: 1.2 * b.U, Under: true})
	}
	edge := ink.Paint{Line: ink.Rule, Width: 1.2 * b.U, Under: true}
	corners := [...]vec.V{{X: 0.5, Y: 0.5}, {X: 0.5, Y: -0.5}, {X: -0.5, Y: -0.5}, {X: -0.5, Y: 0.5}}
	for i := range corners { // where it started
		b.seen("start", c, corners[i], corners[(i+1)%len(corners)], edge)
	}
	b.trees(c, beyond, math.Inf(1))
}

// sky draws the clouds, which are so far away that nobody comes nearer to them.
func (b *Board) sky(c *view.Camera) {
	line := ink.Paint{Line: ink.Rule, Under: true}
	for k := range clouds {
		sin := (float64(k) + 0.7) / clouds // as much sky between any two heights of it; round it by the golden section, so that no two lie in a row
		cos := math.Sqrt(1 - sin*sin)
		s, q := math.Sincos(float64(k) * math.Pi * (3 - math.Sqrt(5)))
		to := vec.V{X: q * cos, Y: s * cos, Z: -sin}
		if to.Dot(c.Ahead) < 0.1 {
			continue
		}
		across, up := vec.V{X: -s, Y: q}, vec.V{X: -q * sin, Y: -s * sin, Z: -cos}
		wide := 0.07 + 0.02*float64(k%3)
		var pts [len(heap)]vec.V
		for i, p := range heap {
			pts[i] = c.At.Add(to.Plus(wide*p[0], across).Plus(wide*p[1], up).Scale(1000))
		}
		b.V.Pts = c.Outline(b.V.Pts[:0], pts[:]...)
		b.Polygon("cloud", b.V.Pts, line)
	}
}

// seen draws what a camera sees of a straight line.
func (b *Board) seen(name string, c *view.Camera, from, to vec.V, p ink.Paint) {
	if f, t, ok := c.Line(from, to); ok {
		b.stroke(name, f, t, p)
	}
}

// trees draws those between two distances, the furthest first.
func (b *Board) trees(c *view.Camera, from, to float64) {
	all := trees
	slices.SortFunc(all[:], func(x, y tree) int { return cmp.Compare(y.far(c), x.far(c)) })
	line := ink.Paint{Fill: ink.Panel, Line: ink.Rule, Width: 1.2 * b.U, Under: true}
	for i := range all {
		t := &all[i]
		d := t.far(c)
		if d < from || d >= to || d < 1e-3 {
			continue
		}
		// It is flat and faces the camera.
		foot := vec.V{X: t.north, Y: t.east}
		across := vec.V{X: -(t.east - c.At.Y) / d, Y: (t.north - c.At.X) / d}
		b.seen("trunk", c, foot, foot.Plus(-0.35*t.high, vec.V{Z: 1}), ink.Paint{Line: ink.Rule, Width: 2 * b.U, Under: true})
		var pts [len(crown)]vec.V
		for k, p := range crown {
			pts[k] = foot.Plus(p[0]*t.high, across).Plus(-p[1]*t.high, vec.V{Z: 1})
		}
		b.V.Pts = c.Outline(b.V.Pts[:0], pts[:]...)
		b.Polygon("crown", b.V.Pts, line)
	}
}

// fromPilot draws the craft as the pilot sees it from where he stands: as large as it is, or far off as an icon with words.
func (b *Board) fromPilot(r ink.Rect, f *Flying) {
	caption, r := r.CutBottom(ink.BlockHeight(b.Small, 1), 4*b.U)
	frame := r.Inset(1.5 * b.U)
	body := &f.snap.Air.Body
	icon := 6 * b.U
	if b.V.Class {
		icon = 9 * b.U
	}
	ring := 2.5 * icon
	c := view.Pilot(body.Pos, frame, ring+3*b.U)
	away := body.Pos.Sub(c.At)
	far := math.Hypot(away.X, away.Y)
	b.land(&c, far)

	m := f.model(eyeOf(&c, body.Pos), 0)
	m.fore = true
	perMetre := c.Focal / max(away.Norm(), 10*view.Near)
	f.sized(&m, icon, perMetre)
	at, _, ok := c.See(body.Pos)
	// One that is all but in his face would not fit.
	m.mid, m.scale = at, min(m.scale, max(icon, min(at.X-frame.X, frame.Right()-at.X, at.Y-frame.Y, frame.Bottom()-at.Y)/reach))
	isIcon := math.Abs(m.scale-f.arm()*perMetre) > 1e-9*m.scale
	if ok {
		b.shadow(&c, f)
		b.standSeen(&c, f)
		plain := *f
		plain.Haunts = false
		b.flyer("seen", &m, &plain)
		b.ball("seen", f, &m)
	}
	b.trees(&c, 0, far)
	b.Rect("seen-frame", r, ink.Paint{Line: ink.Rule})
	if ok && isIcon && m.scale == icon {
		b.Circle("seen-icon", at.X, at.Y, ring, ink.Paint{Line: ink.Rule, Width: 1.2 * b.U, Under: true})
		high := words.T("flight.high", words.Args{"by": tell.Metres(-body.Pos.Z)})
		b.beside(frame.Inset(2*b.U), at, ring+3*b.U, words.Listed(high, words.T("flight.away", words.Args{"by": tell.Metres(away.Norm())})), high)
	}
	style := ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: ink.Centre}
	nose := tell.NoseSeen(ui.HeadingOf(body.Att), math.Atan2(away.Y, away.X))
	b.Fitted("seen-caption", caption, style, b.FirstFit(caption.W, style, words.Clauses(words.T("flight.from-pilot"), nose, tell.ToScale(!isIcon)), words.Clauses(nose, tell.ToScale(!isIcon)), nose))
}

// beside writes the first of some texts for which there is room to the right or to the left of a place in a frame, so many pixels from it.
func (b *Board) beside(frame ink.Rect, at ink.Point, away float64, texts ...words.Text) {
	left, right := frame, frame
	left.W = at.X - away - frame.X
	right.X, right.W = at.X+away, frame.Right()-at.X-away
	for _, t := range texts {
		if b.plate("seen-said", right, at.Y, t) {
			return
		}
		if w := b.plateWidth(t); w <= left.W {
			left.X, left.W = left.Right()-w, w
			b.plate("seen-said", left, at.Y, t)
			return
		}
	}
}

// eyeOf is how a camera sees what is small beside its distance: as from far away, along the ray to it.
func eyeOf(c *view.Camera, p vec.V) Eye {
	ray := p.Sub(c.At)
	n := ray.Norm()
	if n < view.Near {
		ray, n = c.Ahead, 1
	}
	to := ray.Scale(-1 / n)
	right := to.Cross(c.Down) // upright on the ray, and as level as the picture
	right = right.Scale(1 / max(right.Norm(), 1e-9))
	return Eye{right: right, up: right.Cross(to).Scale(-1), to: to}
}

// shadow draws where the craft hides the sky from the ground: the circle under each propeller, and its arms.
func (b *Board) shadow(c *view.Camera, f *Flying) {
	arm, at := f.arm(), f.snap.Air.Body.Pos
	m := f.model(EyeAbove, arm)
	under := func(v vec.V) vec.V {
		w := m.turned(v).Scale(arm)
		return vec.V{X: at.X + w.X, Y: at.Y + w.Y}
	}
	for i := range flight.Motors {
		var pts [16]vec.V
		hub := m.motorAt(i)
		for k := range pts {
			s, q := math.Sincos(float64(k) * 2 * math.Pi / float64(len(pts)))
			pts[k] = under(vec.V{X: hub.X + propellerRadius*q, Y: hub.Y + propellerRadius*s, Z: propellerZ})
		}
		b.V.Pts = c.Outline(b.V.Pts[:0], pts[:]...)
		b.Polygon("shadow", b.V.Pts, ink.Paint{Fill: ink.Rule})
	}
	for i := range 2 {
		b.seen("shadow", c, under(m.motorAt(i)), under(m.motorAt(3-i)), ink.Paint{Line: ink.Rule, Width: 1.5 * b.U})
	}
}

// fromCraft draws what the camera on board sees, as the goggles show it.
func (b *Board) fromCraft(r ink.Rect) {
	// A camera's picture is no wider than this, whatever room there is (ours).
	const widest = 16.0 / 9
	if w := r.H * widest; w < r.W && !b.V.Class { // from afar the words at its lower edge need the room
		r.X, r.W = r.X+(r.W-w)/2, w
	}
	b.GogglesPicture(r)
}

// Scene draws the flying craft as somebody sees it: the three drawings of those who teach, from where the pilot stands, or from the craft.
func (b *Board) Scene(r ink.Rect, f *Flying) {
	if b.V.Flight.From != ui.Drawn && r.H > 0.62*r.W && !b.V.Class { // there is room for the drawings as well
		plain := *f
		plain.Haunts = false
		seen, low := r.CutTop(r.H-r.W*0.3, b.Gap)
		b.views(low, &plain)
		r = seen
	}
	switch b.V.Flight.From {
	case ui.FromPilot:
		b.Group("seen")
		b.fromPilot(r, f)
	case ui.FromCraft:
		b.fromCraft(r)
	default:
		b.views(r, f)
	}
}

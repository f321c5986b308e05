package figure

import (
	"math"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/view"
	"propsoff.example/sim"
	"propsoff.example/sim/vec"
)

// Flying is one craft in the air with all that its views share.
type Flying struct {
	snap   *sim.Snapshot
	cfg    *sim.Config
	trail  []ui.TrailPoint
	Facing float64
	ghost  vec.Q
	Haunts bool // there is a ghost
	// Top is the height at the upper end of the scales and Wide half the width of the view from above, m.
	Top, Wide float64
	// Wind is what the views tell of how the air moves, a pulse.WindValue; 0 tells nothing.
	Wind int32
	// targets are where it is to fly.
	targets []Target
}

// The least of the scales, and how far a craft reaches from its middle whatever its attitude, in longer halves of its arms (the first two ours): near the ground it is
// drawn as large as it is.
const (
	leastTop, leastWide = 7.5, 4.5
	reach               = 2.2
)

// NewFlying is the craft of a snapshot, with as much of its trail as a look back shows.
func NewFlying(s *sim.Snapshot, cfg *sim.Config, trail []ui.TrailPoint) Flying {
	f := Flying{snap: s, cfg: cfg, Facing: ui.Facing(s, trail)}
	for n := len(trail); n > 0 && trail[n-1].Tick > s.Tick; n-- {
		trail = trail[:n-1]
	}
	for len(trail) > 0 && trail[0].Tick < s.Tick-ui.TrailTicks {
		trail = trail[1:]
	}
	f.trail = trail
	f.ghost, f.Haunts = ui.Ghost(s, cfg)
	pos := s.Air.Body.Pos
	high, far, arm := -pos.Z, 0.0, f.arm()
	for i := range trail {
		p := &trail[i]
		high = max(high, -p.Pos.Z)
		far = max(far, math.Abs(p.Pos.X-pos.X), math.Abs(p.Pos.Y-pos.Y))
	}
	// Both grow with what they must hold, and never by a step: whoever reads them sees the craft move, not its scale.
	f.Top, f.Wide = max(leastTop*arm, high*1.12+reach*arm), max(leastWide*arm, far*1.05+reach*arm)
	if s.In.Hung { // it goes nowhere, and how it lies is all there is to see
		f.Wide = 1.2 * reach * arm
	}
	return f
}

// SameScales gives some crafts the largest of their scales.
func SameScales(all []Flying) {
	top, wide := 0.0, 0.0
	for i := range all {
		top, wide = max(top, all[i].Top), max(wide, all[i].Wide)
	}
	for i := range all {
		all[i].Top, all[i].Wide = top, wide
	}
}

// RoundUp is the next of 1, 2, 5 times a power of ten, and at least so much.
func RoundUp(v, least float64) float64 {
	v = max(v, least)
	ten := math.Pow(10, math.Floor(math.Log10(v)))
	for _, k := range [...]float64{1, 2, 5} {
		if v <= k*ten*(1+1e-9) {
			return k * ten
		}
	}
	return 10 * ten
}

// MarkStep is the distance of two marks on a scale that ends at v: a round number of which two to five fit.
func MarkStep(v float64) float64 { return RoundUp(v/5.5, 0) }

// arm is the longer half of the craft's arms, m: a model is as many pixels large as its scale for it.
func (f *Flying) arm() float64 { return max(f.cfg.Body.ArmForward, f.cfg.Body.ArmRight, 1e-3) }

// sized gives a model as many pixels as it truly has at so many pixels a metre, and no fewer than its icon.
func (f *Flying) sized(m *model, icon, perMetre float64) { m.scale = max(icon, f.arm()*perMetre) }

// toScale says whether a model is drawn as large as it is at so many pixels a metre, or stands there as an icon.
func (f *Flying) toScale(m *model, perMetre float64) words.Text {
	return tell.ToScale(m.scale <= f.arm()*perMetre*(1+1e-9))
}

// pictured splits a cell of a view: its title above, a line for its scale below.
func (b *Board) pictured(r ink.Rect, where string, f *Flying) (picture, caption ink.Rect) {
	line := ink.BlockHeight(b.Small, 1)
	head, rest := r.CutTop(line, 2*b.U)
	caption, picture = rest.CutBottom(line, 3*b.U)
	if b.V.Class && where != "above" { // how much larger than life it is drawn is left to the window
		caption, picture = ink.Rect{}, rest
	}
	style := ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: ink.Centre}
	b.Fitted("view-from "+where, head, style, b.FirstFit(head.W, style, titles(where, f.Wind)...))
	return picture, caption
}

// Upright draws the craft as seen by an eye at its own height, over the ground, with a scale that tells how high it is.
func (b *Board) Upright(where string, r ink.Rect, e Eye, f *Flying) {
	picture, caption := b.pictured(r, where, f)
	picture.H -= 6 * b.U
	if f.snap.In.Hung {
		b.hung(where, picture, caption, e, f)
		return
	}
	room := aloft{strip: 11 * b.U, across: 8.2, up: 9, says: !b.V.Class}
	if b.V.Class { // seen from afar the craft matters more than the scale
		room.across, room.up = 6.4, 6.5
	}
	if f.seeks() {
		room.across, room.up = 2*room.across, 1.6*room.up
	}
	m, step, perMetre := b.aloft(where, picture, e, f, room)
	b.windArrow(where, picture, e, f)
	if caption.Empty() {
		return
	}
	style, is := ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: ink.Centre}, f.toScale(&m, perMetre)
	b.Fitted(where+" scale", caption, style, b.FirstFit(caption.W, style, words.Clauses(words.T("flight.marks", words.Args{"step": tell.Length(step)}), is), is))
}

// Shaft draws the craft over the ground without its ghost and in few words, small beside the way that it may fall.
func (b *Board) Shaft(r ink.Rect, e Eye, f *Flying) {
	plain := *f
	plain.Haunts = false
	in := ink.Rect{X: r.X, Y: r.Y + 0.5*b.Body, W: r.W, H: r.H - 0.5*b.Body - 7*b.U}
	b.aloft("shaft", in, e, &plain, aloft{strip: 9 * b.U, across: 5, up: 8})
}

// aloft is how much room a craft over the ground has: beside its scale the words of that, px; and how many longer halves of its arms, as its icon has them, the
// picture is wide and high at the least.
type aloft struct {
	strip, across, up float64
	says              bool // its height is to be said whatever it takes
}

// pointing is how wide the mark on the scale is with what stays free beside it, in pixels of the least window.
const pointing = 9

// aloft draws the craft over the ground beside its scale; it gives the craft before the eye, the distance of two marks, m, and the pixels of a metre. The
// height is that of the craft's middle, as in every number of it; so is the mark, and there the craft is drawn, but where it would be drawn into the ground: then it stands on it.
func (b *Board) aloft(where string, in ink.Rect, e Eye, f *Flying, room aloft) (m model, step, perMetre float64) {
	_, in = in.CutLeft(max(ink.Width(b.Say(tell.Length(500)), b.Small, ink.Regular), ink.Width(b.Say(tell.Length(0.05)), b.Small, ink.Regular)), room.strip)
	icon, mid := min(in.W/room.across, max(in.H/room.up, min(10*b.U, in.H/5))), in.X+in.W*0.63 // its height is said at the left
	if beside := mid - in.X - pointing*b.U - b.plateWidth(tell.Metres(188.8)); room.says {
		icon = min(icon, max(beside/1.85, in.W/12))
	}
	ground := in.Bottom()
	high := in.H - reach*icon
	top := max(f.Top, high*reach*f.arm()/(0.36*in.W)) // one drawn as large as it is has room from side to side as well
	step, perMetre = MarkStep(top), high/top
	mark := ground - max(-f.snap.Air.Body.Pos.Z, 0)*perMetre
	m = f.model(e, icon)
	f.sized(&m, icon, perMetre)
	m.mid = ink.Point{X: mid, Y: min(mark, ground-m.below())}

	b.heightScale(where, in, top, step, perMetre)
	b.groundMarks(where, in, m.mid.X, e, f, step, perMetre)
	b.upright(where, in, f, func(p vec.V) float64 { return m.mid.X + p.Sub(f.snap.Air.Body.Pos).Dot(e.right)*perMetre },
		func(height float64) float64 { return ground - max(height, 0)*perMetre })
	if where == "behind" { // the horizon is level with the eye, which is as high as the craft
		b.Line("horizon", in.X, m.mid.Y, in.Right(), m.mid.Y, ink.Paint{Line: ink.Rule})
	} else {
		b.trailing(where, in, f, func(p vec.V) ink.Point {
			d := p.Sub(f.snap.Air.Body.Pos)
			return ink.Point{X: m.mid.X + d.Dot(e.right)*perMetre, Y: ground - max(-p.Z, 0)*perMetre}
		})
	}
	d := pointing / 2 * b.U
	b.Polygon(where+" pointer", []ink.Point{{X: in.X, Y: mark}, {X: in.X + 1.6*d, Y: mark - d}, {X: in.X + 1.6*d, Y: mark + d}}, ink.Paint{Fill: ink.Ink})
	b.flyer(where, &m, f)
	if m.scale > f.arm()*perMetre*(1+1e-9) { // an icon has its height in words
		left := in.X + pointing*b.U
		b.plate(where+" height-said", ink.Rect{X: left, Y: in.Y, W: mid - max(m.reaches(e.right.Scale(-1)), 1.15*m.scale) - left, H: in.H - 2*b.U}, mark, tell.Metres(-f.snap.Air.Body.Pos.Z))
	}
	return m, step, perMetre
}

// plate writes a few words at the left of a room, as near to a height of the page as the room lets it, on a ground of their own; false where there is no room.
func (b *Board) plate(name string, room ink.Rect, y float64, t words.Text) bool {
	w, h := b.plateWidth(t), ink.BlockHeight(b.Small, 1)+4*b.U
	if w > room.W+1e-9 || h > room.H {
		return false
	}
	r := ink.Rect{X: room.X, Y: ui.Clamp(y-h/2, room.Y, room.Bottom()-h), W: w, H: h}
	b.Rect(name+" ground", r, ink.Paint{Fill: ink.Paper})
	b.Fitted(name, r, ink.Style{Size: b.Small, Weight: ink.Bold, Anchor: ink.Centre}, b.Say(t))
	return true
}

// plateWidth is how wide a plate is.
func (b *Board) plateWidth(t words.Text) float64 {
	return ink.Width(b.Say(t), b.Small, ink.Bold) + 6*b.U
}

// heightScale draws marks at the left, a word beside each for which there is room.
func (b *Board) heightScale(where string, in ink.Rect, top, step, perMetre float64) {
	b.Line(where+" height", in.X, in.Bottom()-top*perMetre, in.X, in.Bottom(), ink.Paint{Line: ink.Rule})
	every := 1
	for float64(every)*step*perMetre < ink.LineHeight(b.Small)*1.05 {
		every++
	}
	for i := range int(top/step*(1+1e-9)) + 1 {
		y := in.Bottom() - float64(i)*step*perMetre
		b.Line(where+" mark", in.X-4*b.U, y, in.X, y, ink.Paint{Line: ink.Rule})
		if i > 0 {
			b.Line(where+" level", in.X, y, in.Right(), y, ink.Paint{Line: ink.Grid, Under: true})
		}
		if i%every == 0 {
			b.Text(where+" metres", in.X-6*b.U, y, ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: ink.Right | ink.Middle}, b.Say(tell.Length(float64(i)*step)))
		}
	}
}

// groundMarks draws the ground under a craft at x = mid with marks that stay where they are in the world, and the start.
func (b *Board) groundMarks(where string, in ink.Rect, mid float64, e Eye, f *Flying, step, perMetre float64) {
	y := in.Bottom()
	b.Line(where+" ground", in.X, y, in.Right(), y, ink.Paint{Line: ink.Ink, Width: 2 * b.U})
	along := f.snap.Air.Body.Pos.Dot(e.right)
	x := mid + (math.Ceil((along-(mid-in.X)/perMetre)/step)*step-along)*perMetre
	for ; x <= in.Right(); x += step * perMetre {
		if x >= in.X {
			b.Line(where+" ground-mark", x, y+b.U, x, y+5*b.U, ink.Paint{Line: ink.Rule})
		}
	}
	if x := mid - along*perMetre; x > in.X+5*b.U && x < in.Right()-5*b.U {
		b.StartMark(where, x, y)
	}
}

// StartMark is a small tent: there the craft stood at first.
func (b *Board) StartMark(where string, x, y float64) {
	d := 4 * b.U
	b.Polygon(where+" start", []ink.Point{{X: x, Y: y - d}, {X: x + d, Y: y + d}, {X: x - d, Y: y + d}}, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1.3 * b.U})
}

// Downward draws the craft from above in the middle, north up, with its trail.
func (b *Board) Downward(r ink.Rect, f *Flying) {
	picture, caption := b.pictured(r, "above", f)
	b.Rect("above-frame", picture, ink.Paint{Line: ink.Grid})
	in := picture.Inset(2 * b.U)
	half := min(in.W, in.H) / 2
	icon := half / 4.6
	if b.V.Class {
		icon = half / 3
	}
	if f.seeks() {
		icon /= 2
	}
	m := f.model(EyeAbove, icon)
	m.mid = in.Centre()
	perMetre := half / f.Wide
	f.sized(&m, icon, perMetre)
	at := func(p vec.V) ink.Point {
		d := p.Sub(f.snap.Air.Body.Pos)
		return ink.Point{X: m.mid.X + d.Dot(m.eye.right)*perMetre, Y: m.mid.Y - d.Dot(m.eye.up)*perMetre}
	}
	if p := at(vec.V{}); in.Inset(6 * b.U).Has(p) {
		b.StartMark("above", p.X, p.Y)
	}
	b.fromAbove(in, f, at, perMetre)
	b.trailing("above", in, f, at)
	if f.snap.In.Hung {
		b.Circle("above-stand-foot", m.mid.X, m.mid.Y, standFoot*m.scale, ink.Paint{Line: ink.Rule, Width: 1.3 * b.U})
	}
	b.flyer("above", &m, f)
	b.windArrow("above", in, EyeAbove, f)
	b.ball("above", f, &m)

	// A bar of a round length, and in words how long it is.
	length := MarkStep(f.Wide * 2)
	w, style := length*perMetre, ink.Style{Size: b.Small, Colour: ink.Faint}
	room := caption.W - w - 8*b.U
	text := b.FirstFit(room, style, words.Clauses(tell.Length(length), f.toScale(&m, perMetre)), tell.Length(length))
	x, y := caption.X+max(0, (room-ink.Width(text, b.Small, ink.Regular))/2), caption.Centre().Y
	line := ink.Paint{Line: ink.Ink, Width: 1.5 * b.U}
	b.Line("above-bar", x, y, x+w, y, line)
	for _, end := range [2]float64{x, x + w} {
		b.Line("above-bar-end", end, y-3*b.U, end, y+3*b.U, line)
	}
	b.Fitted("above-scale", ink.Rect{X: x + w + 6*b.U, Y: caption.Y, W: caption.Right() - x - w - 6*b.U, H: caption.H}, style, text)
}

// trailAges are the ages in ticks up to which the trail is drawn as wide as trailWidths say, in pixels of the least window (ours).
var (
	trailAges   = [...]int64{3_000, 8_000, 16_000, ui.TrailTicks}
	trailWidths = [...]float64{2.6, 1.8, 1.2, 0.7}
)

// trailing draws the trail as seen by at, as far as it lies in a box: the older, the thinner.
func (b *Board) trailing(where string, in ink.Rect, f *Flying, at func(vec.V) ink.Point) {
	v := b.V
	now := f.snap.Tick
	v.Pts = v.Pts[:0]
	age := 0
	lift := func() {
		b.Polyline(where+" trail", v.Pts, ink.Paint{Line: ink.Rule, Width: max(trailWidths[age]*b.U, 0.6)})
		v.Pts = v.Pts[:0]
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
		if a, c, ok := view.Clip(from, to, in); ok {
			if n := len(v.Pts); n == 0 || v.Pts[n-1] != a {
				lift()
				v.Pts = append(v.Pts, a)
			}
			v.Pts = append(v.Pts, c)
		}
		last, from = p.Pos, to
	}
	lift()
}

package handheld

import (
	"math"
	"slices"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/sim/handset"
)

// put is a control with its place on the page.
type put struct {
	*Control
	// origin is where it sits, box all that is drawn of it, at the middle of its figure, size the figure's measure.
	origin ink.Point
	box    ink.Rect
	at     ink.Point
	size   float64
	// beside is how far from the middle of the figure its name begins; below 0 it ends there, to the left.
	beside float64
	// moved is how far it was moved because something was in its way.
	moved float64
}

// naming is what stands beside the controls.
type naming uint8

const (
	byName naming = iota
	byNumber
	bare
)

// The sizes that figures are tried in, as shares of the largest (ours).
var sizes = [...]float64{1, 0.85, 0.7, 0.58, 0.48, 0.4, 0.33, 0.27}

// fair is how many of them are of a fair size: names are drawn there. In the first of the number worded the words of the sticks are drawn. near is how far the sticks may
// push aside a control that the pilot placed, as a share of the face's width, before they are drawn smaller, far
// how far before their words are given up for its sake (ours).
const (
	fair   = 3
	worded = 4
	near   = 0.03
	far    = 0.035
)

// place finds a place for every control: with names, where all of them fit in a fair size, else with numbers; for very many the shoulders are
// drawn deeper than they are.
func (k *drawing) place(r ink.Rect) {
	for _, deep := range [...]float64{1, 1.5, 2} {
		k.deep = shoulder * deep
		k.arrange(r)
		for k.named = byName; k.named < bare; k.named++ {
			tried := len(sizes)
			if k.named == byName && slices.ContainsFunc(k.Controls, func(c Control) bool { return c.Name != c.Number }) {
				tried = fair
			}
			if k.placed(tried) {
				return
			}
		}
	}
	k.placed(len(sizes))
}

// placed places the controls of all views; false where those of one do not fit in any of so many sizes.
func (k *drawing) placed(tried int) bool {
	k.put = k.put[:0]
	for v := handset.OnFace; v < handset.ViewCount; v++ {
		if !k.fitted(v, tried) && k.named < bare {
			return false
		}
	}
	return true
}

// fitted places the controls of one view in the largest size in which they fit; on the face, in the largest one in which those that the pilot
// placed sit where he said, or as near to it as can be.
func (k *drawing) fitted(v handset.View, tried int) bool {
	from, best, least := len(k.put), -1, math.Inf(1)
	for i, share := range sizes[:tried] {
		if best >= 0 && i >= worded && least <= far*k.outline[v].W {
			break
		}
		k.put = k.put[:from]
		if !k.view(v, share, from) {
			continue
		}
		moved := k.moved(from)
		if moved < least {
			best, least = i, moved
		}
		if v != handset.OnFace || moved <= near*k.outline[v].W {
			break
		}
	}
	if best >= 0 {
		k.put = k.put[:from]
		k.view(v, sizes[best], from)
	}
	return best >= 0
}

// moved is how far the one that was moved farthest was moved, of those that the pilot placed.
func (k *drawing) moved(from int) (most float64) {
	for i := range k.put[from:] {
		if q := &k.put[from+i]; !q.Spot.Guessed {
			most = max(most, q.moved)
		}
	}
	return most
}

// usual is how large a control is for the face's height (ours).
const usual = 0.17

// view places the controls of one view, those that stand out first; false where one finds no place.
func (k *drawing) view(v handset.View, share float64, from int) bool {
	outline := k.outline[v]
	if outline.Empty() {
		return true
	}
	face := k.outline[handset.OnFace].H
	of, most := usual, 4.4*k.Size
	if k.Largest > usual && v != handset.OnFace { // there the sticks need the room
		of, most = k.Largest, most*k.Largest/usual
	}
	size := max(clamp(face*of, 1.6*k.Size, most)*share, 0.6*k.Size)
	if v == handset.OnFace {
		k.wellsFor(share)
	}
	var all []*Control
	for i := range k.Controls {
		if k.Controls[i].Spot.View == v {
			all = append(all, &k.Controls[i])
		}
	}
	slices.SortStableFunc(all, func(a, b *Control) int { return rank(a) - rank(b) })
	fits := true
	for _, c := range all {
		q := k.sized(c, size)
		free := k.settle(&q, v, from)
		fits = fits && free
		k.put = append(k.put, q)
	}
	return fits
}

// rank puts those first that must sit true.
func rank(c *Control) int {
	switch {
	case c.Mark != Plain:
		return 0
	case !c.Spot.Guessed:
		return 1
	}
	return 2
}

func clamp(v, low, high float64) float64 { return max(low, min(high, v)) }

// sized gives a control its box, its figure at its true place.
func (k *drawing) sized(c *Control, size float64) put {
	q := put{Control: c, size: size, origin: in(k.inside[c.Spot.View], c.Spot)}
	w, h := q.measure()
	m := k.margin()
	left, right := w/2+m, w/2+m
	above := h/2 + m
	if c.Mark == Moves {
		left += size * 0.42 // its arrow
		if q.form() == knob {
			right += size * 0.42
		}
		above = max(above, size*0.42+m)
	}
	below := above
	if label := k.label(c); label != "" {
		name := k.Size*0.25 + ink.Width(label, k.Size, ink.Bold) + m
		q.beside = right + k.Size*0.25
		if area := k.inside[c.Spot.View]; q.origin.X+right+name > area.Right() && q.origin.X-left-name > area.X {
			q.beside = -left - k.Size*0.25 // there is room for it on the other side alone
			left += name
		} else {
			right += name
		}
		tall := k.Size * 0.6
		if k.named == byNumber { // no letter of a number goes below the line
			tall = k.Size * 0.4
		}
		above, below = max(above, tall+m*0.5), max(below, tall+m*0.5)
	}
	q.at = q.origin
	q.box = ink.Rect{X: q.at.X - left, Y: q.at.Y - above, W: left + right, H: above + below}
	return q
}

// margin is what is left free about a figure: its mark stands there.
func (k *drawing) margin() float64 { return max(1.6*k.Pen, k.Size*0.16) }

// label is what stands beside a control.
func (k *drawing) label(c *Control) string {
	return [...]string{byName: c.Name, byNumber: c.Number, bare: ""}[min(k.named, bare)]
}

// settle moves a control to the nearest place in its view where it meets nothing that was placed before it; false where there is none, then it
// stays as near as the view allows.
func (k *drawing) settle(q *put, v handset.View, from int) bool {
	area := k.inside[v]
	var taken []ink.Rect
	if v == handset.OnFace {
		for i := range k.wells {
			taken = k.stickParts(taken, i)
		}
	}
	for i := range k.put[from:] {
		taken = append(taken, k.put[from+i].box)
	}
	spare := ink.Rect{X: area.X, Y: area.Y, W: area.W - q.box.W, H: area.H - q.box.H} // where its upper left corner may be
	fits := spare.W >= 0 && spare.H >= 0
	clamped := ink.Point{X: clamp(q.box.X, spare.X, max(spare.X, spare.Right())), Y: clamp(q.box.Y, spare.Y, max(spare.Y, spare.Bottom()))}
	xs, ys := []float64{clamped.X}, []float64{clamped.Y}
	for _, o := range taken { // the nearest free place touches what is in the way
		xs = append(xs, o.X-q.box.W, o.Right())
		ys = append(ys, o.Y-q.box.H, o.Bottom())
	}
	best, far, found := clamped, math.Inf(1), false
	for _, x := range xs {
		for _, y := range ys {
			d := math.Hypot(x-q.box.X, y-q.box.Y)
			if d >= far || x < spare.X-1e-6 || y < spare.Y-1e-6 || x > spare.Right()+1e-6 || y > spare.Bottom()+1e-6 {
				continue
			}
			box := ink.Rect{X: x + 1e-6, Y: y + 1e-6, W: q.box.W - 2e-6, H: q.box.H - 2e-6}
			if !slices.ContainsFunc(taken, box.Meets) {
				best, far, found = ink.Point{X: x, Y: y}, d, true
			}
		}
	}
	q.moved = math.Hypot(best.X-clamped.X, best.Y-clamped.Y)
	q.at.X += best.X - q.box.X
	q.at.Y += best.Y - q.box.Y
	q.box.X, q.box.Y = best.X, best.Y
	return fits && found
}

// leader draws a line from where a control sits to where it is drawn, if it had to be moved far and nothing lies between.
func (k *drawing) leader(q *put) {
	w, h := q.measure()
	to := ink.Point{X: clamp(q.origin.X, q.at.X-w/2, q.at.X+w/2), Y: clamp(q.origin.Y, q.at.Y-h/2, q.at.Y+h/2)}
	if math.Hypot(to.X-q.origin.X, to.Y-q.origin.Y) < q.size {
		return
	}
	way := ink.Rect{X: min(to.X, q.origin.X), Y: min(to.Y, q.origin.Y), W: math.Abs(to.X-q.origin.X) + 1, H: math.Abs(to.Y-q.origin.Y) + 1}
	for i := range k.put {
		if o := &k.put[i]; (o != q || q.labelled(way)) && o.box.Meets(way) {
			return
		}
	}
	for i := range k.wells {
		if q.Spot.View == handset.OnFace && slices.ContainsFunc(k.stickParts(nil, i), way.Meets) {
			return
		}
	}
	k.Line("leader", q.origin.X, q.origin.Y, to.X, to.Y, ink.Paint{Line: ink.Rule, Width: k.Pen})
	k.Circle("true-place", q.origin.X, q.origin.Y, 1.5*k.Pen, ink.Paint{Fill: ink.Rule})
}

// labelled tells whether the name of a control lies in a place.
func (q *put) labelled(way ink.Rect) bool {
	w, _ := q.measure()
	name := ink.Rect{X: q.at.X + w/2, Y: q.box.Y, W: q.box.Right() - q.at.X - w/2, H: q.box.H}
	if q.beside < 0 {
		name = ink.Rect{X: q.box.X, Y: q.box.Y, W: q.at.X - w/2 - q.box.X, H: q.box.H}
	}
	return name.Meets(way)
}

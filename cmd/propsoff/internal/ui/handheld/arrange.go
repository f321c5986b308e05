package handheld

import (
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/sim/handset"
)

// Shapes of the views (ours): how wide the face is at least and at most for its height, and how high the shoulders are for the height of
// the face.
const (
	narrowest = 1.3
	widest    = 1.75
	shoulder  = 0.42
)

// arrangement is how the views lie: columns of views from the top.
type arrangement [][]handset.View

// arrangements are those that the shown views can lie in, the clearest first: shoulders over the face, as they are in the hand.
func (k *drawing) arrangements() []arrangement {
	var stack, row arrangement
	var front, all []handset.View
	for _, v := range [...]handset.View{handset.OnShoulders, handset.OnFace, handset.OnBack} {
		if !k.shown(v) {
			continue
		}
		all, row = append(all, v), append(row, []handset.View{v})
		if v != handset.OnBack {
			front = append(front, v)
		}
	}
	stack = arrangement{all}
	if k.shown(handset.OnBack) {
		return []arrangement{{front, {handset.OnBack}}, stack, row}
	}
	return []arrangement{stack, row}
}

// arrange finds the arrangement in which the face is largest, and where each view lies.
func (k *drawing) arrange(r ink.Rect) {
	for _, t := range k.Titles {
		if t[0] != "" {
			k.titled = ink.BlockHeight(k.Size, 1) + k.Size*0.2
		}
	}
	gap := max(k.Size*0.7, 3*k.Pen)
	best, score := arrangement(nil), 0.0
	var w, h float64
	for i, a := range k.arrangements() {
		aw, ah := k.face(a, r, gap)
		s := min(aw, widest*ah)
		if i > 0 {
			s *= 0.85
		}
		if best == nil || s > score {
			best, score, w, h = a, s, aw, ah
		}
	}
	k.lay(best, r, gap, w, h)
}

// units is the height of a column for a face one unit high, and its fixed part.
func (k *drawing) units(column []handset.View, gap float64) (units, fixed float64) {
	for i, v := range column {
		if v == handset.OnShoulders {
			units += k.deep
		} else {
			units++
		}
		if fixed += k.titled; i > 0 {
			fixed += gap
		}
	}
	return units, fixed
}

// face is the size of the face in an arrangement.
func (k *drawing) face(a arrangement, r ink.Rect, gap float64) (w, h float64) {
	w, h = (r.W-gap*float64(len(a)-1))/float64(len(a)), r.H
	for _, column := range a {
		units, fixed := k.units(column, gap)
		h = min(h, (r.H-fixed)/units)
	}
	w, h = max(w, 1), max(h, 1)
	return min(w, widest*h), min(h, w/narrowest)
}

// lay gives each view its place, all of them in the middle of the rectangle.
func (k *drawing) lay(a arrangement, r ink.Rect, gap, w, h float64) {
	x := r.X + (r.W-w*float64(len(a))-gap*float64(len(a)-1))/2
	high := 0.0
	for _, column := range a {
		units, fixed := k.units(column, gap)
		high = max(high, units*h+fixed)
	}
	for _, column := range a {
		units, fixed := k.units(column, gap)
		y := r.Y + (r.H-high)/2
		if len(a[0]) > 1 { // columns stand on one line, so that face and back are of a height
			y += high - units*h - fixed
		}
		for i, v := range column {
			if i > 0 {
				y += gap
			}
			each := h
			if v == handset.OnShoulders {
				each = k.deep * h
			}
			k.outline[v] = ink.Rect{X: x, Y: y + k.titled, W: w, H: each}
			k.inside[v] = k.outline[v].Inset(2*k.Pen + 0.3*corner(v, k.outline[v]))
			y += k.titled + each
		}
		x += w + gap
	}
}

// corner is the radius of the corners of a view.
func corner(v handset.View, r ink.Rect) float64 {
	if v == handset.OnShoulders {
		return r.H * 0.25
	}
	return r.H * 0.13
}

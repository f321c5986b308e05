package ink

// Part is one of the parts that a rectangle is split into: at least Min pixels, and of what is left over its share
// in proportion to all shares.
type Part struct{ Share, Min float64 }

// Fix is a part of exactly n pixels.
func Fix(n float64) Part { return Part{0, n} }

// Share is a part that takes n shares of the room, and never less than least pixels.
func Share(n, least float64) Part { return Part{n, least} }

// Rows splits a rectangle from top to bottom into parts with gaps between, appended to dst (a buffer, or nil). If the
// minimums need more than there is, the parts run over the lower edge rather than be squeezed: Check finds it.
func (r Rect) Rows(dst []Rect, gap float64, parts ...Part) []Rect {
	split(r.Y, r.H, gap, parts, func(y, h float64) { dst = append(dst, Rect{r.X, y, r.W, h}) })
	return dst
}

// Columns splits a rectangle from left to right as Rows does from top to bottom.
func (r Rect) Columns(dst []Rect, gap float64, parts ...Part) []Rect {
	split(r.X, r.W, gap, parts, func(x, w float64) { dst = append(dst, Rect{x, r.Y, w, r.H}) })
	return dst
}

// Cell is field i, counted in reading order from 0, of a rectangle split into equal columns and rows with gaps.
func (r Rect) Cell(i, columns, rows int, gap float64) Rect {
	w := (r.W - gap*float64(columns-1)) / float64(columns)
	h := (r.H - gap*float64(rows-1)) / float64(rows)
	return Rect{r.X + float64(i%columns)*(w+gap), r.Y + float64(i/columns)*(h+gap), w, h}
}

// CutTop splits off the upper h pixels; what is left starts gap pixels lower. The other three do the same at their edge.
func (r Rect) CutTop(h, gap float64) (cut, rest Rect) {
	return Rect{r.X, r.Y, r.W, h}, Rect{r.X, r.Y + h + gap, r.W, r.H - h - gap}
}

// CutBottom splits off the lower h pixels.
func (r Rect) CutBottom(h, gap float64) (cut, rest Rect) {
	return Rect{r.X, r.Bottom() - h, r.W, h}, Rect{r.X, r.Y, r.W, r.H - h - gap}
}

// CutLeft splits off the left w pixels.
func (r Rect) CutLeft(w, gap float64) (cut, rest Rect) {
	return Rect{r.X, r.Y, w, r.H}, Rect{r.X + w + gap, r.Y, r.W - w - gap, r.H}
}

// CutRight splits off the right w pixels.
func (r Rect) CutRight(w, gap float64) (cut, rest Rect) {
	return Rect{r.Right() - w, r.Y, w, r.H}, Rect{r.X, r.Y, r.W - w - gap, r.H}
}

// Square is the largest square in the middle of a rectangle.
func (r Rect) Square() Rect {
	s := min(r.W, r.H)
	return Rect{r.X + (r.W-s)/2, r.Y + (r.H-s)/2, s, s}
}

// room finds how many pixels the sharing parts divide between them, and the sum of their shares. A part whose share
// would be less than its minimum takes the minimum and leaves the sharing; that leaves less for the others and may push
// another one below its own, so it is repeated until nothing changes (at most once for each part).
func room(length, gap float64, parts []Part) (free, shares float64) {
	total := length - gap*float64(len(parts)-1)
	for range len(parts) + 1 {
		f, s := total, 0.0
		for _, c := range parts {
			if held := c.Share <= 0 || shares > 0 && free*c.Share/shares <= c.Min; held {
				f -= c.Min
			} else {
				s += c.Share
			}
		}
		if f == free && s == shares || s == 0 {
			return f, s
		}
		free, shares = f, s
	}
	return free, shares
}

// split gives each part its place and size.
func split(from, length, gap float64, parts []Part, part func(from, size float64)) {
	free, shares := room(length, gap, parts)
	for _, c := range parts {
		size := c.Min
		if c.Share > 0 && shares > 0 {
			size = max(size, free*c.Share/shares)
		}
		part(from, size)
		from += size + gap
	}
}

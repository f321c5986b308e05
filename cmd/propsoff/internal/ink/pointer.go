package ink

// Phase says what a pointer does.
type Phase uint8

// The phases. A pointer that is Lost is one that the window no longer hears of: what it held is let go, and nothing is done. A Wheel was turned where the
// mouse is.
const (
	Down Phase = iota
	Move
	Up
	Lost
	Wheel
)

// Pointer is one moment of a mouse or a finger over a page.
type Pointer struct {
	// ID tells pointers apart that are down at the same time: 0 is the mouse.
	ID    int
	Phase Phase
	At    Point
	// Hit is the area under it, ok where On. For a Move it is not looked for.
	Hit Hit
	On  bool
	// List is the one under it that can be turned, there where OnList; for Down and Wheel alone. By is how many notches a Wheel was turned, towards the
	// hand more than 0.
	List   List
	OnList bool
	By     float64
	// Finger: it is a finger, or was taken for one. Second: the mouse's second button.
	Finger, Second bool
}

// Look finds the area under a pointer. A finger that is beside every area gets the one whose edge is nearest, at most slack pixels away.
func (p *Page) Look(at Point, slack float64) (Hit, bool) {
	if h, ok := p.HitAt(at.X, at.Y); ok || slack <= 0 {
		return h, ok
	}
	best, found := -1, slack*slack
	for i := range p.hits {
		b := &p.hits[i].Box
		dx, dy := max(b.X-at.X, 0, at.X-b.Right()), max(b.Y-at.Y, 0, at.Y-b.Bottom())
		if d := dx*dx + dy*dy; d <= found {
			best, found = i, d
		}
	}
	if best < 0 {
		return Hit{}, false
	}
	return p.hits[best], true
}

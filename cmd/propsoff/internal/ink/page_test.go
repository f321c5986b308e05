package ink

import (
	"math"
	"testing"
)

func TestScaleFollowsTheWindow(t *testing.T) {
	for _, c := range []struct{ w, h, want float64 }{{960, 600, 1}, {1920, 1200, 2}, {1920, 1080, 1.8}, {3840, 2160, 3.6}, {480, 600, 0.5}} {
		if p := NewPage(c.w, c.h, 0, nil); p.Scale != c.want || p.Px(10) != 10*c.want || p.Theme != Light() {
			t.Errorf("%v: scale %v", c, p.Scale)
		}
	}
}

func TestTheTopHitIsFound(t *testing.T) {
	p := newPage(t)
	p.Group("keys")
	p.Hit("below", "B", Rect{10, 10, 100, 100})
	p.Hit("above", "A", Rect{50, 50, 20, 20})
	for _, c := range []struct {
		x, y float64
		want string
	}{{60, 60, "above"}, {20, 20, "below"}, {70, 69, "below"}, {110, 20, ""}, {9.9, 20, ""}} {
		if h, ok := p.HitAt(c.x, c.y); h.Name != c.want || ok != (c.want != "") {
			t.Errorf("%v: %+v", c, h)
		}
	}
}

// Everything a shape draws lies in its box, and thin straight edges lie on whole pixels.
func TestBoxesHoldWhatIsDrawn(t *testing.T) {
	p := newPage(t)
	p.Line("level", 10.3, 20.3, 50.8, 20.3, Paint{Line: Ink})
	p.Line("slant", 10, 10, 50, 40, Paint{Line: Ink, Width: 5})
	p.Rect("rect", Rect{10.4, 10.4, 20.3, 20.3}, Paint{Line: Ink, Width: 1.4})
	p.RoundRect("round", Rect{10.4, 10.4, 20.3, 20.3}, 99, Paint{Fill: Ink})
	p.Circle("circle", 100, 100, 20, Paint{Fill: Ink, Line: Rule, Width: 4})
	p.Arc("arc", 100, 100, 20, 0, math.Pi/2, Paint{Line: Ink, Width: 4})
	p.Polyline("way", []Point{{5, 5}, {50, 5}, {50, 50}}, Paint{Line: Ink, Width: 4})
	p.Polygon("gone", []Point{{0, 0}, {1, 1}}, Paint{Fill: Ink})
	for _, it := range p.Items() {
		pts, closed := p.Outline(nil, &it, 0)
		reach := it.Width / 2
		if closed {
			reach = 0
		}
		if it.Kind == KindLine { // square ends: the width reaches to the side only
			reach = 0
		}
		if !it.Box.Inset(reach).Holds(bounds(pts), 1e-9) {
			t.Errorf("%s: box %v, outline %v", it.Name, it.Box, bounds(pts))
		}
		if it.Name == "gone" {
			t.Error("two points make no polygon")
		}
	}
	if b := p.Items()[0].Box; b.Y != 20 || b.H != 1 {
		t.Errorf("a level line of 1 px is at %v", b)
	}
	if it := p.Items()[2]; it.Box != (Rect{10, 10, 21, 21}) || it.Width != 1 {
		t.Errorf("a rectangle is at %v, edge %v", it.Box, it.Width)
	}
	if b := p.Items()[5].Box; math.Abs(b.X-98) > 1e-9 || math.Abs(b.Right()-122) > 1e-9 {
		t.Errorf("a quarter of a ring is at %v", b)
	}
}

// Chords stay within a tenth of a pixel of the circle: the polygon's area is that of the circle to the same part.
func TestOutlinesOfRoundShapes(t *testing.T) {
	p := newPage(t)
	for _, r := range []float64{1, 5, 40, 400} {
		p.Reset(960, 600, 0, nil)
		p.Circle("c", 480, 300, r, Paint{Fill: Ink, Line: Rule, Width: 1})
		pts, closed := p.Outline(nil, &p.Items()[0], 0)
		if !closed || Area(pts) <= 0 {
			t.Fatalf("radius %v: closed %v, area %v", r, closed, Area(pts))
		}
		for i := range pts {
			a, b := pts[i], pts[(i+1)%len(pts)]
			if d := r - math.Hypot((a.X+b.X)/2-480, (a.Y+b.Y)/2-300); d < -1e-9 || d > flatness+1e-9 {
				t.Fatalf("radius %v: a chord is %v px inside", r, d)
			}
		}
	}
}

func TestInsetOfPolygonsEitherWayRound(t *testing.T) {
	p := newPage(t)
	square := []Point{{10, 10}, {50, 10}, {50, 50}, {10, 50}}
	for range 2 {
		p.Reset(960, 600, 0, nil)
		p.Polygon("s", square, Paint{Fill: Ink, Line: Rule, Width: 2})
		pts, _ := p.Outline(nil, &p.Items()[0], 3)
		if b := bounds(pts); b != (Rect{13, 13, 34, 34}) {
			t.Errorf("%v", b)
		}
		for i, j := 0, 3; i < j; i, j = i+1, j-1 {
			square[i], square[j] = square[j], square[i]
		}
	}
}

func TestMitreByHand(t *testing.T) {
	const s = math.Sqrt2
	for _, c := range []struct {
		a, b, c, want Point
		sharp         bool
	}{
		{Point{0, 0}, Point{1, 0}, Point{2, 0}, Point{0, -1}, false},         // straight on: to the left is up on the screen
		{Point{0, 0}, Point{1, 0}, Point{1, 1}, Point{1, -1}, false},         // right turn
		{Point{0, 0}, Point{1, 0}, Point{0, 0}, Point{0, -1}, true},          // straight back
		{Point{0, 0}, Point{0, 0}, Point{1, 1}, Point{1 / s, -1 / s}, false}, // no way before
		{Point{0, 0}, Point{0, 0}, Point{0, 0}, Point{}, false},
	} {
		if o, sharp := Mitre(c.a, c.b, c.c, 2); math.Hypot(o.X-c.want.X, o.Y-c.want.Y) > 1e-9 || sharp != c.sharp {
			t.Errorf("%v: %v %v", c, o, sharp)
		}
	}
}

func TestPiecesOfADash(t *testing.T) {
	square := []Point{{0, 0}, {10, 0}, {10, 10}, {0, 10}}
	for _, c := range []struct {
		closed bool
		dash   Dash
		pieces int
		drawn  float64
	}{
		{true, Dash{}, 1, 40}, {false, Dash{}, 1, 30}, {false, Dash{3, 0}, 1, 30}, {true, Dash{5, 5}, 4, 20}, {false, Dash{5, 5}, 3, 15},
		{false, Dash{12, 6}, 2, 24}, {false, Dash{100, 1}, 1, 30}, {false, Dash{0.5, 0.5}, 30, 15},
	} {
		n, drawn := 0, 0.0
		Pieces(square, c.closed, c.dash, nil, func(piece []Point, closed bool) {
			n++
			for i := 1; i < len(piece); i++ {
				drawn += math.Hypot(piece[i].X-piece[i-1].X, piece[i].Y-piece[i-1].Y)
			}
			if closed {
				drawn += math.Hypot(piece[0].X-piece[len(piece)-1].X, piece[0].Y-piece[len(piece)-1].Y)
			}
		})
		if n != c.pieces || math.Abs(drawn-c.drawn) > 1e-9 {
			t.Errorf("%+v: %d pieces, %v px drawn", c, n, drawn)
		}
	}
}

// The pieces of a band have the area between its sides, crossing or not.
func TestBandPiecesByHand(t *testing.T) {
	for _, c := range []struct {
		a, b   []Point
		pieces int
		want   float64
	}{
		{[]Point{{0, 0}, {0, 10}, {0, 20}}, []Point{{4, 0}, {4, 10}, {0, 20}}, 2, 40 + 20},
		{[]Point{{0, 0}, {10, 10}}, []Point{{10, 0}, {0, 10}}, 2, 25 + 25}, // crosses in the middle
		{[]Point{{3, 0}, {3, 10}}, []Point{{3, 0}, {3, 10}}, 1, 0},
	} {
		n, sum := 0, 0.0
		BandPieces(c.a, c.b, func(q [4]Point, corners int) { n++; sum += math.Abs(Area(q[:corners])) })
		if n != c.pieces || math.Abs(sum-c.want) > 1e-9 {
			t.Errorf("%v: %d pieces, area %v, want %d and %v", c, n, sum, c.pieces, c.want)
		}
	}
	p := newPage(t)
	p.Band("odd", make([]Point, 3), make([]Point, 2), Roll)
	p.Band("band", []Point{{10, 10}, {10, 20}}, []Point{{14, 10}, {14, 20}}, Roll)
	if len(p.Items()) != 1 || p.Items()[0].Box != (Rect{9.5, 9.5, 5, 11}) {
		t.Errorf("%+v", p.Items())
	}
	if pts, closed := p.Outline(nil, &p.Items()[0], 0); !closed || math.Abs(Area(pts)) != 40 {
		t.Errorf("outline %v", pts)
	}
}

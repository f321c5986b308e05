package ink

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestRowsAndColumnsByHand(t *testing.T) {
	r := Rect{10, 20, 100, 90}
	rows := r.Rows(nil, 10, Fix(20), Share(1, 0), Share(3, 0))
	for i, want := range []Rect{{10, 20, 100, 20}, {10, 50, 100, 12.5}, {10, 72.5, 100, 37.5}} {
		if rows[i] != want {
			t.Errorf("row %d: %v, want %v", i, rows[i], want)
		}
	}
	// 100 wide, gap 0: the second wants 75 of 100 but the first needs 40, so 60 are left.
	columns := r.Columns(nil, 0, Share(1, 40), Share(3, 10))
	for i, want := range []Rect{{10, 20, 40, 90}, {50, 20, 60, 90}} {
		if columns[i] != want {
			t.Errorf("column %d: %v, want %v", i, columns[i], want)
		}
	}
	if got := r.Cell(4, 3, 2, 5); got != (Rect{10 + 35, 20 + 47.5, 30, 42.5}) {
		t.Errorf("cell: %v", got)
	}
	if got := r.Square(); got != (Rect{15, 20, 90, 90}) {
		t.Errorf("square: %v", got)
	}
	if got := r.Rows(nil, 5); len(got) != 0 {
		t.Errorf("no parts: %v", got)
	}
}

func TestCutsTakeTheWholeApart(t *testing.T) {
	r := Rect{10, 20, 100, 90}
	for name, c := range map[string][4]Rect{
		"top": quad(r.CutTop(30, 4))(Rect{10, 20, 100, 30}, Rect{10, 54, 100, 56}), "bottom": quad(r.CutBottom(30, 4))(Rect{10, 80, 100, 30}, Rect{10, 20, 100, 56}),
		"left": quad(r.CutLeft(30, 4))(Rect{10, 20, 30, 90}, Rect{44, 20, 66, 90}), "right": quad(r.CutRight(30, 4))(Rect{80, 20, 30, 90}, Rect{10, 20, 66, 90}),
	} {
		if c[0] != c[2] || c[1] != c[3] {
			t.Errorf("%s: %v and %v, want %v and %v", name, c[0], c[1], c[2], c[3])
		}
	}
}

func quad(a, b Rect) func(c, d Rect) [4]Rect {
	return func(c, d Rect) [4]Rect { return [4]Rect{a, b, c, d} }
}

// Whatever is asked for: no part is below its minimum, none overlap, and if the minimums fit, the whole length is used
// and parts above their minimum stand in the proportion of their shares.
func TestColumnsHoldTheirPromises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 7).Draw(t, "n")
		gap := float64(rapid.IntRange(0, 20).Draw(t, "gap"))
		width := float64(rapid.IntRange(1, 2000).Draw(t, "width"))
		parts, least, shares := make([]Part, n), gap*float64(n-1), 0.0
		for i := range parts {
			parts[i] = Part{float64(rapid.IntRange(0, 5).Draw(t, "share")), float64(rapid.IntRange(0, 300).Draw(t, "min"))}
			least += parts[i].Min
			shares += parts[i].Share
		}
		got := Rect{7, 0, width, 10}.Columns(nil, gap, parts...)
		x, unit := 7.0, 0.0
		for i, r := range got {
			if math.Abs(r.X-x) > 1e-6 {
				t.Fatalf("part %d starts at %v, want %v", i, r.X, x)
			}
			if r.W < parts[i].Min-1e-6 {
				t.Fatalf("part %d is %v, least %v", i, r.W, parts[i].Min)
			}
			if parts[i].Share > 0 && r.W > parts[i].Min+1e-6 {
				u := r.W / parts[i].Share
				if unit != 0 && math.Abs(u-unit) > 1e-6 {
					t.Fatalf("part %d has %v a share, another %v", i, u, unit)
				}
				unit = u
			}
			x = r.Right() + gap
		}
		if end := x - gap; shares > 0 && least <= width && math.Abs(end-7-width) > 1e-6 {
			t.Fatalf("%v of %v used", end-7, width)
		}
	})
}

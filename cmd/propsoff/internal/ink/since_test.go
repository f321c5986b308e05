package ink

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// rows is a page of 40 texts in a column; each may be left out or say something of its own.
func rows(says map[int]string) *Page {
	p := NewPage(960, 600, 1, nil)
	for i := range 40 {
		text, own := says[i]
		if own && text == "" {
			continue
		}
		if !own {
			text = "row"
		}
		p.Text("row", 20, 20+14*float64(i), Style{Size: 12}, text)
	}
	return p
}

func TestAPageThatLooksTheSameHasNothingToDraw(t *testing.T) {
	assert.Empty(t, rows(nil).Since(rows(nil), nil))
	other := rows(nil)
	other.Hit("key", "K", Rect{1, 1, 5, 5})
	assert.Empty(t, other.Since(rows(nil), nil), "an area that can be clicked draws nothing")
}

func TestAChangedItemIsDrawnAlone(t *testing.T) {
	for name, c := range map[string]struct{ was, is map[int]string }{
		"says otherwise": {nil, map[int]string{7: "other"}},
		"has gone":       {nil, map[int]string{7: ""}},
		"has come":       {map[int]string{7: ""}, nil},
	} {
		before, now := rows(c.was), rows(c.is)
		parts := now.Since(before, nil)
		require.Len(t, parts, 1, name)
		whole := rows(map[int]string{7: "other"}).items[7]
		assert.True(t, parts[0].Meets(whole.Box), name)
		assert.Less(t, parts[0].H, 26.0, "%s: no more than its line and what characters may draw beyond it: %v", name, parts[0])
		assert.Less(t, parts[0].W, 50.0, "%s: %v", name, parts[0])
	}
}

func TestAnotherSizeOrThemeIsDrawnWhole(t *testing.T) {
	p := rows(nil)
	assert.Equal(t, []Rect{p.Bounds()}, p.Since(NewPage(961, 600, 1, nil), nil))
	dark := rows(nil)
	dark.Theme = Dark()
	assert.Equal(t, []Rect{p.Bounds()}, p.Since(dark, nil))
	assert.NotEmpty(t, p.Since(NewPage(960, 600, 1, nil), nil))
}

func TestPointsCount(t *testing.T) {
	wave := func(mid float64) *Page {
		p := NewPage(960, 600, 1, nil)
		p.Polyline("wave", []Point{{10, 10}, {mid, 50}, {100, 100}}, Paint{Line: Ink, Width: 2})
		return p
	}
	assert.Empty(t, wave(40).Since(wave(40), nil))
	assert.Len(t, wave(41).Since(wave(40), nil), 1, "in the same box")
}

func TestWhatIsNoNumberDrawsNothingForEver(t *testing.T) {
	p, q := NewPage(960, 600, 1, nil), NewPage(960, 600, 1, nil)
	p.Circle("c", math.NaN(), 3, 2, Paint{Fill: Ink})
	q.Circle("c", math.NaN(), 3, 2, Paint{Fill: Ink})
	assert.Empty(t, p.Since(q, nil))
}

// Whatever changes: each item that only one of the pages has lies in the parts, the others stand in the same order on both, and the parts
// are few, of whole pixels and on the page.
func TestPartsHoldAllThatChanged(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		page := func(name string) *Page {
			p := NewPage(960, 600, 1, nil)
			for _, n := range rapid.SliceOfN(rapid.IntRange(0, 60), 0, 80).Draw(t, name) {
				x, y := float64(n%8)*115.3, float64(n/8)*71.7
				if n%3 == 0 {
					p.Circle("c", x, y, 20+float64(n%5), Paint{Fill: Ink})
				} else {
					p.Text("t", x, y, Style{Size: 14}, fmt.Sprint("item ", n))
				}
			}
			return p
		}
		before, now := page("before"), page("now")
		parts := now.Since(before, nil)
		if len(parts) > mostParts {
			t.Fatalf("%d parts", len(parts))
		}
		for _, r := range parts {
			if r.Empty() || r != r.snap() || !now.Bounds().Holds(r, 0) {
				t.Fatalf("part %v", r)
			}
		}
		// Seen through a window anywhere outside the parts, both pages are the same list.
		for y := 2.5; y < 600; y += 37 {
			for x := 2.5; x < 960; x += 41 {
				at := Point{x, y}
				covered := false
				for _, r := range parts {
					covered = covered || r.Has(at)
				}
				if covered {
					continue
				}
				var a, b []string
				for _, p := range []*Page{before, now} {
					for i := range p.items {
						if p.Reach(&p.items[i]).Has(at) {
							what := fmt.Sprint(p.items[i].Kind, p.items[i].Box, p.items[i].Text)
							if p == before {
								a = append(a, what)
							} else {
								b = append(b, what)
							}
						}
					}
				}
				if fmt.Sprint(a) != fmt.Sprint(b) {
					t.Fatalf("at %v: before %v, now %v, parts %v", at, a, b, parts)
				}
			}
		}
	})
}

// Comparing pages allocates nothing.
func TestComparingAllocatesNothing(t *testing.T) {
	before, now := rows(nil), rows(map[int]string{3: "x", 9: "", 20: "y"})
	parts := make([]Rect, 0, 64)
	if n := testing.AllocsPerRun(50, func() { parts = now.Since(before, parts[:0]) }); n > 0 {
		t.Errorf("%v allocations", n)
	}
}

func BenchmarkSince(b *testing.B) {
	pen := make([]Point, 600)
	for i := range pen {
		pen[i] = Point{100 + 20*math.Sin(float64(i)/20), float64(i)}
	}
	p, q := NewPage(960, 600, 1, nil), NewPage(960, 600, 1, nil)
	busy(p, pen)
	busy(q, pen)
	var parts []Rect
	for b.Loop() {
		parts = p.Since(q, parts[:0])
	}
	if len(parts) > 0 {
		b.Error("they look the same")
	}
}

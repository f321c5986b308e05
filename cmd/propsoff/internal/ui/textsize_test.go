package ui

import (
	"testing"

	"propsoff.example/cmd/propsoff/internal/ink"

	"github.com/stretchr/testify/assert"
)

// boardOf is a page so large, with a wish for text of so many percent and pixels so dense.
func boardOf(w, h float64, percent int, dense float64) *Board {
	p := ink.NewPage(w, h, 0, nil)
	p.Dense = dense
	return NewBoard(p, &View{TextSize: percent})
}

// No text is smaller than 13 px in the least window, and none ever smaller than in a smaller window; twice the window is less than twice the text.
func TestTextGrowsSlowerThanTheWindow(t *testing.T) {
	least := boardOf(960, 600, 0, 1)
	assert.Equal(t, []float64{13, 14, 15, 19}, []float64{least.Small, least.Body, least.Head, least.Large})
	last := least
	for w := 1000.0; w <= 8000; w += 40 {
		b := boardOf(w, w*0.625, 0, 1)
		assert.GreaterOrEqual(t, b.Small, last.Small, "%v", w)
		assert.LessOrEqual(t, b.U, w/960, "%v", w)
		last = b
	}
	large := boardOf(2560, 1440, 0, 1)
	assert.InDelta(t, 1.5, large.Small/13, 0.05, "half as large again")
	twice := boardOf(5120, 2880, 0, 1)
	assert.InDelta(t, 2*large.Small, twice.Small, 1, "a page beyond that shows as much, larger")
}

// A wish for larger text holds as far as the window has room: the page is never smaller than the least window in lengths of its own. One for smaller
// text always holds, and no wish is the usual size.
func TestTheSizeOfTextIsChosen(t *testing.T) {
	for _, z := range [][2]float64{{960, 600}, {1280, 800}, {1920, 1080}, {2560, 1440}} {
		usual := boardOf(z[0], z[1], 100, 1)
		assert.Equal(t, boardOf(z[0], z[1], 0, 1).Small, usual.Small)
		assert.Less(t, boardOf(z[0], z[1], 85, 1).Small, usual.Small)
		last := usual.U
		for _, percent := range []int{125, 150} {
			b := boardOf(z[0], z[1], percent, 1)
			assert.GreaterOrEqual(t, b.U, last)
			assert.LessOrEqual(t, 960*b.U, z[0]+1e-6)
			assert.LessOrEqual(t, 600*b.U, z[1]+1e-6)
			last = b.U
		}
	}
	assert.Greater(t, boardOf(1920, 1080, 150, 1).Small, boardOf(1920, 1080, 100, 1).Small)
	turns := func(w, h float64) (turned []int) {
		p, v := ink.NewPage(w, h, 0, nil), &View{}
		for range 5 {
			NewBoard(p, v)
			v.TextSize = v.NextTextSize()
			turned = append(turned, v.TextSize)
		}
		return turned
	}
	assert.Equal(t, []int{125, 150, 85, 100, 125}, turns(2560, 1440), "from the usual one on, round and round")
	assert.Equal(t, []int{125, 85, 100, 125, 85}, turns(1440, 900), "none for which the window has no room")
	assert.Equal(t, []int{85, 100, 85, 100, 85}, turns(960, 600))
}

// Where one pixel of the system is several of the page, text and what can be pressed are as large as on any other display of that size.
func TestDensePixels(t *testing.T) {
	one, two := boardOf(1280, 800, 0, 1), boardOf(2560, 1600, 0, 2)
	assert.InDelta(t, 2*one.Small, two.Small, 1)
	assert.InDelta(t, 2*one.Least(), two.Least(), 1e-9)
	assert.InDelta(t, 48, boardOf(1920, 1200, 0, 2).Least(), 1e-9, "24 of the system")
}

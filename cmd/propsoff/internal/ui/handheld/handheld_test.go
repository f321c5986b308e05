package handheld_test

import (
	"fmt"
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui/handheld"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim/handset"
)

// sizes are rectangles with the size of text in them: the least is 40 mm by 25 mm on paper, at 12 pixels to the mm with text of 1.7 mm.
var sizes = []struct {
	name       string
	w, h, text float64
}{
	{"paper", 480, 300, 20}, {"narrow", 250, 300, 13}, {"flat", 560, 150, 13}, {"column", 260, 480, 13}, {"half", 470, 380, 13}, {"large", 900, 700, 19},
}

var jobs = []string{"arm", "mode", "second", "channel 7", "channel 8", "channel 9", "finder sound", "channel 11", "lights", "channel 12", "channel 13",
	"channel 14", "channel 15", "channel 16", "tilt of the camera", "channel 10", "channel 6", "channel 5", "channel 4", "channel 3"}

// some is a radio with n controls at places of chance, with a seed: crowded on one view every third time.
func some(seed uint64, n int, book *words.Book) *handheld.Radio {
	draw := rand.New(rand.NewPCG(seed, 7))
	d := &handheld.Radio{Pen: 1.2, Sticks: [2]handheld.Stick{{Up: book.Say(tell.JobName("throttle")), Across: book.Say(tell.JobName("yaw")), Right: 0.5, High: 0},
		{Up: book.Say(tell.JobName("pitch")), Across: book.Say(tell.JobName("roll")), Right: draw.Float64(), High: draw.Float64()}}}
	only := handset.NoView
	if seed%3 == 0 {
		only = handset.View(1 + draw.IntN(3))
	}
	for i := range n {
		c := handheld.Control{Name: book.Say(tell.JobName(jobs[i])), Number: strconv.Itoa(i + 1), Positions: draw.IntN(7), At: draw.Float64()*1.2 - 0.2, To: draw.Float64(),
			Springs: draw.IntN(4) == 0, Spot: handset.Spot{View: handset.View(1 + draw.IntN(3)), X: int16(draw.IntN(1001)), Y: int16(draw.IntN(1001)),
				Way: handset.Way(1 + draw.IntN(int(handset.WayCount)-1)), Guessed: draw.IntN(3) == 0}}
		if c.Positions == 1 {
			c.Positions = 2
		}
		if only != handset.NoView {
			c.Spot.View = only
		}
		c.Mark = handheld.Mark(max(0, draw.IntN(12)-9))
		d.Controls = append(d.Controls, c)
	}
	if seed%4 == 1 {
		d.Sticks[seed%2].Mark, d.Sticks[seed%2].ToHigh = handheld.Moves, 1
	}
	return d
}

// check looks for what overlaps, is clipped, or too pale. The size of text is the caller's.
func check(t *testing.T, what string, p *ink.Page) {
	t.Helper()
	limits := ink.DefaultLimits()
	limits.TextSize, limits.Hole, limits.HitSize = 0, 1, 24/ink.FitScale(p.W, p.H)
	for _, q := range ink.CheckWith(p, limits) {
		assert.Fail(t, q.String(), what)
	}
}

func books() (all []*words.Book) {
	first := words.English()
	for b := first; len(all) == 0 || b != first; b = b.Next() {
		all = append(all, b)
	}
	return all
}

// Whatever sits wherever, nothing overlaps and nothing is clipped, and every control has its number or its name.
func TestNothingOverlaps(t *testing.T) {
	for _, book := range books() {
		for _, z := range sizes {
			for n := range 21 {
				seed := uint64(n)
				d := some(seed, n, book)
				d.Size = z.text
				if z.name == "paper" {
					d.Pen = 2.4
				}
				for _, theme := range []*ink.Theme{ink.Light(), ink.Dark(), ink.Print()} {
					p := ink.NewPage(z.w+20, z.h+20, 0, theme)
					drawn := handheld.Draw(p, ink.Rect{X: 10, Y: 10, W: z.w, H: z.h}, d)
					what := fmt.Sprintf("%s-%d-%s", z.name, n, book.Tag())
					check(t, what, p)
					assert.False(t, drawn.Views[handset.OnFace].Empty())
					assert.Len(t, ink.Describe(p).Named("control-name"), n, what)
					if theme.Name == "light" && (n%5 == 3 || n == 20) {
						uitest.Draw(t, "handheld "+what, p)
					}
				}
				if t.Failed() {
					t.FailNow()
				}
			}
		}
	}
}

// A view on which nothing sits is left out, unless all are asked for.
func TestEmptyViewsAreLeftOut(t *testing.T) {
	p := ink.NewPage(600, 400, 1, nil)
	d := some(1, 0, words.English())
	d.Size = 13
	drawn := handheld.Draw(p, p.Bounds(), d)
	assert.True(t, drawn.Views[handset.OnShoulders].Empty())
	assert.True(t, drawn.Views[handset.OnBack].Empty())
	d.All = true
	drawn = handheld.Draw(p, p.Bounds(), d)
	for v := handset.OnFace; v < handset.ViewCount; v++ {
		assert.False(t, drawn.Views[v].Empty())
		assert.True(t, p.Bounds().Holds(drawn.Views[v], 0.5))
	}
}

// placed is where a spot lies on the page.
func placed(d *handheld.Drawn, s handset.Spot) ink.Point {
	v := d.Views[s.View]
	return ink.Point{X: v.X + v.W*float64(s.X)/1000, Y: v.Y + v.H*float64(s.Y)/1000}
}

// A control that has room stands at its place, and keeps its number beside it.
func TestAControlStandsWhereItSits(t *testing.T) {
	d := &handheld.Radio{Size: 13, Pen: 1, Sticks: [2]handheld.Stick{handheld.Middle, handheld.Middle}}
	for i, s := range []handset.Spot{{View: handset.OnShoulders, X: 100, Y: 500, Way: handset.GoesUp}, {View: handset.OnShoulders, X: 800, Y: 500, Way: handset.GoesDown}} {
		d.Controls = append(d.Controls, handheld.Control{Spot: s, Number: strconv.Itoa(i + 1), Positions: 3, At: 1, To: -1})
	}
	p := ink.NewPage(600, 400, 1, nil)
	drawn := handheld.Draw(p, p.Bounds(), d)
	sheet := ink.Describe(p)
	slots, levers := sheet.Named("control-slot"), sheet.Named("control-lever")
	require.Len(t, slots, 2)
	for i := range slots {
		at := placed(&drawn, d.Controls[i].Spot)
		assert.InDelta(t, at.X, slots[i].Box[0]+slots[i].Box[2]/2, 2)
		assert.InDelta(t, at.Y, slots[i].Box[1]+slots[i].Box[3]/2, 2)
	}
	middle := func(i int) float64 {
		return levers[i].Box[1] + levers[i].Box[3]/2 - placed(&drawn, d.Controls[i].Spot).Y
	}
	assert.Negative(t, middle(0), "its high end lies up")
	assert.Positive(t, middle(1), "its high end lies down")
}

// The arrow says which way the lever must go; where the place is only guessed nobody knows that, and there is none.
func TestTheArrowPointsToWhereItMustGo(t *testing.T) {
	for way, want := range map[handset.Way][2]float64{handset.GoesUp: {0, -1}, handset.GoesDown: {0, 1}, handset.GoesRight: {1, 0}, handset.GoesLeft: {-1, 0}} {
		c := handheld.Control{Spot: handset.Spot{View: handset.OnShoulders, X: 500, Y: 500, Way: way}, Number: "1", Positions: 2, At: 0, To: 1, Mark: handheld.Moves}
		d := &handheld.Radio{Size: 13, Pen: 1, Controls: []handheld.Control{c}}
		p := ink.NewPage(600, 400, 1, nil)
		handheld.Draw(p, p.Bounds(), d)
		sheet := ink.Describe(p)
		head, shaft := sheet.Named("arrow-head"), sheet.Named("control-arrow")
		require.Len(t, head, 1, way)
		require.Len(t, shaft, 1, way)
		middle := func(b [4]float64) (x, y float64) { return b[0] + b[2]/2, b[1] + b[3]/2 }
		hx, hy := middle(head[0].Box)
		sx, sy := middle(shaft[0].Box)
		assert.Greater(t, (hx-sx)*want[0]+(hy-sy)*want[1], 3.0, way)

		d.Controls[0].Spot.Guessed = true
		p = ink.NewPage(600, 400, 1, nil)
		handheld.Draw(p, p.Bounds(), d)
		assert.Empty(t, ink.Describe(p).Named("control-arrow"), way)
		assert.Len(t, ink.Describe(p).Named("control-mark"), 1, "it is marked all the same")
	}
}

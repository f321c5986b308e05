package mesh

import (
	"image"
	xdraw "image/draw"
	"math"
	"testing"

	"propsoff.example/cmd/propsoff/internal/ink"
)

type drawn struct {
	v     []Vertex
	i     [][3]int
	n     int // flushes
	atlas *image.Alpha
}

// newMesh makes a mesh that collects everything in one list.
func newMesh(t testing.TB, side int) (*Mesh, *drawn) {
	t.Helper()
	d := &drawn{atlas: image.NewAlpha(image.Rect(0, 0, side, side))}
	put := func(x, y int, m *image.Alpha) {
		to := image.Rect(x, y, x+m.Rect.Dx(), y+m.Rect.Dy())
		if !to.In(d.atlas.Rect) {
			t.Errorf("put to %v of an atlas of %d", to, side)
		}
		xdraw.Draw(d.atlas, to, m, m.Rect.Min, xdraw.Src)
	}
	m, err := New(side, put, func(v []Vertex, idx []uint16) {
		base := len(d.v)
		d.v = append(d.v, v...)
		for k := 0; k < len(idx); k += 3 {
			d.i = append(d.i, [3]int{base + int(idx[k]), base + int(idx[k+1]), base + int(idx[k+2])})
		}
		d.n++
	})
	if err != nil {
		t.Fatal(err)
	}
	return m, d
}

func draw(t testing.TB, p *ink.Page) *drawn {
	m, d := newMesh(t, 1024)
	m.Page(p, p.Bounds())
	return d
}

func (d *drawn) cross(t [3]int) float64 {
	a, b, c := d.v[t[0]], d.v[t[1]], d.v[t[2]]
	return float64((b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X))
}

// amount is how much is drawn, in fully covered pixels: each triangle's area times its mean opacity.
func (d *drawn) amount() (sum float64) {
	for _, t := range d.i {
		sum += math.Abs(d.cross(t)) / 2 * float64(d.v[t[0]].A+d.v[t[1]].A+d.v[t[2]].A) / 3
	}
	return sum
}

// at is the opacity at a place after all triangles over it.
func (d *drawn) at(x, y float64) float64 {
	clear := 1.0
	for _, t := range d.i {
		all := d.cross(t)
		if all == 0 {
			continue
		}
		a, w, in := 0.0, [3]float64{}, true
		for k := range 3 {
			p, q := d.v[t[(k+1)%3]], d.v[t[(k+2)%3]]
			w[k] = (float64(q.X-p.X)*(y-float64(p.Y)) - float64(q.Y-p.Y)*(x-float64(p.X))) / all
			in = in && w[k] >= 0
			a += w[k] * float64(d.v[t[k]].A)
		}
		if in {
			clear *= 1 - math.Min(1, a)
		}
	}
	return 1 - clear
}

func page() *ink.Page { return ink.NewPage(960, 600, 1, ink.Light()) }

// What is drawn has the area that geometry says, whatever the shape.
func TestAreasByHand(t *testing.T) {
	for name, c := range map[string]struct {
		add  func(p *ink.Page)
		want float64
		part float64 // how exact
	}{
		"rect": {func(p *ink.Page) { p.Rect("r", ink.Rect{X: 10, Y: 10, W: 40, H: 20}, ink.Paint{Fill: ink.Ink}) }, 800, 0.002},
		"rect edge": {func(p *ink.Page) {
			p.Rect("r", ink.Rect{X: 10, Y: 10, W: 40, H: 20}, ink.Paint{Line: ink.Ink, Width: 2})
		}, 40*20 - 36*16, 0.001},
		"circle":    {func(p *ink.Page) { p.Circle("c", 100, 100, 50, ink.Paint{Fill: ink.Ink}) }, math.Pi * 2500, 0.005},
		"ring":      {func(p *ink.Page) { p.Circle("c", 100, 100, 50, ink.Paint{Line: ink.Ink, Width: 4}) }, math.Pi * (2500 - 46*46), 0.01},
		"half ring": {func(p *ink.Page) { p.Arc("c", 100, 100, 48, 0, math.Pi, ink.Paint{Line: ink.Ink, Width: 4}) }, math.Pi * 48 * 4, 0.01},
		"slant":     {func(p *ink.Page) { p.Line("l", 10, 10, 310, 410, ink.Paint{Line: ink.Ink, Width: 3}) }, 1500, 0.001},
		"hairline":  {func(p *ink.Page) { p.Line("l", 10, 10, 310, 410, ink.Paint{Line: ink.Ink, Width: 0.5}) }, 250, 0.001},
		"round rect": {func(p *ink.Page) {
			p.RoundRect("r", ink.Rect{X: 10, Y: 10, W: 100, H: 60}, 20, ink.Paint{Fill: ink.Ink})
		}, 6000 - (4-math.Pi)*400, 0.005},
		"arrow":      {func(p *ink.Page) { p.Polygon("p", arrow, ink.Paint{Fill: ink.Ink}) }, 1500, 0.005},
		"arrow back": {func(p *ink.Page) { p.Polygon("p", reversed(arrow), ink.Paint{Fill: ink.Ink}) }, 1500, 0.005},
		"dashes": {func(p *ink.Page) {
			p.Line("l", 10, 100, 210, 100, ink.Paint{Line: ink.Ink, Width: 2, Dash: ink.Dash{On: 6, Off: 4}})
		}, 240, 0.001},
		"long pen": {func(p *ink.Page) { p.Polyline("p", comb(30000), ink.Paint{Line: ink.Roll, Width: 2}) }, 2 * length(comb(30000)), 0.002},
		"wide band": {func(p *ink.Page) {
			p.Band("b", []ink.Point{{X: 10, Y: 10}, {X: 10, Y: 500}}, []ink.Point{{X: 60, Y: 10}, {X: 60, Y: 500}}, ink.Roll)
		}, 49*490 + 2*490, 0.03},
		"band of nil": {func(p *ink.Page) {
			p.Band("b", []ink.Point{{X: 10, Y: 10}, {X: 10, Y: 500}}, []ink.Point{{X: 10, Y: 10}, {X: 10, Y: 500}}, ink.Roll)
		}, 2 * 490, 0.001},
	} {
		p := page()
		c.add(p)
		if got := draw(t, p).amount(); math.Abs(got-c.want) > c.part*c.want {
			t.Errorf("%s: %.1f px, want %.1f", name, got, c.want)
		}
	}
}

// An arrow head with a notch, 60 by 100 px: not convex.
var arrow = []ink.Point{{X: 100, Y: 100}, {X: 160, Y: 200}, {X: 110, Y: 150}, {X: 100, Y: 200}}

func reversed(pts []ink.Point) (r []ink.Point) {
	for i := len(pts) - 1; i >= 0; i-- {
		r = append(r, pts[i])
	}
	return r
}

func comb(n int) []ink.Point {
	pts := make([]ink.Point, n)
	for i := range pts {
		pts[i] = ink.Point{X: 300 + 100*math.Sin(float64(i)/2000), Y: float64(i) / 50}
	}
	return pts
}

func length(pts []ink.Point) (sum float64) {
	for i := 1; i < len(pts); i++ {
		sum += math.Hypot(pts[i].X-pts[i-1].X, pts[i].Y-pts[i-1].Y)
	}
	return sum
}

// Straight edges on whole pixels are sharp: full inside, nothing outside, at the middle of the pixels.
func TestStraightEdgesAreSharp(t *testing.T) {
	p := page()
	p.Rect("frame", ink.Rect{X: 10, Y: 10, W: 40, H: 20}, ink.Paint{Fill: ink.Panel, Line: ink.Ink, Width: 1})
	p.Line("level", 100, 50.2, 200, 50.2, ink.Paint{Line: ink.Ink, Width: 2})
	d := draw(t, p)
	for _, c := range []struct{ x, y, want float64 }{
		{10.5, 20.5, 1}, {9.5, 20.5, 0}, {49.5, 20.5, 1}, {50.5, 20.5, 0}, {30.5, 10.5, 1}, {30.5, 9.5, 0}, {30.5, 29.5, 1}, {30.5, 30.5, 0},
		{150.5, 48.5, 0}, {150.5, 49.5, 1}, {150.5, 50.5, 1}, {150.5, 51.5, 0},
	} {
		if got := d.at(c.x, c.y); math.Abs(got-c.want) > 1e-5 {
			t.Errorf("at %v, %v: %v, want %v", c.x, c.y, got, c.want)
		}
	}
}

// Inside is covered and outside is not, for a shape with a notch and for a stroke with a sharp turn.
func TestPlacesInAndOut(t *testing.T) {
	p := page()
	p.Polygon("arrow", arrow, ink.Paint{Fill: ink.Ink})
	p.Polyline("zigzag", []ink.Point{{X: 300, Y: 100}, {X: 300, Y: 200}, {X: 306, Y: 100}}, ink.Paint{Line: ink.Ink, Width: 8})
	d := draw(t, p)
	for _, c := range []struct{ x, y, want float64 }{
		{102, 150, 1}, {120, 150, 1}, {112, 158, 0}, {130, 190, 0}, {150, 160, 0}, {95, 150, 0},
		{300, 150, 1}, {303, 190, 1}, {300, 203, 1}, {300, 206, 0}, {310, 200, 0},
	} {
		if got := d.at(c.x, c.y); math.Abs(got-c.want) > 0.01 {
			t.Errorf("at %v, %v: %v, want %v", c.x, c.y, got, c.want)
		}
	}
}

func TestMoreThan16BitsOfVerticesAreFlushedInHeaps(t *testing.T) {
	p := page()
	p.Polyline("p", comb(30000), ink.Paint{Line: ink.Roll, Width: 2})
	d := draw(t, p)
	if d.n < 2 {
		t.Errorf("%d heaps", d.n)
	}
	pen := comb(30000)
	// No gap where a heap ends: every point of the pen is covered.
	for i := 100; i < 29900; i += 1009 {
		q := pen[i]
		if got := d.at(q.X+1e-4, q.Y+1e-4); got < 0.98 {
			t.Errorf("at %v: %v", q, got)
		}
	}
}

func TestDrawingAgainAllocatesNothing(t *testing.T) {
	p := page()
	p.Polygon("arrow", arrow, ink.Paint{Fill: ink.Ink, Line: ink.Rule})
	p.Polyline("pen", comb(2000), ink.Paint{Line: ink.Roll, Width: 2})
	p.Polyline("dashed", comb(200), ink.Paint{Line: ink.Roll, Width: 2, Dash: ink.Dash{On: 0.1, Off: 0.1}})
	p.Band("band", comb(300), comb(300), ink.Yaw)
	p.Text("t", 10, 100, ink.Style{Size: 20}, "Throttle reads 1012 µs")
	m, d := newMesh(t, 1024)
	run := func() {
		d.v, d.i = d.v[:0], d.i[:0]
		m.Page(p, p.Bounds())
	}
	run()
	if n := testing.AllocsPerRun(10, run); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

func BenchmarkFourPensOf600Points(b *testing.B) {
	p := page()
	for range 4 {
		p.Polyline("pen", comb(600), ink.Paint{Line: ink.Roll, Width: 2})
	}
	benchmarkPage(b, p)
}

func Benchmark200Texts(b *testing.B) {
	p := page()
	for i := range 200 {
		p.Text("t", float64(i%10)*90, float64(i/10)*30, ink.Style{Size: 13}, "1012 µs at rest")
	}
	benchmarkPage(b, p)
}

func benchmarkPage(b *testing.B, p *ink.Page) {
	m, err := New(1024, func(int, int, *image.Alpha) {}, func([]Vertex, []uint16) {})
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		m.Page(p, p.Bounds())
	}
}

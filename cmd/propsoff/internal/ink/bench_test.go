package ink

import (
	"math"
	"testing"
)

// busy fills a page with 300 items, 200 of them texts, four of them pens of 600 points: a bench sheet at work.
func busy(p *Page, pen []Point) {
	p.Group("busy")
	for i := range 200 {
		x, y := 20+float64(i%10)*90, 20+float64(i/10)*28
		p.Text("value", x, y, Style{Size: 13, Anchor: Right | Middle}, "1012 µs at rest")
	}
	for i := range 88 {
		p.RoundRect("key", Rect{float64(i) * 10, 100, 8, 8}, 3, Paint{Fill: Panel, Line: Rule})
	}
	for range 4 {
		p.Polyline("pen", pen, Paint{Line: Roll, Width: 2})
	}
	p.Block("why", 20, 500, Style{Size: 14}, Block{Width: 300, Crossed: 0.5}, "Throttle reads 1012 µs; bring it below 1000. Switch the arm control off first.")
}

func pen(n int) []Point {
	pts := make([]Point, n)
	for i := range pts {
		pts[i] = Point{600 + 40*math.Sin(float64(i)/20), float64(i) * 590 / float64(n)}
	}
	return pts
}

func TestBuildingAPageAgainAllocatesNothing(t *testing.T) {
	p, pts := NewPage(960, 600, 0, Light()), pen(600)
	busy(p, pts)
	if n := len(p.Items()); n < 295 {
		t.Fatalf("%d items", n)
	}
	if n := testing.AllocsPerRun(20, func() { p.Reset(960, 600, 0, Dark()); busy(p, pts) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
	if n := testing.AllocsPerRun(20, func() { Fit(200, 11, 40, Bold, "ARMED", "DISARMED"); CountLines("one two three", 40, 12, Regular) }); n != 0 {
		t.Errorf("fitting: %v allocations", n)
	}
}

func BenchmarkPage300Items(b *testing.B) {
	p, pts := NewPage(960, 600, 0, Light()), pen(600)
	b.ReportAllocs()
	for b.Loop() {
		p.Reset(960, 600, 0, Light())
		busy(p, pts)
	}
}

func BenchmarkMeasure(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		Width("Throttle reads 1012 µs; bring it below 1000.", 14, Regular)
	}
}

func BenchmarkBlock(b *testing.B) {
	p := NewPage(960, 600, 0, Light())
	b.ReportAllocs()
	for b.Loop() {
		p.Reset(960, 600, 0, Light())
		p.Block("why", 20, 500, Style{Size: 14}, Block{Width: 160}, "Throttle reads 1012 µs; bring it below 1000. Switch the arm control off first.")
	}
}

func BenchmarkCheck(b *testing.B) {
	p := NewPage(1280, 720, 0, Light())
	example(p)
	b.ReportAllocs()
	for b.Loop() {
		Check(p)
	}
}

package mesh

import (
	"image"
	"math"
	"testing"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ink/raster"
)

// render draws triangles as a graphics card does: at the middle of each pixel, blended over what is there.
func (d *drawn) render(p *ink.Page) *image.RGBA {
	dst := image.NewRGBA(image.Rect(0, 0, int(p.W), int(p.H)))
	paper := p.Theme.Colour(ink.Paper)
	for i := range dst.Pix {
		dst.Pix[i] = [4]uint8{paper.R, paper.G, paper.B, 255}[i%4]
	}
	for _, t := range d.i {
		a, b, c := d.v[t[0]], d.v[t[1]], d.v[t[2]]
		all := d.cross(t)
		if all == 0 {
			continue
		}
		x0, x1 := int(min(a.X, b.X, c.X)), int(max(a.X, b.X, c.X))+1
		y0, y1 := int(min(a.Y, b.Y, c.Y)), int(max(a.Y, b.Y, c.Y))+1
		for y := max(0, y0); y < min(dst.Rect.Dy(), y1); y++ {
			for x := max(0, x0); x < min(dst.Rect.Dx(), x1); x++ {
				// A tiny shift, so that no middle lies on the seam of two triangles.
				px, py := float64(x)+0.5+1e-4, float64(y)+0.5+2e-4
				side := func(p, q Vertex) float64 {
					return (float64(q.X-p.X)*(py-float64(p.Y)) - float64(q.Y-p.Y)*(px-float64(p.X))) / all
				}
				wa, wb, wc := side(b, c), side(c, a), side(a, b)
				if wa < 0 || wb < 0 || wc < 0 {
					continue
				}
				mix := func(p, q, r float32) float64 { return wa*float64(p) + wb*float64(q) + wc*float64(r) }
				ink := float64(d.atlas.AlphaAt(int(mix(a.U, b.U, c.U)), int(mix(a.V, b.V, c.V))).A) / 255
				o := dst.PixOffset(x, y)
				for k, v := range [3]float64{mix(a.R, b.R, c.R), mix(a.G, b.G, c.G), mix(a.B, b.B, c.B)} {
					dst.Pix[o+k] = uint8(math.Round(255*v*ink + float64(dst.Pix[o+k])*(1-mix(a.A, b.A, c.A)*ink)))
				}
			}
		}
	}
	return dst
}

// sheet has everything that a page can hold.
func sheet(p *ink.Page) {
	u := p.Px
	p.RoundRect("key", ink.Rect{X: u(20), Y: u(20), W: u(200), H: u(60)}, u(10), ink.Paint{Fill: ink.Panel, Line: ink.Rule})
	p.Text("key", u(40), u(50), ink.Style{Size: p.TextSize(16), Weight: ink.Bold, Anchor: ink.Middle}, "Größe 30° → µs")
	p.Text("state", u(240), u(120), ink.Style{Size: p.TextSize(90), Weight: ink.Bold, Colour: ink.Armed}, "ARMED")
	p.Block("why", u(20), u(140), ink.Style{Size: p.TextSize(14), Colour: ink.Refusal}, ink.Block{Width: u(180), Crossed: 0.6}, "Throttle reads 1012 µs; bring it below 1000.")
	p.Circle("dot", u(100), u(300), u(40), ink.Paint{Fill: ink.Link, Line: ink.Ink, Width: u(3)})
	p.Arc("dial", u(100), u(300), u(55), -2, 1, ink.Paint{Line: ink.Faint, Width: u(4)})
	p.Polygon("nose", []ink.Point{{X: u(300), Y: u(200)}, {X: u(360), Y: u(300)}, {X: u(310), Y: u(250)}, {X: u(300), Y: u(300)}}, ink.Paint{Fill: ink.Focus, Line: ink.Ink, Width: u(2)})
	wave := func(x, phase float64) (pts []ink.Point) {
		for i := range 120 {
			pts = append(pts, ink.Point{X: u(x + 20*math.Sin(float64(i)/12+phase)), Y: u(150 + 3*float64(i))})
		}
		return pts
	}
	p.Polyline("roll", wave(450, 0), ink.Paint{Line: ink.Roll, Width: u(2.5)})
	p.Polyline("pitch", wave(520, 1), ink.Paint{Line: ink.Pitch, Width: u(2), Dash: ink.Dash{On: u(8), Off: u(5)}})
	p.Band("yaw", wave(600, 0), wave(605, 0.4), ink.Yaw)
	p.Line("guide", u(20), u(550), u(900), u(550), ink.Paint{Line: ink.Grid})
	p.Line("slant", u(20), u(400), u(300), u(540), ink.Paint{Line: ink.Ink, Width: u(1)})
}

// Two ways that share no code for lines and areas draw the same picture: the triangles, drawn as a graphics card would,
// and the scan lines of the software raster.
func TestTrianglesDrawWhatTheRasterDraws(t *testing.T) {
	for _, th := range []*ink.Theme{ink.Light(), ink.Dark()} {
		for _, size := range [][2]float64{{960, 600}, {1500, 937.5}} {
			p := ink.NewPage(size[0], math.Floor(size[1]), 0, th)
			sheet(p)
			want, err := raster.Image(p)
			if err != nil {
				t.Fatal(err)
			}
			got := draw(t, p).render(p)
			off, sum, inked := 0, 0.0, 0
			paper := th.Colour(ink.Paper)
			for i := 0; i < len(want.Pix); i += 4 {
				d := 0.0
				for k := range 3 {
					d = max(d, math.Abs(float64(want.Pix[i+k])-float64(got.Pix[i+k])))
				}
				if (ink.Colour{R: want.Pix[i], G: want.Pix[i+1], B: want.Pix[i+2]}) != paper {
					inked++
				}
				sum += d
				if d > 48 { // of 255: more than the soft edge of two ways of drawing may differ
					off++
				}
			}
			if inked < 20000 || float64(off) > 0.004*float64(inked) || sum/float64(inked) > 2 {
				t.Errorf("%s %v: of %d drawn pixels %d are off, on average by %.2f of 255", th.Name, size, inked, off, sum/float64(inked))
			}
		}
	}
}

// A full atlas is drawn and begun anew; nothing is lost.
func TestAFullAtlasBeginsAnew(t *testing.T) {
	p := page()
	for i := range 12 {
		p.Text("t", 10, 40+float64(i)*45, ink.Style{Size: float64(30 + i)}, "ABCDEFGHIJKLMNOPQRSTUVWXYZ abcdef")
	}
	small, d := newMesh(t, MinAtlas)
	// What has been flushed must be drawn before its characters are overwritten.
	collect, count := small.flush, 0
	small.flush = func(v []Vertex, i []uint16) {
		d.v, d.i = nil, nil
		collect(v, i)
		count += inkedPixels(d.render(p), p)
	}
	small.Page(p, p.Bounds())
	if small.Emptied() == 0 {
		t.Fatal("the atlas never got full")
	}
	want := inkedPixels(draw(t, p).render(p), p)
	if count != want || want < 10000 {
		t.Errorf("%d pixels are drawn, want %d", count, want)
	}
}

func inkedPixels(m *image.RGBA, p *ink.Page) (n int) {
	c := p.Theme.Colour(ink.Paper)
	for i := 0; i < len(m.Pix); i += 4 {
		if m.Pix[i] != c.R || m.Pix[i+1] != c.G || m.Pix[i+2] != c.B {
			n++
		}
	}
	return n
}

func TestGiantTextIsStretchedAndATooSmallAtlasRefused(t *testing.T) {
	p := ink.NewPage(3840, 2160, 1, ink.Light())
	p.Text("t", 100, 1500, ink.Style{Size: 1200, Weight: ink.Bold}, "WI")
	m, d := newMesh(t, MinAtlas)
	m.Page(p, p.Bounds())
	var lo, hi float32 = 1e9, 0
	for _, v := range d.v {
		lo, hi = min(lo, v.Y), max(hi, v.Y)
	}
	if high := float64(hi - lo); math.Abs(high-ink.CapHeight(1200, ink.Bold)) > 12 {
		t.Errorf("capitals are %v high, want %v", high, ink.CapHeight(1200, ink.Bold))
	}
	defer func() {
		if recover() == nil {
			t.Error("an atlas too small for a character")
		}
	}()
	_, _ = New(MinAtlas-1, nil, nil)
}

// A part of a page, of the items that may leave a mark in it alone, looks as it does on the whole page; and some are left out.
func TestAPartLooksAsOnTheWholePage(t *testing.T) {
	p := ink.NewPage(960, 600, 0, ink.Light())
	sheet(p)
	whole := draw(t, p)
	want := whole.render(p)
	fewer := false
	for _, part := range []ink.Rect{{X: 0, Y: 0, W: 960, H: 600}, {X: 60, Y: 30, W: 70, H: 41}, {X: 430, Y: 200, W: 50, H: 90}, {X: 85, Y: 240, W: 60, H: 33},
		{X: 290, Y: 190, W: 40, H: 120}, {X: 0, Y: 548, W: 960, H: 4}, {X: 240, Y: 40, W: 300, H: 130}, {X: 590, Y: 150, W: 9, H: 360}} {
		m, d := newMesh(t, 1024)
		m.Ground(p, part)
		m.Page(p, part)
		if covered := (&drawn{v: d.v, i: d.i[:2]}).amount(); math.Abs(covered-part.W*part.H) > 0.01 {
			t.Errorf("%v: the paper covers %v", part, covered)
		}
		fewer = fewer || len(d.i) < len(whole.i)/2
		got := d.render(p)
		inked := false
		for y := int(part.Y); y < int(part.Bottom()); y++ {
			for x := int(part.X); x < int(part.Right()); x++ {
				if got.RGBAAt(x, y) != want.RGBAAt(x, y) {
					t.Fatalf("%v: at %d, %d %v, want %v", part, x, y, got.RGBAAt(x, y), want.RGBAAt(x, y))
				}
				inked = inked || got.RGBAAt(x, y) != got.RGBAAt(955, 595)
			}
		}
		if !inked {
			t.Errorf("%v: nothing is drawn there", part)
		}
	}
	if !fewer {
		t.Error("all is drawn for each part")
	}
}

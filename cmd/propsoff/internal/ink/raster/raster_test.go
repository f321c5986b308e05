package raster

import (
	"image"
	"math"
	"testing"

	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"

	"propsoff.example/assets/face"
	"propsoff.example/cmd/propsoff/internal/ink"
)

// The reference is the rasteriser of golang.org/x/image/font/opentype over the same bytes.
func TestCharactersAreThoseOfTheReference(t *testing.T) {
	g, err := NewGlyphs()
	if err != nil {
		t.Fatal(err)
	}
	for w, ttf := range [][]byte{face.Regular(), face.Bold()} {
		f, err := opentype.Parse(ttf)
		if err != nil {
			t.Fatal(err)
		}
		for _, size := range []float64{11, 23, 90} {
			ref, err := opentype.NewFace(f, &opentype.FaceOptions{Size: size, DPI: 72, Hinting: font.HintingNone})
			if err != nil {
				t.Fatal(err)
			}
			for _, r := range "AgµÖ%8→✓" {
				for phase := range Phases {
					dr, mask, at, _, _ := ref.Glyph(fixed.Point26_6{X: fixed.Int26_6(64 * phase / Phases)}, r)
					got := g.Draw(ink.Weight(w), r, size, phase)
					if got == nil {
						t.Fatalf("%q draws nothing", r)
					}
					worst, sum := 0, 0
					for y := dr.Min.Y; y < dr.Max.Y; y++ {
						for x := dr.Min.X; x < dr.Max.X; x++ {
							_, _, _, a := mask.At(at.X+x-dr.Min.X, at.Y+y-dr.Min.Y).RGBA()
							worst = max(worst, int(math.Abs(float64(a>>8)-float64(got.AlphaAt(x, y).A))))
							sum += int(a >> 8)
						}
					}
					if worst > 3 || sum == 0 {
						t.Errorf("%v %q at %v px, phase %d: a pixel differs by %d of 255", ink.Weight(w), r, size, phase, worst)
					}
				}
			}
		}
	}
	if g.Draw(ink.Regular, ' ', 20, 0) != nil {
		t.Error("a space draws something")
	}
}

func TestPlaceKeepsTheStartWithinAnEighthOfAPixel(t *testing.T) {
	for x := -3.0; x < 3; x += 0.01 {
		pixel, phase := Place(x, 20)
		if d := float64(pixel) + float64(phase)/Phases - x; math.Abs(d) > 0.125+1e-9 || phase < 0 || phase >= Phases {
			t.Errorf("%v: %d and %d/%d", x, pixel, phase, Phases)
		}
		if pixel, phase = Place(x, 100); phase != 0 || math.Abs(float64(pixel)-x) > 0.5+1e-9 {
			t.Errorf("large, %v: %d and %d/%d", x, pixel, phase, Phases)
		}
	}
}

// covered is how many pixels a role covers, half-covered ones counted as half.
func covered(m *image.RGBA, p *ink.Page, r ink.Role) float64 {
	back, fore, sum := p.Theme.Colour(ink.Paper), p.Theme.Colour(r), 0.0
	for y := range m.Rect.Dy() {
		for x := range m.Rect.Dx() {
			sum += (float64(back.G) - float64(m.RGBAAt(x, y).G)) / (float64(back.G) - float64(fore.G))
		}
	}
	return sum
}

func TestAreasByHand(t *testing.T) {
	for name, c := range map[string]struct {
		add        func(p *ink.Page)
		want, part float64
	}{
		"rect": {func(p *ink.Page) { p.Rect("r", ink.Rect{X: 10, Y: 10, W: 40, H: 20}, ink.Paint{Fill: ink.Ink}) }, 800, 0.001},
		"rect edge": {func(p *ink.Page) {
			p.Rect("r", ink.Rect{X: 10, Y: 10, W: 40, H: 20}, ink.Paint{Line: ink.Ink, Width: 2})
		}, 224, 0.001},
		"circle": {func(p *ink.Page) { p.Circle("c", 100, 100, 50, ink.Paint{Fill: ink.Ink}) }, math.Pi * 2500, 0.01},
		"ring":   {func(p *ink.Page) { p.Circle("c", 100, 100, 50, ink.Paint{Line: ink.Ink, Width: 4}) }, math.Pi * (2500 - 46*46), 0.01},
		"slant":  {func(p *ink.Page) { p.Line("l", 10, 10, 130, 170, ink.Paint{Line: ink.Ink, Width: 3}) }, 600, 0.01},
		"turn": {func(p *ink.Page) {
			p.Polyline("z", []ink.Point{{X: 20, Y: 20}, {X: 120, Y: 20}, {X: 120, Y: 120}}, ink.Paint{Line: ink.Ink, Width: 8})
		}, 200 * 8, 0.01},
		"turn back": {func(p *ink.Page) {
			p.Polyline("z", []ink.Point{{X: 120, Y: 120}, {X: 120, Y: 20}, {X: 20, Y: 20}}, ink.Paint{Line: ink.Ink, Width: 8})
		}, 200 * 8, 0.01},
		"arrow": {func(p *ink.Page) {
			p.Polygon("p", []ink.Point{{X: 100, Y: 50}, {X: 160, Y: 150}, {X: 110, Y: 100}, {X: 100, Y: 150}}, ink.Paint{Fill: ink.Ink})
		}, 1500, 0.01},
		"dashes": {func(p *ink.Page) {
			p.Line("l", 10, 100, 110, 100, ink.Paint{Line: ink.Ink, Width: 2, Dash: ink.Dash{On: 6, Off: 4}})
		}, 120, 0.01},
		"band": {func(p *ink.Page) {
			p.Band("b", []ink.Point{{X: 10, Y: 10}, {X: 60, Y: 110}}, []ink.Point{{X: 60, Y: 10}, {X: 10, Y: 110}}, ink.Ink)
		}, 2500 + 112, 0.01},
		"off the page": {func(p *ink.Page) {
			p.Rect("r", ink.Rect{X: -50, Y: -50, W: 60, H: 60}, ink.Paint{Fill: ink.Ink})
			p.Circle("c", 900, 900, 10, ink.Paint{Fill: ink.Ink})
		}, 100, 0.01},
	} {
		p := ink.NewPage(200, 180, 1, ink.Light())
		c.add(p)
		m, err := Image(p)
		if err != nil {
			t.Fatal(err)
		}
		if got := covered(m, p, ink.Ink); math.Abs(got-c.want) > c.part*c.want+1 {
			t.Errorf("%s: %.1f px, want %.1f", name, got, c.want)
		}
	}
}

// What a text draws lies in the box that measuring gave it, and reaches each of its sides.
func TestTextIsDrawnWhereItWasMeasured(t *testing.T) {
	p := ink.NewPage(400, 100, 1, ink.Light())
	box := p.Text("t", 200, 60, ink.Style{Size: 32, Weight: ink.Bold, Anchor: ink.Centre}, "HIM")
	m, err := Image(p)
	if err != nil {
		t.Fatal(err)
	}
	drawn := image.Rectangle{}
	for y := range 100 {
		for x := range 400 {
			if c := m.RGBAAt(x, y); c.G < 0xF0 {
				drawn = drawn.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	top := 60 - ink.CapHeight(32, ink.Bold)
	if math.Abs(float64(drawn.Min.Y)-top) > 1 || drawn.Max.Y != 60 || math.Abs(float64(drawn.Min.X)-box.X) > 4 || math.Abs(float64(drawn.Max.X)-box.Right()) > 4 {
		t.Errorf("drawn in %v, measured %v", drawn, box)
	}
}

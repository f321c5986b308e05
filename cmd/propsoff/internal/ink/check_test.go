package ink

import (
	"fmt"
	"math"
	"testing"
)

// example is a small sheet that uses everything: the good page, at every size and theme.
func example(p *Page) {
	var buf [4]Rect
	u := p.Px
	body := p.Bounds().Inset(u(20))
	head, body := body.CutTop(u(110), u(16))
	p.Group("state")
	size, _ := Fit(head.W*0.5, p.TextSize(24), head.H*0.8, Bold, "DISARMED")
	p.Text("state", head.X, head.Centre().Y, Style{Size: size, Weight: Bold, Colour: Disarmed, Anchor: Left | Middle, State: true, Within: head}, "DISARMED")
	p.RoundRect("badge", Rect{head.Right() - u(260), head.Y + u(10), u(240), u(60)}, u(8), Paint{Fill: Armed})
	p.Text("badge", head.Right()-u(140), head.Y+u(40), Style{Size: p.TextSize(24), Weight: Bold, Colour: Paper, Anchor: Centre | Middle, State: true}, "ARMED")

	columns := body.Columns(buf[:0], u(20), Share(2, u(200)), Share(3, u(300)), Share(2, u(200)))
	p.Group("why")
	why := columns[0]
	p.Rect("frame", why, Paint{Line: Rule, Fill: Panel})
	y := why.Y + u(12)
	for i, s := range []string{"Throttle reads 1012\u00a0µs; bring it below\u00a01000.", "Switch the arm control off first.", "The craft stands tilted by 34°; set it level."} {
		h, _ := p.Block(fmt.Sprint("refusal", i), why.X+u(12), y, Style{Size: p.TextSize(14), Colour: Refusal, Within: why},
			Block{Width: why.W - u(24), Crossed: float64(i) / 2}, s)
		y += h + u(10)
	}
	p.Circle("dot", why.Centre().X, why.Bottom()-u(60), u(30), Paint{Fill: Link, Line: Ink, Width: u(2)})
	p.Arc("dial", why.Centre().X, why.Bottom()-u(60), u(40), -2, 1, Paint{Line: Faint, Width: u(3)})

	p.Group("chart")
	chart := columns[1]
	p.Rect("frame", chart, Paint{Line: Rule})
	for i := 1; i < 10; i++ {
		gy := chart.Y + chart.H*float64(i)/10
		p.Line("guide", chart.X+u(2), gy, chart.Right()-u(2), gy, Paint{Line: Grid, Under: true})
	}
	p.Text("note", chart.X+u(10), chart.Y+chart.H*0.3+u(4), Style{Size: p.TextSize(11), Colour: Faint}, "armed 3.2 s ago")
	for k, pen := range [4]Role{Throttle, Yaw, Pitch, Roll} {
		pts := make([]Point, 0, 200)
		for i := range 200 {
			f := float64(i) / 199
			x := chart.X + chart.W*(0.45+0.12*float64(k)) + u(20)*math.Sin(12*f+float64(k))
			pts = append(pts, Point{x, chart.Y + u(10) + f*(chart.H-u(20))})
		}
		c := Paint{Line: pen, Width: u(2)}
		if k == 3 {
			c.Dash = Dash{u(8), u(4)}
		}
		p.Polyline(pen.String(), pts, c)
	}

	p.Group("keys")
	for i, key := range []string{"L", "P", "C", "T", "H"} {
		r := columns[2].Cell(i, 1, 5, u(8))
		p.RoundRect("key", r, u(6), Paint{Fill: Panel, Line: Rule})
		p.Text("key", r.X+u(16), r.Centre().Y, Style{Size: p.TextSize(16), Weight: Bold, Anchor: Left | Middle, Within: r}, key)
		p.Text("label", r.X+u(48), r.Centre().Y, Style{Size: p.TextSize(13), Colour: Faint, Anchor: Left | Middle, Within: r}, "radio on or off")
		p.Hit("radio-power", key, r)
	}
	craft := columns[2].Cell(4, 1, 5, u(8)).Centre()
	p.Polygon("nose", []Point{{craft.X + u(60), craft.Y - u(14)}, {craft.X + u(74), craft.Y + u(12)}, {craft.X + u(46), craft.Y + u(12)}}, Paint{Fill: Ink, Line: Focus, Width: u(2)})
}

var sizes = [][2]float64{{960, 600}, {1280, 720}, {1024, 1000}, {1920, 1080}, {2560, 1080}, {3840, 2160}}

func TestAGoodPageHasNoProblem(t *testing.T) {
	for _, th := range themes() {
		for _, s := range sizes {
			p := NewPage(s[0], s[1], 0, th)
			example(p)
			for _, q := range Check(p) {
				t.Errorf("%s %v: %v", th.Name, s, q)
			}
		}
	}
}

// Every kind of fault, each on a page that has this one only.
func TestEachFaultIsFoundAlone(t *testing.T) {
	normal := Style{Size: 16}
	for name, c := range map[Fault]func(p *Page){
		TextOffPage: func(p *Page) { p.Text("t", 930, 300, normal, "DISARMED") },
		TextOutside: func(p *Page) {
			p.Text("t", 100, 100, Style{Size: 16, Within: Rect{100, 80, 40, 40}}, "DISARMED")
		},
		TextOverlap: func(p *Page) {
			p.Text("a", 100, 100, normal, "DISARMED")
			p.Text("b", 130, 108, normal, "ARMED")
		},
		TextCrossed: func(p *Page) {
			p.Text("t", 100, 100, normal, "DISARMED")
			p.Line("l", 50, 95, 300, 95, Paint{Line: Ink})
		},
		TextCovered: func(p *Page) {
			p.Text("t", 100, 100, normal, "DISARMED")
			p.Rect("r", Rect{90, 70, 200, 50}, Paint{Fill: Panel})
		},
		TextContrast: func(p *Page) { p.Text("t", 100, 100, Style{Size: 16, Colour: Rule}, "DISARMED") },
		TextSmall:    func(p *Page) { p.Text("t", 100, 100, Style{Size: 10}, "DISARMED") },
		TextGlyph:    func(p *Page) { p.Text("t", 100, 100, normal, "done ✓") },
		ShapeOffPage: func(p *Page) { p.Circle("c", 955, 300, 20, Paint{Fill: Ink}) },
		ShapeContrast: func(p *Page) {
			p.Rect("under", Rect{90, 70, 200, 50}, Paint{Fill: Faint})
			p.Rect("over", Rect{100, 80, 20, 20}, Paint{Fill: Rule})
		},
		HitOffPage: func(p *Page) { p.Hit("h", "H", Rect{940, 100, 40, 40}) },
		HitSmall:   func(p *Page) { p.Hit("h", "H", Rect{100, 100, 40, 23}) },
		HitOverlap: func(p *Page) { p.Hit("h", "H", Rect{100, 100, 40, 40}); p.Hit("i", "I", Rect{130, 130, 40, 40}) },
		DeadSpace:  nil, // below: the other pages are nearly empty
		Nameless:   func(p *Page) { p.Text("", 100, 100, normal, "DISARMED") },
		NumberBad:  func(p *Page) { p.Line("l", 10, 10, math.NaN(), 20, Paint{Line: Ink}) },
	} {
		lim := DefaultLimits()
		if c == nil {
			c = func(p *Page) { p.Text("t", 100, 100, normal, "DISARMED") }
		} else {
			lim.Hole = 1
		}
		p := newPage(t)
		c(p)
		got := CheckWith(p, lim)
		if len(got) != 1 || got[0].Fault != name {
			t.Errorf("%s: found %v", name, got)
		}
	}
}

// The finer rules: what is wrong, and its neighbour that is right.
func TestCheckKnowsWhatIsAllowed(t *testing.T) {
	s := Style{Size: 16}
	for name, c := range map[string]struct {
		draw func(p *Page)
		want []Fault
	}{
		"a stroke that crosses its own text off": {func(p *Page) { p.CrossText("t", 100, 100, s, "DISARMED", 0.5) }, nil},
		"a faint guide under text": {func(p *Page) {
			p.Line("g", 50, 95, 300, 95, Paint{Line: Grid, Under: true})
			p.Text("t", 100, 100, s, "DISARMED")
		}, nil},
		"a dark guide under text": {func(p *Page) {
			p.Line("g", 50, 95, 300, 95, Paint{Line: Ink, Under: true})
			p.Text("t", 100, 100, s, "DISARMED")
		},
			[]Fault{TextContrast}},
		"a line hidden by a plate under the text": {func(p *Page) {
			p.Line("l", 50, 95, 300, 95, Paint{Line: Ink})
			p.Rect("plate", Rect{95, 80, 120, 30}, Paint{Fill: Panel})
			p.Text("t", 100, 100, s, "DISARMED")
		}, nil},
		"text half on a plate": {func(p *Page) {
			p.Rect("plate", Rect{95, 80, 40, 30}, Paint{Fill: Panel, Line: Rule})
			p.Text("t", 100, 100, s, "DISARMED")
		}, []Fault{TextCrossed}},
		"text on the thick edge of its own plate": {func(p *Page) {
			p.Rect("plate", Rect{95, 80, 120, 30}, Paint{Fill: Panel, Line: Ink, Width: 8})
			p.Text("t", 100, 100, s, "DISARMED")
		}, []Fault{TextCrossed}},
		"text in a ring": {func(p *Page) {
			p.Circle("c", 140, 95, 80, Paint{Line: Ink})
			p.Text("t", 140, 95, Style{Size: 16, Anchor: Centre | Middle}, "DISARMED")
		}, nil},
		"text cut by a ring": {func(p *Page) {
			p.Circle("c", 140, 95, 20, Paint{Line: Ink})
			p.Text("t", 140, 95, Style{Size: 16, Anchor: Centre | Middle}, "DISARMED")
		}, []Fault{TextCrossed}},
		"text under an arc": {func(p *Page) {
			p.Arc("c", 140, 95, 80, 0, 1, Paint{Line: Ink})
			p.Text("t", 140, 95, Style{Size: 16, Anchor: Centre | Middle}, "DISARMED")
		}, nil},
		"paper text on a badge": {func(p *Page) {
			p.RoundRect("b", Rect{90, 70, 200, 50}, 8, Paint{Fill: Armed})
			p.Text("t", 100, 100, Style{Size: 16, Colour: Paper, State: true}, "ARMED")
		}, nil},
		"ink text on a badge": {func(p *Page) {
			p.RoundRect("b", Rect{90, 70, 200, 50}, 8, Paint{Fill: Armed})
			p.Text("t", 100, 100, s, "ARMED")
		}, []Fault{TextContrast}},
		"faint text":                   {func(p *Page) { p.Text("t", 100, 100, Style{Size: 16, Colour: Faint}, "DISARMED") }, nil},
		"a faint state word":           {func(p *Page) { p.Text("t", 100, 100, Style{Size: 16, Colour: Faint, State: true}, "DISARMED") }, []Fault{TextContrast}},
		"lines of text close together": {func(p *Page) { p.Text("a", 100, 100, s, "one"); p.Text("b", 100, 118, s, "two") }, nil},
		"text where tall and deep letters miss each other": {func(p *Page) { p.Text("a", 100, 100, s, "near"); p.Text("b", 100, 110, s, "nose") }, nil},
		"the same with letters that meet":                  {func(p *Page) { p.Text("a", 100, 100, s, "gap"); p.Text("b", 100, 110, s, "keep") }, []Fault{TextOverlap}},
		"an empty text on another":                         {func(p *Page) { p.Text("a", 100, 100, s, "gap"); p.Text("b", 100, 100, s, "") }, nil},
		"hits that touch":                                  {func(p *Page) { p.Hit("a", "A", Rect{0, 0, 24, 24}); p.Hit("b", "B", Rect{24, 0, 24, 24}) }, nil},
	} {
		p := newPage(t)
		c.draw(p)
		lim := DefaultLimits()
		lim.Hole = 1
		got := CheckWith(p, lim)
		ok := len(got) == len(c.want)
		for i := range got {
			ok = ok && got[i].Fault == c.want[i]
		}
		if !ok {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}

// Text that is large enough in the least window is too small when the window grows and the text does not, whatever
// scale the page claims.
func TestTextAndHitsMustGrowWithTheWindow(t *testing.T) {
	p := NewPage(1920, 1200, 1, nil)
	p.Text("t", 100, 100, Style{Size: 21}, "DISARMED")
	p.Hit("h", "H", Rect{100, 200, 47, 60})
	lim := DefaultLimits()
	lim.Hole = 1
	got := CheckWith(p, lim)
	if len(got) != 2 || got[0].Fault != TextSmall || got[1].Fault != HitSmall {
		t.Errorf("found %v", got)
	}
	p.Reset(1920, 1200, 1, nil)
	p.Text("t", 100, 100, Style{Size: 22}, "DISARMED")
	p.Hit("h", "H", Rect{100, 200, 48, 60})
	if got := CheckWith(p, lim); len(got) != 0 {
		t.Errorf("found %v", got)
	}
}

func TestEmptySpaceByHand(t *testing.T) {
	p := NewPage(640, 400, 1, nil) // cells of 10 by 10 px
	if _, share := LargestHole(p); share != 1 || EmptyShare(p) != 1 {
		t.Errorf("empty page: %v %v", share, EmptyShare(p))
	}
	p.Rect("ground", Rect{0, 0, 640, 400}, Paint{Fill: Panel})
	if got := EmptyShare(p); got != 1 {
		t.Errorf("a ground is nothing to look at: %v", got)
	}
	p.Rect("left", Rect{1, 1, 318, 398}, Paint{Fill: Ink}) // the left half
	if got := EmptyShare(p); got != 0.5 {
		t.Errorf("half full: %v", got)
	}
	p.Line("line", 320, 205, 639, 205, Paint{Line: Ink}) // row 20 of the right half
	hole, share := LargestHole(p)
	if hole != (Rect{320, 0, 320, 200}) || share != 0.25 {
		t.Errorf("hole %v, %v", hole, share)
	}
}

// A limit that is just reached is enough, one that is missed by the last bit is not: nothing is rounded.
func TestContrastLimitsAreExact(t *testing.T) {
	p := newPage(t)
	p.Text("t", 100, 100, Style{Size: 16, Colour: Faint}, "at rest")
	p.Text("s", 100, 200, Style{Size: 16, Colour: Faint, State: true}, "ARMED")
	p.Line("l", 100, 300, 300, 300, Paint{Line: Faint})
	got := Contrast(Light().Colour(Faint), Light().Colour(Paper))
	for i := range 3 {
		lim := DefaultLimits()
		lim.Hole, lim.TextContrast, lim.StateContrast, lim.GraphicContrast = 1, got, got, got
		if found := CheckWith(p, lim); len(found) != 0 {
			t.Errorf("the limit is reached, but: %v", found)
		}
		*[]*float64{&lim.TextContrast, &lim.StateContrast, &lim.GraphicContrast}[i] = math.Nextafter(got, 99)
		if found := CheckWith(p, lim); len(found) != 1 {
			t.Errorf("limit %d is missed by the last bit, but: %v", i, found)
		}
	}
}

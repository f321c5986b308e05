package ink

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"propsoff.example/assets/words"
)

func newPage(t *testing.T) *Page {
	t.Helper()
	return NewPage(960, 600, 0, Light())
}

func TestAnchorsPutTheTextWhereTheySay(t *testing.T) {
	p := newPage(t)
	const size, x, y = 20, 400, 300
	w := Width("ARMED", size, Bold)
	for a, want := range map[Anchor]Point{ // where the start of the base line goes
		Left | Base:     {x, y},
		Centre | Base:   {x - w/2, y},
		Right | Base:    {x - w, y},
		Left | Middle:   {x, math.Round(y + CapHeight(size, Bold)/2)},
		Right | Top:     {x - w, math.Round(y + Ascent(size, Bold))},
		Centre | Bottom: {x - w/2, math.Round(y - faces()[Bold].descent*size)},
	} {
		box := p.Text("word", x, y, Style{Size: size, Weight: Bold, Anchor: a}, "ARMED")
		it := p.Items()[len(p.Items())-1]
		if it.A != want || it.Fill != Ink {
			t.Errorf("anchor %d: base line starts at %v, want %v", a, it.A, want)
		}
		if math.Abs(box.W-w) > 1e-9 || box.X != it.A.X || math.Abs(box.Y-(it.A.Y-Ascent(size, Bold))) > 1e-9 {
			t.Errorf("anchor %d: box %v", a, box)
		}
	}
}

func TestTextIsDrawnInWholePixels(t *testing.T) {
	p := NewPage(1000, 640, 0, nil)
	p.Text("word", 10, 50, Style{Size: 13.9}, "ARMED")
	if it := p.Items()[0]; it.Size != 13 || it.Box.W != Width("ARMED", 13, Regular) {
		t.Errorf("%v, %v wide", it.Size, it.Box.W)
	}
	if got := p.TextSize(12); got != 12 { // 12 × 1.0417 = 12.5
		t.Errorf("TextSize: %v", got)
	}
}

func TestBlockBreaksAtSpacesByHand(t *testing.T) {
	const text = "Throttle reads 1012\u00a0µs; bring it below\u00a01000."
	p := newPage(t)
	width := Width("Throttle reads 1012\u00a0µs;", 16, Regular) + 1
	h, n := p.Block("why", 10, 20, Style{Size: 16}, Block{Width: width}, text)
	var lines []string
	for _, it := range p.Items() {
		lines = append(lines, it.Text)
	}
	if got := strings.Join(lines, "|"); got != "Throttle reads 1012\u00a0µs;|bring it below\u00a01000." || n != 2 {
		t.Errorf("%d lines: %s", n, got)
	}
	if math.Abs(h-(LineHeight(16)+Ascent(16, Regular)+faces()[Regular].descent*16)) > 1e-9 {
		t.Errorf("height %v", h)
	}
	// A little narrower and the no-break space takes its number along.
	p.Reset(960, 600, 0, nil)
	p.Block("why", 10, 20, Style{Size: 16}, Block{Width: width - 2}, text)
	if got := p.Items()[0].Text; got != "Throttle reads" {
		t.Errorf("first line %q", got)
	}
	p.Reset(960, 600, 0, nil)
	if _, n := p.Block("why", 10, 20, Style{Size: 16}, Block{Width: 500}, "one\n\ntwo  three \nfour"); n != 4 ||
		p.Items()[1].Text != "" || p.Items()[2].Text != "two  three" || p.Items()[3].Text != "four" {
		t.Errorf("%d lines: %+v", n, p.Items())
	}
}

// A number is not torn from its unit, those of the catalogue and others; a number is torn from other words.
func TestANumberKeepsItsUnit(t *testing.T) {
	for _, unit := range Units {
		text := "It must be 1500 " + unit + ", or above."
		for width := Width("must 1500 "+unit+",", 16, Regular); width < Width(text, 16, Regular); width++ {
			for line, rest := nextLine(text, width, 16, Regular); line != ""; line, rest = nextLine(rest, width, 16, Regular) {
				if strings.HasSuffix(line, "1500") {
					t.Fatalf("%s: torn at %.0f: %q", unit, width, line)
				}
			}
		}
		if got := Together(text); got != "It must be 1500\u00a0"+unit+", or above." {
			t.Error(got)
		}
	}
	for _, text := range []string{"2 switches", "of 7 Stellungen", "in s", " s", "5 ", "5 m2", "5\u00a0s"} {
		if Together(text) != text {
			t.Errorf("%q: %q", text, Together(text))
		}
	}
	if Together("2 s, 3 m/s und 4 %") != "2\u00a0s, 3\u00a0m/s und 4\u00a0%" {
		t.Error(Together("2 s, 3 m/s und 4 %"))
	}
	units := 0
	for _, m := range words.Messages(words.English().Tag()) {
		if _, unit, ok := strings.Cut(m.Other, "{{.n}} "); ok && strings.HasPrefix(m.ID, "unit.") {
			if units++; !slices.Contains(Units, unit) {
				t.Errorf("%s is no unit", unit)
			}
		}
	}
	if units == 0 {
		t.Error("the catalogue has no unit")
	}
}

// No word is lost or broken, every line fits unless it is one word, and no line could have taken the next word too.
func TestBlockKeepsAllWords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.StringMatching(`[a-zA-Zµ°,.]{1,14}`), 1, 30).Draw(t, "words")
		width := float64(rapid.IntRange(20, 400).Draw(t, "width"))
		size := float64(rapid.IntRange(8, 40).Draw(t, "size"))
		p := NewPage(4000, 4000, 1, nil)
		text := strings.Join(words, " ")
		_, n := p.Block("b", 0, 0, Style{Size: size}, Block{Width: width}, text)
		count, fits := CountLines(text, width, size, Regular)
		var lines []string
		wide := false
		for _, it := range p.Items() {
			lines = append(lines, it.Text)
			if it.Box.W > width+1e-6 {
				wide = true
				if strings.Contains(it.Text, " ") {
					t.Fatalf("%q is %v wide, has %v", it.Text, it.Box.W, width)
				}
			}
		}
		if strings.Join(lines, " ") != text || n != len(lines) || count != n || fits == wide {
			t.Fatalf("%q became %q (%d lines, counted %d, fits %v)", text, lines, n, count, fits)
		}
		for i := 1; i < len(lines); i++ {
			next, _, _ := strings.Cut(lines[i], " ")
			if Width(lines[i-1]+" "+next, size, Regular) < width-1e-6 {
				t.Fatalf("%q had room for %q", lines[i-1], next)
			}
		}
	})
}

func TestShortenOnlyWhereAllowed(t *testing.T) {
	const text = "one two three four five six seven eight nine ten eleven twelve"
	p := newPage(t)
	h, n := p.Block("short", 10, 20, Style{Size: 16}, Block{Width: 120, MaxLines: 2, Shorten: true}, text)
	last := p.Items()[1]
	if n != 2 || !strings.HasSuffix(last.Text, "…") || last.Box.W > 120 || h != BlockHeight(16, 2) {
		t.Errorf("%d lines, the last %q is %.1f wide", n, last.Text, last.Box.W)
	}
	for _, q := range Check(p) {
		if q.Fault != DeadSpace {
			t.Errorf("shortened: %v", q)
		}
	}
	p.Reset(960, 600, 0, nil)
	if _, n = p.Block("long", 10, 20, Style{Size: 16}, Block{Width: 120, MaxLines: 2}, text); n <= 2 {
		t.Errorf("not allowed to shorten, but %d lines", n)
	}
	found := false
	for _, q := range Check(p) {
		found = found || q.Fault == TextOutside
	}
	if !found {
		t.Error("a block that runs on is not found")
	}
}

func TestFitBlock(t *testing.T) {
	const text = "Switch the radio on; nothing has been heard from it since the craft was powered."
	for _, c := range []struct{ w, h float64 }{{300, 60}, {200, 100}, {600, 40}} {
		size, fits := FitBlock(c.w, c.h, 8, 60, Regular, text)
		n, ok := CountLines(text, c.w, size, Regular)
		if !fits || !ok || BlockHeight(size, n) > c.h {
			t.Errorf("%v: size %v does not fit", c, size)
		}
		n, ok = CountLines(text, c.w, size+1, Regular)
		if ok && BlockHeight(size+1, n) <= c.h {
			t.Errorf("%v: size %v fits too", c, size+1)
		}
	}
	if size, fits := FitBlock(30, 10, 8, 60, Regular, text); size != 8 || fits {
		t.Errorf("too small a box: %v %v", size, fits)
	}
}

func TestCrossingOffRunsLineAfterLine(t *testing.T) {
	for _, c := range []struct{ done, first, second float64 }{{0, 0, 0}, {0.25, 0.5, 0}, {0.5, 1, 0}, {0.75, 1, 0.5}, {1, 1, 1}, {7, 1, 1}, {-1, 0, 0}} {
		p := newPage(t)
		w := Width("abc", 16, Regular)
		p.Block("why", 10, 20, Style{Size: 16}, Block{Width: w + 1, Crossed: c.done}, "abc abc")
		a, b := p.Items()[0], p.Items()[1]
		if math.Abs(a.Crossed-c.first) > 1e-9 || math.Abs(b.Crossed-c.second) > 1e-9 {
			t.Errorf("%v crossed: lines %v %v, want %v %v", c.done, a.Crossed, b.Crossed, c.first, c.second)
		}
		drawn := 0.0
		for _, it := range p.Items()[2:] {
			drawn += it.Box.W
			if !p.Items()[it.owner].Box.Holds(it.Box, 0) {
				t.Errorf("the stroke %v leaves its text %v", it.Box, p.Items()[it.owner].Box)
			}
		}
		if math.Abs(drawn-w*(c.first+c.second)) > 1e-9 {
			t.Errorf("%v crossed: %v px of stroke", c.done, drawn)
		}
	}
}

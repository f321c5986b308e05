package ink

import (
	"fmt"
	"math"
	"slices"
	"testing"
)

func themes() []*Theme { return Themes() }

func TestEveryRoleReachesItsContrast(t *testing.T) {
	for _, th := range themes() {
		atLeast := func(fore, back Role, limit float64) {
			if got := Contrast(th.Colour(fore), th.Colour(back)); got < limit {
				t.Errorf("%s: %v on %v is %.4f, want %.1f", th.Name, fore, back, got, limit)
			}
		}
		for _, r := range []Role{Ink, Armed, Disarmed} { // state words
			atLeast(r, Paper, 7)
		}
		for _, r := range []Role{Ink, Faint, Refusal, Link, Armed, Disarmed, Focus} { // text, and paper as text on them
			atLeast(r, Paper, 4.5)
			atLeast(r, Panel, 4.5)
		}
		for _, r := range []Role{Throttle, Yaw, Pitch, Roll} { // pens carry their names in their own colour on paper
			atLeast(r, Paper, 4.5)
			atLeast(r, Panel, 3)
		}
		atLeast(Rule, Paper, 3)
		atLeast(Rule, Panel, 3)
		for _, r := range []Role{Ink, Faint} { // text may lie over guide lines
			atLeast(r, Grid, 4.5)
		}
		if !th.Strong {
			continue
		}
		// WCAG 2.2, 1.4.6 Contrast (Enhanced), level AAA: text 7 : 1. Here lines, marks and pens too, of which 1.4.11 asks 3 : 1.
		for r := Ink; r < roleCount; r++ {
			if !r.Decor() {
				atLeast(r, Paper, 7)
				atLeast(r, Panel, 7)
			}
		}
		atLeast(Ink, Grid, 7)
		atLeast(Faint, Grid, 7)
	}
}

// Full dichromacy as linear maps of linear RGB, after Machado, Oliveira and Fernandes 2009, severity 1.0.
// The numbers are from memory; that each row sums to 1 (greys stay grey) is checked below.
var sights = map[string][3][3]float64{
	"full colour sight": {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	"no red":            {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
	"no green":          {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
	"no blue":           {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}},
}

// seen is a colour in CIE L*a*b* (D65) as an eye with one of the sights gets it.
func seen(c Colour, m [3][3]float64) [3]float64 {
	l := [3]float64{linear(c.R), linear(c.G), linear(c.B)}
	var v [3]float64
	for i := range v {
		v[i] = math.Min(1, math.Max(0, m[i][0]*l[0]+m[i][1]*l[1]+m[i][2]*l[2]))
	}
	// sRGB to XYZ, scaled by the white point (IEC 61966-2-1, from memory; white must come out as L* 100, a* b* 0).
	x := (0.4124564*v[0] + 0.3575761*v[1] + 0.1804375*v[2]) / 0.95047
	y := 0.2126729*v[0] + 0.7151522*v[1] + 0.0721750*v[2]
	z := (0.0193339*v[0] + 0.1191920*v[1] + 0.9503041*v[2]) / 1.08883
	f := func(t float64) float64 {
		if t > 216.0/24389 {
			return math.Cbrt(t)
		}
		return (24389.0/27*t + 16) / 116
	}
	return [3]float64{116*f(y) - 16, 500 * (f(x) - f(y)), 200 * (f(y) - f(z))}
}

func apart(a, b Colour, m [3][3]float64) float64 { // ΔE*ab of 1976
	p, q := seen(a, m), seen(b, m)
	return math.Sqrt((p[0]-q[0])*(p[0]-q[0]) + (p[1]-q[1])*(p[1]-q[1]) + (p[2]-q[2])*(p[2]-q[2]))
}

func TestSightsKeepGreysGrey(t *testing.T) {
	for name, m := range sights {
		for _, row := range m {
			if s := row[0] + row[1] + row[2]; math.Abs(s-1) > 1e-5 {
				t.Errorf("%s: row %v sums to %v", name, row, s)
			}
		}
		if w := seen(Colour{255, 255, 255}, m); math.Abs(w[0]-100) > 0.01 || math.Abs(w[1]) > 0.05 || math.Abs(w[2]) > 0.05 {
			t.Errorf("%s: white is seen as %v", name, w)
		}
	}
	// Red and green of one lightness fall together without the green or the red receptor: the check can fail.
	if d := apart(Colour{0xC0, 0x50, 0x30}, Colour{0x70, 0x80, 0x30}, sights["no green"]); d > 12 {
		t.Errorf("the classic confusion is seen as ΔE %.1f apart", d)
	}
}

// How far apart accents must stay for every kind of colour sight, in ΔE*ab (ours; about 2 is just seen side by side).
// State is a word and a shape too: colour is the third sign, never the only one.
func TestAccentsStayApartForEverySight(t *testing.T) {
	for _, th := range themes() {
		for name, m := range sights {
			all := func(least float64, roles ...Role) {
				for i, a := range roles {
					for _, b := range roles[i+1:] {
						if d := apart(th.Colour(a), th.Colour(b), m); d < least {
							t.Errorf("%s, %s: %v and %v are ΔE %.1f apart, want %.0f", th.Name, name, a, b, d, least)
						}
					}
				}
			}
			all(60, Armed, Disarmed)
			all(14, Armed, Disarmed, Refusal, Link)
			all(25, Throttle, Yaw, Pitch, Roll)
		}
	}
}

// hue is the angle 0 … 360 (0 red, 60 yellow, 120 green) and the saturation 0 … 1 of a colour.
func hue(c Colour) (angle, saturation float64) {
	r, g, b := float64(c.R), float64(c.G), float64(c.B)
	hi, lo := max(r, g, b), min(r, g, b)
	if hi == lo {
		return 0, 0
	}
	switch hi {
	case r:
		angle = (g - b) / (hi - lo)
	case g:
		angle = 2 + (b-r)/(hi-lo)
	default:
		angle = 4 + (r-g)/(hi-lo)
	}
	return math.Mod(60*angle+360, 360), (hi - lo) / hi
}

func TestNoAmberOrYellowOnDarkGreyAndNoRedGreenBadge(t *testing.T) {
	for _, th := range []*Theme{Dark(), WhiteOnBlack()} {
		for r := Paper; r < roleCount; r++ {
			if h, s := hue(th.Colour(r)); s > 0.3 && h > 25 && h < 75 {
				t.Errorf("%s: %v %v has hue %.0f: amber or yellow", th.Name, r, th.Colour(r), h)
			}
		}
	}
	for _, th := range themes() {
		if h, s := hue(th.Colour(Disarmed)); s > 0.3 && h > 75 && h < 190 {
			t.Errorf("%s: disarmed is green (hue %.0f)", th.Name, h)
		}
		if h, _ := hue(th.Colour(Disarmed)); h < 195 || h > 240 {
			t.Errorf("%s: disarmed has hue %.0f, not blue", th.Name, h)
		}
	}
}

func TestRolesHaveDifferentNamesAndEveryThemeAllColours(t *testing.T) {
	names := map[string]bool{}
	for r := None; r < roleCount; r++ {
		if names[r.String()] || r.String() == "" {
			t.Errorf("role %d: name %q missing or twice", r, r)
		}
		names[r.String()] = true
		for _, th := range themes() {
			if r > Paper && th.Colour(r) == (Colour{}) && !th.Strong { // where black is one of the colours, its contrasts tell
				t.Errorf("%s has no colour for %v", th.Name, r)
			}
		}
	}
	if fmt.Sprint(roleCount) != "unknown" || Light().Colour(roleCount) != Light().Colour(Paper) {
		t.Error("an unknown role must be named so and look like paper")
	}
}

// On a strong theme nothing that means anything is a hairline; guides, what is decoration, and frames with no room for it stay as thin as they were.
func TestLinesOnAStrongTheme(t *testing.T) {
	widths := func(th *Theme) (all []float64) {
		p := NewPage(960, 600, 0, th)
		p.Line("pen", 10, 10, 300, 200, Paint{Line: Pitch, Width: 1.2})
		p.RoundRect("key", Rect{10, 300, 100, 24}, 4, Paint{Line: Rule})
		p.Circle("mark", 400, 300, 20, Paint{Line: Ink, Width: 5})
		p.Line("guide", 10, 400, 300, 500, Paint{Line: Rule, Under: true})
		p.Line("decoration", 10, 500, 300, 580, Paint{Line: Grid})
		p.Rect("tight", Rect{500, 300, 26, 15}, Paint{Line: Rule})
		for _, it := range p.Items() {
			all = append(all, it.Width)
		}
		return all
	}
	for _, th := range Themes() {
		want := []float64{1.2, 1, 5, 1, 1, 1}
		if th.Strong {
			want = []float64{2, 2, 5, 1, 1, 1}
		}
		if got := widths(th); !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", th.Name, got, want)
		}
	}
}

func TestThemesAreFoundByNameAndByWhatTheyAreFor(t *testing.T) {
	for _, th := range Themes() {
		if ThemeNamed(th.Name) != th || ThemeOf(th.Dark, th.Strong) != th {
			t.Errorf("%s is not found", th.Name)
		}
		if is := th.Colour(Paper).Luminance() < 0.18; is != th.Dark { // 0.18 is as far from black as from white, by contrast
			t.Errorf("%s: dark is %v", th.Name, th.Dark)
		}
	}
	if ThemeNamed("print") != nil || ThemeNamed("") != nil {
		t.Error("what cannot be chosen is found")
	}
}

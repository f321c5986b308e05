package ink

import (
	"bytes"
	"math"
	"sync"
	"testing"

	"github.com/go-text/typesetting/di"
	gofont "github.com/go-text/typesetting/font"
	"github.com/go-text/typesetting/language"
	"github.com/go-text/typesetting/shaping"
	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"

	"propsoff.example/assets/face"
)

var samples = []string{"ARMED", "DISARMED", "Throttle reads 1012 µs; bring it below 1000", "AVATAR To WAVE Ty fi ffl",
	"0123456789 ±0.5 % −100 → 30°", "Größe, naïve, łąka, Ωμέγα, Привет", " ", "", "i"}

func ttf(w Weight) []byte {
	if w == Bold {
		return face.Bold()
	}
	return face.Regular()
}

// The window draws with the shaping library of go-text over the same bytes: its widths are the reference. It places
// characters in 1/64 px, so short texts differ by rounding alone.
func TestWidthsAgreeWithTheShaperOfTheWindow(t *testing.T) {
	for _, w := range []Weight{Regular, Bold} {
		f, err := gofont.ParseTTF(bytes.NewReader(ttf(w)))
		if err != nil {
			t.Fatal(err)
		}
		for _, text := range samples {
			for _, size := range []float64{11, 12, 13, 24, 48, 160} {
				runes := []rune(text)
				out := (&shaping.HarfbuzzShaper{}).Shape(shaping.Input{Text: runes, RunEnd: len(runes), Direction: di.DirectionLTR,
					Face: f, Size: fixed.Int26_6(size * 64), Script: language.Latin, Language: "en"})
				want, got := float64(out.Advance)/64, Width(text, size, w)
				if math.Abs(got-want) > 0.01*want+1.0/64*float64(len(runes)) {
					t.Errorf("%v %v px %q: %.3f px, the shaper says %.3f", w, size, text, got, want)
				}
			}
		}
	}
}

// A second reference: the OpenType reader of golang.org/x/image, unhinted, at a size where 1/64 px is small.
func TestWidthsAndHeightsAgreeWithOpentype(t *testing.T) {
	for _, w := range []Weight{Regular, Bold} {
		parsed, err := opentype.Parse(ttf(w))
		if err != nil {
			t.Fatal(err)
		}
		const size = 500
		f, err := opentype.NewFace(parsed, &opentype.FaceOptions{Size: size, DPI: 72, Hinting: font.HintingNone})
		if err != nil {
			t.Fatal(err)
		}
		for _, text := range samples {
			bounds, advance := font.BoundString(f, text)
			if got, want := Width(text, size, w), float64(advance)/64; math.Abs(got-want) > 0.001*want+0.1 {
				t.Errorf("%v %q: %.2f px, want %.2f", w, text, got, want)
			}
			top, bottom := faces()[w].extent(text)
			if math.Abs(top*size+float64(bounds.Min.Y)/64) > 0.5 || math.Abs(bottom*size+float64(bounds.Max.Y)/64) > 0.5 {
				t.Errorf("%v %q: drawn from %.2f to %.2f px, want %v", w, text, top*size, bottom*size, bounds)
			}
		}
		m := f.Metrics()
		for _, c := range []struct {
			name      string
			got, want float64
		}{{"ascent", Ascent(size, w), float64(m.Ascent) / 64}, {"descent", faces()[w].descent * size, float64(m.Descent) / 64},
			{"capitals", CapHeight(size, w), float64(m.CapHeight) / 64}} {
			if math.Abs(c.got-c.want) > 0.1 {
				t.Errorf("%v %s: %.2f px, want %.2f", w, c.name, c.got, c.want)
			}
		}
	}
}

func TestMissingNamesTheCharacter(t *testing.T) {
	for text, want := range map[string]rune{"ARMED": 0, "20 µs → 1": 0, "tick ✓": '✓', "a\nb": '\n', "\xff": 0xFFFD, "🙂": '🙂'} {
		if r, ok := Missing(text, Regular); ok != (want != 0) || r != want {
			t.Errorf("%q: %q %v, want %q", text, r, ok, want)
		}
	}
}

func TestFitTakesTheLargestSizeThatFits(t *testing.T) {
	one := Width("DISARMED", 1, Bold)
	for _, c := range []struct {
		width, least, most, want float64
		fits                     bool
	}{
		{1000, 11, 40, 40, true},            // room for the largest
		{one * 30, 11, 40, 30, true},        // just 30
		{one * 30.9, 11, 40, 30, true},      // down to whole pixels
		{one*30 - 0.01, 11, 40, 29, true},   //
		{one * 5, 11, 40, 11, false},        // never below the smallest
		{one*11 + 0.01, 11, 11.2, 11, true}, //
	} {
		if size, fits := Fit(c.width, c.least, c.most, Bold, "ARMED", "DISARMED"); size != c.want || fits != c.fits {
			t.Errorf("width %.2f: %v %v, want %v %v", c.width, size, fits, c.want, c.fits)
		}
	}
}

func TestMeasuringFromManyGoroutines(t *testing.T) {
	want := Width(samples[2], 20, Regular)
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			for range 100 {
				if got := Width(samples[2], 20, Regular); got != want {
					t.Errorf("%v, want %v", got, want)
				}
			}
		})
	}
	wg.Wait()
}

func TestABrokenFontIsAnError(t *testing.T) {
	if _, err := measureFace([]byte("not a font")); err == nil {
		t.Error("no error")
	}
}

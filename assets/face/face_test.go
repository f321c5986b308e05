package face_test

import (
	"strings"
	"testing"

	"golang.org/x/image/font/sfnt"

	"propsoff.example/assets/face"
)

// The signs that sheets need beyond plain letters: units, tolerances, arrows, marks.
const needed = "µ°±×−–—…→←↑↓•½‘’“”≥≤≈%/éäöüßñçøåŁżЖΩ"

func TestBothWeightsHoldTheSignsThatSheetsNeed(t *testing.T) {
	for name, ttf := range map[string][]byte{"regular": face.Regular(), "bold": face.Bold()} {
		f, err := sfnt.Parse(ttf)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		var buf sfnt.Buffer
		for _, r := range needed {
			if g, err := f.GlyphIndex(&buf, r); err != nil || g == 0 {
				t.Errorf("%s has no glyph for %q", name, r)
			}
		}
	}
}

func TestLicenceComesAlong(t *testing.T) {
	for _, want := range []string{"Bigelow & Holmes", "Redistributions in binary form", "AS IS"} {
		if !strings.Contains(face.Licence, want) {
			t.Errorf("licence lacks %q", want)
		}
	}
}

package ink

import (
	"fmt"
	"math"
	"testing"
)

// The ten ratios on white that follow from the WCAG 2 formula (w3c.github.io/wcag, relative luminance and contrast
// minimum), to four decimals, and the Okabe-Ito palette on white and black to three (sky blue on white is 2.30748, so
// a third decimal may be off by one).
func TestContrastGivesThePublishedNumbers(t *testing.T) {
	white, black := hex(t, "#FFFFFF"), hex(t, "#000000")
	if got := Contrast(black, white); math.Abs(got-21) > 1e-12 || got != Contrast(white, black) {
		t.Errorf("black on white: %v, want 21 both ways", got)
	}
	for _, c := range []struct {
		hex  string
		want string
	}{
		{"#767676", "4.5422"}, {"#777777", "4.4781"}, {"#949494", "3.0335"}, {"#959595", "2.9953"}, {"#595959", "7.0047"},
		{"#5a5a5a", "6.8969"}, {"#808080", "3.9494"}, {"#ff0000", "3.9985"}, {"#0000ff", "8.5925"}, {"#00ff00", "1.3722"},
	} {
		if got := fmt.Sprintf("%.4f", Contrast(hex(t, c.hex), white)); got != c.want {
			t.Errorf("%s on white: %s, want %s", c.hex, got, c.want)
		}
	}
	for _, c := range []struct {
		hex          string
		white, black float64
	}{
		{"#E69F00", 2.252, 9.324}, {"#56B4E9", 2.308, 9.101}, {"#009E73", 3.421, 6.138}, {"#F0E442", 1.322, 15.881},
		{"#0072B2", 5.185, 4.050}, {"#D55E00", 3.867, 5.430}, {"#CC79A7", 3.061, 6.860}, {"#999999", 2.849, 7.371},
	} {
		w, b := Contrast(hex(t, c.hex), white), Contrast(hex(t, c.hex), black)
		if math.Abs(w-c.white) > 0.0006 || math.Abs(b-c.black) > 0.0006 {
			t.Errorf("%s: %.4f on white, %.4f on black, want %.3f and %.3f", c.hex, w, b, c.white, c.black)
		}
	}
}

// Lightest greys that pass 3, 4.5 and 7 on white: 94, 76, 59 (hex). Nothing is rounded before it is compared.
func TestLightestPassingGreys(t *testing.T) {
	for limit, want := range map[float64]uint8{3: 0x94, 4.5: 0x76, 7: 0x59} {
		grey := uint8(255)
		for Contrast(Colour{grey, grey, grey}, Colour{255, 255, 255}) < limit {
			grey--
		}
		if grey != want {
			t.Errorf("limit %v: %02x, want %02x", limit, grey, want)
		}
	}
}

func TestColourIsAnImageColour(t *testing.T) {
	r, g, b, a := (Colour{0x12, 0x34, 0xFF}).RGBA()
	if r != 0x1212 || g != 0x3434 || b != 0xFFFF || a != 0xFFFF {
		t.Errorf("got %04x %04x %04x %04x", r, g, b, a)
	}
	if s := (Colour{0x12, 0x34, 0xFF}).String(); s != "#1234FF" {
		t.Error(s)
	}
}

func hex(t *testing.T, s string) (c Colour) {
	t.Helper()
	if _, err := fmt.Sscanf(s, "#%02x%02x%02x", &c.R, &c.G, &c.B); err != nil {
		t.Fatal(err)
	}
	return c
}

package ink_test

import (
	"flag"
	"fmt"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ink/raster"
)

var pictures = flag.String("pictures", "", "folder to write the example sheet to, as PNG")

// The example sheet as a picture, to be looked at: go test -pictures FOLDER. Without it the pictures are drawn all the
// same, and the large parts of the sheet must show in their colours.
func TestExampleAsPicture(t *testing.T) {
	for _, th := range []*ink.Theme{ink.Light(), ink.Dark()} {
		for _, s := range [][2]float64{{960, 600}, {1920, 1080}} {
			p := ink.NewPage(s[0], s[1], 0, th)
			ink.Example(p)
			m, err := raster.Image(p)
			if err != nil {
				t.Fatal(err)
			}
			count := map[ink.Colour]int{}
			for y := range m.Rect.Dy() {
				for x := range m.Rect.Dx() {
					c := m.RGBAAt(x, y)
					count[ink.Colour{R: c.R, G: c.G, B: c.B}]++
				}
			}
			all := m.Rect.Dx() * m.Rect.Dy()
			for r, least := range map[ink.Role]float64{ink.Paper: 0.5, ink.Panel: 0.1, ink.Armed: 0.01, ink.Disarmed: 0.003, ink.Grid: 0.0005,
				ink.Throttle: 0.0003, ink.Yaw: 0.0003, ink.Pitch: 0.0003, ink.Roll: 0.0003, ink.Refusal: 0.0003, ink.Link: 0.002} {
				if got := float64(count[th.Colour(r)]) / float64(all); got < least {
					t.Errorf("%s %v: %v covers %.5f of the picture, want %v", th.Name, s, r, got, least)
				}
			}
			if *pictures == "" {
				continue
			}
			f, err := os.Create(filepath.Join(*pictures, fmt.Sprintf("%s-%.0f.png", th.Name, s[0])))
			if err != nil {
				t.Fatal(err)
			}
			if err := png.Encode(f, m); err != nil {
				t.Error(err)
			}
			if err := f.Close(); err != nil {
				t.Error(err)
			}
		}
	}
}

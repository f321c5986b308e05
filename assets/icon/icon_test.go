package icon_test

import (
	"fmt"
	"image"
	"image/color"
	_ "image/png"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/icon"
)

func TestPicturesAreOfTheirSizes(t *testing.T) {
	var sizes []int
	for _, m := range icon.Pictures() {
		sizes = append(sizes, m.Bounds().Dx())
		assert.Equal(t, m.Bounds().Dx(), m.Bounds().Dy())
	}
	assert.Equal(t, []int{16, 32, 48, 64}, sizes)
}

// Each size shows what is drawn: a renderer of today comes to the same picture, give or take the edges.
func TestSizesAreMadeFromTheDrawing(t *testing.T) {
	if _, err := exec.LookPath("rsvg-convert"); err != nil {
		t.Skip("rsvg-convert is not installed: the sizes are not held against the drawing")
	}
	for _, size := range []int{16, 32, 48, 64, 128, 256} {
		fresh := filepath.Join(t.TempDir(), "fresh.png")
		out, err := exec.Command("rsvg-convert", "-w", fmt.Sprint(size), "-h", fmt.Sprint(size), "icon.svg", "-o", fresh).CombinedOutput()
		require.NoError(t, err, string(out))
		a, b := picture(t, fmt.Sprintf("%d.png", size)), picture(t, fresh)
		far, inked := 0, 0
		for y := range size {
			for x := range size {
				p, q := color.NRGBAModel.Convert(a.At(x, y)).(color.NRGBA), color.NRGBAModel.Convert(b.At(x, y)).(color.NRGBA)
				if d := int(p.R) - int(q.R); p.A > 0 && (d > 32 || d < -32) {
					far++
				}
				if p.R < 64 && p.A == 255 {
					inked++
				}
			}
		}
		assert.LessOrEqual(t, far, size*size/100, "%d: scripts/icons makes the sizes anew", size)
		assert.Greater(t, inked, size*size/20, "%d", size)
	}
}

func picture(t *testing.T, file string) image.Image {
	f, err := os.Open(file)
	require.NoError(t, err)
	defer f.Close()
	m, _, err := image.Decode(f)
	require.NoError(t, err)
	return m
}

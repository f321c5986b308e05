package uitest

import (
	"bytes"
	"image"
	paint "image/draw"
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/ink/raster"
	"propsoff/cmd/propsoff/internal/ui"
)

// PartsAlone holds that what a page is told to have changed, drawn over the picture of the page before, gives the picture of the whole page:
// the scene on a sheet of paper that was empty, and a moment later.
func PartsAlone(t *testing.T, s *Stage, page func(*ink.Page, *ui.View)) {
	before, now := ink.NewPage(960, 600, 0, nil), ink.NewPage(960, 600, 0, nil)
	picture, err := raster.Image(before)
	require.NoError(t, err)
	for range 2 {
		now.Reset(960, 600, 0, nil)
		page(now, s.V)
		whole, err := raster.Image(now)
		require.NoError(t, err)
		for _, r := range now.Since(before, nil) {
			part := image.Rect(int(r.X), int(r.Y), int(r.Right()), int(r.Bottom()))
			require.True(t, part.In(whole.Rect) && !part.Empty(), "%v", part)
			paint.Draw(picture, part, whole, part.Min, paint.Src)
		}
		require.True(t, bytes.Equal(picture.Pix, whole.Pix), "a pixel was left as it was")
		before, now, picture = now, before, whole
		s.Wait(40)
	}
}

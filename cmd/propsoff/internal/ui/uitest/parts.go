package uitest

import (
	"bytes"
	"image"
	paint "image/draw"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ink/raster"
	"propsoff.example/cmd/propsoff/internal/ui"
)

// PartsAlone holds that what a page is told to have changed, drawn over the picture of the page before, gives the picture of the whole page: a
// view on a sheet of paper that was empty, and again after each of some changes.
func PartsAlone(t *testing.T, v *ui.View, draw func(*ink.Page, *ui.View), changes ...func()) {
	t.Helper()
	before, now := ink.NewPage(960, 600, 0, nil), ink.NewPage(960, 600, 0, nil)
	picture, err := raster.Image(before)
	require.NoError(t, err)
	for _, change := range append([]func(){func() {}}, changes...) {
		change()
		now.Reset(960, 600, 0, nil)
		draw(now, v)
		if same(before, now) {
			continue
		}
		whole, err := raster.Image(now)
		require.NoError(t, err)
		for _, r := range now.Since(before, nil) {
			part := image.Rect(int(r.X), int(r.Y), int(r.Right()), int(r.Bottom()))
			require.True(t, part.In(whole.Rect) && !part.Empty(), "%v", part)
			paint.Draw(picture, part, whole, part.Min, paint.Src)
		}
		require.True(t, bytes.Equal(picture.Pix, whole.Pix), "a pixel was left as it was")
		before, now = now, before
	}
}

// same tells whether two pages have the same on them.
func same(a, b *ink.Page) bool {
	return slices.EqualFunc(a.Items(), b.Items(), func(x, y ink.Item) bool { return x == y && slices.Equal(a.Points(&x), b.Points(&y)) })
}

package uitest

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/sound"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/sim/layout"
)

// Captions asks of a sheet that the words for what sounds can be read whole in its margin, at the size of class view where it has one, and that
// nothing else moves when they come and go.
func Captions(t *testing.T, v *ui.View, draw func(*ink.Page, *ui.View)) {
	t.Helper()
	p := ink.NewPage(960, 600, 0, nil)
	defer func(was ui.SoundView, book *words.Book) { v.Sound, v.Book = was, book }(v.Sound, v.Book)
	for _, z := range Sizes {
		for _, theme := range ThemesAt(z) {
			for _, book := range BooksAt(z) {
				what := fmt.Sprintf("%vx%v %s %s class %v", z.W, z.H, theme.Name, book.Code(), v.Class)
				page := func(caption words.Text) ink.Sheet {
					v.Sound.Caption, v.Book, v.Theme = caption, book, theme
					p.Reset(z.W, z.H, 0, theme)
					draw(p, v)
					return ink.Describe(p)
				}
				without := page(words.Text{})
				_, there := without.Text("sound-caption")
				assert.False(t, there)
				was := map[string]bool{} // what the sheet itself has is told by its own tests
				for _, q := range ink.Check(p) {
					was[q.String()] = true
				}
				// The longest has three at once, not to be heard.
				for _, caption := range []words.Text{tell.SoundCaptions([]sound.Code{sound.Armed}, false), tell.SoundCaptions([]sound.Code{sound.Refused, sound.LinkBack, sound.OfMode(layout.Horizon)}, true)} {
					with := page(caption)
					for _, q := range ink.Check(p) {
						if !was[q.String()] && q.Fault != ink.DeadSpace {
							t.Errorf("%s: %v", what, q)
						}
					}
					text, _ := with.Text("sound-caption")
					assert.Equal(t, book.Say(caption), text, "%s: whole", what)
					if v.Class {
						assert.GreaterOrEqual(t, with.Named("sound-caption")[0].Size, 0.035*min(z.H, z.W*600/960), what)
					}
					rest := with.Items[:0]
					for _, it := range with.Items {
						if it.Group != "sound" {
							rest = append(rest, it)
						}
					}
					require.Equal(t, without.Items, rest, "%s: nothing moves", what)
				}
			}
		}
	}
}

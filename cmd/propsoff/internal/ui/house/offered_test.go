package house_test

import (
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/assets"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/live/whodrives"
	"propsoff/cmd/propsoff/internal/ui/screen"
	"propsoff/input/script"
)

// While something is played, each key that a sheet offers does something that is seen: the page differs from that of a person who
// sits before the same and presses nothing.
func TestKeysOfferedWhilePlayedDoSomething(t *testing.T) {
	for _, sheet := range []struct{ open, not string }{
		{"", "Esc"},    // it closes the window
		{"F6", "Down"}, // the lowest position is chosen already
		{"F8", "B"},    // it searches again, with the same result
		{"F4", ""}, {"F9", ""}, {"B", ""}, {"O", ""}, {"C", ""}, {"F", ""}, {"I", ""},
	} {
		sit := func(press string) *person {
			p := sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, s *screen.Options) {
				played, err := script.Parse("lesson", []byte("name: a lesson\nsteps: []\nend: 60s\n"), d.Names)
				require.NoError(t, err)
				d.Script, d.Radios, s.Bare = played.Source(), twoRadios{}, true
			})
			p.wait(100)
			p.tap(sheet.open)
			p.wait(200)
			p.tap(press)
			p.wait(100)
			return p
		}
		idle := sit("")
		untouched := ink.Describe(idle.page)
		keys := 0
		for _, h := range idle.page.Hits() {
			if h.Key != "" && h.Key != sheet.not {
				keys++
				assert.False(t, reflect.DeepEqual(untouched, ink.Describe(sit(h.Key).page)), "%s on the sheet of %q", h.Key, sheet.open)
			}
		}
		assert.Greater(t, keys, 6, sheet.open)
	}
}

package uitest

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/help"
)

// KeysAreThere draws a sheet and asks that all that can be done on it is there with its key, to be clicked, or in its help; that nothing is on it
// that cannot be done; that its own keys stand on the sheet; and that no key has two jobs or is one of the pilot's. some are actions
// whose keys must be on the sheet.
func KeysAreThere(t *testing.T, on ui.Place, draw func(*ink.Page, *ui.View), v *ui.View, some ...ui.Action) {
	t.Helper()
	p := ink.NewPage(960, 600, 0, nil)
	draw(p, v)
	hits, keys := map[string]string{}, map[string]bool{}
	for _, h := range p.Hits() {
		hits[h.Name] = h.Key
	}
	helped := InHelp(v, on)
	for _, k := range ui.LayoutKeys {
		keys[k.Physical] = v.House.Flown(on)
	}
	for _, a := range v.House.Keys(on) {
		assert.False(t, keys[a.Physical], "%s on place %s", a.Physical, on)
		keys[a.Physical] = true
		if _, drawn := hits[a.Action.Code()]; drawn {
			assert.True(t, v.Shows(a.Action, on), a.Action.Code())
			assert.Equal(t, a.Physical, hits[a.Action.Code()], a.Action.Code())
		}
		assert.True(t, helped[a.Action.Code()], "help of %s does not tell of %s", on, a.Action.Code())
	}
	own, common := v.Printed(on)
	for _, a := range append(own, common...) {
		assert.Contains(t, hits, a.Code(), "not printed")
	}
	for _, a := range v.House.Of(on).Own {
		if v.Shows(a.Action, on) && a.Action != ui.Understood {
			assert.Contains(t, own, a.Action)
		}
	}
	for _, a := range some {
		assert.Contains(t, hits, a.Code())
	}
}

// InHelp are the actions that the help of a sheet tells of, by their code words.
func InHelp(v *ui.View, on ui.Place) map[string]bool {
	all := map[string]bool{}
	_, codes := help.Listed(v, on)
	for _, code := range codes {
		all[code] = true
	}
	return all
}

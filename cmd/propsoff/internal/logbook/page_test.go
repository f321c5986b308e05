//go:build !js

package logbook

import (
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff.example/scripts/browser"
	"propsoff.example/scripts/browser/onfloor"
)

// Two pages that append to one logbook at once, on a browser's storage, lose nothing and tear nothing; and without the browser's locks neither.
func TestTwoPagesAppendToOneLogbook(t *testing.T) {
	place := onfloor.For(t, "propsoff.example/cmd/propsoff/internal/logbook")
	for _, before := range []string{"", "Object.defineProperty(navigator, 'locks', {value: undefined})"} {
		b := browser.For(t)
		one, two := place.Open(b, before), place.Open(b, before)
		place.Begin(one, "^TestPageAppends$", "FROM=0", "MANY=60")
		place.Begin(two, "^TestPageAppends$", "FROM=60", "MANY=60")
		for _, p := range []*browser.Page{one, two} {
			passed, said := place.End(p)
			require.True(t, passed, said)
		}
		place.Run(one, "^TestPageAppends$", "FROM=120", "MANY=0", "ALL=120")
		b.Kill()
	}
}

package inpage_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// sooner has each minute of the page pass at once.
const sooner = `;{ const every = setInterval; globalThis.setInterval = (f, ms, ...more) => every(f, ms === 60000 ? 100 : ms, ...more); }`

// A page that “propsoff serve” gives tells it that it is open, within what the page may do, and goes on so after it was loaded again.
func TestTheServedPageTellsThatItIsOpen(t *testing.T) {
	d := served(t, size{960, 640, 1, false})
	d.open(sooner)
	told := `performance.getEntriesByType("resource").filter(e => e.name.endsWith("/stays") && e.responseStatus === 204).length >= 2`
	d.must(d.p.WaitFor(told, patience))
	d.must(d.p.Reload())
	d.must(d.p.WaitFor(told, patience))
	assert.NotContains(t, strings.Join(d.p.Said(), "\n"), "stays")
}

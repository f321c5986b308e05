package inpage_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// looks waits until the sheet is in a theme and the page's own strip in its colour, as CSS tells it.
func (d *desk) looks(theme, strip string) {
	d.t.Helper()
	for begun := time.Now(); d.sheet().Theme != theme; time.Sleep(look) {
		if time.Since(begun) > patience {
			d.fail("the sheet is %s and not %s", d.sheet().Theme, theme)
		}
	}
	d.must(d.p.WaitFor(fmt.Sprintf("getComputedStyle(document.getElementById('strip')).backgroundColor === %q", strip), patience))
}

// prefers says what a person has asked of every page.
func (d *desk) prefers(features ...string) {
	d.t.Helper()
	all := map[string]string{}
	for i := 0; i < len(features); i += 2 {
		all[features[i]] = features[i+1]
	}
	d.must(d.p.Prefers(all))
}

// The page and its sheets are as a person has set the system, at once; what is chosen on the sheet wins, and the page's own strip goes with it.
func TestThePageIsAsTheSystemSays(t *testing.T) {
	d := sit(t, keys, size{1280, 800, 1, false})
	d.looks("light", "rgb(241, 237, 225)")
	d.prefers("prefers-color-scheme", "dark")
	d.looks("dark", "rgb(26, 31, 38)")
	d.prefers("prefers-color-scheme", "dark", "prefers-contrast", "more")
	d.looks("white-on-black", "rgb(0, 0, 0)")
	d.picture("white-on-black")
	d.prefers("prefers-contrast", "more")
	d.looks("black-on-white", "rgb(255, 255, 255)")
	d.picture("black-on-white")
	d.prefers()
	d.looks("light", "rgb(241, 237, 225)")
	d.prefers("forced-colors", "active")
	for begun := time.Now(); d.sheet().Theme != "black-on-white"; time.Sleep(look) {
		require.Less(t, time.Since(begun), patience)
	}
	d.prefers()
	d.looks("light", "rgb(241, 237, 225)")

	usual := d.sheet().Scale
	d.must(d.p.Call("Page.setFontSizes", map[string]any{"fontSizes": map[string]any{"standard": 18}}, nil))
	for begun := time.Now(); d.sheet().Scale <= usual; time.Sleep(look) {
		require.Less(t, time.Since(begun), patience, "text is no larger")
	}
	var strip float64
	d.must(d.p.Eval("document.getElementById('strip').offsetHeight", &strip))
	assert.Equal(t, 45.0, strip)
	d.picture("larger-text")

	d.press("understood")
	d.press("start-row-2")
	d.row("The bench")
	d.reads("ARMED")
	assert.True(t, d.turns())
	d.prefers("prefers-reduced-motion", "reduce")
	d.drawn()
	assert.False(t, d.turns())

	d.must(d.p.Press("F5"))
	d.looks("dark", "rgb(26, 31, 38)")
	d.prefers("prefers-contrast", "more")
	d.drawn()
	d.looks("dark", "rgb(26, 31, 38)")
}

// turns tells whether the mark of an armed craft turns.
func (d *desk) turns() bool {
	d.t.Helper()
	first, seen := [4]float64{}, 0
	for begun := time.Now(); seen < 8 && time.Since(begun) < patience; time.Sleep(look) {
		for _, i := range d.sheet().Items {
			if i.Name != "turning" {
				continue
			}
			if seen++; seen > 1 && i.Box != first {
				return true
			}
			first = i.Box
			break
		}
	}
	require.Equal(d.t, 8, seen, "it is not armed for long enough")
	return false
}

package house_test

import (
	"fmt"
	"reflect"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
)

// helped opens help and turns its pages until a row stands there; ok is false where none does.
func (p *person) helped(row string) (h ink.Hit, ok bool) {
	p.tap("F1")
	for {
		for _, h := range p.page.Hits() {
			if h.Name == row {
				return h, true
			}
		}
		page := ink.Describe(p.page)
		if p.tap("PageDown"); reflect.DeepEqual(page, ink.Describe(p.page)) {
			return ink.Hit{}, false
		}
	}
}

// wordsRead are the texts of the page without their numbers, which go on with time.
func (p *person) wordsRead() (all []string) {
	for _, text := range texts(p) {
		all = append(all, strings.Map(func(r rune) rune {
			if unicode.IsDigit(r) || r == '-' {
				return -1
			}
			return r
		}, text))
	}
	return all
}

// Whoever clicks or touches a row of help comes to where its key, pressed on the sheet at that moment, leads.
func TestRowsOfHelpDoWhatTheirKeysDo(t *testing.T) {
	const prefix = "help-row "
	for _, c := range []struct {
		keys   string
		on     ui.Place
		finger bool
		least  int
	}{{"", ui.OnBench, false, 30}, {"F6 Slash", ui.OnLayout, true, 15}} {
		sit := before(c.keys, nil)
		first, all := sit(t), map[string]string{}
		first.tap("F1")
		for turned := true; turned; {
			for _, h := range first.page.Hits() {
				if code, ok := strings.CutPrefix(h.Name, prefix); ok {
					all[code] = h.Key
				}
			}
			page := ink.Describe(first.page)
			first.tap("PageDown")
			turned = !reflect.DeepEqual(page, ink.Describe(first.page))
		}
		require.GreaterOrEqual(t, len(all), c.least)
		for code, key := range all {
			if !first.s.House.Has(c.on, ui.Action(code)) && first.s.House.KeyOf(ui.Action(code)) != "" || key == "F1" {
				continue // it works on the bench alone, and says so
			}
			t.Run(fmt.Sprint(c.on, " ", code), func(t *testing.T) {
				byHelp, byKey := sit(t), sit(t)
				touch := func(p *person) { // a first finger makes rows higher: nothing is there
					p.point(ink.Pointer{Finger: c.finger}, ink.Rect{}, 0, 0)
					p.point(ink.Pointer{Finger: c.finger, Phase: ink.Up}, ink.Rect{}, 0, 0)
				}
				touch(byHelp)
				touch(byKey)
				h, ok := byHelp.helped(prefix + code)
				require.True(t, ok)
				byHelp.point(ink.Pointer{Finger: c.finger}, h.Box, 0.5, 0.5)
				for byKey.clock.now < byHelp.clock.now {
					byKey.wait(16)
				}
				byHelp.point(ink.Pointer{Finger: c.finger, Phase: ink.Up}, h.Box, 0.5, 0.5)
				byKey.s.Key(key, true)
				touch(byKey) // both hands are a finger again: keys have names in sentences, and a finger has none
				byKey.wait(120)
				byHelp.wait(int(byKey.clock.now-byHelp.clock.now) / 1000)
				require.Equal(t, byKey.s.Place(), byHelp.s.Place())
				if place := ui.Place(code); byKey.s.House.Of(place) == nil && !(c.finger && code == "leaf-on") { // a search goes on by the real clock; a key makes rows lower, and so other leaves
					a, b := byKey.wordsRead(), byHelp.wordsRead()
					for i := range max(len(a), len(b)) {
						require.True(t, i < len(a) && i < len(b) && a[i] == b[i], "text %d: %q, not %q", i, a[min(i, len(a)-1)], b[min(i, len(b)-1)])
					}
				}
				assert.Equal(t, byKey.quit, byHelp.quit)
			})
		}
	}
}

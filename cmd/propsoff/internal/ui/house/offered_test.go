package house_test

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/input/script"
)

// Each key that a sheet offers does something that is seen, on every sheet and while something is played: the page differs from that of a person
// who sits before the same and presses nothing, or the window closes.
func TestKeysOfferedDoSomething(t *testing.T) {
	bare := func(t *testing.T) *person {
		return sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, s *screen.Options) { s.Bare, s.Outside = true, true })
	}
	played := func(t *testing.T) *person {
		return sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, s *screen.Options) {
			lesson, err := script.Parse("lesson", []byte("name: a lesson\nsteps: []\nend: 60s\n"), d.Names)
			require.NoError(t, err)
			d.Script, d.Radios, s.Bare = lesson.Source(), twoRadios{}, true
		})
	}
	seats := map[ui.Place]func(*testing.T) *person{ // where a sheet is not simply opened over the bench by its key
		ui.OnCautions:  func(t *testing.T) *person { return sitDown(t, "") },
		ui.OnQuestions: func(t *testing.T) *person { p, _ := plugIn(t); return p },
		ui.OnWhich:     func(t *testing.T) *person { p, _ := plugIn(t, "A1", "B2"); return p },
		ui.OnHelp:      bare,
		ui.OnAsk: func(t *testing.T) *person { // whether an armed craft is left
			p := sitDown(t, "")
			p.taps("Enter X")
			p.wait(2500)
			p.taps("Space Esc")
			return p
		},
		ui.OnSeats: func(t *testing.T) *person {
			p, _ := atTheRadio(t)
			p.taps("F6 Backquote")
			return p
		},
		ui.OnWrite: func(t *testing.T) *person {
			p := sitDown(t, "")
			p.taps("Enter V Insert A")
			return p
		},
		ui.OnCheck: func(t *testing.T) *person { p, _ := atTheRadio(t); return p },
		ui.OnGestures: func(t *testing.T) *person {
			return atGestures(t, assets.BuiltIn, "", func(o *screen.Options) { o.Open = ui.NoAction })
		},
	}
	house := uitest.AllSheets()
	opens := map[ui.Place]string{ui.OnHelp: "F1", ui.OnFiles: "Home 3 6"}
	after := map[ui.Place]string{ui.OnCheck: "PageDown", ui.OnLoss: "L"} // so that there is something to begin anew
	not := map[ui.Place]string{                                          // what the state that the sheet is in holds already
		ui.OnAsk:    "PageUp",   // the first answer is marked
		ui.OnStart:  "PageUp",   // the first door is
		ui.OnFiles:  "PageUp",   // the first craft is marked
		ui.OnPeople: "PageDown", // nobody is all there is
		ui.OnCard:   "F11",      // it is drawn alike in class view
		ui.OnLayout: "Down",     // the lowest position is chosen
		ui.OnProve:  "Slash",    // it searches again, with the same result
		ui.OnThree:  "K",        // the craft stands at the start
	}
	for _, about := range house.Sheets() {
		place := about.Place
		for _, playing := range []bool{false, true} {
			make, keys, least := seats[place], opens[place], 3
			if keys == "" {
				keys = about.Key
			}
			if about.InAir { // the craft is carried outside first
				keys = "S " + house.KeyOf(ui.OnFirst.Open()) + " Enter " + about.Key
			}
			if make == nil {
				require.True(t, keys != "" || place == ui.OnBench, "%s is not opened by a key: who sits before it?", place)
				make = bare
			}
			if playing && (about.InAir || about.Key == "" && place != ui.OnBench) {
				continue // nothing is played there
			}
			if playing {
				make, least = played, 7
			}
			t.Run(fmt.Sprint(place, " played ", playing), func(t *testing.T) {
				sit := func(press string) *person {
					p := make(t)
					p.wait(100)
					for _, key := range strings.Fields(keys + " " + after[place]) {
						p.tap(key)
					}
					p.wait(200)
					require.Equal(t, place, p.s.Place())
					p.tap(press)
					p.wait(100)
					return p
				}
				idle := sit("")
				untouched, n := ink.Describe(idle.page), 0
				offered := map[string]string{}
				for _, h := range idle.page.Hits() {
					if !strings.HasPrefix(h.Name, "help-row") { // its key works on the sheet that it is of
						offered[h.Key] = h.Name
					}
				}
				for _, a := range house.Keys(place) { // most are found by help
					if idle.s.View().Shows(a.Action, place) {
						offered[a.Physical] = a.Action.Code()
					}
				}
				delete(offered, "")
				delete(offered, not[place])
				for key, name := range offered {
					n++
					p := sit(key)
					assert.True(t, p.quit || !reflect.DeepEqual(untouched, ink.Describe(p.page)), "%s (%s) is offered, and pressed it does nothing: hide it by Shows; where the sheet stands already as it would have it, name it above", key, name)
				}
				assert.GreaterOrEqual(t, n, least)
			})
		}
	}
}

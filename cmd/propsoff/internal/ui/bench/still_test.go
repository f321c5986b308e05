package bench_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/bench"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/input/keyboard"
)

// places are where a hand finds sticks and levers on a page: what can be taken, and the wells and slots that it is drawn in.
func places(p *ink.Page) (all map[string][]ink.Rect) {
	all = map[string][]ink.Rect{}
	add := func(name string, r ink.Rect) {
		if !slices.Contains(all[name], r) {
			all[name] = append(all[name], r)
		}
	}
	for _, h := range p.Hits() {
		if strings.HasPrefix(h.Name, "stick-") || slices.ContainsFunc(ui.LayoutKeys, func(k keyboard.Binding) bool { return k.Code == h.Name }) {
			add("hit "+h.Name, h.Box)
		}
	}
	for _, it := range p.Items() {
		if strings.HasSuffix(it.Name, " well") || strings.HasSuffix(it.Name, " slot") {
			add(it.Name, it.Box)
		}
	}
	return all
}

// In no situation of a craft do sticks and levers stand anywhere else: a hand that drags one would lose it. Of a switch only positions that it is not
// in can be pressed, so the places of all situations are put together.
func TestSticksAndLeversStayWhereTheyAre(t *testing.T) {
	type key struct{ craft, size, hand string }
	first := map[key]map[string][]ink.Rect{}
	said := map[key]map[string]bool{}
	for _, sc := range slices.Concat(uitest.Scenes, flightScenes) {
		s := sc.Make(t)
		v := s.V
		v.Notices, v.Choosing, v.Recording, v.CanRecord = nil, false, "", false // they stand below, and come of nothing that a stick does
		for _, z := range []uitest.Size{{W: 960, H: 600}, {W: 1280, H: 800}, {W: 1920, H: 1080}, {W: 1200, H: 1920}} {
			for _, book := range uitest.BooksAt(uitest.Sizes[0]) {
				for _, class := range []bool{false, true} {
					v.Book, v.Class, v.Full = book, class, class
					v.Driver, v.DriverName, v.Ended, v.Next, v.NextName = ui.Keyboard, "", false, ui.Demo, ""
					v.Radios, v.Reading = nil, -1
					s.Facts()
					if v.Flight.Replay.On {
						continue // nothing is flown in a look back
					}
					p := ink.NewPage(z.W, z.H, 0, nil)
					bench.Draw(p, v)
					k := key{fmt.Sprint(v.Config.Layout, v.Config.Arming, v.Snap.In.Air), fmt.Sprint(z, class), book.Code()}
					now := places(p)
					require.NotEmpty(t, now)
					if said[k] == nil {
						said[k], first[k] = map[string]bool{}, now
					}
					said[k][v.Say(v.How(ui.OnBench))] = true
					for name, boxes := range now {
						for _, box := range boxes {
							for _, was := range first[k][name] {
								if one := !strings.HasPrefix(name, "hit ") || strings.HasPrefix(name, "hit stick-"); was != box && (one || was.Inset(1).Meets(box)) {
									assert.Fail(t, "moved", "%s: %s stands at %v and stood at %v, %s %s", sc.Name, name, box, was, k.size, k.hand)
								}
							}
							if !slices.Contains(first[k][name], box) {
								first[k][name] = append(first[k][name], box)
							}
						}
					}
				}
			}
		}
	}
	most := 0
	for _, all := range said {
		most = max(most, len(all))
	}
	assert.Greater(t, most, 8, "of one craft many sentences were compared")
}

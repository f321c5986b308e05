package start_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/start"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
)

// at is the sheet over a stage's bench.
func at(t testing.TB, own start.View) *uitest.Stage {
	s := uitest.Ready(t)
	*start.Of(s.V) = own
	return s
}

// doors are the four doors as they stand for somebody who has drills to do.
func doors(next, marked int) start.View {
	return start.View{Door: start.NoDoor, At: marked, Next: next, Stands: [start.Doors]words.Text{
		words.T("start.no-radio"), words.T("start.due", words.Args{"n": words.Count(3)}), words.T("start.not-proved"), words.T("start.teach-stands"),
	}}
}

// rows are so many things behind a door, the longest that there are.
func rows(n int) (all []ui.Offer) {
	for i := range n {
		all = append(all, ui.Offer{Says: words.T("start.to-first-flight"), Stands: words.T("start.first-stands", words.Args{"air": words.Flag(false)}), Next: i == 0, Marked: i == 1})
	}
	return all
}

func TestTheStartInEveryScene(t *testing.T) {
	uitest.InEveryScene(t, "start", []uitest.Scene{
		{Name: "doors", Make: func(t testing.TB) *uitest.Stage { return at(t, doors(start.Practise, start.Practise)) },
			Says: []string{"What do you want to do?", "Plug in my radio", "Practise now", "Check my switches", "Teach", "3 drills are due.", "next"}},
		{Name: "another door marked", Make: func(t testing.TB) *uitest.Stage { return at(t, doors(start.Plug, start.Teach)) }},
		{Name: "behind a door", Make: func(t testing.TB) *uitest.Stage {
			return at(t, start.View{Door: start.Plug, At: 1, Rows: rows(4), Note: words.Row(words.T("notice.no-radio"), words.T("start.no-files"))})
		}, Says: []string{"Before the first flight  (next)", "No radio is plugged in."}},
		{Name: "much behind a door", Make: func(t testing.TB) *uitest.Stage {
			return at(t, start.View{Door: start.Teach, At: 6, Rows: rows(7), Note: words.T("start.files", words.Args{"names": words.AsIs(uitest.LongName)})})
		}},
	}, start.Draw)
}

// Each door, and each thing behind one, is there to be pressed.
func TestEveryDoorCanBePressed(t *testing.T) {
	for n, own := range map[int]start.View{4: doors(0, 0), 7: {Door: start.Plug, Rows: rows(7)}} {
		s, p, hits := at(t, own), ink.NewPage(960, 600, 0, nil), map[string]bool{}
		start.Draw(p, s.V)
		for _, h := range p.Hits() {
			hits[h.Name] = true
		}
		for i := range n {
			assert.True(t, hits["start-row-"+string(rune('1'+i))], "%d of %d", i, n)
		}
	}
	uitest.KeysAreThere(t, ui.OnStart, start.Draw, at(t, doors(0, 0)).V, start.Open, ui.Leave)
}

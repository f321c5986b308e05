package people_test

import (
	"testing"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/people"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
)

// with is the sheet with so many people; the first of them practises and is marked.
func with(t testing.TB, n int) *uitest.Stage {
	s := uitest.Ready(t)
	own := people.Of(s.V)
	own.Says, own.Person, own.Several, own.At = words.T("people.now", words.Args{"name": words.Quote("Mara")}), true, true, 2
	own.Rows = []ui.Offer{{Says: words.T("people.nobody"), Stands: words.T("people.nobody-stands", words.Args{"now": words.Flag(false)})}, {Says: words.T("people.new"), Stands: words.T("people.new-stands")}}
	for i := range n {
		name := []string{"Mara", "Mara Lindqvist", "Zoé Weiß-Ärm", uitest.LongName}[i%4]
		s.Names = append(s.Names, name)
		own.Rows = append(own.Rows, ui.Offer{Says: words.AsIs(name)})
	}
	if n > 0 {
		own.Rows[2].Stands, own.Rows[2].Marked = words.T("people.practises"), true
	}
	return s
}

func TestPeopleInEveryScene(t *testing.T) {
	uitest.InEveryScene(t, "people", []uitest.Scene{
		{Name: "nobody yet", Make: func(t testing.TB) *uitest.Stage {
			s := with(t, 0)
			people.Of(s.V).Says, people.Of(s.V).At = words.T("people.now", words.Args{"name": words.Quote("")}), 1
			people.Of(s.V).Rows[1].Marked = true
			return s
		}, Says: []string{"Who practises?", "Nobody", "A new name …"}},
		{Name: "some", Make: func(t testing.TB) *uitest.Stage {
			s := with(t, 3)
			s.V.Practises = words.T("people.tag", words.Args{"name": words.Quote("Mara")})
			return s
		}, Says: []string{"Mara practises.", "Mara practises", "practises now", "Zoé Weiß-Ärm"}},
		{Name: "a class, one merged", Make: func(t testing.TB) *uitest.Stage {
			s := with(t, 28)
			people.Of(s.V).Says, people.Of(s.V).Merging = words.T("people.into", words.Args{"name": words.Quote("Mara")}), true
			people.Of(s.V).Trouble = words.T("people.drill")
			return s
		}, Says: []string{"Into whose logbook does that of Mara go?"}},
	}, people.Draw)
}

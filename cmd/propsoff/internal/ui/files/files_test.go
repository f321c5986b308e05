package files_test

import (
	"testing"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/files"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
)

// with is the sheet with so many files, and two crafts that ship.
func with(t testing.TB, n int) *uitest.Stage {
	s := uitest.Ready(t)
	own := files.Of(s.V)
	own.Says = words.T("files.about", words.Args{"any": words.Flag(n > 0), "unseen": words.Flag(false)})
	day := tell.Day(time.Date(2031, 11, 24, 18, 0, 0, 0, time.UTC))
	for i := range n {
		name := []string{"heron.yaml", "2031-11-24-180312.take", "Zoé Weiß-Ärm.jsonl", uitest.LongName + ".yaml"}[i%4]
		kind := []words.ID{"craft-file.craft", "door.take", "door.logbook", "radio.file"}[i%4]
		s.Names = append(s.Names, name)
		own.Rows = append(own.Rows, ui.Offer{Says: words.AsIs(name), Stands: words.T("files.stands", words.Args{"kind": words.T(kind), "day": day, "flown": words.Flag(i == 0)})})
	}
	for _, name := range []string{"teasel", "teasel-by-sticks"} {
		s.Names = append(s.Names, name, "-by-sticks")
		own.Rows = append(own.Rows, ui.Offer{Says: words.AsIs(name), Stands: words.T("files.ships", words.Args{"flown": words.Flag(n == 0 && name == "teasel")})})
	}
	own.Flies, own.Goes, own.Renames = true, n > 0, n > 0
	own.Rows[0].Marked = true
	return s
}

func TestFilesInEveryScene(t *testing.T) {
	uitest.InEveryScene(t, "files", []uitest.Scene{
		{Name: "nothing kept yet", Make: func(t testing.TB) *uitest.Stage { return with(t, 0) },
			Says: []string{"Your files", "Nothing of yours is kept yet", "a craft that came with the program; on the bench now"}},
		{Name: "some", Make: func(t testing.TB) *uitest.Stage {
			s := with(t, 4)
			files.Of(s.V).Said = words.T("files.deleted", words.Args{"name": words.Quote("flight.take")})
			return s
		}, Says: []string{"heron.yaml", "; on the bench now", "flight.take is deleted."}},
		{Name: "many, and a sentence", Make: func(t testing.TB) *uitest.Stage {
			s := with(t, 40)
			files.Of(s.V).At, files.Of(s.V).Said = 30, words.T("files.practises", words.Args{"name": words.Quote("Mara")})
			files.Of(s.V).Rows[0].Marked, files.Of(s.V).Rows[30].Marked = false, true
			return s
		}, Says: []string{"This is the logbook of Mara"}},
	}, files.Draw)
}

package write_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/cmd/propsoff/internal/ui/write"
)

// at is the sheet over a stage's bench.
func at(t testing.TB, own write.View) *uitest.Stage {
	s := uitest.Ready(t)
	s.Names = append(s.Names, own.Typed)
	*write.Of(s.V) = own
	return s
}

func TestWritingInEveryScene(t *testing.T) {
	all := []rune("abcdefghijklmnopqrstuvwxyzäöüéß1234567890- ")
	uitest.InEveryScene(t, "write", []uitest.Scene{
		{Name: "a name", Make: func(t testing.TB) *uitest.Stage {
			return at(t, write.View{Says: words.T("people.type"), Typed: "Zoé Weiß-Ärm", Letters: all})
		}, Says: []string{"Zoé Weiß-Ärm_"}},
		{Name: "too much", Make: func(t testing.TB) *uitest.Stage {
			return at(t, write.View{Says: words.T("people.type"), Typed: strings.Repeat("Zoé-", 40), Letters: all, Trouble: words.T("write.full", words.Args{"n": words.Count(24)})})
		}, Says: []string{"Zoé-_", "No more than 24 characters."}},
		{Name: "figures", Make: func(t testing.TB) *uitest.Stage {
			return at(t, write.View{Says: words.T("people.type"), Typed: "1600 2180", Letters: []rune("1234567890. "), More: []words.Text{words.T("people.new")}})
		}},
	}, write.Draw)
}

// Every letter is there to be pressed.
func TestEveryLetterCanBePressed(t *testing.T) {
	s, p, n := at(t, write.View{Letters: []rune("abc- ")}), ink.NewPage(960, 600, 0, nil), 0
	write.Draw(p, s.V)
	for _, h := range p.Hits() {
		if i, ok := ui.NumberOf(h.Name, "write-letter-"); ok {
			assert.Equal(t, n, i)
			n++
		}
	}
	assert.Equal(t, 5, n)
	uitest.KeysAreThere(t, ui.OnWrite, write.Draw, s.V, write.Take, write.Back, ui.Leave)
}

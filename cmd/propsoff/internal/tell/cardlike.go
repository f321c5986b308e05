package tell

import (
	"time"

	"propsoff.example/assets/words"
)

// Like is what a layout was found to behave like: an old one, of which what is empty is the same as now.
type Like struct {
	// Craft and Radio are the names of its files.
	Craft, Radio string
	// CraftWas: it is the same craft file, before it was changed; RadioWas: the same radio, before it was learned anew.
	CraftWas, RadioWas bool
	// On is the day on which they were compared, the zero time for not known.
	On time.Time
}

// CardLike says so on a card. It names no key: paper has none.
func CardLike(l *Like) words.Text {
	on := words.Text{}
	if !l.On.IsZero() {
		on = Day(l.On)
	}
	return words.T("card.like", words.Args{"craft": words.Quote(l.Craft), "changed": words.Flag(l.CraftWas), "radio": words.Quote(l.Radio), "learned": words.Flag(l.RadioWas), "day": on})
}

package card_test

import (
	"testing"

	"propsoff/assets/words"
	"propsoff/assets/words/wordstest"
	"propsoff/cmd/propsoff/internal/paper"
	"propsoff/cmd/propsoff/internal/ui/card"
	"propsoff/cmd/propsoff/internal/ui/uitest"
)

var languages = wordstest.Books()

var _ = words.English

func TestDrawAll(t *testing.T) {
	for _, sc := range scenes {
		c := sc.make(t)
		for _, b := range languages {
			p := paper.A4().Page(300)
			for _, f := range card.PrintBank(p, b, &c) {
				_ = f
			}
			uitest.Draw(t, "bank "+sc.name+" "+b.Code(), p)
			p = paper.A4().Page(130)
			card.Print(p, b, &c)
			uitest.Draw(t, "page "+sc.name+" "+b.Code(), p)
		}
	}
}

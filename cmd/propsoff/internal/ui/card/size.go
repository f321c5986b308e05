package card

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/paper"
)

// Size is which of the two cards it is.
type Size uint8

// The cards.
const (
	Bank      Size = iota // as large as a bank card, front and back, to be cut out and taped to the radio
	Page                  // a page for the folder
	sizeCount             // one more than the last
)

// SizeCodes are their code words, by Size.
func SizeCodes() []string { return []string{"bank", "page"} }

// SizeOf finds a size by its code word.
func SizeOf(code string) (Size, bool) {
	for i, c := range SizeCodes() {
		if c == code {
			return Size(i), true
		}
	}
	return 0, false
}

// name is what a card is called.
func (z Size) name() words.Text { return words.Of("card.size", SizeCodes()[z]) }

// DPI is how many pixels of its page make an inch.
func (z Size) DPI() float64 {
	if z == Bank {
		return BankDPI
	}
	return paper.Fine
}

// Lay lays a card out on paper, and gives the frames that it consists of, in which all of it is looked at closely.
func (z Size) Lay(on paper.Size, book *words.Book, c *Data) (page *ink.Page, frames []ink.Rect) {
	page = on.Page(z.DPI())
	if z == Bank {
		return page, PrintBank(page, book, c)
	}
	return page, Print(page, book, c)
}

// Paper is a card that was laid out on a page as it goes on paper.
func (z Size) Paper(page *ink.Page, book *words.Book, c *Data) paper.Print {
	return paper.Print{Page: page, DPI: z.DPI(), Title: book.Say(words.T("card.file-title", words.Args{"craft": words.Quote(c.Craft)})),
		About: book.Say(words.T("card.file-about", words.Args{"given": words.Flag(c.Given), "radio": words.Quote(c.Radio.Name)})), Language: book.Code(), Date: c.Date}
}

package main

import (
	"bytes"
	"encoding/json"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/belongings"
	"propsoff.example/cmd/propsoff/internal/pageside"
	"propsoff.example/cmd/propsoff/internal/scancode"
)

// listedFile is a file as the page lists it.
type listedFile struct {
	Kind  string `json:"kind"`
	Name  string `json:"name"`
	Size  int64  `json:"size"`
	At    int64  `json:"at"` // ms since 1970
	Short bool   `json:"short"`
	// Plays is what the page's own address plays it by, empty where there is nothing to play.
	Plays string `json:"plays,omitempty"`
	// Flies, Renames, Goes: what may be done with it.
	Flies   bool `json:"flies"`
	Renames bool `json:"renames"`
	Goes    bool `json:"goes"`
}

// given is a link that gives a file away, with its code, or what is wrong.
type given struct {
	Link  string `json:"link,omitempty"`
	Code  string `json:"code,omitempty"` // the d of a path
	Side  int    `json:"side,omitempty"`
	Wrong string `json:"wrong,omitempty"`
	// Way is how the link is passed on: by "code", "here" alone, or too "long" for a code.
	Way string `json:"way,omitempty"`
}

// offerFiles lets the page give and take files. book is the language of the sheets, came is told after something new was kept, with does something with a file
// on its sheet.
func offerFiles(book func() *words.Book, came func(), with func(action, name string)) {
	p, err := belongings.Known()
	if err != nil {
		return // without a place nothing is kept, which the page says
	}
	read := func(name string) []byte {
		f, ok := p.Find(name)
		if !ok {
			return nil
		}
		data, err := door.Read(f.Path, f.Kind, int(f.Size))
		if err != nil {
			return nil
		}
		return data
	}
	take := func(name string, data []byte) string {
		said, err := p.Keep(name, data)
		came()
		if err != nil {
			if !said.Empty() { // of an archive some was kept
				return book().Say(said) + "\n" + book().Error(err)
			}
			return book().Error(err)
		}
		return book().Say(said)
	}
	pageside.Offer(pageside.Files{
		Take: take,
		Read: read,
		Kept: func() string {
			all := []listedFile{}
			for _, f := range p.Files() {
				is := listedFile{Kind: book().Say(words.T(f.Kind)), Name: f.Name, Size: f.Size, At: f.At.UnixMilli(), Short: f.Short, Flies: f.Flies, Renames: f.Renames, Goes: f.Goes}
				if f.Plays {
					is.Plays = f.Path
				}
				all = append(all, is)
			}
			return asJSON(all)
		},
		Pack: func() []byte {
			var b bytes.Buffer
			if err := p.Pack(&b); err != nil {
				return nil
			}
			return b.Bytes()
		},
		Link: func(name, page string) string {
			return linkOf(book(), name, page, read(name))
		},
		With: with,
		Opened: func(fragment string) string {
			name, text, ok, err := belongings.OfFragment(fragment)
			switch {
			case err != nil:
				return book().Error(err)
			case !ok:
				return ""
			}
			return take(name, text)
		},
	})
}

// linkOf gives a file of a name away as a link to a page, as JSON.
func linkOf(book *words.Book, name, page string, text []byte) string {
	link, err := belongings.Link(page, name, text)
	if err != nil {
		return asJSON(given{Wrong: book.Error(err)})
	}
	if belongings.OnlyHere(link) { // a phone that reads a code of it would ask itself
		return asJSON(given{Link: link, Way: "here"})
	}
	if code, side := scancode.Path(link); code != "" {
		return asJSON(given{Link: link, Code: code, Side: side, Way: "code"})
	}
	return asJSON(given{Link: link, Way: "long"})
}

func asJSON(v any) string {
	text, _ := json.Marshal(v) // strings, numbers and bools alone
	return string(text)
}

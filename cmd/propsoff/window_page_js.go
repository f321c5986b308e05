package main

import (
	"context"
	"encoding/json"
	"path/filepath"
	"strings"
	"sync/atomic"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/pageside"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
)

// inPage: the window is a part of a browser's page.
const inPage = true

// byFinger tells whether a finger is what one points with first of all.
func byFinger() bool { return pageside.ByFinger() }

// pans has the page move a sheet that is larger than the screen.
var pans = pageside.Pan

// pageRoom is how much of what the page tells may wait for the program; beyond it is lost (ours).
const pageRoom = 1024

// pageDoes lets the page tell the program, and gives what it has the program do.
func pageDoes(s *screen.Screen) (does <-chan func(*ink.Page), turned func()) {
	var loses atomic.Bool
	do := make(chan func(*ink.Page), pageRoom)
	put := func(f func(*ink.Page)) {
		select {
		case do <- f:
		default:
		}
	}
	asks := asked{s: s}
	var book atomic.Pointer[words.Book]
	told, theme := false, (*ink.Theme)(nil)
	book.Store(words.English())
	offerFiles(book.Load, func() { put(func(*ink.Page) { s.Driver().LookAgain() }) }, func(action, name string) {
		put(func(*ink.Page) { s.WithFile(ui.Action(action), name) })
	})
	pageside.Listen(pageside.Hears{
		Typed:     func(text string) { put(func(*ink.Page) { typeIn(s, text) }) },
		Hidden:    func(is bool) { put(func(*ink.Page) { s.Unsee(is) }) },
		WouldLose: loses.Load,
		Sheet: func(answer func(string)) {
			put(func(p *ink.Page) {
				text, _ := json.Marshal(ink.Describe(p)) // numbers and strings alone
				answer(string(text))
			})
		},
	})
	return do, func() {
		loses.Store(s.WouldLose())
		if is := s.View().Book.OrEnglish(); is != book.Load() || !told {
			book.Store(is)
			pageside.Language(is.Code())
			told = true
		}
		if is := s.View().Theme; is != nil && is != theme {
			theme = is
			pageside.Coloured(theme.Dark, pageColours(theme))
		}
		asks.tell()
	}
}

// pageSays has the page read out what is to be heard, in the language of the sheets.
func pageSays(view func() *ui.View) func(text words.Text, urgent bool) {
	return func(text words.Text, urgent bool) {
		book, tell := view().Book.OrEnglish(), pageside.Say
		if urgent {
			tell = pageside.Alarm
		}
		tell(book.Say(text), book.Code())
	}
}

// waitForPicture waits until the first picture is seen: it takes seconds on a slow machine, in which nothing else of the program goes on, and which would
// pass for a program that slept.
func waitForPicture(ctx context.Context) {
	select {
	case <-ctx.Done():
	case <-pageside.Shown():
	}
}

// mostPaper is the longest paper that is handed over, in bytes (ours).
const mostPaper = 64 << 20

// gives hands a paper over to the browser as a download.
var gives = func(path string) error {
	data, err := door.Read(path, "", mostPaper)
	if err != nil {
		return err
	}
	pageside.Download(filepath.Base(path), data, "application/pdf")
	_, err = door.TakeAway(path, "", "%PDF", mostPaper)
	return err
}

// typeIn takes text from the page's field, in which keys that are no letters stand for themselves.
func typeIn(p *screen.Screen, text string) {
	for len(text) > 0 {
		n := strings.IndexAny(text, "\n\b")
		if n < 0 {
			n = len(text)
		}
		if n > 0 {
			p.Type(text[:n])
			text = text[n:]
			continue
		}
		key := map[byte]string{'\n': "Enter", '\b': "Backspace"}[text[0]]
		p.Key(key, true)
		p.Key(key, false)
		text = text[1:]
	}
}

// asked tells the page what is to be typed, where that has changed.
type asked struct {
	s         *screen.Screen
	says, now string
}

func (a *asked) tell() {
	says, now := "", ""
	if w := a.s.Written(); w != nil {
		says, now = a.s.View().Say(w.Says), w.Typed
	}
	if says != a.says || now != a.now {
		a.says, a.now = says, now
		pageside.Asks(says, now)
	}
}

package serve

import (
	"bytes"
	_ "embed"
	"net/http"
	"sync/atomic"
	"time"
)

// Gone is how long no page may ask before none counts as open (ours): one that is open asks once a minute, also where a browser slows down what nobody sees.
const Gone = 5 * time.Minute

// staysScript has an open page ask at staysAt; it goes into the page as it is served, since a page of another host has nobody to tell.
//
//go:embed stays.js
var staysScript []byte

const (
	staysName = "/stays.js"
	staysAt   = "/stays"
	staysTag  = `<script src="stays.js" defer></script>`
)

// telling is a page that tells that it is open.
func telling(page []byte) []byte {
	end := bytes.LastIndex(page, []byte("</body>"))
	if end < 0 {
		end = len(page)
	}
	return append(append(append([]byte(nil), page[:end]...), staysTag...), page[end:]...)
}

// asked is when a page asked last.
type asked struct {
	begun time.Time
	last  atomic.Int64 // since then
}

func (a *asked) now() { a.last.Store(int64(time.Since(a.begun))) }

func (a *asked) ago() time.Duration { return time.Since(a.begun) - time.Duration(a.last.Load()) }

// ends gives something again and again, at which it is to be looked whether a page is there still; never where that is all the same.
func (h *Handler) ends() (look <-chan time.Time, stop func()) {
	if h.EndsWithout <= 0 {
		return nil, func() {}
	}
	h.asked.now()
	t := time.NewTicker(h.EndsWithout / 8)
	return t.C, t.Stop
}

// stays answers a page that tells that it is open.
func stays(w http.ResponseWriter) { w.WriteHeader(http.StatusNoContent) }

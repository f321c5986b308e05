package serve_test

import (
	"context"
	"io"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/serve"
)

// The page, as it is served, tells once a minute that it is open.
func TestAPageTellsThatItIsOpen(t *testing.T) {
	h := handler(t)
	body := func(name string) string {
		a := ask(t, h, func(r *http.Request) { r.URL.Path = name })
		require.Equal(t, http.StatusOK, a.StatusCode, name)
		text, err := io.ReadAll(a.Body)
		require.NoError(t, err)
		return string(text)
	}
	assert.Equal(t, 1, strings.Count(body("/"), `<script src="stays.js" defer></script>`))
	script := body("/stays.js")
	assert.Contains(t, script, `fetch("stays", { method: "HEAD"`)
	assert.Contains(t, script, "60_000")
	assert.Less(t, 2*time.Minute, serve.Gone, "one request may be lost, or come late")
	a := ask(t, h, func(r *http.Request) { r.Method, r.URL.Path = http.MethodHead, "/stays" })
	assert.Equal(t, http.StatusNoContent, a.StatusCode)
	assert.Contains(t, a.Header.Get("Content-Security-Policy"), "script-src 'self'", "so it may run")
}

// It ends by itself once no page has asked for so long, and not while one does; without that limit it stays.
func TestItEndsWithoutAPage(t *testing.T) {
	const gone = 4 * time.Second // much longer than a busy machine lets a test wait
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	begin := func(without time.Duration) (port int, ended chan error) {
		at, port, err := serve.Listen(ctx, 0)
		require.NoError(t, err)
		h := handler(t)
		h.EndsWithout, ended = without, make(chan error, 1)
		go func() { ended <- h.Run(ctx, at...) }()
		return port, ended
	}
	port, ended := begin(gone)
	_, stays := begin(0)
	for range 12 {
		a, err := http.Head(serve.Address(port) + "stays")
		require.NoError(t, err)
		_ = a.Body.Close()
		time.Sleep(gone / 8)
	}
	select {
	case <-ended:
		t.Fatal("a page is there")
	default:
	}
	select {
	case err := <-ended:
		assert.NoError(t, err)
	case <-time.After(time.Minute):
		t.Fatal("no page is there")
	}
	assert.Empty(t, stays)
	cancel()
	assert.NoError(t, <-stays)
}

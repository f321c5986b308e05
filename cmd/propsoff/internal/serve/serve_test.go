package serve_test

import (
	"bufio"
	"bytes"
	"compress/gzip"
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"
	"time"

	"github.com/andybalholm/brotli"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/serve"
)

var folder = fstest.MapFS{
	"index.html":        {Data: []byte("<!doctype html><title>bench</title>")},
	"boot.js":           {Data: []byte("'use strict'")},
	"icons/32.png":      {Data: []byte("\x89PNG")},
	"app.webmanifest":   {Data: []byte("{}")},
	serve.Packed:        {Data: []byte("\x1f\x8b packed")},
	serve.Smaller:       {Data: []byte("smaller")},
	"../outside/secret": {Data: []byte("secret")}, // no path leads out of a folder of files
}

func handler(t *testing.T) *serve.Handler {
	t.Helper()
	inside := fstest.MapFS{}
	for name, f := range folder {
		if !strings.HasPrefix(name, "..") {
			inside[name] = f
		}
	}
	h, err := serve.NewHandler(inside, serve.Home, "Desk.local")
	require.NoError(t, err)
	return h
}

func ask(t *testing.T, h http.Handler, change func(*http.Request)) *http.Response {
	t.Helper()
	r := httptest.NewRequest(http.MethodGet, "http://localhost:7767/", nil)
	if change != nil {
		change(r)
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w.Result()
}

func TestTheFolderIsServed(t *testing.T) {
	h := handler(t)
	for path, kind := range map[string]string{
		"/": "text/html; charset=utf-8", "/index.html": "text/html; charset=utf-8", "/boot.js": "text/javascript; charset=utf-8", // RFC 9239
		"/icons/32.png": "image/png", "/app.webmanifest": "application/manifest+json", // W3C Web App Manifest
		"/" + serve.Packed: "application/gzip",
	} {
		a := ask(t, h, func(r *http.Request) { r.URL.Path = path })
		assert.Equal(t, http.StatusOK, a.StatusCode, path)
		assert.Equal(t, kind, a.Header.Get("Content-Type"), path)
		again := ask(t, h, func(r *http.Request) {
			r.URL.Path = path
			r.Header.Set("If-None-Match", a.Header.Get("ETag"))
		})
		assert.Equal(t, http.StatusNotModified, again.StatusCode, "what a browser has is not sent again (RFC 9110, 13.1.2)")
	}
	head := ask(t, h, func(r *http.Request) { r.Method = http.MethodHead })
	body, _ := io.ReadAll(head.Body)
	assert.Empty(t, body)
	assert.Equal(t, "73", head.Header.Get("Content-Length"), "35 of the file, and what has it tell that it is open")
}

// RFC 9110, 12.5.3: which codings a browser takes.
func TestTheProgramIsSentAsABrowserTakesIt(t *testing.T) {
	for accepts, coding := range map[string]string{
		"": "", "gzip, deflate": "", "gzip, deflate, br, zstd": "br", "BR": "br", "br;q=0": "", "br; q=0.0": "", "br;q=0.5": "br", "gzip;q=1.0, br ; q=0.1": "br", "brotli": "", "br;q=x": "",
	} {
		a := ask(t, handler(t), func(r *http.Request) {
			r.URL.Path = "/" + serve.Packed
			r.Header.Set("Accept-Encoding", accepts)
		})
		assert.Equal(t, coding, a.Header.Get("Content-Encoding"), accepts)
		assert.Equal(t, "Accept-Encoding", a.Header.Get("Vary"), "a cache between must know (RFC 9110, 12.5.5)")
		body, _ := io.ReadAll(a.Body)
		assert.Equal(t, coding == "br", string(body) == "smaller", accepts)
	}
}

// unpacked is what a browser and the page make of an answer: the browser undoes its coding, and boot.js unpacks what begins as gzip does (RFC 1952, 2.3.1).
func unpacked(t *testing.T, a *http.Response) string {
	t.Helper()
	require.Equal(t, http.StatusOK, a.StatusCode)
	body, err := io.ReadAll(a.Body)
	require.NoError(t, err)
	if a.Header.Get("Content-Encoding") == "br" {
		body, err = io.ReadAll(brotli.NewReader(bytes.NewReader(body)))
		require.NoError(t, err)
	}
	if bytes.HasPrefix(body, []byte{0x1f, 0x8b}) {
		plain, err := gzip.NewReader(bytes.NewReader(body))
		require.NoError(t, err)
		body, err = io.ReadAll(plain)
		require.NoError(t, err)
	}
	return string(body)
}

// programs is a folder with the program in the packings that are named.
func programs(t *testing.T, program string, packings ...string) *serve.Handler {
	t.Helper()
	f := fstest.MapFS{"index.html": folder["index.html"]}
	for _, name := range packings {
		var b bytes.Buffer
		var to io.WriteCloser = gzip.NewWriter(&b)
		if name == serve.Smaller {
			to = brotli.NewWriter(&b)
		}
		_, err := io.WriteString(to, program)
		require.NoError(t, err)
		require.NoError(t, to.Close())
		f[name] = &fstest.MapFile{Data: b.Bytes()}
	}
	h, err := serve.NewHandler(f, serve.Home)
	require.NoError(t, err)
	return h
}

// Whatever a browser takes and whichever packing the folder has, it comes to the same program; what has to be made for it is made once, for many at a time too.
func TestTheSameProgramForEveryBrowser(t *testing.T) {
	program := "\x00asm" + strings.Repeat("the same program ", 4000)
	for _, packings := range [][]string{{serve.Smaller}, {serve.Packed}, {serve.Packed, serve.Smaller}} {
		h := programs(t, program, packings...)
		for accepts, coding := range map[string]string{"br": "br", "gzip": "", "identity": "", "gzip, deflate, br;q=0": "", "": ""} {
			var all sync.WaitGroup
			answers := make([]*http.Response, 8)
			for i := range answers {
				all.Go(func() {
					answers[i] = ask(t, h, func(r *http.Request) {
						r.URL.Path = "/" + serve.Packed
						r.Header.Set("Accept-Encoding", accepts)
					})
				})
			}
			all.Wait()
			if !slices.Contains(packings, serve.Smaller) {
				coding = ""
			}
			for _, a := range answers {
				assert.Equal(t, coding, a.Header.Get("Content-Encoding"), "%q of %q", accepts, packings)
				assert.Equal(t, answers[0].Header.Get("ETag"), a.Header.Get("ETag"))
				assert.Equal(t, program, unpacked(t, a), "%q of %q", accepts, packings)
			}
			again := ask(t, h, func(r *http.Request) {
				r.URL.Path = "/" + serve.Packed
				r.Header.Set("Accept-Encoding", accepts)
				r.Header.Set("If-None-Match", answers[0].Header.Get("ETag"))
			})
			assert.Equal(t, http.StatusNotModified, again.StatusCode)
		}
		br := ask(t, h, func(r *http.Request) {
			r.URL.Path = "/" + serve.Packed
			r.Header.Set("Accept-Encoding", "br")
		})
		none := ask(t, h, func(r *http.Request) { r.URL.Path = "/" + serve.Packed })
		assert.Equal(t, coding(br) == coding(none), br.Header.Get("ETag") == none.Header.Get("ETag"), "a tag is of one coding (RFC 9110, 8.8.3.3)")
	}
}

func coding(a *http.Response) string { return a.Header.Get("Content-Encoding") }

// A program that cannot be unpacked, or would fill the machine, gives an answer that says so, and the next request is served.
func TestAProgramThatCannotBeUnpacked(t *testing.T) {
	var bomb bytes.Buffer
	to := brotli.NewWriterLevel(&bomb, 1)
	zeros := make([]byte, 1<<20)
	for range 65 {
		_, err := to.Write(zeros)
		require.NoError(t, err)
	}
	require.NoError(t, to.Close())
	for what, data := range map[string][]byte{"torn": []byte("\x8b\x02\x80torn"), "bomb": bomb.Bytes()} {
		h, err := serve.NewHandler(fstest.MapFS{"index.html": folder["index.html"], serve.Smaller: {Data: data}}, serve.Home)
		require.NoError(t, err)
		assert.Equal(t, http.StatusInternalServerError, ask(t, h, func(r *http.Request) { r.URL.Path = "/" + serve.Packed }).StatusCode, what)
		assert.Equal(t, http.StatusOK, ask(t, h, nil).StatusCode, what)
	}
}

// What a page may do: W3C Content Security Policy 3 (no 'unsafe-inline', no foreign source), Permissions Policy (an empty list is for nobody),
// Fetch (cross-origin isolation by the two headers together).
func TestWhatThePageMayDo(t *testing.T) {
	for _, path := range []string{"/", "/boot.js", "/no-such-file"} {
		got := ask(t, handler(t), func(r *http.Request) { r.URL.Path = path }).Header
		policy := map[string][]string{}
		for part := range strings.SplitSeq(got.Get("Content-Security-Policy"), ";") {
			words := strings.Fields(part)
			policy[words[0]] = words[1:]
		}
		assert.Equal(t, []string{"'none'"}, policy["default-src"])
		for name, sources := range policy {
			for _, from := range sources {
				assert.Contains(t, []string{"'none'", "'self'", "'wasm-unsafe-eval'", "blob:", "data:"}, from, name)
			}
		}
		assert.NotContains(t, policy["script-src"], "data:")
		for _, never := range []string{"frame-ancestors", "form-action", "base-uri"} {
			assert.Equal(t, []string{"'none'"}, policy[never], never)
		}
		permissions := got.Get("Permissions-Policy")
		assert.Contains(t, permissions, "gamepad=(self)")
		for _, device := range []string{"camera", "microphone", "geolocation", "usb", "hid", "serial", "midi"} {
			assert.Contains(t, permissions, device+"=()")
		}
		assert.NotContains(t, permissions, "bluetooth", "no browser knows such a policy: it would warn")
		assert.Equal(t, "same-origin", got.Get("Cross-Origin-Opener-Policy"))
		assert.Equal(t, "require-corp", got.Get("Cross-Origin-Embedder-Policy"))
		assert.Equal(t, "nosniff", got.Get("X-Content-Type-Options"))
	}
}

// A foreign name that its owner leads to this machine is a foreign page to the browser, and gets nothing; numbers cannot be led anywhere.
func TestForeignNamesGetNothing(t *testing.T) {
	for host, status := range map[string]int{
		"localhost": 200, "LOCALHOST:7767": 200, "127.0.0.1:7767": 200, "[::1]:7767": 200, "desk.local": 200, "DESK.LOCAL:80": 200, "192.0.2.2:7767": 200,
		"foreign.example": 421, "localhost.foreign.example": 421, "": 421, "localhost@foreign.example": 421, "[": 421, "local host": 421, "127.0.0.1.foreign.example": 421,
	} {
		assert.Equal(t, status, ask(t, handler(t), func(r *http.Request) { r.Host = host }).StatusCode, "%q", host)
	}
}

func TestOnlyFilesByTheirWholeName(t *testing.T) {
	for _, path := range []string{"/../outside/secret", "//index.html", "/icons", "/icons/", "/icons/..", "/./boot.js", "/boot.js/", "/boot.js\x00.png", "/BOOT.JS", `/..\secret`, "/%2e%2e/secret", "boot.js", "", "/icons/../boot.js"} {
		a := ask(t, handler(t), func(r *http.Request) { r.URL.Path = path })
		assert.Equal(t, http.StatusNotFound, a.StatusCode, "%q", path)
		body, _ := io.ReadAll(a.Body)
		assert.Equal(t, "Not Found\n", string(body), "nothing of what was asked comes back")
	}
	for _, method := range []string{"POST", "PUT", "DELETE", "OPTIONS", "TRACE", "CONNECT", "PROPFIND"} {
		a := ask(t, handler(t), func(r *http.Request) { r.Method = method })
		assert.Equal(t, http.StatusMethodNotAllowed, a.StatusCode, method)
		assert.Equal(t, "GET, HEAD", a.Header.Get("Allow"), "RFC 9110, 15.5.6")
	}
}

func TestNoRanges(t *testing.T) {
	a := ask(t, handler(t), func(r *http.Request) { r.Header.Set("Range", "bytes=0-1,2-3,4-5"+strings.Repeat(",6-7", 1000)) })
	assert.Equal(t, http.StatusOK, a.StatusCode)
	body, _ := io.ReadAll(a.Body)
	assert.Contains(t, string(body), "<title>bench</title>")
}

// A port whose program leads elsewhere is taken, and is not followed.
func TestNothingIsFollowed(t *testing.T) {
	followed := false
	elsewhere := httptest.NewServer(http.HandlerFunc(func(http.ResponseWriter, *http.Request) { followed = true }))
	defer elsewhere.Close()
	leads := httptest.NewServer(http.RedirectHandler(elsewhere.URL, http.StatusFound))
	defer leads.Close()
	_, _, err := serve.Listen(context.Background(), leads.Listener.Addr().(*net.TCPAddr).Port)
	require.Error(t, err)
	assert.NotErrorIs(t, err, serve.ErrThere)
	assert.False(t, followed)
}

func TestAFolderWithoutAPage(t *testing.T) {
	_, err := serve.NewHandler(fstest.MapFS{"other.html": {}})
	assert.ErrorIs(t, err, serve.ErrNoPage)
}

// open serves the folder at a free port.
func open(t *testing.T) (port int, end func() error) {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	at, port, err := serve.Listen(ctx, 0)
	require.NoError(t, err)
	h, ended := handler(t), make(chan error, 1)
	go func() { ended <- h.Run(ctx, at...) }()
	return port, func() error {
		cancel()
		return <-ended
	}
}

// Bytes as they come from somebody who means harm: each is answered or dropped, and the next one is served all the same.
func TestHostileBytes(t *testing.T) {
	port, end := open(t)
	long := strings.Repeat("x", 20<<10)
	for what, send := range map[string]string{
		"400 ": "GET / HTTP/1.1\r\nHost: localhost\r\nHost: foreign.example\r\n\r\n", // RFC 9112, 3.2: two of them are no request
		"431 ": "GET / HTTP/1.1\r\nHost: localhost\r\nX: " + long + "\r\n\r\n",       // RFC 6585, 5
		"404 ": "GET /../../../../etc/passwd HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n",
		"413 ": "GET / HTTP/1.1\r\nHost: localhost\r\nTransfer-Encoding: chunked\r\nConnection: close\r\n\r\n0\r\n\r\n",
		"421 ": "GET http://foreign.example/ HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n", // RFC 9112, 3.2.2: the whole address counts
		"405 ": "POST / HTTP/1.1\r\nHost: localhost\r\nContent-Length: 1000000000000\r\nConnection: close\r\n\r\n",
		"505 ": "GET / HTTP/9.9\r\nHost: localhost\r\n\r\n",
		"":     "\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03" + long, // a handshake of TLS
	} {
		c, err := net.Dial("tcp4", fmt.Sprintf("127.0.0.1:%d", port))
		require.NoError(t, err)
		require.NoError(t, c.SetDeadline(time.Now().Add(20*time.Second)))
		_, _ = io.WriteString(c, send) // the server may hang up before it is all sent
		line, _ := bufio.NewReader(c).ReadString('\n')
		if what != "" {
			assert.True(t, strings.HasPrefix(line, "HTTP/1.1 "+what), "%q: %q", what, line)
		}
		_ = c.Close()
		a, err := http.Get(serve.Address(port))
		require.NoError(t, err)
		assert.Equal(t, http.StatusOK, a.StatusCode, "after %q", what)
		_ = a.Body.Close()
	}
	assert.NoError(t, end())
}

// A second start finds that the port is taken by the first, and another program's port is told as such.
func TestServedAlready(t *testing.T) {
	port, end := open(t)
	_, _, err := serve.Listen(context.Background(), port)
	assert.ErrorIs(t, err, serve.ErrThere)
	_, _, err = serve.ListenLAN(context.Background(), port)
	assert.ErrorIs(t, err, serve.ErrThere)
	require.NoError(t, end())
	at, _, err := serve.Listen(context.Background(), port)
	require.NoError(t, err, "once it has ended the port is free")
	for _, l := range at {
		require.NoError(t, l.Close())
	}

	other := httptest.NewServer(http.NotFoundHandler())
	defer other.Close()
	_, _, err = serve.Listen(context.Background(), other.Listener.Addr().(*net.TCPAddr).Port)
	require.Error(t, err)
	assert.NotErrorIs(t, err, serve.ErrThere)
}

// One of the two ways to this machine may fail; then the server ends with the reason.
func TestAListenerThatFailsEndsIt(t *testing.T) {
	at, _, err := serve.Listen(context.Background(), 0)
	require.NoError(t, err)
	require.NoError(t, at[0].Close())
	assert.Error(t, handler(t).Run(context.Background(), at...))
}

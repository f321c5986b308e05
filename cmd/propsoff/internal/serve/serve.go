// Package serve gives the files of the page to a browser, and nothing else.
package serve

import (
	"bytes"
	"compress/gzip"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
	"log"
	"mime"
	"net"
	"net/http"
	"net/netip"
	"path"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"github.com/andybalholm/brotli"
	"golang.org/x/net/netutil"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
)

// Packed and Smaller are the program in the folder: as any host can give it, and as browsers take it that unpack it themselves. One of the two is enough.
const (
	Packed  = "propsoff.wasm.gz"
	Smaller = "propsoff.wasm.br"
)

// Bounds on what a browser may ask (ours): a page of a dozen files needs far less of each.
const (
	mostHeader      = 8 << 10
	mostConnections = 256
	headerWithin    = 5 * time.Second
	answerWithin    = 2 * time.Minute
	idleFor         = time.Minute
	closeWithin     = 2 * time.Second
	mostUnpacked    = 64 << 20
)

// Named is what the server calls itself in each answer, by which another start knows it.
const Named = "propsoff"

// headers go with every answer: nothing foreign is loaded, nothing inline runs, nobody frames the page, and of the machine's devices the page may
// use gamepads alone (W3C Content Security Policy 3, Permissions Policy; Fetch, “cross-origin isolation”, which gives a page the finer clock).
var headers = map[string]string{
	"Content-Security-Policy": "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; style-src 'self'; img-src 'self' data: blob:; " +
		"connect-src 'self'; manifest-src 'self'; font-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
	"Permissions-Policy": "gamepad=(self), fullscreen=(self), screen-wake-lock=(self), autoplay=(self), clipboard-write=(self), accelerometer=(), camera=(), " +
		"display-capture=(), geolocation=(), gyroscope=(), hid=(), magnetometer=(), microphone=(), midi=(), payment=(), serial=(), usb=()",
	"Cross-Origin-Opener-Policy":   "same-origin",
	"Cross-Origin-Embedder-Policy": "require-corp",
	"Cross-Origin-Resource-Policy": "same-origin",
	"Referrer-Policy":              "no-referrer",
	"X-Content-Type-Options":       "nosniff",
	"Cache-Control":                "no-cache", // asked for anew each time, and not sent again where it is the same
	"Server":                       Named,
}

// kinds are what browsers must be told that the system's own table may not know.
var kinds = map[string]string{".webmanifest": "application/manifest+json", ".wasm": "application/wasm", ".js": "text/javascript; charset=utf-8", ".css": "text/css; charset=utf-8",
	".html": "text/html; charset=utf-8", ".svg": "image/svg+xml", ".png": "image/png", ".txt": "text/plain; charset=utf-8", ".json": "application/json", ".gz": "application/gzip"}

// file is one of the folder, in memory.
type file struct {
	data      []byte
	kind, tag string
}

// Handler answers requests for the files of one folder.
type Handler struct {
	files    map[string]*file
	hosts    []string
	repacked func() (*file, error) // Packed made of Smaller, once, for the first browser that needs it
	// EndsWithout is how long no page may ask before Run ends by itself; 0 for ever.
	EndsWithout time.Duration
	asked       asked
}

// ErrNoPage: there is no page in the folder.
var ErrNoPage error = words.Wrong("serve.no-index")

// NewHandler reads the ordinary files of a folder. hosts are the names, without a port, under which it may be asked for, beside any address in numbers: a foreign name that
// its owner leads to this machine gets nothing.
func NewHandler(folder fs.FS, hosts ...string) (*Handler, error) {
	h := &Handler{files: map[string]*file{}, asked: asked{begun: time.Now()}}
	for _, host := range hosts {
		h.hosts = append(h.hosts, strings.ToLower(host))
	}
	if _, err := fs.Stat(folder, "index.html"); errors.Is(err, fs.ErrNotExist) { // whatever else is there need not be read
		return nil, ErrNoPage
	}
	seen, left := 0, int64(mostBytes)
	err := fs.WalkDir(folder, ".", func(name string, d fs.DirEntry, err error) error {
		if seen++; err == nil && seen > mostFiles {
			err = ErrTooMuch
		}
		if err != nil || d.IsDir() || !ordinary(folder, name, d) {
			return err
		}
		data, err := readFile(folder, name, left)
		if err != nil {
			return err
		}
		left -= int64(len(data))
		if name == "index.html" {
			data = telling(data)
		}
		sum := sha256.Sum256(data)
		kind, ok := kinds[path.Ext(name)]
		if !ok {
			kind = mime.TypeByExtension(path.Ext(name))
		}
		h.files["/"+name] = &file{data: data, kind: kind, tag: `"` + hex.EncodeToString(sum[:12]) + `"`}
		return nil
	})
	if err != nil {
		return nil, err
	}
	index := h.files["/index.html"]
	if index == nil {
		return nil, ErrNoPage
	}
	h.files["/"] = index
	h.files[staysName] = &file{data: staysScript, kind: kinds[".js"], tag: `"1"`}
	h.repacked = sync.OnceValues(func() (*file, error) { return repack(h.files["/"+Smaller]) })
	return h, nil
}

// readFile reads a file of at most so many bytes.
func readFile(folder fs.FS, name string, most int64) ([]byte, error) {
	f, err := folder.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := door.ReadAll(f, int(most))
	if errors.Is(err, door.ErrTooLong) {
		return nil, ErrTooMuch
	}
	return data, err
}

// repack makes the program that any browser takes of the smaller one.
func repack(small *file) (*file, error) {
	var packed bytes.Buffer
	to := gzip.NewWriter(&packed)
	from := io.LimitReader(brotli.NewReader(bytes.NewReader(small.data)), mostUnpacked+1)
	if n, err := io.Copy(to, from); err != nil || n > mostUnpacked {
		return nil, errors.Join(err, io.ErrShortBuffer)
	}
	if err := to.Close(); err != nil {
		return nil, err
	}
	return &file{data: packed.Bytes(), kind: kinds[path.Ext(Packed)], tag: strings.TrimSuffix(small.tag, `"`) + `-gz"`}, nil
}

// program is the program as a browser takes it, and the coding that it is sent in.
func (h *Handler) program(accepts []string) (f *file, coding string, err error) {
	small := h.files["/"+Smaller]
	if small != nil && takes(accepts, "br") {
		return &file{data: small.data, kind: kinds[".wasm"], tag: small.tag}, "br", nil
	}
	if f = h.files["/"+Packed]; f == nil && small != nil {
		f, err = h.repacked()
	}
	return f, "", err
}

// ServeHTTP answers GET and HEAD of a file by its whole name; all else is refused.
func (h *Handler) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	for name, value := range headers {
		w.Header().Set(name, value)
	}
	refuse := func(status int) { http.Error(w, http.StatusText(status), status) }
	switch {
	case !h.known(r.Host):
		refuse(http.StatusMisdirectedRequest)
		return
	case r.Method != http.MethodGet && r.Method != http.MethodHead:
		w.Header().Set("Allow", "GET, HEAD")
		refuse(http.StatusMethodNotAllowed)
		return
	case r.ContentLength != 0:
		w.Header().Set("Connection", "close") // what it sends is not read
		refuse(http.StatusRequestEntityTooLarge)
		return
	}
	h.asked.now()
	if r.URL.Path == staysAt {
		stays(w)
		return
	}
	f := h.files[r.URL.Path]
	if r.URL.Path == "/"+Packed {
		var coding string
		var err error
		if f, coding, err = h.program(r.Header.Values("Accept-Encoding")); err != nil {
			refuse(http.StatusInternalServerError)
			return
		}
		w.Header().Set("Vary", "Accept-Encoding")
		if coding != "" {
			w.Header().Set("Content-Encoding", coding)
		}
	}
	if f == nil {
		refuse(http.StatusNotFound)
		return
	}
	r.Header.Del("Range") // a file is given whole
	w.Header().Set("ETag", f.tag)
	w.Header().Set("Content-Type", f.kind)
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(f.data))
}

// known tells whether a Host header names this server.
func (h *Handler) known(host string) bool {
	if name, port, err := net.SplitHostPort(host); err == nil && port != "" {
		host = name
	}
	host = strings.TrimSuffix(strings.TrimPrefix(host, "["), "]")
	_, err := netip.ParseAddr(host)
	return err == nil || slices.Contains(h.hosts, strings.ToLower(host))
}

// takes tells whether a browser takes a coding (RFC 9110, 12.5.3): it is named, and not with a weight of 0.
func takes(accepts []string, coding string) bool {
	for part := range strings.SplitSeq(strings.Join(accepts, ","), ",") {
		name, rest, weighed := strings.Cut(part, ";")
		if !strings.EqualFold(strings.TrimSpace(name), coding) {
			continue
		}
		_, q, _ := strings.Cut(rest, "=")
		weight, err := strconv.ParseFloat(strings.TrimSpace(q), 64)
		return !weighed || err == nil && weight > 0
	}
	return false
}

// plain is HTTP/1 and nothing newer: without TLS no browser speaks that.
func plain() *http.Protocols {
	p := new(http.Protocols)
	p.SetHTTP1(true)
	return p
}

// Run serves at every listener until ctx has ended, one of them fails, or no page is there any more (EndsWithout).
func (h *Handler) Run(ctx context.Context, at ...net.Listener) error {
	srv := &http.Server{Handler: h, ReadHeaderTimeout: headerWithin, ReadTimeout: headerWithin, WriteTimeout: answerWithin, IdleTimeout: idleFor, MaxHeaderBytes: mostHeader,
		Protocols: plain(), ErrorLog: log.New(io.Discard, "", 0)} // what hostile browsers send wrong is nothing to be read in a terminal
	ended := make(chan error, len(at))
	for _, l := range at {
		go func() { ended <- srv.Serve(netutil.LimitListener(l, mostConnections)) }()
	}
	var err error
	left, over := len(at), false
	look, stop := h.ends()
	defer stop()
	for !over {
		select {
		case <-ctx.Done():
			over = true
		case err = <-ended:
			left, over = left-1, true
		case <-look:
			over = h.asked.ago() > h.EndsWithout
		}
	}
	last, cancel := context.WithTimeout(context.WithoutCancel(ctx), closeWithin)
	defer cancel()
	if srv.Shutdown(last) != nil {
		_ = srv.Close() // whoever still reads has had time
	}
	for range left {
		<-ended
	}
	if errors.Is(err, http.ErrServerClosed) {
		return nil
	}
	return err
}

package page_test

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/page"
	"propsoff.example/assets/words"
	"propsoff.example/scripts/browser"
)

const soon = 40 * time.Second

// host serves a page, as a static host does or as one that has the browser unpack the program; what it serves may change.
type host struct {
	*httptest.Server
	mu       sync.Mutex
	files    map[string][]byte
	unpacked bool
	asked    []string
	wait     time.Duration // before the second half of the program
}

func serve(t *testing.T) *host {
	t.Helper()
	if browser.Path() == "" {
		t.Skip("chromium is not installed: scripts/test installs it (page_packages of scripts/need.sh)")
	}
	h := &host{}
	h.bring(t, "")
	h.Server = httptest.NewServer(h)
	t.Cleanup(h.Close)
	return h
}

// bring renders the page with another style, and so another version.
func (h *host) bring(t *testing.T, more string) {
	t.Helper()
	p, err := tiny()
	require.NoError(t, err)
	p.Exec = append(p.Exec, more...)
	files, err := page.Files(p)
	require.NoError(t, err)
	h.mu.Lock()
	defer h.mu.Unlock()
	h.files = files
}

func (h *host) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	h.mu.Lock()
	name := path.Base(r.URL.Path)
	if name == "/" {
		name = "index.html"
	}
	content, ok := h.files[name]
	h.asked = append(h.asked, r.URL.String())
	unpacked, wait := h.unpacked, h.wait
	h.mu.Unlock()
	if !ok {
		http.NotFound(w, r)
		return
	}
	kind := map[string]string{".html": "text/html; charset=utf-8", ".js": "text/javascript", ".css": "text/css", ".svg": "image/svg+xml", ".png": "image/png", ".webmanifest": "application/manifest+json"}[path.Ext(name)]
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Content-Security-Policy", "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; img-src 'self' data: blob:")
	if name == page.ProgramFile {
		w.Header().Set("Content-Type", "application/octet-stream")
		if unpacked { // as serve sends brotli, but with what this test can pack
			w.Header().Set("Content-Encoding", "gzip")
		}
		_, _ = w.Write(content[:len(content)/2])
		w.(http.Flusher).Flush()
		time.Sleep(wait)
		content = content[len(content)/2:]
	}
	_, _ = w.Write(content)
}

func open(t *testing.T, b *browser.Browser, url, before string) *browser.Page {
	t.Helper()
	p, err := b.New()
	require.NoError(t, err)
	require.NoError(t, p.Language("en-GB"))
	require.NoError(t, p.Before(before))
	require.NoError(t, p.Go(url))
	return p
}

// fresh is a tab that takes nothing from what was kept of the page.
func fresh(t *testing.T, b *browser.Browser) *browser.Page {
	t.Helper()
	p, err := b.New()
	require.NoError(t, err)
	require.NoError(t, p.Call("Network.setBypassServiceWorker", map[string]any{"bypass": true}, nil))
	require.NoError(t, p.Call("Network.setCacheDisabled", map[string]any{"cacheDisabled": true}, nil))
	return p
}

const runs = "document.documentElement.classList.contains('runs')"

// seen is the text that can be seen.
func seen(t *testing.T, p *browser.Page) (text string) {
	t.Helper()
	require.NoError(t, p.Eval("document.body.innerText", &text))
	return text
}

func english(name string) string { return words.English().Say(page.Sentences[name]) }

func german(name string) string { return words.In("de").Say(page.Sentences[name]) }

// quiet: nothing went wrong that a browser tells of; the policy was kept, and nothing was missing.
func quiet(t *testing.T, p *browser.Page) {
	t.Helper()
	for _, line := range p.Said() {
		assert.False(t, strings.HasPrefix(line, "error:") || strings.HasPrefix(line, "exception:"), line)
	}
}

// The cautions can be read while the program is on its way, in the browser's language; then the program's picture stands there alone. It is the same where the
// browser unpacks the program.
func TestThePageBringsTheProgram(t *testing.T) {
	h, b := serve(t), browser.For(t)
	for _, h.unpacked = range []bool{false, true} {
		h.wait = 2 * time.Second
		p := fresh(t, b)
		require.NoError(t, p.Language("de-AT"))
		require.NoError(t, p.Go(h.URL+"?open=drills&nonsense=1"))
		require.NoError(t, p.WaitFor("document.getElementById('bar').value > 0.2 && document.getElementById('bar').value < 0.9", soon))
		text := seen(t, p)
		for _, name := range []string{"loading", "before", "caution 1", "caution 2", "caution 3", "caution 4", "press"} {
			assert.Contains(t, text, german(name))
			assert.NotContains(t, text, english(name))
		}
		require.NoError(t, p.WaitFor(runs, soon))
		text = seen(t, p)
		assert.NotContains(t, text, german("caution 1"))
		assert.Contains(t, text, german("files"))
		var got []string
		require.NoError(t, p.Eval("[args, home, document.documentElement.lang, document.activeElement.tagName, String(propsoffPage.keeps)]", &got))
		assert.Equal(t, []string{"--open=drills", "/home", "de", "CANVAS", "true"}, got)

		require.NoError(t, p.Eval("propsoffPage.language('en')", nil))
		assert.Contains(t, seen(t, p), english("files"))
		require.NoError(t, p.Eval("fs.writeSync(2, new TextEncoder().encode('why it ended\\n')); end()", nil))
		require.NoError(t, p.WaitFor("document.documentElement.classList.contains('ended')", soon))
		text = seen(t, p)
		assert.Contains(t, text, english("ended"))
		assert.Contains(t, text, english("ended-kept"))
		assert.NotContains(t, text, english("ended-gone"))
		assert.Contains(t, text, english("again"))
		assert.Contains(t, text, "why it ended")
		assert.Equal(t, []string{"error: why it ended"}, slices.DeleteFunc(p.Said(), func(s string) bool { return !strings.HasPrefix(s, "err") }))
		require.NoError(t, p.Close())
	}
}

// What is in the way is said.
func TestWhatIsInTheWayIsSaid(t *testing.T) {
	h, b := serve(t), browser.For(t)
	for name, c := range map[string]struct{ before, says string }{
		"graphics":  {"HTMLCanvasElement.prototype.getContext = () => null", "no-graphics"},
		"old":       {"delete globalThis.DecompressionStream", "old"},
		"storage":   {"Object.defineProperty(window, 'indexedDB', {get() { throw new Error('refused') }})", "not-kept"},
		"no pads":   {"navigator.__proto__.getGamepads = undefined", "no-pads"},
		"insecure":  {"navigator.__proto__.getGamepads = undefined; Object.defineProperty(window, 'isSecureContext', {value: false})", "insecure"},
		"all there": {"", "press"},
		"bad wasm":  {"WebAssembly.instantiateStreaming = async () => { throw new Error('no room for it') }", "failed"},
	} {
		p := open(t, b, h.URL, c.before)
		require.NoError(t, p.WaitFor(fmt.Sprintf("[...document.querySelectorAll('#cover [data-note]')].some((e) => !e.hidden && e.textContent.includes(%q))", english(c.says)), soon), name)
		if name == "storage" {
			require.NoError(t, p.WaitFor(runs, soon))
			assert.Contains(t, seen(t, p), english("nothing-kept"), "it stays above the program")
			require.NoError(t, p.Eval("document.getElementById('box').showModal()", nil))
			assert.Contains(t, seen(t, p), english("not-kept"))
			assert.NotContains(t, seen(t, p), english("kept-lasts"))
			require.NoError(t, p.Eval("document.getElementById('box').close(); end()", nil))
			require.NoError(t, p.WaitFor("document.documentElement.classList.contains('ended')", soon))
			text := seen(t, p)
			assert.Contains(t, text, english("ended-gone"))
			assert.NotContains(t, text, english("ended-kept"))
			assert.NotContains(t, text, english("not-kept"), "nothing can be downloaded any more")
		}
		if name == "bad wasm" {
			assert.Contains(t, seen(t, p), "no room for it")
		}
		require.NoError(t, p.Close())
	}
	// No script: then nobody knows the language, and each is there.
	p, err := b.New()
	require.NoError(t, err)
	require.NoError(t, p.Call("Emulation.setScriptExecutionDisabled", map[string]any{"value": true}, nil))
	require.NoError(t, p.Go(h.URL))
	text := seen(t, p)
	for _, name := range []string{"no-script", "caution 1", "caution 4"} {
		assert.Contains(t, text, english(name))
		assert.Contains(t, text, german(name))
	}
	assert.NotContains(t, text, english("loading"))
	assert.NotContains(t, text, english("files"), "a button that does nothing")

	h.mu.Lock()
	delete(h.files, page.ProgramFile)
	h.mu.Unlock()
	p = fresh(t, b)
	require.NoError(t, p.Go(h.URL))
	require.NoError(t, p.WaitFor("!document.getElementById('again').hidden", soon))
	assert.Contains(t, seen(t, p), "404")
}

// After the first visit the page opens without a network. A newer one is fetched beside it and taken at a later start, as a whole, and the older one goes; as
// long as a page of the older one is open, that one stays.
func TestThePageOpensWithoutANetwork(t *testing.T) {
	h, b := serve(t), browser.For(t)
	kept := "caches.keys().then(async (names) => names.length === 1 && (await (await caches.open(names[0])).keys()).length >= 10)"
	version := "document.body.dataset.version"
	p := open(t, b, h.URL, "")
	require.NoError(t, p.WaitFor(runs, soon))
	require.NoError(t, p.Eval("navigator.serviceWorker.ready.then(() => 1)", nil))
	waitFor(t, p, kept)
	var first string
	require.NoError(t, p.Eval(version, &first))
	require.NoError(t, p.Close())

	h.Server.CloseClientConnections()
	address := h.URL
	down := true
	h.Server.Config.Handler = http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if down {
			panic(http.ErrAbortHandler)
		}
		h.ServeHTTP(w, r)
	})
	p = open(t, b, address+"/?open=drills", "")
	require.NoError(t, p.WaitFor(runs, soon))
	var got string
	require.NoError(t, p.Eval(version, &got))
	assert.Equal(t, first, got)

	// A newer page is there: the open one fetches it, and goes on.
	down = false
	h.bring(t, "\n// newer\n")
	require.NoError(t, p.Reload())
	require.NoError(t, p.WaitFor(runs, soon))
	require.NoError(t, p.Eval(version, &got))
	assert.Equal(t, first, got, "not in the middle of a practice")
	require.NoError(t, p.Eval("navigator.serviceWorker.getRegistration().then(r => r.update()).then(() => 1)", nil))
	waitFor(t, p, "navigator.serviceWorker.getRegistration().then(r => !!r.waiting)")

	other := open(t, b, address, "")
	require.NoError(t, other.WaitFor(runs, soon))
	require.NoError(t, other.Eval(version, &got))
	assert.Equal(t, first, got, "two pages of one version")
	require.NoError(t, other.Close())
	require.NoError(t, p.Reload())
	require.NoError(t, p.WaitFor(runs+" && "+version+" !== '"+first+"'", soon))
	waitFor(t, p, "caches.keys().then((names) => names.length === 1 && names[0].endsWith("+version+"))")
	var from []string
	require.NoError(t, p.Eval("[...document.querySelectorAll('script')].map(s => s.src)", &from))
	for _, src := range from {
		assert.NotContains(t, src, first)
	}
}

// waitFor waits until a promise comes to something true.
func waitFor(t *testing.T, p *browser.Page, promise string) {
	t.Helper()
	require.NoError(t, p.Eval("(async () => { while (!await ("+promise+")) await new Promise((f) => setTimeout(f, 50)); return 1 })()", nil))
}

// The strip's buttons do what they say, by mouse, by keyboard and by finger; what is typed into the field goes to the program, and files do.
func TestTheStrip(t *testing.T) {
	h, b := serve(t), browser.For(t)
	p := open(t, b, h.URL, "")
	require.NoError(t, p.Viewport(390, 844, 2, true))
	require.NoError(t, p.WaitFor(runs, soon))
	button := func(id string) browser.Point {
		var at browser.Point
		require.NoError(t, p.Eval(fmt.Sprintf("(() => { const r = document.getElementById(%q).getBoundingClientRect(); return {X: r.x + r.width / 2, Y: r.y + r.height / 2} })()", id), &at))
		return at
	}
	var least float64
	require.NoError(t, p.Eval("Math.min(...[...document.querySelectorAll('#strip button:not([hidden])')].flatMap(e => [e.getBoundingClientRect().width, e.getBoundingClientRect().height]))", &least))
	assert.GreaterOrEqual(t, least, 43.0, "for a finger (WCAG 2.5.8 asks for 24, and 44 for AAA)")

	require.NoError(t, p.Tap(button("text")))
	require.NoError(t, p.WaitFor("document.activeElement.id === 'field'", soon))
	require.NoError(t, p.Type("Anna"))
	require.NoError(t, p.Press("Backspace"))
	require.NoError(t, p.Type("e"))
	require.NoError(t, p.Press("Enter"))
	require.NoError(t, p.WaitFor("typed.join('') === 'Anna\\be\\n'", soon))
	require.NoError(t, p.Tap(button("text")))
	require.NoError(t, p.WaitFor("document.getElementById('typing').hidden && document.activeElement.tagName === 'CANVAS'", soon))

	require.NoError(t, p.Eval("propsoffPage.asks('Your name', 'Jo')", nil))
	assert.Contains(t, seen(t, p), "Your name")
	require.NoError(t, p.WaitFor("document.body.clientHeight === 844 - 44 - 52", soon)) // the field covers nothing of the sheet
	require.NoError(t, p.Eval("document.getElementById('field').focus(); typed.length = 0", nil))
	require.NoError(t, p.Type("e"))
	require.NoError(t, p.WaitFor("typed.join('') === 'e'", soon))
	require.NoError(t, p.Eval("propsoffPage.asks('', '')", nil))
	require.NoError(t, p.WaitFor("document.getElementById('typing').hidden", soon))

	require.NoError(t, p.Tap(button("hide")))
	require.NoError(t, p.WaitFor("document.querySelector('#strip').offsetHeight === 0 && document.body.clientHeight === 844", soon))
	require.NoError(t, p.Click(button("show")))
	require.NoError(t, p.WaitFor("document.body.clientHeight === 844 - 44 && document.activeElement.id === 'hide'", soon))

	file := filepath.Join(t.TempDir(), "my.radio.yaml")
	require.NoError(t, os.WriteFile(file, []byte("x"), 0o600))
	var doc struct{ Root struct{ NodeID int } }
	require.NoError(t, p.Call("DOM.getDocument", nil, &doc))
	var pick struct{ NodeID int }
	require.NoError(t, p.Call("DOM.querySelector", map[string]any{"nodeId": doc.Root.NodeID, "selector": "#pick"}, &pick))
	require.NoError(t, p.Call("DOM.setFileInputFiles", map[string]any{"nodeId": pick.NodeID, "files": []string{file}}, nil))
	require.NoError(t, p.WaitFor("document.getElementById('told').innerText === 'took my.radio.yaml'", soon))

	require.NoError(t, p.Eval("propsoffPage.say('soft', 'en'); propsoffPage.alarm('loud', 'de')", nil))
	require.NoError(t, p.WaitFor("document.querySelector('#said p:last-child').textContent === 'soft' && document.querySelector('#alarmed p').lang === 'de'", soon))
	quiet(t, p)
}

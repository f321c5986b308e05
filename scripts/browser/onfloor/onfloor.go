// Package onfloor runs a package's own tests, compiled for a browser, on the page's file layer, from tests.
package onfloor

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"propsoff.example/assets/page"
	"propsoff.example/scripts/browser"
)

// Place is an address with the file layer and one program.
type Place struct {
	// URL of a page in which programs can be run.
	URL string
	t   testing.TB
}

// For compiles the tests of a package, by its import path, and serves them.
func For(t testing.TB, name string) *Place {
	t.Helper()
	if browser.Path() == "" {
		t.Skip("chromium is not installed: scripts/test installs it (page_packages of scripts/need.sh)")
	}
	program := filepath.Join(t.TempDir(), "test.wasm")
	cmd := exec.Command("go", "test", "-c", "-o", program, name)
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0")
	if text, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	files := http.NewServeMux()
	give := func(path, kind string, content []byte) {
		files.HandleFunc(path, func(w http.ResponseWriter, _ *http.Request) {
			w.Header().Set("Content-Type", kind)
			_, _ = w.Write(content)
		})
	}
	read := func(path string) []byte {
		b, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	give("/", "text/html", []byte(`<!doctype html><link rel="icon" href="data:,"><script src="floor.js"></script><script src="wasm_exec.js"></script>`))
	give("/floor.js", "text/javascript", page.Floor())
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	give("/wasm_exec.js", "text/javascript", read(filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js")))
	give("/test.wasm", "application/wasm", read(program))
	s := httptest.NewServer(files)
	t.Cleanup(s.Close)
	return &Place{s.URL, t}
}

// Open opens a tab there, with a script that runs before the page's own.
func (l *Place) Open(b *browser.Browser, before string) *browser.Page {
	l.t.Helper()
	p, err := b.New()
	if err == nil {
		err = p.Before(before)
	}
	if err == nil {
		err = p.Go(l.URL)
	}
	if err != nil {
		l.t.Fatal(err)
	}
	return p
}

// Begin begins the test that a name picks, with an environment beside that of the floor, and comes back while it runs.
func (l *Place) Begin(p *browser.Page, test string, environment ...string) {
	l.t.Helper()
	err := p.Eval(fmt.Sprintf(`(async () => {
		globalThis.code = undefined;
		globalThis.floor = await propsoffFloor.begun;
		const go = new Go();
		go.argv = ["test", "-test.v", "-test.run", %q];
		Object.assign(go.env, propsoffFloor.environment, Object.fromEntries(%q.split("\n").filter(Boolean).map((e) => e.split("="))));
		let code = 0;
		go.exit = (n) => { code = n; };
		const { instance } = await WebAssembly.instantiateStreaming(fetch("test.wasm"), go.importObject);
		go.run(instance).then(() => { globalThis.code = code; });
	})()`, test, strings.Join(environment, "\n")), nil)
	if err != nil {
		l.t.Fatal(err)
	}
}

// End waits for what Begin began: whether the tests passed, and all that this tab has said so far.
func (l *Place) End(p *browser.Page) (passed bool, said string) {
	l.t.Helper()
	err := p.WaitFor("globalThis.code !== undefined", 5*time.Minute)
	said = strings.Join(p.Said(), "\n")
	var code int
	if err == nil {
		err = p.Eval("code", &code)
	}
	if err != nil {
		l.t.Fatal(err)
	}
	return code == 0 && strings.Contains(said, "--- PASS"), said
}

// Run is Begin and End, for tests that must pass; it gives what was said.
func (l *Place) Run(p *browser.Page, test string, environment ...string) string {
	l.t.Helper()
	l.Begin(p, test, environment...)
	passed, said := l.End(p)
	if !passed {
		l.t.Fatalf("%s: did not pass:\n%s", test, said)
	}
	return said
}

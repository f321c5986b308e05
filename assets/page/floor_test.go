package page

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/scripts/browser"
)

// compiled is a package's own tests as a program for a browser.
func compiled(t *testing.T, name string) string {
	t.Helper()
	out := filepath.Join(t.TempDir(), "test.wasm")
	cmd := exec.Command("go", "test", "-c", "-o", out, name)
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0")
	text, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", text)
	return out
}

// floorServer serves an empty page with the file layer and the script that runs Go programs, and one program.
func floorServer(t *testing.T, program string) string {
	t.Helper()
	mux := http.NewServeMux()
	mux.HandleFunc("/", func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		_, _ = w.Write([]byte(`<!doctype html><script src="floor.js"></script><script src="wasm_exec.js"></script>`))
	})
	file := func(name, path, kind string) {
		mux.HandleFunc("/"+name, func(w http.ResponseWriter, r *http.Request) {
			w.Header().Set("Content-Type", kind)
			http.ServeFile(w, r, path)
		})
	}
	file("floor.js", "floor.js", "text/javascript")
	file("wasm_exec.js", filepath.Join(runtime.GOROOT(), "lib", "wasm", "wasm_exec.js"), "text/javascript")
	file("test.wasm", program, "application/wasm")
	s := httptest.NewServer(mux)
	t.Cleanup(s.Close)
	return s.URL
}

// running begins the program with arguments; its exit code comes to be globalThis.code.
func running(t *testing.T, p *browser.Page, args ...string) {
	t.Helper()
	require.NoError(t, p.Eval(fmt.Sprintf(`(async () => {
		globalThis.code = undefined;
		globalThis.floor = await propsoffFloor.begun;
		const go = new Go();
		go.argv = ["test", ...%q.split(" ")];
		Object.assign(go.env, propsoffFloor.environment);
		let code = 0;
		go.exit = (n) => { code = n; };
		const { instance } = await WebAssembly.instantiateStreaming(fetch("test.wasm"), go.importObject);
		go.run(instance).then(() => { globalThis.code = code; });
	})()`, strings.Join(args, " ")), nil))
}

// ran waits for the program's end.
func ran(t *testing.T, p *browser.Page, most time.Duration) (code int, said string) {
	t.Helper()
	err := p.WaitFor("globalThis.code !== undefined", most)
	said = strings.Join(p.Said(), "\n")
	require.NoError(t, err, said)
	require.NoError(t, p.Eval("code", &code))
	return code, said
}

// The door's own tests, written for desktop systems, pass on the page's floor, in the browser's storage and in memory.
func TestTheDoorsTestsPassOnTheFloor(t *testing.T) {
	b := browser.For(t)
	url := floorServer(t, compiled(t, "propsoff.example/assets/door"))
	for name, before := range map[string]string{"kept": "", "memory": "Object.defineProperty(window, 'indexedDB', {get() { throw new Error('refused') }})", "no locks": "Object.defineProperty(navigator, 'locks', {value: undefined})"} {
		t.Run(name, func(t *testing.T) {
			p, err := b.New()
			require.NoError(t, err)
			require.NoError(t, p.Before(before))
			require.NoError(t, p.Go(url))
			running(t, p, "-test.v", "-test.timeout=5m")
			code, said := ran(t, p, 5*time.Minute)
			assert.Zero(t, code, said)
			assert.Contains(t, said, "--- PASS: TestWrittenAsAWhole")
			var keeps bool
			require.NoError(t, p.Eval("floor.keeps", &keeps))
			assert.Equal(t, name != "memory", keeps)
			t.Log(said)
			require.NoError(t, p.Close())
		})
	}
}

package main

import (
	"net/http"
	"net/http/httptest"
	"testing"

	"propsoff.example/scripts/browser"
)

func TestBench(t *testing.T) {
	b := browser.For(t)
	mux := http.NewServeMux()
	mux.HandleFunc("/", func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		w.Write([]byte(`<script src="floor.js"></script>`))
	})
	mux.HandleFunc("/floor.js", func(w http.ResponseWriter, r *http.Request) {
		http.ServeFile(w, r, "../../assets/page/floor.js")
	})
	s := httptest.NewServer(mux)
	p, err := b.Open(s.URL)
	if err != nil {
		t.Fatal(err)
	}
	var out any
	err = p.Eval(`(async () => {
	await propsoffFloor.begun;
	const call = (name, ...a) => new Promise((ok, no) => fs[name](...a, (e, v) => e ? no(e) : ok(v)));
	const out = {};
	const time = async (name, n, f) => { const t = performance.now(); for (let i = 0; i < n; i++) await f(i); out[name] = (performance.now() - t) / n; };
	const fd = await call("open", "/home/x", 2|64|1024, 0o600);
	const buf = new Uint8Array(200);
	await time("append200", 200, () => call("write", fd, buf, 0, 200, null));
	await time("fsync", 30, () => call("fsync", fd));
	await time("stat", 200, () => call("stat", "/home/x"));
	await time("lock", 100, async () => { await call("flock", fd); await call("funlock", fd); });
	await time("openclose", 100, async () => { const f = await call("open", "/home/.config/a", 2|64, 0o600); await call("close", f); });
	await time("rename", 30, (i) => call("rename", i%2 ? "/home/.config/b" : "/home/.config/a", i%2 ? "/home/.config/a" : "/home/.config/b"));
	await time("writebig", 5, () => call("write", fd, new Uint8Array(1000000), 0, 1000000, null));
	return out;
	})()`, &out)
	t.Log(out, err, p.Said())
}

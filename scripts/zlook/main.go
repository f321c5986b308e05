package main

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"time"

	"propsoff.example/scripts/browser"
)

func must(err error) {
	if err != nil {
		fmt.Println("ERR", err)
	}
}

func main() {
	dir := os.Args[1]
	s := httptest.NewServer(http.FileServer(http.Dir(dir)))
	prof, _ := os.MkdirTemp("", "prof")
	b, err := browser.Start(prof)
	must(err)
	defer b.Kill()
	for _, a := range os.Args[2:] {
		var name, lang, scheme string
		var w, h, bytes int
		parts := strings.Split(a, ",")
		fmt.Sscanf(parts[0], "%dx%d", &w, &h)
		lang, scheme, name = parts[1], parts[2], parts[3]
		if len(parts) > 4 {
			fmt.Sscan(parts[4], &bytes)
		}
		p, err := b.New()
		must(err)
		must(p.Viewport(w, h, 1, w < 900))
		must(p.Language(lang))
		must(p.Prefers(map[string]string{"prefers-color-scheme": scheme}))
		if bytes > 0 {
			must(p.Call("Network.setCacheDisabled", map[string]any{"cacheDisabled": true}, nil))
			must(p.Offline(false, bytes))
		}
		at := time.Now()
		must(p.Go(s.URL))
		if bytes > 0 {
			time.Sleep(4 * time.Second)
		} else {
			must(p.WaitFor("document.documentElement.classList.contains('runs')", 60*time.Second))
			var ms map[string]float64
			must(p.Eval("Object.fromEntries([...performance.getEntriesByType('mark').map(m => [m.name, m.startTime]), ...performance.getEntriesByType('resource').map(r => [r.name.replace(/.*\\//,''), r.responseEnd])])", &ms))
			fmt.Println(name, "shown after", time.Since(at), ms)
			time.Sleep(2 * time.Second)
		}
		must(p.PictureTo("/tmp/fl/" + name + ".png"))
		fmt.Println(strings.Join(p.Said(), "\n"))
		must(p.Close())
	}
}

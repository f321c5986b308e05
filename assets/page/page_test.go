package page_test

import (
	"bytes"
	"compress/gzip"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/page"
	"propsoff.example/assets/words/wordstest"
)

// tiny is a program that stands in for the real one, packed, and how long it is unpacked.
var tiny = sync.OnceValues(func() (page.Program, error) {
	dir, err := os.MkdirTemp("", "tiny")
	if err != nil {
		return page.Program{}, err
	}
	defer os.RemoveAll(dir)
	out := filepath.Join(dir, "tiny.wasm")
	cmd := exec.Command("go", "build", "-ldflags", "-s -w", "-o", out, "./testdata/tiny")
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0")
	if text, err := cmd.CombinedOutput(); err != nil {
		return page.Program{}, fmt.Errorf("%w: %s", err, text)
	}
	plain, err := os.ReadFile(out)
	if err != nil {
		return page.Program{}, err
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return page.Program{}, err
	}
	script, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js"))
	var b bytes.Buffer
	w := gzip.NewWriter(&b)
	_, wrong := w.Write(plain)
	err = errors.Join(err, wrong, w.Close())
	return page.Program{Packed: b.Bytes(), Plain: len(plain), Exec: script}, err
})

func rendered(t *testing.T) map[string][]byte {
	t.Helper()
	files, err := page.Files(page.Program{Packed: []byte("packed"), Plain: 7, Exec: []byte("exec")})
	require.NoError(t, err)
	return files
}

// Every sentence of the page stands in it in every language.
func TestEveryLanguageSaysThePage(t *testing.T) {
	room, index := wordstest.Of("page"), string(rendered(t)["index.html"])
	for name, text := range page.Sentences {
		room.Text(t, text)
		for _, b := range wordstest.Books() {
			said := strings.NewReplacer("&", "&amp;", "'", "&#39;", `"`, "&#34;", "+", "&#43;").Replace(b.Say(text))
			assert.Contains(t, index, said, "%s: %s", b.Tag(), name)
		}
	}
	room.Whole(t)
	assert.NotContains(t, index, "⟦")
}

// The content policy that the page is served with forbids scripts and styles within it, and every other place.
func TestThePageIsWholeByItself(t *testing.T) {
	files := rendered(t)
	index := string(files["index.html"])
	assert.NotRegexp(t, `(?i)<script(>| [^>]*>[^<])|<style|\sstyle=|\son[a-z]+=|javascript:`, index)
	outside := regexp.MustCompile(`(?:https?:)?//[a-z][^\s"')]*`)
	for name, text := range files {
		if strings.HasSuffix(name, ".png") || name == page.ExecFile {
			continue
		}
		found := outside.FindAllString(string(text), -1)
		found = slices.DeleteFunc(found, func(s string) bool { return s == "http://www.w3.org/2000/svg" })
		assert.Empty(t, found, name)
		assert.NotContains(t, string(text), "eval(", name)
	}
	for _, name := range regexp.MustCompile(`(?:src|href)="([^"?]*)`).FindAllStringSubmatch(index, -1) {
		assert.Contains(t, files, name[1])
	}
	for _, icon := range regexp.MustCompile(`"src": "([^"]*)"`).FindAllStringSubmatch(string(files["page.webmanifest"]), -1) {
		assert.Contains(t, files, icon[1])
	}
	boot := string(files["boot.js"])
	for _, id := range regexp.MustCompile(`\bat\("([a-z]+)"\)`).FindAllStringSubmatch(boot, -1) {
		assert.Contains(t, index, fmt.Sprintf(`id="%s"`, id[1]))
	}
	for _, note := range regexp.MustCompile(`data-note="([a-z-]+)"`).FindAllStringSubmatch(index, -1) {
		assert.Contains(t, boot, `"`+note[1]+`"`, "nobody shows it")
	}
	for _, name := range []string{"boot.js", "floor.js", "page.css", "icon.svg", page.ProgramFile, page.ExecFile} {
		assert.Contains(t, string(files["worker.js"]), `"`+name+`"`)
	}
}

// Another program, another version: then no name that a browser may have kept is used again.
func TestTheVersionIsOfTheContent(t *testing.T) {
	version := regexp.MustCompile(`data-version="([0-9a-f]{16})"`)
	of := func(p page.Program) string {
		files, err := page.Files(p)
		require.NoError(t, err)
		v := version.FindSubmatch(files["index.html"])
		require.NotNil(t, v)
		assert.Contains(t, string(files["worker.js"]), `"`+string(v[1])+`"`)
		return string(v[1])
	}
	a := of(page.Program{Packed: []byte("a"), Plain: 1, Exec: []byte("x")})
	assert.Equal(t, a, of(page.Program{Packed: []byte("a"), Plain: 1, Exec: []byte("x")}))
	assert.NotEqual(t, a, of(page.Program{Packed: []byte("b"), Plain: 1, Exec: []byte("x")}))
	assert.NotEqual(t, a, of(page.Program{Packed: []byte("a"), Plain: 1, Exec: []byte("y")}))
}

// luminance is the relative luminance of WCAG 2.2.
func luminance(hex string) (l float64) {
	n, _ := strconv.ParseUint(hex, 16, 32)
	for i, part := range []float64{0.2126, 0.7152, 0.0722} {
		c := float64(n>>(16-8*i)&255) / 255
		if c <= 0.04045 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		l += part * c
	}
	return l
}

// In each colour scheme text reaches the contrast of WCAG 2.2 AA (4.5), where the system asks for strong contrast that of AAA (7), and what is no text, with the ring of the keyboard's focus, 3.
func TestContrast(t *testing.T) {
	schemes := regexp.MustCompile(`--paper: #[^}]*`).FindAllString(string(rendered(t)["page.css"]), -1)
	require.Len(t, schemes, 4) // light and dark, then strong
	for i, scheme := range schemes {
		colour := map[string]string{}
		for _, c := range regexp.MustCompile(`--([a-z]+): #([0-9a-f]{6})`).FindAllStringSubmatch(scheme, -1) {
			colour[c[1]] = c[2]
		}
		for _, c := range []struct {
			fore, back string
			least      float64
		}{
			{"ink", "paper", 4.5}, {"ink", "panel", 4.5}, {"ink", "grid", 4.5}, {"faint", "paper", 4.5}, {"trouble", "paper", 4.5}, {"trouble", "panel", 4.5}, {"paper", "go", 4.5}, {"paper", "ink", 4.5},
			{"rule", "paper", 3}, {"rule", "panel", 3}, {"go", "panel", 3}, {"focus", "paper", 3}, {"focus", "panel", 3},
		} {
			if i >= 2 && c.least > 3 {
				c.least = 7
			}
			a, b := luminance(colour[c.fore])+.05, luminance(colour[c.back])+.05
			assert.GreaterOrEqual(t, max(a, b)/min(a, b), c.least, "%s on %s", c.fore, c.back)
		}
	}
}

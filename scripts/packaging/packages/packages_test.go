package main

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/xeipuuv/gojsonschema"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/scripts/packaging/terms"
)

// The words of the packages are there in every language.
func TestWordsOfPackages(t *testing.T) {
	room := wordstest.Of("package")
	for _, id := range []words.ID{"package.summary", "package.about", "package.window-summary", "package.window-about", "package.keywords"} {
		room.Text(t, words.T(id))
	}
	room.Whole(t)
}

// The same files give the same bytes, in whatever order they came.
func TestSameFilesSameBytes(t *testing.T) {
	at := time.Unix(1796000000, 0)
	some := tree{{"b/two", []byte("2"), 0o644}, {"a", []byte("1"), 0o755}, {"c", bytes.Repeat([]byte("3"), 100000), 0o644}}
	other := slices.Clone(some)
	slices.Reverse(other)
	for _, pack := range []func(tree, time.Time) ([]byte, error){tarball, zipped} {
		one, err := pack(some, at)
		two, err2 := pack(other, at)
		later, err3 := pack(other, at.Add(time.Hour))
		if err != nil || err2 != nil || err3 != nil || !bytes.Equal(one, two) || bytes.Equal(one, later) {
			t.Errorf("%v %v %v: %d and %d bytes, the same: %v; of another age the same: %v", err, err2, err3, len(one), len(two), bytes.Equal(one, two), bytes.Equal(one, later))
		}
	}
}

// The README and all that it leads to go along: each link leads to a file of the package, and what is left out is named in words alone.
func TestDocumentsGoAlong(t *testing.T) {
	w := &what{root: filepath.Join("..", "..", "..")}
	var all tree
	if err := w.documents(&all, "share/doc/propsoff"); err != nil {
		t.Fatal(err)
	}
	links, sum := 0, 0
	said := map[string]string{}
	for _, f := range all {
		sum += len(f.data)
		said[f.path] = string(f.data)
		if filepath.Ext(f.path) != ".md" {
			continue
		}
		for _, found := range link.FindAllSubmatch(f.data, -1) {
			if links++; !all.leads(f.path, string(found[3])) {
				t.Errorf("%s: %s leads nowhere", f.path, found[0])
			}
		}
	}
	for _, name := range []string{"README.md", "docs/learn.md", "docs/do.md", "docs/why.md", "docs/measured.md", "docs/look-up/keys.de.md", "docs/schemas/check.schema.json", "docs/start.png"} {
		if said["share/doc/propsoff/"+name] == "" {
			t.Errorf("no %s", name)
		}
	}
	readme := said["share/doc/propsoff/README.md"]
	if !strings.Contains(readme, "(docs/learn.md)") || !strings.Contains(readme, "For contributors") || strings.Contains(readme, "DEVELOPERS.md)") {
		t.Error(readme)
	}
	if links < 40 || sum > 4<<20 {
		t.Errorf("%d links, %d bytes", links, sum)
	}
}

// The list of parts is what the standard's own schema asks for (CycloneDX 1.6, as its Go library carries it), and a wrong one is noticed.
func TestListOfParts(t *testing.T) {
	w := &what{root: filepath.Join("..", "..", ".."), version: "0.1.0", commit: "abc", at: time.Unix(1796000000, 0)}
	works, err := terms.Gather(w.root, terms.Builds[1])
	if err != nil {
		t.Fatal(err)
	}
	parts, err := partsList(w, works, "go1.26.0")
	if err != nil {
		t.Fatal(err)
	}
	check := schema(t)
	for _, c := range []struct {
		text []byte
		ok   bool
	}{{parts, true}, {bytes.Replace(parts, []byte(`"id": "MIT"`), []byte(`"id": "no licence"`), 1), false}, {bytes.Replace(parts, []byte(`"type": "library"`), []byte(`"type": "book"`), 1), false}} {
		got, err := check.Validate(gojsonschema.NewBytesLoader(c.text))
		if err != nil || got.Valid() != c.ok {
			t.Errorf("valid %v, want %v: %v %v", got.Valid(), c.ok, err, got.Errors())
		}
	}
	var said struct {
		Components []struct {
			Name, Purl string
			Licenses   []any
		}
	}
	if err := json.Unmarshal(parts, &said); err != nil || len(said.Components) != len(works) {
		t.Errorf("%v: %d components for %d works", err, len(said.Components), len(works))
	}
	for _, c := range said.Components {
		if len(c.Licenses) == 0 {
			t.Errorf("%s: no licence", c.Name)
		}
	}
}

func schema(t *testing.T) *gojsonschema.Schema {
	out, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/CycloneDX/cyclonedx-go").Output()
	if err != nil {
		t.Fatal(err)
	}
	dir := filepath.Join(strings.TrimSpace(string(out)), "schema")
	loader := gojsonschema.NewSchemaLoader()
	for name, file := range map[string]string{"spdx.schema.json": "spdx.schema.json", "jsf-0.82.schema.json": "jsf-0.82.schemax.json"} {
		text, err := os.ReadFile(filepath.Join(dir, file))
		if err != nil {
			t.Fatal(err)
		}
		if err := loader.AddSchema("http://cyclonedx.org/schema/"+name, gojsonschema.NewBytesLoader(text)); err != nil {
			t.Fatal(err)
		}
	}
	text, err := os.ReadFile(filepath.Join(dir, "bom-1.6.schema.json"))
	if err != nil {
		t.Fatal(err)
	}
	s, err := loader.Compile(gojsonschema.NewBytesLoader(text))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// The entry for menus and that for catalogues pass the checkers of their standards.
func TestDesktopEntries(t *testing.T) {
	dir := t.TempDir()
	for _, c := range []struct {
		file string
		text []byte
		tool []string
	}{
		{"propsoff.desktop", desktopFile(), []string{"desktop-file-validate"}},
		{componentID + ".metainfo.xml", metainfo("0.1.0", "2026-11-30"), []string{"appstreamcli", "validate", "--no-net", "--pedantic"}},
	} {
		path := filepath.Join(dir, c.file)
		if err := os.WriteFile(path, c.text, 0o644); err != nil {
			t.Fatal(err)
		}
		if _, err := exec.LookPath(c.tool[0]); err != nil {
			t.Logf("%s is not installed: %s is not checked", c.tool[0], c.file)
			continue
		}
		if out, err := exec.Command(c.tool[0], append(c.tool[1:], path)...).CombinedOutput(); err != nil {
			t.Errorf("%s: %v\n%s", c.file, err, out)
		}
	}
	for _, tag := range words.Languages() {
		if said := words.In(tag.String()).Say(words.T("package.summary")); !bytes.Contains(desktopFile(), []byte("="+said+"\n")) {
			t.Errorf("the menu does not say %q", said)
		}
	}
}

// A program that is linked with nothing needs nothing; a library that nobody has thought of is an error.
func TestNeeds(t *testing.T) {
	dir := t.TempDir()
	source := filepath.Join(dir, "main.go")
	if err := os.WriteFile(source, []byte("package main\n\nfunc main() {}\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("go", "build", "-o", filepath.Join(dir, "plain"), source)
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS=linux")
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatal(string(out))
	}
	plain, err := os.ReadFile(filepath.Join(dir, "plain"))
	if err != nil {
		t.Fatal(err)
	}
	if got, err := needs(plain); err != nil || got != nil {
		t.Error(got, err)
	}
	if other, err := os.ReadFile("/bin/ls"); err == nil {
		if got, err := needs(other); err == nil {
			t.Error("a library of no known package went through:", got)
		}
	}
}

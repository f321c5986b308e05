// Package installed holds the test that “go install” works on the module as a proxy would give it.
package installed

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/mod/modfile"
	"golang.org/x/mod/module"
	"golang.org/x/mod/zip"
)

// The tracked tree, packed as a module and given by a proxy of files, is installed by its path and version, and runs.
func TestGoInstall(t *testing.T) {
	if testing.Short() {
		t.Skip("it builds the program anew, under another path: not in short tests")
	}
	root, err := filepath.Abs(filepath.Join("..", "..", ".."))
	if err != nil {
		t.Fatal(err)
	}
	goMod, err := os.ReadFile(filepath.Join(root, "go.mod"))
	if err != nil {
		t.Fatal(err)
	}
	v := module.Version{Path: modfile.ModulePath(goMod), Version: "v0.1.0"}
	dir := t.TempDir()
	at := filepath.Join(dir, "proxy", v.Path, "@v")
	if err := os.MkdirAll(at, 0o755); err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{"list": v.Version + "\n", v.Version + ".info": `{"Version":"v0.1.0","Time":"2026-11-30T00:00:00Z"}`, v.Version + ".mod": string(goMod)} {
		if err := os.WriteFile(filepath.Join(at, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	f, err := os.Create(filepath.Join(at, v.Version+".zip"))
	if err != nil {
		t.Fatal(err)
	}
	clone := filepath.Join(dir, "clone") // a second working tree of a repository is no repository to the packer
	if out, err := exec.Command("git", "clone", "-q", "--shared", root, clone).CombinedOutput(); err != nil {
		t.Fatal(string(out))
	}
	if err := zip.CreateFromVCS(f, v, clone, "HEAD", ""); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	cache, err := exec.Command("go", "env", "GOMODCACHE").Output()
	if err != nil {
		t.Fatal(err)
	}
	// What it needs of others comes from what is downloaded already: nobody outside is asked.
	env := append(os.Environ(), "GOPROXY=file://"+filepath.Join(dir, "proxy")+",file://"+filepath.Join(strings.TrimSpace(string(cache)), "cache/download"),
		"GOFLAGS=-mod=mod -modcacherw", "GONOSUMDB=*", "GONOSUMCHECK=1", "GOMODCACHE="+filepath.Join(dir, "cache"), "GOBIN="+filepath.Join(dir, "bin"), "CGO_ENABLED=0", "GOWORK=off")
	run := func(name string, args ...string) string {
		cmd := exec.Command(name, args...)
		cmd.Dir, cmd.Env = dir, env
		out, err := cmd.CombinedOutput()
		if err != nil {
			t.Fatalf("%s %v: %v\n%s", name, args, err, out)
		}
		return string(out)
	}
	run("go", "install", v.Path+"/cmd/propsoff@"+v.Version)
	program := filepath.Join(dir, "bin", "propsoff")
	for command, want := range map[string]string{"version": "propsoff 0.1.0", "run demo": "Ran to its end", "licences": "Apache License"} {
		if out := run(program, strings.Fields(command)...); !strings.Contains(out, want) {
			t.Errorf("%s: %s", command, out)
		}
	}
}

// scripts/modulepath changes the path everywhere: in a copy nothing has the old one any more but where it is the host of an address, and Go
// finds every package by the new one.
func TestModulePath(t *testing.T) {
	root, err := filepath.Abs(filepath.Join("..", "..", ".."))
	if err != nil {
		t.Fatal(err)
	}
	dir := filepath.Join(t.TempDir(), "copy")
	run := func(at, name string, args ...string) string {
		cmd := exec.Command(name, args...)
		cmd.Dir = at
		out, err := cmd.CombinedOutput()
		if err != nil {
			t.Fatalf("%s %v: %v\n%s", name, args, err, out)
		}
		return string(out)
	}
	run(".", "git", "clone", "-q", "--shared", root, dir)
	run(dir, "scripts/modulepath", "code.example.org/team/propsoff")
	grep := exec.Command("git", "grep", "-E", `(^|[^@/.])propsoff\.example(/|[^.]|$)`, "--", "*.go", "go.mod", "scripts")
	grep.Dir = dir
	if left, _ := grep.Output(); len(left) > 0 { // it fails where it finds nothing
		t.Errorf("still there:\n%s", left)
	}
	all := run(dir, "go", "list", "./...")
	if n := strings.Count(all, "code.example.org/team/propsoff/"); n < 80 || strings.Contains(all, "propsoff.example") {
		t.Errorf("%d packages:\n%s", n, all)
	}
	run(dir, "go", "build", "-o", os.DevNull, "./scripts/covered")
}

// Package terms gathers the licence texts that are due for a build.
//
// What is due is asked of the source: the licence files of every module that the build has packages of, of the Go distribution, and what single
// source files say of other authors.
package terms

import (
	"bufio"
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	classifier "github.com/google/licenseclassifier/v2"
	"github.com/google/licenseclassifier/v2/assets"
)

// Build is one kind of program that is shipped: its name, what Go is told of the machine, and the build tags.
type Build struct {
	Name, OS, Arch string
	Cgo            bool
	Tags           string
}

// Builds are the programs that differ in whose work they hold. Machines of one system do not differ in it (a test of assets/licences).
var Builds = []Build{
	{Name: "linux", OS: "linux", Arch: "amd64"},
	{Name: "linux-window", OS: "linux", Arch: "amd64", Cgo: true, Tags: "window"},
	{Name: "windows", OS: "windows", Arch: "amd64"},
	{Name: "darwin", OS: "darwin", Arch: "arm64"},
	{Name: "darwin-window", OS: "darwin", Arch: "arm64", Cgo: true},
	{Name: "browser", OS: "js", Arch: "wasm"},
}

// Env is the environment in which Go sees the build.
func (b Build) Env() []string {
	cgo := "0"
	if b.Cgo {
		cgo = "1"
	}
	return append(os.Environ(), "GOOS="+b.OS, "GOARCH="+b.Arch, "CGO_ENABLED="+cgo)
}

// Work is somebody's work within the program, and the texts that it comes with.
type Work struct {
	// Name is the path of a module, Version its version: that of Go is not held, since any newer one may build the program.
	Name, Version string
	Texts         []Text
}

// Text is a licence, a notice or what a source file says of its authors. Where says in which file it stands. Licences are its kinds, by the SPDX
// list of names; empty for what is none.
type Text struct {
	Where    string
	Licences []string
	Body     string
}

type goPackage struct {
	ImportPath, Dir string
	Standard        bool
	Module          *struct {
		Path, Version, Dir string
		Main               bool
	}
	GoFiles, CgoFiles, CFiles, CXXFiles, MFiles, HFiles, SFiles []string
	EmbedFiles                                                  []string
}

func (p *goPackage) sources() []string {
	return slices.Concat(p.GoFiles, p.CgoFiles, p.CFiles, p.CXXFiles, p.MFiles, p.HFiles, p.SFiles)
}

// Gather finds whose work a build of the module in root holds: the Go distribution first, then modules by their names, then what ships beside
// code and has terms of its own.
func Gather(root string, b Build) ([]Work, error) {
	packages, err := list(root, b)
	if err != nil {
		return nil, err
	}
	kinds, err := assets.DefaultClassifier()
	if err != nil {
		return nil, err
	}
	g := gatherer{kinds: kinds, works: map[string]*Work{}}
	if err := g.goItself(); err != nil {
		return nil, err
	}
	for _, p := range packages {
		if err := g.add(p); err != nil {
			return nil, err
		}
	}
	return append(slices.SortedFunc(g.all(), func(a, b Work) int { return strings.Compare(a.Name, b.Name) }), g.beside(root)...), g.err
}

func list(root string, b Build) ([]*goPackage, error) {
	cmd := exec.Command("go", "list", "-deps", "-json", "-tags", b.Tags, "./cmd/propsoff")
	cmd.Dir, cmd.Env, cmd.Stderr = root, b.Env(), os.Stderr
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("go list for %s: %w", b.Name, err)
	}
	var all []*goPackage
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		p := new(goPackage)
		if err := d.Decode(p); errors.Is(err, io.EOF) {
			return all, nil
		} else if err != nil {
			return nil, err
		}
		all = append(all, p)
	}
}

type gatherer struct {
	kinds       *classifier.Classifier
	works       map[string]*Work
	root        string // of the Go distribution
	controllers string // what an embedded list of controllers says of itself; empty where there is none
	err         error
}

func (g *gatherer) all() func(func(Work) bool) {
	return func(yield func(Work) bool) {
		for _, w := range g.works {
			if !yield(*w) {
				return
			}
		}
	}
}

// GoName is the name under which Go's own work stands.
const GoName = "Go"

func (g *gatherer) goItself() error {
	out, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return err
	}
	g.root = strings.TrimSpace(string(out))
	g.works[GoName] = &Work{Name: GoName}
	return g.licenceFiles(g.works[GoName], g.root, g.root)
}

// licenceFile is how files of terms are called: by common practice, in capitals or not, with any ending.
var licenceFile = regexp.MustCompile(`(?i)^(licen[cs]es?|copying|notice|patents|copyright|authors)([-_.].*)?$`)

// add notes what comes with a package: the terms in its folder and in those above it, up to its module's.
func (g *gatherer) add(p *goPackage) error {
	if p.Module != nil && p.Module.Main || p.ImportPath == "unsafe" {
		return nil
	}
	w, top := g.works[GoName], g.root
	switch module, ok := strings.CutPrefix(p.ImportPath, "vendor/"); {
	case p.Module != nil:
		top = p.Module.Dir
		if w = g.works[p.Module.Path]; w == nil {
			w = &Work{Name: p.Module.Path, Version: p.Module.Version}
			g.works[w.Name] = w
		}
	case ok: // Go's distribution holds copies of modules of its own authors, each with its terms
		at := strings.Join(strings.SplitN(module, "/", 4)[:3], "/")
		if err := g.licenceFiles(w, strings.TrimSuffix(p.Dir, strings.TrimPrefix(module, at)), filepath.Join(g.root, "src")); err != nil {
			return err
		}
	}
	if p.Module != nil {
		for dir := p.Dir; ; dir = filepath.Dir(dir) {
			if err := g.licenceFiles(w, dir, top); err != nil {
				return err
			}
			if dir == top || len(dir) < len(top) {
				break
			}
		}
	}
	for _, name := range p.sources() {
		if err := g.source(w, filepath.Join(p.Dir, name), top); err != nil {
			return err
		}
	}
	return g.embedded(p)
}

// licenceFiles adds the files of terms in one folder, called by their way from top.
func (g *gatherer) licenceFiles(w *Work, dir, top string) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	for _, e := range entries {
		if e.IsDir() || !licenceFile.MatchString(e.Name()) || strings.HasSuffix(e.Name(), ".go") {
			continue
		}
		text, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			return err
		}
		where, err := filepath.Rel(top, filepath.Join(dir, e.Name()))
		if err != nil {
			return err
		}
		if !slices.ContainsFunc(w.Texts, func(t Text) bool { return t.Where == filepath.ToSlash(where) }) {
			w.Texts = append(w.Texts, g.text(filepath.ToSlash(where), string(text)))
		}
	}
	return nil
}

// listed are names of the SPDX list for what the classifier calls otherwise.
var listed = map[string]string{"LicenseRef-uthash": "BSD-1-Clause"}

func (g *gatherer) text(where, body string) Text {
	var kinds []string
	for _, m := range g.kinds.Match([]byte(body)).Matches {
		name := cmp.Or(listed[m.Name], m.Name)
		if m.MatchType == "License" && !slices.Contains(kinds, name) {
			kinds = append(kinds, name)
		}
	}
	slices.Sort(kinds)
	return Text{Where: where, Licences: kinds, Body: strings.ReplaceAll(strings.TrimRight(body, "\n")+"\n", "\r\n", "\n")}
}

// embedded looks whether a package carries the list of controllers, which is not its module's own work.
func (g *gatherer) embedded(p *goPackage) error {
	for _, name := range p.EmbedFiles {
		if p.Module == nil {
			continue
		}
		if !strings.HasPrefix(name, "gamecontrollerdb") {
			return fmt.Errorf("%s embeds %s: find out whose work that is", p.ImportPath, name)
		}
		f, err := os.Open(filepath.Join(p.Dir, "gamecontrollerdb.txt")) // the whole list, of which each system has its part
		if err != nil {
			return err
		}
		for s := bufio.NewScanner(f); s.Scan() && strings.HasPrefix(s.Text(), "#"); {
			g.controllers += strings.TrimPrefix(s.Text(), "# ") + "\n"
		}
		f.Close()
	}
	return nil
}

// FontsName and ControllersName are the works that are data.
const (
	FontsName       = "Go fonts"
	ControllersName = "SDL_GameControllerDB"
)

// beside are the works that are data: the text face, and the list of controllers within the engine.
func (g *gatherer) beside(root string) []Work {
	fonts, err := os.ReadFile(filepath.Join(root, "assets/face/LICENSE-fonts.txt"))
	g.err = errors.Join(g.err, err)
	out := []Work{{Name: FontsName, Texts: []Text{g.text("LICENSE-fonts.txt", string(fonts))}}}
	if g.controllers != "" {
		out = append(out, Work{Name: ControllersName, Texts: []Text{g.text("LICENSE", controllersLicence), {Where: "gamecontrollerdb.txt", Body: g.controllers}}})
	}
	return out
}

// controllersLicence are the terms of the list of controllers. The engine carries the list without them: the kind of licence and the name are from
// memory, the words those of the zlib licence.
const controllersLicence = `Copyright (C) 1997-2025 Sam Lantinga <slouken@libsdl.org>

This software is provided 'as-is', without any express or implied
warranty.  In no event will the authors be held liable for any damages
arising from the use of this software.

Permission is granted to anyone to use this software for any purpose,
including commercial applications, and to alter it and redistribute it
freely, subject to the following restrictions:

1. The origin of this software must not be misrepresented; you must not
   claim that you wrote the original software. If you use this software
   in a product, an acknowledgment in the product documentation would be
   appreciated but is not required.
2. Altered source versions must be plainly marked as such, and must not be
   misrepresented as being the original software.
3. This notice may not be removed or altered from any source distribution.
`

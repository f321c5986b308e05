// Package page renders the page that brings the program into a browser: static files, with the program's own sentences in every language.
package page

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/json"
	"errors"
	"fmt"
	"html/template"
	"io/fs"
	"maps"
	"slices"
	"strings"

	"propsoff.example/assets/words"
)

//go:embed index.html page.css boot.js files.js floor.js worker.js page.webmanifest icon.svg icon-192.png icon-512.png
var sources embed.FS

// ProgramFile is the name of the packed program, ExecFile that of the script of the Go distribution which runs it.
const (
	ProgramFile = "propsoff.wasm.gz"
	ExecFile    = "wasm_exec.js"
)

// Cautions are those of package tell, in its order: they can be read before the program has come.
var Cautions = []words.Text{words.T("caution.radio-transmits"), words.T("caution.propellers-off"), words.T("caution.battery"), words.T("caution.no-clearance")}

// sentences are what the page says besides, by the names that index.html has for them.
var sentences = map[string]words.Text{
	"about":        words.T("page.about"),
	"strip":        words.T("page.strip"),
	"files":        words.T("page.files"),
	"text":         words.T("page.text"),
	"text-label":   words.T("page.text-label"),
	"larger":       words.T("page.larger"),
	"full":         words.T("page.full"),
	"hide":         words.T("page.hide"),
	"show":         words.T("page.show"),
	"loading":      words.T("page.loading"),
	"starting":     words.T("page.starting"),
	"how-far":      words.T("page.how-far"),
	"press":        words.T("page.press"),
	"not-kept":     words.T("page.not-kept"),
	"no-script":    words.T("page.no-script"),
	"old":          words.T("page.old"),
	"no-graphics":  words.T("page.no-graphics"),
	"failed":       words.T("page.failed"),
	"ended":        words.T("page.ended"),
	"ended-kept":   words.T("page.ended-kept"),
	"ended-gone":   words.T("page.ended-gone"),
	"again":        words.T("page.again"),
	"kept-title":   words.T("page.kept-title"),
	"kept-about":   words.T("page.kept-about"),
	"kept-lasts":   words.T("page.kept-lasts"),
	"kept-none":    words.T("page.kept-none"),
	"download":     words.T("page.download"),
	"give":         words.T("page.give"),
	"given-title":  words.T("page.given-title"),
	"given-about":  words.T("page.given-about"),
	"given-code":   words.T("page.given-code"),
	"given-here":   words.T("page.given-here"),
	"no-code":      words.T("belongings.no-code"),
	"link":         words.T("page.link"),
	"copy":         words.T("page.copy"),
	"copied":       words.T("page.copied"),
	"not-copied":   words.T("page.not-copied"),
	"play":         words.T("page.play"),
	"fly":          words.T("page.fly"),
	"rename":       words.T("page.rename"),
	"delete":       words.T("page.delete"),
	"unplay":       words.T("page.unplay"),
	"open":         words.T("page.open"),
	"all":          words.T("page.all"),
	"close":        words.T("page.close"),
	"nothing-kept": words.T("page.nothing-kept"),
	"what":         words.T("command.root"), "before": words.T("help-sheet.cautions-title"), "insecure": words.T("usb.none-insecure"), "no-pads": words.T("usb.none-browser"),
}

// Program is what the page brings.
type Program struct {
	// Packed is the program by gzip, and Plain how many bytes it has unpacked.
	Packed []byte
	Plain  int
	// Exec is the script of the Go distribution that runs it.
	Exec []byte
}

// Files are the files of the page by name. Each is called by with a version, which is drawn from all of their content.
func Files(p Program) (map[string][]byte, error) {
	out := map[string][]byte{ProgramFile: p.Packed, ExecFile: p.Exec}
	all, err := fs.ReadDir(sources, ".")
	if err != nil {
		return nil, err
	}
	for _, f := range all {
		if out[f.Name()], err = sources.ReadFile(f.Name()); err != nil {
			return nil, err
		}
	}
	kept := slices.Sorted(maps.Keys(out)) // the worker fetches itself by itself, and keeps the page under the folder's own name
	kept = slices.DeleteFunc(kept, func(name string) bool { return name == "worker.js" || name == "index.html" })
	source := string(out["index.html"])
	if out["index.html"], err = index(source, "", p); err != nil { // what it says counts as well
		return nil, err
	}
	hash := sha256.New()
	for _, name := range slices.Sorted(maps.Keys(out)) {
		fmt.Fprintln(hash, name, len(out[name]))
		hash.Write(out[name])
	}
	version := fmt.Sprintf("%x", hash.Sum(nil)[:8])
	list, err := json.Marshal(append([]string{"./"}, kept...))
	if err != nil {
		return nil, err
	}
	out["worker.js"] = []byte(strings.NewReplacer(`"VERSION"`, `"`+version+`"`, "FILES", string(list)).Replace(string(out["worker.js"])))
	out["index.html"], err = index(source, version, p)
	return out, err
}

// index is the page itself.
func index(source, version string, p Program) ([]byte, error) {
	books := map[string]*words.Book{}
	var codes []string
	var err error
	for _, tag := range words.Languages() {
		b := words.In(tag.String())
		codes = append(codes, b.Code())
		books[b.Code()] = b
	}
	said := func(code, name string) (string, error) {
		text, ok := sentences[name]
		if !ok {
			return "", errors.New("⟦" + name + "⟧")
		}
		return books[code].Say(text), nil
	}
	t, err := template.New("page").Funcs(template.FuncMap{
		"languages": func() []string { return codes },
		"in":        said,
		"say":       func(code string, text words.Text) string { return books[code].Say(text) },
		"label": func(name string) (string, error) {
			all := map[string]string{}
			for _, c := range codes {
				if all[c], err = said(c, name); err != nil {
					return "", err
				}
			}
			text, err := json.Marshal(all)
			return string(text), err
		},
	}).Parse(source)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = t.Execute(&b, map[string]any{
		"Version": version, "Packed": len(p.Packed), "Plain": p.Plain, "Codes": strings.Join(codes, " "), "Cautions": Cautions,
	})
	return b.Bytes(), err
}

// Floor is the script of the file layer, for tests that stand on it alone.
func Floor() []byte {
	text, err := sources.ReadFile("floor.js")
	if err != nil {
		panic(err) // it is part of the program
	}
	return text
}

package main

import (
	"bytes"
	"fmt"
	"os"
	"path"
	"path/filepath"
	"strings"
	"time"

	"github.com/goreleaser/nfpm/v2"
	"github.com/goreleaser/nfpm/v2/deb"
	"github.com/goreleaser/nfpm/v2/files"

	"propsoff.example/assets/words"
)

// maintainer answers for the packages.
const maintainer = "the propsoff authors <authors@propsoff.example>"

// debs makes the two packages for a kind of machine: the program, which needs nothing, and its window, which needs what draws.
func debs(w *what, arch string, third, parts []byte) ([]string, error) {
	say := func(id words.ID) string { return words.English().Say(words.T(id)) }
	plain, err := w.installed("linux-"+arch, third, parts)
	if err != nil {
		return nil, err
	}
	one, err := w.deb(nfpm.Info{
		Name: "propsoff", Arch: arch, Description: say("package.summary") + "\n" + say("package.about") + "\n" + words.English().Say(words.T("caution.radio-transmits")),
		Overridables: nfpm.Overridables{Recommends: []string{"propsoff-window"}},
	}, plain)
	if err != nil {
		return nil, err
	}
	program, err := os.ReadFile(filepath.Join(w.in, "linux-"+arch, "propsoff-window"))
	if err != nil {
		return nil, err
	}
	needed, err := needs(program)
	if err != nil {
		return nil, err
	}
	var window tree
	window.put("usr/bin/propsoff-window", program, 0o755)
	window.put("usr/share/doc/propsoff-window/copyright", third, 0o644)
	two, err := w.deb(nfpm.Info{
		Name: "propsoff-window", Arch: arch, Description: say("package.window-summary") + "\n" + say("package.window-about"),
		Overridables: nfpm.Overridables{Depends: append([]string{"propsoff (= " + w.version + ")"}, needed...)},
	}, window)
	return []string{one, two}, err
}

// installed is what the program's package puts into the system, below the root.
func (w *what) installed(target string, third, parts []byte) (tree, error) {
	t, err := w.shared(target)
	if err != nil {
		return nil, err
	}
	for i := range t {
		t[i].path = strings.Replace("usr/"+t[i].path, "usr/share/doc/propsoff/LICENSE", "usr/share/doc/propsoff/copyright", 1)
	}
	t.put("usr/share/doc/propsoff/copyright", third, 0o644)
	t.put("usr/share/doc/propsoff/propsoff.cdx.json.gz", gzipped(parts), 0o644)
	log := fmt.Sprintf("propsoff (%s) stable; urgency=low\n\n  * Built from %s.\n\n -- %s  %s\n", w.version, w.commit, maintainer, w.at.UTC().Format(time.RFC1123Z))
	t.put("usr/share/doc/propsoff/changelog.gz", gzipped([]byte(log)), 0o644)
	return t, w.program(&t, target, "propsoff", "usr/bin/propsoff")
}

// shared is what every Linux has in the same places, below /usr or /usr/local.
func (w *what) shared(target string) (t tree, err error) {
	if err := w.manual(&t, "share/man", ".gz", true); err != nil {
		return nil, err
	}
	if err := w.completions(&t, func(shell string) string { return "share/" + shells[shell] }); err != nil {
		return nil, err
	}
	if err := w.documents(&t, "share/doc/propsoff"); err != nil {
		return nil, err
	}
	t.put("lib/udev/rules.d/"+radioRuleName, []byte(radioRule), 0o644)
	t.put("share/applications/propsoff.desktop", desktopFile(), 0o644)
	t.put("share/metainfo/"+componentID+".metainfo.xml", metainfo(w.version, w.day), 0o644)
	for _, size := range []string{"16", "32", "48", "64", "128", "256"} {
		err := t.folder(filepath.Join(w.root, "assets/icon"), size+".png", func(string) string {
			return path.Join("share/icons/hicolor", size+"x"+size, "apps/propsoff.png")
		}, false)
		if err != nil {
			return nil, err
		}
	}
	err = t.folder(filepath.Join(w.root, "assets/icon"), "icon.svg", func(string) string { return "share/icons/hicolor/scalable/apps/propsoff.svg" }, false)
	return t, err
}

// deb writes one package. nfpm takes files from a folder, so the tree is laid out in one.
func (w *what) deb(info nfpm.Info, t tree) (string, error) {
	dir, err := os.MkdirTemp("", "propsoff-deb")
	if err != nil {
		return "", err
	}
	defer os.RemoveAll(dir)
	for i, f := range t.sorted() {
		source := filepath.Join(dir, fmt.Sprint(i))
		if err := os.WriteFile(source, f.data, 0o600); err != nil {
			return "", err
		}
		info.Contents = append(info.Contents, &files.Content{Source: source, Destination: "/" + f.path, FileInfo: &files.ContentFileInfo{Owner: "root", Group: "root", Mode: f.mode, MTime: w.at}})
	}
	info.Platform, info.Version, info.Section, info.Priority, info.Maintainer = "linux", w.version, "education", "optional", maintainer
	info.Homepage, info.License, info.MTime = "https://propsoff.example/", "MIT", w.at
	full := nfpm.WithDefaults(&info)
	if err := nfpm.PrepareForPackager(full, "deb"); err != nil {
		return "", err
	}
	var b bytes.Buffer
	if err := deb.Default.Package(full, &b); err != nil {
		return "", err
	}
	name := deb.Default.ConventionalFileName(full)
	return name, os.WriteFile(filepath.Join(w.out, name), b.Bytes(), 0o644)
}

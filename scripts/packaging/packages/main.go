// Command packages puts what scripts/package has built into packages, the same bytes each time.
//
// It is started by that script. What a package holds is decided here, file by file.
package main

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"time"
)

func main() {
	w := &what{}
	flag.StringVar(&w.root, "root", "../..", "the project's folder")
	flag.StringVar(&w.in, "in", "", "the folder of what was built")
	flag.StringVar(&w.out, "out", "", "the folder of the packages")
	flag.StringVar(&w.version, "version", "", "the version")
	flag.StringVar(&w.commit, "commit", "", "the commit")
	flag.BoolVar(&w.page, "page", false, "the programs have the page within them")
	flag.StringVar(&w.only, "only", "", "the one target that was built, empty for all")
	second := flag.Int64("at", 0, "the second of the commit since 1970")
	flag.Parse()
	w.at = time.Unix(*second, 0).UTC()
	w.day = w.at.Format(time.DateOnly)
	if err := w.all(); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// target is one kind of machine: the build whose licences its package carries, and how its archive is packed.
type target struct {
	name, build string
	deb         bool
	pack        func(tree, time.Time) ([]byte, error)
	suffix      string
}

var targets = []target{
	{"linux-amd64", "linux-window", true, tarball, ".tar.gz"},
	{"linux-arm64", "linux-window", true, tarball, ".tar.gz"},
	{"linux-armv7", "linux", false, tarball, ".tar.gz"},
	{"windows-amd64", "windows", false, zipped, ".zip"},
	{"windows-arm64", "windows", false, zipped, ".zip"},
	{"darwin-amd64", "darwin", false, tarball, ".tar.gz"},
	{"darwin-arm64", "darwin", false, tarball, ".tar.gz"},
}

func (w *what) all() error {
	var names []string
	due := map[string]*dues{}
	for _, t := range targets {
		if w.only != "" && t.name != w.only {
			continue
		}
		if due[t.build] == nil {
			var err error
			if due[t.build], err = w.due(t.build); err != nil {
				return err
			}
		}
		third := due[t.build].text
		parts, err := partsList(w, due[t.build].works, runtime.Version())
		if err != nil {
			return err
		}
		if t.deb {
			own, err := os.ReadFile(filepath.Join(w.root, "LICENSE"))
			if err != nil {
				return err
			}
			two, err := debs(w, strings.TrimPrefix(t.name, "linux-"), slices.Concat(own, []byte("\n"), third), parts)
			if err != nil {
				return err
			}
			names = append(names, two...)
		}
		name, err := w.archive(t, third, parts)
		if err != nil {
			return err
		}
		names = append(names, name)
	}
	return w.sums(names)
}

// archive packs what unpacks into one folder of its own.
func (w *what) archive(t target, third, parts []byte) (string, error) {
	var files tree
	if strings.HasPrefix(t.name, "linux-") {
		shared, err := w.shared(t.name)
		if err != nil {
			return "", err
		}
		files = shared
	} else {
		if err := errors.Join(w.manual(&files, "man", "", false), w.documents(&files, "")); err != nil {
			return "", err
		}
		if err := w.completions(&files, func(shell string) string {
			return "completions/" + filepath.Base(shells[shell]) + map[string]string{"bash": ".bash", "zsh": ".zsh"}[shell]
		}); err != nil {
			return "", err
		}
	}
	for program, to := range map[string]string{"propsoff": "bin/propsoff", "propsoff-window": "bin/propsoff-window", "propsoff.exe": "propsoff.exe"} {
		if _, err := os.Stat(filepath.Join(w.in, t.name, program)); err == nil {
			if err := w.program(&files, t.name, program, to); err != nil {
				return "", err
			}
		}
	}
	own, err := os.ReadFile(filepath.Join(w.root, "LICENSE"))
	if err != nil {
		return "", err
	}
	files.put("LICENSE", own, 0o644)
	files.put("THIRD-PARTY.txt", third, 0o644)
	files.put("propsoff.cdx.json", parts, 0o644)
	name := "propsoff-" + w.version + "-" + t.name
	packed, err := t.pack(files.under(name), w.at)
	if err != nil {
		return "", err
	}
	return name + t.suffix, os.WriteFile(filepath.Join(w.out, name+t.suffix), packed, 0o644)
}

// sums writes the checksums as sha256sum writes and reads them.
func (w *what) sums(names []string) error {
	var b bytes.Buffer
	slices.Sort(names)
	for _, name := range names {
		data, err := os.ReadFile(filepath.Join(w.out, name))
		if err != nil {
			return err
		}
		fmt.Fprintf(&b, "%x  %s\n", sha256.Sum256(data), name)
	}
	return os.WriteFile(filepath.Join(w.out, "SHA256SUMS"), b.Bytes(), 0o644)
}

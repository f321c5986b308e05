package main

import (
	"bytes"
	"compress/gzip"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// file is one file of a package.
type file struct {
	path string // with slashes, from the package's root
	data []byte
	mode os.FileMode
}

// tree are the files of a package. Every file is the commit's age and nobody's in particular.
type tree []file

func (t *tree) put(path string, data []byte, mode os.FileMode) {
	*t = append(*t, file{path, data, mode})
}

func (t tree) sorted() tree {
	return slices.SortedFunc(slices.Values(t), func(a, b file) int { return strings.Compare(a.path, b.path) })
}

// under is the same tree within a folder.
func (t tree) under(dir string) tree {
	out := slices.Clone(t)
	for i := range out {
		out[i].path = path.Join(dir, out[i].path)
	}
	return out
}

// folder takes the files of a folder whose names match, and gives each a name in the package.
func (t *tree) folder(dir, pattern string, name func(string) string, pack bool) error {
	files, err := filepath.Glob(filepath.Join(dir, pattern))
	if err != nil {
		return err
	}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			return err
		}
		if pack {
			data = gzipped(data)
		}
		t.put(name(filepath.Base(f)), data, 0o644)
	}
	return nil
}

// gzipped packs without a name or a time, so the same bytes come of the same.
func gzipped(data []byte) []byte {
	var b bytes.Buffer
	z, _ := gzip.NewWriterLevel(&b, gzip.BestCompression)
	z.Write(data) //nolint:errcheck // into memory
	z.Close()
	return b.Bytes()
}

// what is everything that packages are made of.
type what struct {
	only                 string // the one target that was built, empty for all
	root, in, out        string
	version, commit, day string
	at                   time.Time
	page                 bool
}

// manual adds the pages: English ones in man1, those of another language in its own folder.
func (w *what) manual(t *tree, to, suffix string, pack bool) error {
	languages, err := os.ReadDir(filepath.Join(w.in, "man"))
	if err != nil {
		return err
	}
	for _, l := range languages {
		dir := path.Join(to, l.Name(), "man1")
		if l.Name() == "en" {
			dir = path.Join(to, "man1")
		}
		if err := t.folder(filepath.Join(w.in, "man", l.Name()), "*.1", func(name string) string { return path.Join(dir, name+suffix) }, pack); err != nil {
			return err
		}
	}
	return nil
}

// shells says where each shell looks for what completes a command, below share, by common practice of Debian and of the shells themselves.
var shells = map[string]string{
	"bash": "bash-completion/completions/propsoff", "zsh": "zsh/vendor-completions/_propsoff",
	"fish": "fish/vendor_completions.d/propsoff.fish", "powershell": "propsoff/propsoff.ps1",
}

func (w *what) completions(t *tree, name func(shell string) string) error {
	for _, shell := range []string{"bash", "fish", "powershell", "zsh"} {
		data, err := os.ReadFile(filepath.Join(w.in, "completions", shell))
		if err != nil {
			return err
		}
		t.put(name(shell), data, 0o644)
	}
	return nil
}

// program adds one that was built.
func (w *what) program(t *tree, target, name, to string) error {
	data, err := os.ReadFile(filepath.Join(w.in, target, name))
	if err != nil {
		return err
	}
	t.put(to, data, 0o755)
	return nil
}

package main

import (
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strings"
)

// mostPicture is the largest picture that goes along with the documents, in bytes (ours): they are to be read, and a package is to stay small.
const mostPicture = 250 << 10

// link is a link or picture of a document in Markdown: a picture's mark, what it says, where it leads.
var link = regexp.MustCompile(`(!?)\[([^\]]*)\]\(([^()\s]+)\)`)

// documents adds the README and all that it leads to, as it lies in the project. What does not go along is named in words, and no link leads there.
func (w *what) documents(t *tree, to string) error {
	var all tree
	for _, pattern := range []string{"README.md", "docs/*.md", "docs/*.png", "docs/look-up/*.md", "docs/schemas/*.schema.json"} {
		var found tree
		if err := found.folder(filepath.Join(w.root, filepath.Dir(pattern)), filepath.Base(pattern), func(name string) string { return path.Join(path.Dir(pattern), name) }, false); err != nil {
			return err
		}
		for _, f := range found {
			if path.Ext(f.path) != ".png" || len(f.data) <= mostPicture {
				all = append(all, f)
			}
		}
	}
	if _, err := os.Stat(filepath.Join(w.root, "README.md")); err != nil {
		return err
	}
	for _, f := range all {
		if path.Ext(f.path) == ".md" {
			f.data = link.ReplaceAllFunc(f.data, func(found []byte) []byte {
				parts := link.FindSubmatch(found)
				if all.leads(f.path, string(parts[3])) {
					return found
				}
				return parts[2]
			})
		}
		t.put(path.Join(to, f.path), f.data, f.mode)
	}
	return nil
}

// leads tells whether a link of one file leads to another, to a folder, or out of the package.
func (t tree) leads(from, link string) bool {
	file, _, _ := strings.Cut(link, "#")
	if file == "" || strings.Contains(file, "://") {
		return true
	}
	file = path.Join(path.Dir(from), file)
	for _, f := range t {
		if f.path == file || strings.HasPrefix(f.path, file+"/") {
			return true
		}
	}
	return false
}

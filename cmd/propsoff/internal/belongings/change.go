package belongings

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"unicode"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
)

// Find is the file of a name, as Files has it; ok is false where there is none.
func (p Places) Find(name string) (f Kept, ok bool) {
	for _, f := range p.Files() {
		if f.Name == name {
			return f, true
		}
	}
	return f, false
}

// CraftNamed is what a person writes behind --craft for a craft file: its name where it is kept, else its path; in quotation marks where there are spaces in
// it. With its ending it is never taken for one that ships.
func CraftNamed(path string) string {
	if p, err := Known(); err == nil && filepath.Dir(path) == p.Crafts {
		path = filepath.Base(path)
	}
	if strings.Contains(path, " ") {
		path = `"` + path + `"`
	}
	return path
}

// Called is what a file is called, without its folder.
func (f *Kept) Called() string { return baseOf(f.Name) }

// Delete removes a file that is kept. Whether it is in use is for others to say.
func (p Places) Delete(f Kept) error {
	if !f.Goes {
		return words.Wrong("belongings.stays")
	}
	return door.Delete(f.Path, f.Kind)
}

// mostName is the longest name that a file is given, in bytes (ours).
const mostName = 80

// device is a name that Windows keeps for itself, whatever follows behind a dot: Microsoft, "Naming Files, Paths, and Namespaces".
var device = regexp.MustCompile(`(?i)^(con|prn|aux|nul|(com|lpt)[0-9¹²³])\s*(\.|$)`)

// Rename gives a file that is kept another name, to which its ending is added. Nothing that has that name is written over.
func (p Places) Rename(f Kept, name string) (is Kept, err error) {
	ending := filepath.Ext(f.Path)
	name = strings.TrimSuffix(strings.TrimSpace(name), ending)
	ordinary := func(r rune) bool {
		return unicode.IsLetter(r) || unicode.IsMark(r) || unicode.IsDigit(r) || strings.ContainsRune(" -_.", r)
	}
	switch {
	case !f.Renames:
		return f, words.Wrong("belongings.stays")
	case name == "" || len(name) > mostName || strings.ContainsFunc(name, func(r rune) bool { return !ordinary(r) }) || strings.HasPrefix(name, ".") || strings.HasSuffix(name, ".") || device.MatchString(name):
		return f, words.Wrong("belongings.name", words.Args{"most": words.Whole(mostName)})
	}
	to := filepath.Join(filepath.Dir(f.Path), name+ending)
	if to == f.Path {
		return f, nil
	}
	if _, err := os.Lstat(to); err == nil {
		return f, words.Wrong("belongings.name-taken", words.Args{"name": words.Quote(name + ending)})
	}
	if err := door.Move(f.Path, to, f.Kind); err != nil {
		return f, err
	}
	f.Name, f.Path = strings.TrimSuffix(f.Name, f.Called())+name+ending, to
	return f, nil
}

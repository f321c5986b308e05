// Package assets holds what ships with the program: crafts, drills, gestures, menus, scripts, words, text face.
package assets

import (
	"bytes"
	"embed"
	"io/fs"
	"path"
	"slices"
	"strings"
)

//go:embed crafts drills gestures scripts
var files embed.FS

// BuiltIn is the name by which files and flags call the shipped default craft.
const BuiltIn = "built-in"

// Craft is the text of a shipped craft file. BuiltIn is the default craft; ok is false where none has that name.
func Craft(name string) (file string, text []byte, ok bool) {
	if name == BuiltIn {
		name = "teasel"
	}
	return read("crafts", name)
}

// Script is the text of a shipped pilot script; "demo" is the demo pilot.
func Script(name string) (file string, text []byte, ok bool) { return read("scripts", name) }

// Gestures is the text of a shipped gesture file; "examples" is the one that goes with every craft.
func Gestures(name string) (file string, text []byte, ok bool) { return read("gestures", name) }

// Drill is the text of a shipped drill, Course that of a shipped course of drills; "beginner" is the course.
func Drill(code string) (file string, text []byte, ok bool) { return read("drills", code) }

// Course is the text of a shipped course of drills.
func Course(name string) (file string, text []byte, ok bool) { return read("drills/courses", name) }

// Drills lists the code words that Drill knows.
func Drills() []string { return names("drills") }

// Courses lists the names that Course knows.
func Courses() []string { return names("drills/courses") }

// CraftShips tells whether a text is that of a craft file which ships, unchanged.
func CraftShips(text []byte) bool {
	return slices.ContainsFunc(Crafts(), func(name string) bool {
		_, one, ok := Craft(name)
		return ok && bytes.Equal(one, text)
	})
}

// Crafts and Scripts list the names that Craft and Script know.
func Crafts() []string { return names("crafts") }

// Scripts lists the names that Script knows.
func Scripts() []string { return names("scripts") }

func read(dir, name string) (string, []byte, bool) {
	if name == "" || strings.ContainsAny(name, `/\`) {
		return "", nil, false
	}
	file := path.Join(dir, name+".yaml")
	text, err := fs.ReadFile(files, file)
	return "propsoff/" + file, text, err == nil
}

func names(dir string) []string {
	entries, err := fs.ReadDir(files, dir)
	if err != nil {
		return nil
	}
	var out []string
	for _, e := range entries {
		if e.IsDir() {
			continue
		}
		out = append(out, strings.TrimSuffix(e.Name(), ".yaml"))
	}
	return out
}

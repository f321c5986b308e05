package world

import (
	"os"
	"path/filepath"
	"strings"

	"propsoff.example/assets/door"
)

// keptAs is what a person means by the bare name of a file: one of that name here, else one that is kept in a folder, by its name with its ending or
// without. A name with a folder in it, and one that nothing has, stay as they are.
func keptAs(name, folder, ending string) string {
	if folder == "" || name == "" || name == door.Dash || name == "." || name == ".." || strings.ContainsAny(name, `/\:`) {
		return name
	}
	if _, err := os.Lstat(name); err == nil {
		return name
	}
	for _, as := range []string{name, name + ending} {
		path := filepath.Join(folder, as)
		if st, err := os.Stat(path); err == nil && st.Mode().IsRegular() {
			return path
		}
	}
	return name
}

// beside is a folder beside that of the radio files, empty where there is none.
func (w *World) beside(name string) string {
	if w.Store.Dir == "" {
		return ""
	}
	return filepath.Join(filepath.Dir(w.Store.Dir), name)
}

// keptCraft is the path of a craft file that was named, keptRadio that of a radio file: kept ones go by their bare names too.
func (w *World) keptCraft(name string) string { return keptAs(name, w.beside("crafts"), ".yaml") }

func (w *World) keptRadio(name string) string { return keptAs(name, w.Store.Dir, ".yaml") }

// KeptTake is the path of a take that was named, likewise.
func KeptTake(name string) string { return keptAs(name, TakesFolder(), ".take") }

package main

import (
	"os"
	"path/filepath"
	"strings"

	"propsoff.example/assets"
	"propsoff.example/assets/door"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/sim/craftfile"
)

// mostBeside is how many craft files of a folder can be chosen (ours).
const mostBeside = 24

// craftsBeside are the craft files that can be compared with one: those in its folder, then those that ship. What is no craft file, or cannot be read, is
// left out.
func craftsBeside(w *world.World, path string) (all []screen.CraftFile) {
	if _, _, shipped := assets.Craft(path); !shipped && path != "" && path != door.Dash {
		entries, _ := os.ReadDir(filepath.Dir(path))
		for _, e := range entries {
			name := filepath.Join(filepath.Dir(path), e.Name())
			if e.IsDir() || len(all) == mostBeside || !strings.HasSuffix(e.Name(), ".yaml") && !strings.HasSuffix(e.Name(), ".yml") {
				continue
			}
			text, err := door.Read(name, "craft-file.craft", yamldoc.Most)
			if err != nil || yamldoc.KindOf(name, text) != "craft" {
				continue
			}
			if f, err := craftfile.Parse(name, text); err == nil {
				all = append(all, screen.CraftFile{Name: e.Name(), File: f})
			}
		}
	}
	for _, name := range assets.Crafts() {
		if c, err := w.LoadCraft(name, ""); err == nil {
			all = append(all, screen.CraftFile{Name: name, Shipped: true, File: c.File})
		}
	}
	return all
}

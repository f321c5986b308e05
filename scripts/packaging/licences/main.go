// Command licences writes the licence texts of every build into assets/licences.
//
//	go -C scripts/packaging run ./licences
package main

import (
	"fmt"
	"os"
	"path/filepath"

	"propsoff.example/scripts/packaging/terms"
)

func main() {
	if err := write(filepath.Join("..", "..")); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func write(root string) error {
	for _, b := range terms.Builds {
		works, err := terms.Gather(root, b)
		if err != nil {
			return err
		}
		for _, w := range works {
			known := false
			for _, t := range w.Texts {
				known = known || len(t.Licences) > 0
			}
			if !known {
				return fmt.Errorf("%s: %s %s comes with no licence that is known; look at it", b.Name, w.Name, w.Version)
			}
		}
		if err := os.WriteFile(filepath.Join(root, "assets/licences", b.Name+".txt"), []byte(terms.Write(works, terms.Intro())), 0o644); err != nil {
			return err
		}
	}
	own, err := os.ReadFile(filepath.Join(root, "LICENSE"))
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(root, "assets/licences/own.txt"), own, 0o644)
}

// Command webpage renders the page into a folder: webpage PROGRAM PACKED EXEC FOLDER. scripts/web calls it.
package main

import (
	"fmt"
	"os"
	"path/filepath"

	"propsoff.example/assets/page"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(args []string) error {
	if len(args) != 4 {
		return fmt.Errorf("webpage PROGRAM PACKED EXEC FOLDER, not %q", args)
	}
	plain, err := os.Stat(args[0])
	if err != nil {
		return err
	}
	p := page.Program{Plain: int(plain.Size())}
	if p.Packed, err = os.ReadFile(args[1]); err != nil {
		return err
	}
	if p.Exec, err = os.ReadFile(args[2]); err != nil {
		return err
	}
	files, err := page.Files(p)
	if err != nil {
		return err
	}
	for name, content := range files {
		if err := os.WriteFile(filepath.Join(args[3], name), content, 0o644); err != nil {
			return err
		}
	}
	return nil
}

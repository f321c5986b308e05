package initrd

import (
	"bytes"
	"debug/elf"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// Module is one kernel module, unpacked.
type Module struct {
	Name string // with underscores
	Data []byte // the ELF file
}

// suffixes of module files, and the program that unpacks each.
var suffixes = []struct{ suffix, program string }{{".ko", ""}, {".ko.xz", "xz"}, {".ko.zst", "zstd"}, {".ko.gz", "gzip"}}

// moduleName makes the one spelling under which a module is known: file names use - and _ as they like.
func moduleName(s string) string { return strings.ReplaceAll(s, "-", "_") }

// Index tells where each module of a kernel lies, and which are built in.
type Index struct {
	files   map[string]string
	builtin map[string]bool
}

// ReadIndex looks through the module folder of one kernel (…/lib/modules/VERSION).
func ReadIndex(dir string) (*Index, error) {
	x := &Index{files: map[string]string{}, builtin: map[string]bool{}}
	err := filepath.WalkDir(dir, func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		for _, s := range suffixes {
			if base, ok := strings.CutSuffix(filepath.Base(p), s.suffix); ok {
				x.files[moduleName(base)] = p
				break
			}
		}
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("kernel modules: %w", err)
	}
	if b, err := os.ReadFile(filepath.Join(dir, "modules.builtin")); err == nil {
		for _, line := range strings.Fields(string(b)) {
			x.builtin[moduleName(strings.TrimSuffix(filepath.Base(line), ".ko"))] = true
		}
	}
	if len(x.files) == 0 {
		return nil, fmt.Errorf("kernel modules: none found in %s", dir)
	}
	return x, nil
}

// Closure gives the modules named and all that they depend on, each after what it needs. Dependencies are those that
// the module itself states in its .modinfo section, which is what modules.dep is made from.
func (x *Index) Closure(names ...string) ([]Module, error) {
	var out []Module
	state := map[string]int{} // 1 being visited, 2 done
	var visit func(name, by string) error
	visit = func(name, by string) error {
		name = moduleName(name)
		if state[name] == 2 || x.builtin[name] {
			return nil
		}
		if state[name] == 1 {
			return fmt.Errorf("kernel modules: %s depends on itself through %s", name, by)
		}
		state[name] = 1
		file, ok := x.files[name]
		if !ok {
			return fmt.Errorf("kernel modules: %s is not there (asked for by %s)", name, by)
		}
		data, err := read(file)
		if err != nil {
			return err
		}
		deps, err := dependsOn(data)
		if err != nil {
			return fmt.Errorf("%s: %w", file, err)
		}
		for _, d := range deps {
			if err := visit(d, name); err != nil {
				return err
			}
		}
		state[name] = 2
		out = append(out, Module{Name: name, Data: data})
		return nil
	}
	for _, n := range names {
		if err := visit(n, "the rig"); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// read gives a module file's bytes, unpacked.
func read(file string) ([]byte, error) {
	data, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	for _, s := range suffixes {
		if s.program == "" || !strings.HasSuffix(file, s.suffix) {
			continue
		}
		c := exec.Command(s.program, "-dc")
		c.Stdin = bytes.NewReader(data)
		if data, err = c.Output(); err != nil {
			return nil, fmt.Errorf("unpack %s with %s: %w", file, s.program, err)
		}
	}
	return data, nil
}

// dependsOn reads the "depends=" line of a module.
func dependsOn(data []byte) ([]string, error) {
	f, err := elf.NewFile(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	section := f.Section(".modinfo")
	if section == nil {
		return nil, fmt.Errorf("no .modinfo section: not a kernel module")
	}
	info, err := section.Data()
	if err != nil {
		return nil, err
	}
	for _, line := range strings.Split(string(info), "\x00") {
		if list, ok := strings.CutPrefix(line, "depends="); ok {
			return strings.FieldsFunc(list, func(r rune) bool { return r == ',' }), nil
		}
	}
	return nil, nil
}

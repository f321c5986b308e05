//go:build linux

// Package inputs attacks every command with hostile inputs, outputs, flags and names, and judges what it does.
package inputs

import (
	"crypto/sha256"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
)

// samples are good files of each kind, by where they stand in this repository. The first of each stands in every playground.
var samples = map[string][]string{
	"craft":    {"assets/crafts/teasel.yaml", "assets/crafts/*.yaml", "cmd/propsoff/testdata/layouts/*.craft.yaml", "cmd/propsoff/testdata/crafts/*.yaml"},
	"radio":    {"cmd/propsoff/testdata/layouts/*.radio.yaml"},
	"gestures": {"assets/gestures/*.yaml", "cmd/propsoff/testdata/layouts/*.gestures.yaml"},
	"script":   {"assets/scripts/*.yaml", "cmd/propsoff/testdata/runs/*.yaml", "input/script/testdata/*.yaml"},
	"take":     {"cmd/propsoff/testdata/takes/model-1/*.take", "input/take/testdata/*.take"},
	"drill":    {"assets/drills/*.yaml"},
	"course":   {"assets/drills/courses/*.yaml"},
	"logbook":  {"cmd/propsoff/internal/logbook/testdata/*.jsonl", "cmd/propsoff/testdata/logbooks/*.jsonl"},
	"sounds":   nil, // written here: none ships
}

const goodSounds = "# which tones are heard\npropsoff: sounds 1\nall: on\neach: {armed: on, mode-rate: off}\n"

// places are the good files that stand in every playground, by kind.
var places = map[string]string{
	"craft": "craft.yaml", "radio": "radio.yaml", "gestures": "gestures.yaml", "script": "script.yaml", "take": "good.take", "drill": "drill.yaml", "course": "course.yaml",
	"logbook": "logs/pupil-other.jsonl", "sounds": "sounds.yaml",
}

// readSamples reads every good file, by kind. Scripts that name other files are left out: what is wrong with those is not theirs.
func readSamples() (map[string][][]byte, error) {
	out := map[string][][]byte{"sounds": {[]byte(goodSounds)}}
	for kind, patterns := range samples {
		for _, pattern := range patterns {
			found, err := filepath.Glob(pattern)
			if err != nil {
				return nil, err
			}
			for _, path := range found {
				b, err := os.ReadFile(path)
				if err != nil {
					return nil, err
				}
				if kind != "script" || !strings.Contains(string(b), ".yaml") {
					out[kind] = append(out[kind], b)
				}
			}
		}
		if len(out[kind]) == 0 {
			return nil, fmt.Errorf("no good %s was found: run it from the module's root", kind)
		}
	}
	return out, nil
}

// ground is a folder in which one command runs, with a home of its own. work is the folder that it runs in.
type ground struct{ root, work, full string }

// dear is a file that nobody may touch.
const dear = "dear to somebody\n"

// lay makes the playground anew.
func (g *ground) lay(good map[string][][]byte) error {
	for _, sub := range []string{"work", "home", "conf", "data"} {
		if err := os.RemoveAll(filepath.Join(g.root, sub)); err != nil {
			return err
		}
		if err := os.MkdirAll(filepath.Join(g.root, sub), 0o755); err != nil {
			return err
		}
	}
	files := map[string][]byte{"dear.txt": []byte(dear), "logs/pupil-hostile.jsonl": good["logbook"][0], "folder/dear.txt": []byte(dear),
		"torn.take": good["take"][0][:len(good["take"][0])-9]}
	for kind, at := range places {
		files[at] = good[kind][0]
	}
	for at, text := range files {
		path := filepath.Join(g.work, at)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(path, text, 0o644); err != nil {
			return err
		}
	}
	return nil
}

func (g *ground) env() []string {
	return []string{"HOME=" + filepath.Join(g.root, "home"), "XDG_CONFIG_HOME=" + filepath.Join(g.root, "conf"), "XDG_DATA_HOME=" + filepath.Join(g.root, "data"),
		"XDG_CACHE_HOME=" + filepath.Join(g.root, "home", "cache"), "XDG_STATE_HOME=" + filepath.Join(g.root, "home", "state"), "PATH=/nowhere", "LANG=C.UTF-8"}
}

// hashedMost is up to which size a file is compared by its bytes; a longer one by the time at which it was last written. Not by that of its last
// change: large files are shared by link, and another playground that takes or drops its name changes that.
const hashedMost = 2 << 20

// state is what stands in the playground: a word for each path that changes where the thing there does.
func (g *ground) state() (map[string]string, error) {
	out := map[string]string{}
	err := filepath.WalkDir(g.root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, _ := filepath.Rel(g.root, path)
		switch {
		case d.IsDir():
			out[rel] = "folder"
			return nil
		case d.Type()&fs.ModeSymlink != 0:
			to, err := os.Readlink(path)
			out[rel] = "link to " + to
			return err
		case !d.Type().IsRegular():
			out[rel] = d.Type().String()
			return nil
		}
		out[rel], err = word(path)
		return err
	})
	return out, err
}

func word(path string) (string, error) {
	f, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer f.Close()
	st, err := f.Stat()
	if err != nil {
		return "", err
	}
	if st.Size() > hashedMost {
		at := st.Sys().(*syscall.Stat_t)
		return fmt.Sprint(st.Size(), at.Ino, at.Mtim), nil
	}
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return "", err
	}
	return fmt.Sprintf("%d %x", st.Size(), h.Sum(nil)), nil
}

// changes are the paths that are not what they were, those that are gone, and those that are new.
func changes(before, after map[string]string) (changed, fresh []string) {
	for path, was := range before {
		if after[path] != was {
			changed = append(changed, path)
		}
	}
	for path := range after {
		if _, had := before[path]; !had {
			fresh = append(fresh, path)
		}
	}
	slices.Sort(changed)
	slices.Sort(fresh)
	return changed, fresh
}

// diskSize is the size of a playground's tiny disk, in bytes: some pages more than the beginning of a take with all files that it keeps.
const diskSize = 64 << 10

// mountFull gives a playground a tiny disk, where the machine allows that; undo takes it away.
func (g *ground) mountFull() (undo func()) {
	dir := filepath.Join(g.root, "full")
	if os.MkdirAll(dir, 0o755) != nil || syscall.Mount("attack", dir, "tmpfs", 0, fmt.Sprintf("size=%d", diskSize)) != nil {
		return func() {}
	}
	g.full = dir
	return func() { _ = syscall.Unmount(dir, syscall.MNT_DETACH) }
}

// fill leaves room bytes on the tiny disk, and puts an old file on it.
func (g *ground) fill(name string, room int) error {
	old, err := os.ReadDir(g.full)
	if err != nil {
		return err
	}
	for _, e := range old {
		if err := os.RemoveAll(filepath.Join(g.full, e.Name())); err != nil {
			return err
		}
	}
	if name != "" {
		if err := os.WriteFile(filepath.Join(g.full, name), []byte(dear), 0o644); err != nil {
			return err
		}
		room += 4 << 10
	}
	return os.WriteFile(filepath.Join(g.full, "filler"), make([]byte, diskSize-room), 0o644)
}

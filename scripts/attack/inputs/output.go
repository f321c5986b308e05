//go:build linux

package inputs

import (
	"bytes"
	"cmp"
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"

	"propsoff.example/scripts/attack/child"
	"propsoff.example/scripts/attack/hostile"
)

// target is what stands where a command is to write, or what is odd about the place.
type target struct {
	name string
	// put makes it ready, and gives the path as it is written in the line.
	put func(a *attack, g *ground, w *writer, path string) (string, error)
	// over asks for writing over what is there, where the command knows that.
	over bool
	// refused: it must say no, and nothing may have changed.
	refused bool
	// written: if it says that all went well, the file is there.
	written bool
	nobody  bool
	limit   int // KiB that a file may have
	only    func(*writer) bool
}

func there(a *attack, g *ground, w *writer, path string) (string, error) {
	if w.folder { // it writes into a folder: the file of its first rule stands there already
		if err := os.Mkdir(path, 0o755); err != nil {
			return "", err
		}
		for _, rule := range a.rules {
			if err := os.WriteFile(filepath.Join(path, rule), []byte(dear), 0o644); err != nil {
				return "", err
			}
		}
		return path, nil
	}
	return path, os.WriteFile(path, []byte(dear), 0o644)
}

func made(make func(path string) error) func(*attack, *ground, *writer, string) (string, error) {
	return func(_ *attack, _ *ground, _ *writer, path string) (string, error) { return path, make(path) }
}

func one(w *writer) bool     { return !w.folder }
func reads(w *writer) bool   { return len(w.inputs) > 0 && !w.folder }
func streams(w *writer) bool { return w.stream }
func full(w *writer) bool    { return !w.folder && !w.idle }

func fifo(path string) error { return syscall.Mkfifo(path, 0o644) }

func link(to string) func(string) error {
	return func(path string) error { return os.Symlink(to, path) }
}

// input is the name of a file that the command reads.
func input(_ *attack, _ *ground, w *writer, _ string) (string, error) { return w.inputs[0], nil }

// linked is another name of a file that it reads.
func linked(make func(string, string) error) func(*attack, *ground, *writer, string) (string, error) {
	return func(_ *attack, g *ground, w *writer, path string) (string, error) {
		return path, make(filepath.Join(g.work, w.inputs[0]), path)
	}
}

func onFull(old bool, room int) func(*attack, *ground, *writer, string) (string, error) {
	return func(_ *attack, g *ground, _ *writer, path string) (string, error) {
		name := ""
		if old {
			name = filepath.Base(path)
		}
		return filepath.Join(g.full, filepath.Base(path)), g.fill(name, room)
	}
}

var targets = []target{
	{name: "nothing", put: made(func(string) error { return nil }), written: true},
	{name: "a file", put: there, refused: true},
	{name: "a file, --over", put: there, over: true, written: true},
	{name: "a link to a file", put: made(link("dear.txt")), refused: true},
	{name: "a link to a file, --over", put: made(link("dear.txt")), over: true},
	{name: "a link to nothing", put: made(link("nothing-there")), refused: true},
	{name: "a link to nothing, --over", put: made(link("nothing-there")), over: true},
	{name: "a link to itself", put: func(_ *attack, _ *ground, _ *writer, p string) (string, error) { return p, os.Symlink(p, p) }, refused: true},
	{name: "a link to a folder", put: made(link("folder")), refused: true, only: one},
	{name: "a folder", put: made(func(p string) error { return os.Mkdir(p, 0o755) }), refused: true, only: one},
	{name: "a folder, --over", put: made(func(p string) error { return os.Mkdir(p, 0o755) }), refused: true, over: true, only: one},
	{name: "a FIFO", put: made(fifo), refused: true},
	{name: "a FIFO, --over", put: made(fifo), refused: true, over: true},
	{name: "a socket", put: made(hostile.Things[2].Make), refused: true, over: true},
	{name: "a full device", put: made(hostile.FullDevice), refused: true},
	{name: "a link to a full device, --over", put: func(_ *attack, _ *ground, _ *writer, p string) (string, error) {
		return p, errors.Join(hostile.FullDevice(p+".device"), os.Symlink(p+".device", p))
	}, over: true},
	{name: "its input", put: input, refused: true, only: reads},
	{name: "its input, --over", put: input, refused: true, over: true, only: reads},
	{name: "a link to its input, --over", put: linked(os.Symlink), over: true, only: reads},
	{name: "its input by another name", put: linked(os.Link), over: true, only: reads},
	{name: "a file in no folder", put: func(_ *attack, _ *ground, _ *writer, p string) (string, error) { return "no/" + filepath.Base(p), nil }, refused: true, only: one},
	{name: "a file below a file", put: func(_ *attack, _ *ground, _ *writer, p string) (string, error) {
		return "dear.txt/" + filepath.Base(p), nil
	}, refused: true},
	{name: "a long name", put: func(_ *attack, _ *ground, _ *writer, p string) (string, error) {
		return strings.Repeat("n", 300) + filepath.Base(p), nil
	}, refused: true},
	{name: "a folder of somebody else", put: made(func(string) error { return nil }), refused: true, nobody: true},
	{name: "a file of somebody else", put: there, refused: true, nobody: true, over: true},
	{name: "a full disk", put: onFull(false, 0), refused: true, only: full},
	{name: "a disk that fills", put: onFull(false, 24<<10), written: true, only: full},
	{name: "a full disk, --over", put: onFull(true, 0), refused: true, over: true, only: full},
	{name: "a file limit", put: made(func(string) error { return nil }), written: true, limit: 1, only: full},
	{name: "a dash", put: func(*attack, *ground, *writer, string) (string, error) { return "-", nil }, only: streams},
	{name: "a name that steers", put: func(_ *attack, g *ground, _ *writer, p string) (string, error) {
		return "x\x1b[31m\u202e\u009b" + filepath.Base(p), nil
	}},
}

// standing: it is there before the command begins, whatever that calls it.
func (tg *target) standing() bool {
	return strings.HasPrefix(tg.name, "a link to") || strings.HasPrefix(tg.name, "a full device") || strings.HasPrefix(tg.name, "a F") || slices.Contains([]string{"nothing", "a file", "a folder", "a socket"}, tg.name)
}

// output gives a command a hostile place to write to.
func (a *attack) output(r *rand.Rand, g *ground, t *trial) error {
	w, tg := &writers[r.IntN(len(writers))], &targets[r.IntN(len(targets))]
	for tg.only != nil && !tg.only(w) || w.fixed != "" && !tg.standing() || tg.nobody && !root() || strings.Contains(tg.name, "disk") && g.full == "" {
		tg = &targets[r.IntN(len(targets))]
	}
	ext := pick(r, w.exts)
	path, err := tg.put(a, g, w, filepath.Join(g.work, cmp.Or(w.fixed, "target"+ext)))
	if err != nil {
		return err
	}
	if rel, err := filepath.Rel(g.work, path); err == nil && filepath.IsAbs(path) && !strings.HasPrefix(rel, "..") {
		path = rel
	}
	t.where, t.how = commandOf(w.args)+" "+optionOf(w.args), tg.name
	t.spec.Args = fillIn(w.args, path)
	t.spec.Nobody, t.spec.FileMost, t.live = tg.nobody, tg.limit, w.idle
	t.fails = tg.refused && !w.idle
	over := tg.over && slices.Contains(a.flags[commandOf(w.args)], "over")
	if over {
		t.spec.Args = append(t.spec.Args, "--over")
	}
	_, full := strings.CutPrefix(path, g.full+"/")
	place := filepath.Join("work", path)
	if full && g.full != "" {
		place = "full/" + filepath.Base(path)
	}
	t.fresh = words("work/new")
	if !tg.refused || w.take && strings.Contains(tg.name, "disk") {
		t.fresh = append(t.fresh, place)
	}
	if tg.over && over && !tg.refused {
		t.may = append(t.may, place)
	}
	t.binary, t.csv = path == "-", slices.Contains(w.args, "--csv")
	t.after = func(res child.Result) string {
		st, err := os.Lstat(filepath.Join(g.root, place))
		switch {
		case w.idle || strings.HasPrefix(path, "-"):
			if path == "-" && res.Status == 0 && len(res.Out) == 0 {
				return "nothing written to a dash"
			}
		case tg.written && res.Status == 0 && (err != nil || st.Mode().IsRegular() && st.Size() == 0):
			return "acknowledged, not written"
		case tg.written && res.Status == 0 && w.args[0] == "logbook" && st.Mode().Perm()&0o077 != 0:
			return "private, and open to others"
		case res.Status != 0 && err == nil && !w.take && !tg.over && !tg.refused && st.Mode().IsRegular() && st.Size() > 0 && res.Status != 1:
			return "torn output left"
		case tg.name == "a full disk" && w.take && res.Status != 3:
			return "full disk: status not 3"
		case tg.name == "a disk that fills" && w.take && w.args[0] == "run" && res.Status != 0 && !(res.Status == 3 && bytes.Contains(res.Out, []byte("finished"))): // a short take fits
			return "full disk: no verdict, or status not 3"
		}
		return ""
	}
	return nil
}

// optionOf is the option before the place.
func optionOf(args []string) string {
	for i, w := range args {
		if i > 0 && w == here {
			return args[i-1]
		}
	}
	return ""
}

// twice gives a command one name for both of its outputs.
func (a *attack) twice(r *rand.Rand, g *ground, t *trial) error {
	w := &writers[r.IntN(len(writers))]
	for len(w.second) == 0 {
		w = &writers[r.IntN(len(writers))]
	}
	ext := w.exts[0]
	if w.second[0] == "--plot" {
		ext = ".svg"
	}
	name := "target" + ext
	second := pick(r, words(name, "./"+name, "folder/../"+name))
	t.where, t.how = commandOf(w.args)+" "+optionOf(w.args)+" "+w.second[0], "two outputs of one name"
	t.spec.Args = append(fillIn(w.args, name), w.second[0], second)
	t.fails, t.fresh = true, words("work/new", "work/"+name)
	return nil
}
